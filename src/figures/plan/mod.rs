//! Figure 15: the plan, which is the work from the blank to the finish, step by step, with every number filled in.
//!
//! The order comes from the cuts and the rules of `rules.rs`; where no rule asks for a change, it is the design's own.

mod blank;
pub mod cautions;
mod ending;
mod hollow;
mod order;
mod rules;
mod speeds;
mod step;
mod turning;

use serde::Serialize;

pub use order::{Before, PlanError};
pub use rules::Rule;
pub use step::{Number, Speed, Step, StepKind, StepSpeed};

use super::checks::Words;
use super::report::{Figures, Worked};
use crate::design::{AxisName, Design, Piece, Shop};
use crate::geometry::Solid;
use rules::Work;

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
/// [`PlanError`], as a sentence, when no order keeps every rule, or a plug has no bore.
pub fn plan(design: &Design, worked: &Worked, shop: &Shop) -> Result<Plan, PlanError> {
    let works = rules::works(design, &worked.piece);
    let order = order::order(design, &works)?;
    let mut bench = Bench {
        design,
        piece: &worked.piece,
        figures: &worked.figures,
        shop,
        words: Words::of(shop),
        works: &works,
        order: &order,
        steps: Vec::with_capacity(2 * order.len() + 8),
        done: 0,
        axis: None,
        marked: vec![AxisName::A],
        tenon: false,
        bored: false,
        plugged: false,
        rough: true,
        lined: false,
        parted: false,
    };
    bench.cut_blank();
    for &place in &order {
        bench.work(place);
    }
    bench.sand();
    bench.finish();
    Ok(Plan { first_of_all: cautions::FIRST_OF_ALL, steps: bench.steps, order })
}

impl Plan {
    /// The piece with its cuts in the order of the work: after a step it is as its [`state`](Solid::state) after
    /// [`Step::state`] cuts.
    #[must_use]
    pub fn in_order(&self, solid: &Solid) -> Solid {
        let place = |cut: usize| self.order.iter().position(|c| *c == cut).unwrap_or(cut);
        let mut sorted = solid.clone();
        for removal in &mut sorted.removals {
            removal.cut = place(removal.cut);
        }
        // Few enough for the plainest way; places differ, so the order is one.
        for i in 1..sorted.removals.len() {
            let mut at = i;
            while at > 0 && sorted.removals[at - 1].cut > sorted.removals[at].cut {
                sorted.removals.swap(at - 1, at);
                at -= 1;
            }
        }
        let left_in = self.order.iter().copied().max();
        for plug in &mut sorted.plugs {
            plug.fitted = place(plug.fitted);
            plug.taken_out = plug.taken_out.or(left_in).map(place);
        }
        sorted
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
    steps: Vec<Step>,
    /// How much work of the order is done.
    done: usize,
    /// The axis on which the work is held, once it is.
    axis: Option<AxisName>,
    /// The axes that are marked on both faces.
    marked: Vec<AxisName>,
    tenon: bool,
    bored: bool,
    plugged: bool,
    /// Whether the blank still has its corners.
    rough: bool,
    /// Whether the depth line is drawn.
    lined: bool,
    parted: bool,
}

impl Bench<'_> {
    /// The steps of one piece of work.
    fn work(&mut self, place: usize) {
        match self.works[place] {
            Work::Tenon => self.tenon(place),
            Work::Pass { axis, along, .. } => self.pass(place, axis, along),
            Work::Bore { .. } => self.bore(place),
            Work::Across => self.across(place),
            Work::Fit => self.fit_plug(place),
            Work::TakeOut => self.take_out_plug(place),
            Work::Face(_) => self.face(place),
            Work::Part(_) => self.part(place),
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
        self.steps.push(step);
    }

    /// Keeps a step that finishes a piece of work of the order.
    fn add_done(&mut self, place: usize, mut step: Step) {
        self.done += 1;
        step.cut = (place < self.design.cuts.len()).then_some(place);
        self.add(step);
    }

    /// A station along an axis, in words.
    fn station(&self, axis: AxisName, mm: f64) -> String {
        let length = self.words.length(mm);
        match axis {
            AxisName::A => format!("{length} from the bowl end"),
            axis => format!("{length} along axis {axis}"),
        }
    }

    /// How the work is held to be turned on an axis.
    fn holding(&self, axis: AxisName) -> String {
        let tail = match (self.plugged, self.bored) {
            (true, _) => format!("the live centre in mark {axis} of the plug"),
            (false, true) if axis == AxisName::A => "a cone in the mouth of the bore".to_owned(),
            (false, true) => "nothing bearing on the open end".to_owned(),
            (false, false) => format!("the live centre in mark {axis} of the bowl end"),
        };
        match (axis == AxisName::A && self.tenon, self.piece.axis(axis).is_some_and(rules::runs_along)) {
            (true, _) => format!("In the chuck by its tenon, {tail}."),
            (_, true) => {
                format!("Between centres on axis {axis}: the drive centre in mark {axis} of the head end, {tail}.")
            }
            _ => format!("On its side about axis {axis}, on a faceplate or between centres."),
        }
    }

    /// How the work is held by its head end alone.
    fn in_chuck(&self) -> &'static str {
        if self.tenon { "In the chuck by its tenon." } else { "In the chuck by its head end." }
    }
}
