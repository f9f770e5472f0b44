//! Figure 15: the plan, which is the work from the blank to the finish, step by step, with every number filled in.
//!
//! The order comes from the cuts and the rules of `rules.rs`; where no rule asks for a change, it is the design's own.

mod blank;
pub mod cautions;
mod concerns;
mod drying;
mod ending;
mod held;
mod hollow;
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
use super::report::{Figures, Worked};
use super::support::{self, HeadEnd, Support, Work};
use crate::design::{AxisName, Design, Piece, Shop};
use crate::geometry::Solid;
use nub::Nub;
use sanding::Unsanded;

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

impl Plan {
    /// The piece with its cuts in the order of the work: after a step it is as its [`state`](Solid::state) after
    /// [`Step::state`] cuts.
    #[must_use]
    pub fn in_order(&self, solid: &Solid) -> Solid {
        support::in_order(solid, &self.order)
    }
}

/// The bench while the plan is made: what has been done so far, and how the work is held.
struct Bench<'a> {
    design: &'a Design,
    piece: &'a Piece,
    figures: &'a Figures,
    shop: &'a Shop,
    words: Words,
    works: &'a [Work],
    order: &'a [usize],
    supports: &'a [Support],
    steps: Vec<Step>,
    /// How much work of the order is done.
    done: usize,
    /// How the work is held at its head end, and on which axis, once it is.
    mount: Option<(HeadEnd, AxisName)>,
    /// How it was held before, each once.
    mounted: Vec<(HeadEnd, AxisName)>,
    /// The axes that are marked on both faces.
    marked: Vec<AxisName>,
    bored: bool,
    plugged: bool,
    /// Whether the blank still has its corners.
    rough: bool,
    /// Whether the depth line is drawn.
    lined: bool,
    parted: bool,
    /// Whether a pass was turned on a moved axis.
    turned_off_centre: bool,
    /// How the work was held when its grip was last to be checked.
    gripped: String,
    /// What was turned on the axis in use and is not sanded.
    unsanded: Vec<Unsanded>,
    /// Whether a plug's disc is turned that is not fitted yet.
    disc_made: bool,
    /// Whether the bowl end has to be trued where the plug was parted off.
    true_the_end: bool,
    /// Nubs that hold waste and piece together.
    nubs: Vec<Nub>,
}

impl Bench<'_> {
    /// The steps of one piece of work.
    fn work(&mut self, place: usize) {
        self.sand_before(self.works[place]);
        match self.works[place] {
            Work::Tenon => self.tenon(place),
            Work::Pass { axis, along, .. } => self.pass(place, axis, along),
            Work::Bore { .. } => self.bore(place),
            Work::Across => self.across(place),
            Work::Fit => self.fit_plug(place),
            Work::TakeOut => self.take_out_plug(place),
            Work::Face { .. } => self.face(place),
            Work::Part { .. } => self.part(place),
            Work::Saw => self.saw(place),
        }
    }

    /// Keeps a step. Its name becomes the only one of its kind.
    fn add(&mut self, mut step: Step) {
        let same = |name: &str| self.steps.iter().any(|s| s.name == name);
        if same(&step.name) {
            let mut number = 2;
            while same(&format!("{} {number}", step.name)) {
                number += 1;
            }
            step.name = format!("{} {number}", step.name);
        }
        step.state = self.done;
        self.add_cautions(&mut step);
        self.steps.push(step);
    }

    /// Keeps a step that finishes a piece of work of the order.
    fn add_done(&mut self, place: usize, mut step: Step) {
        self.done += 1;
        step.cut = (place < self.design.cuts.len()).then_some(place);
        self.add(step);
    }

    /// A station along an axis as a bare length, measured from where that axis is measured.
    fn measured(&self, axis: AxisName, mm: f64) -> String {
        self.words.length(mm - support::datum_mm(self.piece, axis))
    }

    /// A station along an axis, in words.
    fn station(&self, axis: AxisName, mm: f64) -> String {
        let length = self.words.length(mm);
        match axis {
            AxisName::A => format!("{length} from the bowl end"),
            axis => {
                let length = self.measured(axis, mm);
                let end = if self.piece.tail_face < 0.0 { "the plug" } else { "the bowl end" };
                format!("{length} from mark {axis} of {end}, along axis {axis}")
            }
        }
    }
}
