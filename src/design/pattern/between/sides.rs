//! Three, four or more sides turned on as many axes around the middle, straight or winding.
//!
//! A side turned at radius `R` about a mark `d` from the middle stands `h = R - d` from the middle at its own middle, on the
//! far side of its mark. Neighbouring sides of `n` meet at `c` from the middle, where
//! `R^2 = c^2 + 2 c d cos(pi / n) + d^2`: the law of cosines. For three sides with `d = c` that is the Reuleaux triangle,
//! each arc about the opposite corner.

use std::f64::consts::PI;

use serde::{Deserialize, Serialize};

use super::bar::{pass, tapered};
use crate::design::axis_name::AxisName;
use crate::design::cut::{AxisChoice, Cut};
use crate::design::profile::Node;
use crate::design::validation::bounds::LEAST_LENGTH_MM;

/// The section of a handle or a spindle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Section {
    /// Turned round, on axis A.
    Round,
    /// Three sides.
    Three,
    /// Four sides.
    Four,
    /// Five sides.
    Five,
    /// Six sides.
    Six,
    /// Eight sides.
    Eight,
}

impl Section {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::Round, Self::Three, Self::Four, Self::Five, Self::Six, Self::Eight];
    /// Their names on screen, in the order of [`ALL`](Self::ALL).
    pub const NAMES: [&str; 6] = ["Round", "Three sides", "Four sides", "Five sides", "Six sides", "Eight sides"];

    /// How many sides it has; 0 for a round.
    #[must_use]
    pub const fn sides(self) -> usize {
        match self {
            Self::Round => 0,
            Self::Three => 3,
            Self::Four => 4,
            Self::Five => 5,
            Self::Six => 6,
            Self::Eight => 8,
        }
    }
}

/// What sides are called, in the order in which they are turned.
const ORDINALS: [&str; 8] = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
/// The clock direction of the first mark of all: toward a corner of the square blank, where there is most wood for it.
pub(super) const FIRST_DEG: f64 = 45.0;
/// Sides are drawn with so many tapers: their corners leave the outline by less than 0.01 mm.
const TAPERS: u32 = 10;
/// The length over which a side runs out to the round beside it, in mm, and the most of its length.
const RUN_OUT_MM: f64 = 10.0;
const MOST_RUN_OUT: f64 = 0.2;

/// Sides between two stations.
pub(super) struct Sides {
    pub(super) section: Section,
    /// The clock direction of the first mark, halfway along where they wind, in degrees.
    pub(super) first_deg: f64,
    /// Distance of the marks from the middle, on both faces, in mm.
    pub(super) marks_mm: f64,
    /// How far the marks on the head face are turned on from those on the tail face, in degrees.
    pub(super) winds_deg: f64,
    /// Where they start and end along the blank, in mm.
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
    /// Whether they run out to a round at their start, and at their end.
    pub(super) runs_out: (bool, bool),
    /// Axes before theirs, A included.
    pub(super) axes_before: usize,
    /// Length of the blank, in mm.
    pub(super) blank_mm: f64,
}

impl Sides {
    /// Their axes, by marks on both faces.
    pub(super) fn axes(&self) -> Vec<AxisChoice> {
        let count = self.section.sides();
        let at = |clock_deg: f64| {
            let (sin, cos) = clock_deg.to_radians().sin_cos();
            (self.marks_mm * sin, self.marks_mm * cos)
        };
        let axis = |side: usize| {
            let clock = self.first_deg + 360.0 * side as f64 / count as f64;
            let (tail, head) = (at(clock - self.winds_deg / 2.0), at(clock + self.winds_deg / 2.0));
            AxisChoice::Marks { tail_x_mm: tail.0, tail_y_mm: tail.1, head_x_mm: head.0, head_y_mm: head.1 }
        };
        (0..count).map(axis).collect()
    }

    /// Their passes, one on each axis, whose corners stand on this outline: straight tapers between stations along the blank
    /// and radii, in mm.
    pub(super) fn passes(&self, outline: &[(f64, f64)], shapes: &str) -> Vec<Cut> {
        let count = self.section.sides();
        let nodes = self.nodes(outline);
        let side = |i: usize| {
            let axis = AxisName::from_index(self.axes_before + i)?;
            Some(pass(&format!("{} side", ORDINALS.get(i)?), axis, nodes.clone(), shapes))
        };
        (0..count).filter_map(side).collect()
    }

    fn nodes(&self, outline: &[(f64, f64)]) -> Vec<Node> {
        // A length along a skewed axis for one along the blank: both faces lie at right angles to the blank.
        let along = self.blank_mm.hypot(chord_mm(self.marks_mm, self.winds_deg)) / self.blank_mm;
        let node = |s: f64, radius: f64| Node::line(s * along, 2.0 * radius);
        let clear = |s: f64| node(s, self.distance_mm(s) + tapered(outline, s));
        let side = |s: f64| node(s, side_radius_mm(self.section.sides(), tapered(outline, s), self.distance_mm(s)));
        let (starts, ends) = self.runs_out;
        let mut nodes = Vec::new();
        nodes.extend(starts.then(|| clear(self.from_mm)));
        nodes.extend(self.stations(outline).into_iter().map(side));
        nodes.extend(ends.then(|| clear(self.to_mm)));
        nodes
    }

    /// Where nodes stand between the run-outs: evenly, and where the outline bends.
    fn stations(&self, outline: &[(f64, f64)]) -> Vec<f64> {
        let run_out = RUN_OUT_MM.min(MOST_RUN_OUT * (self.to_mm - self.from_mm));
        let (starts, ends) = self.runs_out;
        let from = if starts { self.from_mm + run_out } else { self.from_mm };
        let to = if ends { self.to_mm - run_out } else { self.to_mm };
        let even = (0..=TAPERS).map(|step| from + (to - from) * f64::from(step) / f64::from(TAPERS));
        let bends = outline.iter().map(|point| point.0).filter(|s| (from..to).contains(s));
        let mut all: Vec<f64> = even.chain(bends).collect();
        all.sort_unstable_by(f64::total_cmp);
        all.dedup_by(|a, b| (*a - *b).abs() < LEAST_LENGTH_MM);
        all
    }

    /// How far their axes stand from the middle of the blank at a station, in mm: a skewed axis is nearest halfway.
    fn distance_mm(&self, s: f64) -> f64 {
        let half = self.winds_deg.to_radians() / 2.0;
        let aside = self.marks_mm * half.sin() * (2.0 * s / self.blank_mm - 1.0);
        (self.marks_mm * half.cos()).hypot(aside)
    }
}

/// How far the marks of one axis lie apart on both faces, seen along the blank, in mm.
pub(super) fn chord_mm(marks_mm: f64, winds_deg: f64) -> f64 {
    2.0 * marks_mm * (winds_deg.to_radians() / 2.0).sin().abs()
}

/// The radius at which each of so many sides is turned about its mark, so that neighbours meet at this corner, in mm.
fn side_radius_mm(sides: usize, corner_mm: f64, marks_mm: f64) -> f64 {
    let cos = (PI / sides.max(1) as f64).cos();
    (corner_mm * corner_mm + 2.0 * corner_mm * marks_mm * cos + marks_mm * marks_mm).max(0.0).sqrt()
}

/// How far the middle of each of so many sides stands from the middle, in mm: half across flats for an even number.
pub(super) fn flat_mm(sides: usize, corner_mm: f64, marks_mm: f64) -> f64 {
    side_radius_mm(sides, corner_mm, marks_mm) - marks_mm
}
