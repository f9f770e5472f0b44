//! The bench while the plan is made.

use super::step::Step;
use crate::design::{AxisName, Design, Shop};
use crate::figures::checks::Words;
use crate::figures::jaws::Jaws;
use crate::figures::report::Figures;
use crate::figures::support::{self, HeadEnd, Support, Work};
use crate::piece::Piece;

/// The bench while the plan is made: what has been done so far, and how the work is held.
pub(super) struct Bench<'a> {
    pub(super) design: &'a Design,
    pub(super) piece: &'a Piece,
    pub(super) figures: &'a Figures,
    pub(super) shop: &'a Shop,
    pub(super) words: Words,
    pub(super) works: &'a [Work],
    pub(super) order: &'a [usize],
    pub(super) supports: &'a [Support],
    pub(super) steps: Vec<Step>,
    /// How much work of the order is done.
    pub(super) done: usize,
    /// How the work is held at its head end, and on which axis, once it is.
    pub(super) mount: Option<(HeadEnd, AxisName)>,
    /// How it was held before, each once.
    pub(super) mounted: Vec<(HeadEnd, AxisName)>,
    /// The axes that are marked on both faces.
    pub(super) marked: Vec<AxisName>,
    pub(super) bored: bool,
    pub(super) plugged: bool,
    /// Whether the blank still has its corners.
    pub(super) rough: bool,
    /// Whether the depth line is drawn.
    pub(super) lined: bool,
    pub(super) parted: bool,
    /// Whether a pass was turned on a moved axis.
    pub(super) turned_off_centre: bool,
    /// How the work was held when its grip was last to be checked.
    pub(super) gripped: String,
    /// What was turned on the axis in use and is not sanded.
    pub(super) unsanded: Vec<Unsanded>,
    /// Whether a plug's disc is turned that is not fitted yet.
    pub(super) disc_made: bool,
    /// Whether the bowl end has to be trued where the plug was parted off.
    pub(super) true_the_end: bool,
    /// Nubs that hold waste and piece together.
    pub(super) nubs: Vec<Nub>,
    /// The wooden jaws that are made.
    pub(super) jaws_made: Vec<Jaws>,
}

/// A nub that is turned and not sawn yet.
pub(super) struct Nub {
    /// Its diameter, in mm.
    pub diameter_mm: f64,
    /// Where it is, in words.
    pub at: String,
}

/// A pass that is turned and not sanded yet.
pub(super) struct Unsanded {
    /// Its cut.
    pub cut: usize,
    /// The axis it turned on.
    pub axis: AxisName,
    /// What the turner calls it.
    pub name: String,
    /// What carried it.
    pub support: Support,
}

impl Bench<'_> {
    /// The steps of one piece of work.
    pub(super) fn work(&mut self, place: usize) {
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
    pub(super) fn add(&mut self, mut step: Step) {
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
    pub(super) fn add_done(&mut self, place: usize, mut step: Step) {
        self.done += 1;
        step.cut = (place < self.design.cuts.len()).then_some(place);
        self.add(step);
    }

    /// A station along an axis as a bare length, measured from where that axis is measured.
    pub(super) fn measured(&self, axis: AxisName, mm: f64) -> String {
        self.words.length(mm - support::datum_mm(self.piece, axis))
    }

    /// A station along an axis, in words.
    pub(super) fn station(&self, axis: AxisName, mm: f64) -> String {
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
