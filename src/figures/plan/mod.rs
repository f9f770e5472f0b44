//! Figure 15: the plan, which is the work from the blank to the finish, step by step, with every number filled in.
//!
//! The order comes from the cuts and the rules of `rules.rs`; where no rule asks for a change, it is the design's own.

mod bench;
mod blank;
pub mod cautions;
mod concerns;
mod drying;
mod ending;
mod held;
mod hollow;
mod jaws;
mod nub;
mod order;
mod plug;
mod rules;
mod sanding;
mod setting;
mod speeds;
mod step;
mod turning;

use serde::Serialize;

pub use concerns::stops_at;
pub use order::{Before, PlanError, order};
pub use rules::Rule;
pub use step::{Number, Speed, Step, StepKind, StepSpeed};

use super::checks::Words;
use super::report::Worked;
use super::support;
use crate::design::{AxisName, Design, Shop};
use crate::geometry::Solid;
use crate::piece::Piece;
use bench::Bench;

/// The work in order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// What stands above every caution.
    pub first_of_all: &'static str,
    /// The steps.
    pub steps: Vec<Step>,
    /// The cuts in the order of the work, each by its place in the design from 0. One past the last cut stands for
    /// taking out a plug that the design leaves in.
    pub order: Vec<usize>,
}

/// The plan of a design that is worked out.
///
/// # Errors
/// [`PlanError`], as a sentence, when no order keeps every rule, nothing carries a piece of work, or a plug has no bore.
pub fn plan(design: &Design, worked: &Worked, shop: &Shop) -> Result<Plan, PlanError> {
    let works = support::works(design, &worked.piece);
    let order = order::order(design, &works)?;
    let supports = support::supports(&worked.piece, &works, &order, shop.chuck.overhang_times);
    if let Some(lack) = support::first_lack(&supports, &order) {
        return Err(PlanError::NothingCarries { lack, sentence: lack.sentence(design) });
    }
    let mut bench = Bench {
        design,
        piece: &worked.piece,
        figures: &worked.figures,
        shop,
        words: Words::of(shop),
        works: &works,
        order: &order,
        supports: &supports,
        steps: Vec::with_capacity(2 * order.len() + 8),
        done: 0,
        mount: None,
        mounted: Vec::new(),
        marked: vec![AxisName::A],
        bored: false,
        plugged: false,
        rough: true,
        lined: false,
        parted: false,
        turned_off_centre: false,
        gripped: String::new(),
        unsanded: Vec::new(),
        disc_made: false,
        true_the_end: false,
        nubs: Vec::new(),
        jaws_made: Vec::new(),
    };
    bench.cut_blank();
    bench.rough_and_dry();
    bench.seal();
    for &place in &order {
        bench.work(place);
        bench.saw_nubs();
    }
    bench.sand_last();
    bench.sand();
    bench.raise_grain();
    bench.sign();
    bench.finish();
    bench.buff();
    Ok(Plan { first_of_all: cautions::FIRST_OF_ALL, steps: bench.steps, order })
}

/// The cuts in the order of the work, where that is another than their own; `None` where it is their own, or where there
/// is no order.
#[must_use]
pub fn other_order(design: &Design, piece: &Piece) -> Option<Vec<usize>> {
    let works = support::works(design, piece);
    let mut order = order::order(design, &works).ok()?;
    order.retain(|place| *place < design.cuts.len());
    (!order.is_sorted()).then_some(order)
}

impl Plan {
    /// The piece with its cuts in the order of the work: after a step it is as its [`state`](Solid::state) after
    /// [`Step::state`] cuts.
    #[must_use]
    pub fn in_order(&self, solid: &Solid) -> Solid {
        support::in_order(solid, &self.order)
    }
}
