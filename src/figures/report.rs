//! Every figure and check of a design, computed once and shared by every view.

use std::sync::Arc;

use serde::Serialize;

use super::blank::Blank;
use super::boring::Boring;
use super::carried::Carried;
use super::checks::Check;
use super::clean_up::CleanUp;
use super::fin::Fin;
use super::grip::Grip;
use super::hold::Hold;
use super::jaws::{Jaws, JawsFor};
use super::known::Known;
use super::leave::Join;
use super::marks::AxisMarks;
use super::marks_apart::MarksApart;
use super::rest::Rest;
use super::rough_end::RoughEnd;
use super::start::NearestStart;
use super::strength::Strength;
use super::summary::Summary;
use super::turning::{EndSpeed, Turning};
use super::wall::Wall;
use super::wood::WoodFigures;
use crate::piece::Piece;

/// The figures of a design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figures {
    /// The few numbers that matter most.
    pub summary: Summary,
    /// Figure 1: the marks of every axis.
    pub marks: Vec<AxisMarks>,
    /// Figure 2: what each pass must leave.
    pub joins: Vec<Join>,
    /// Figure 2: how near to the bowl later passes may start.
    pub nearest_starts: Vec<NearestStart>,
    /// Figure 2: rough wood between passes.
    pub fins: Vec<Fin>,
    /// Figure 2: rough wood between the last pass and the end of the piece: none, or its longest.
    pub rough_ends: Vec<RoughEnd>,
    /// Figure 1: the nearest marks on each face.
    pub marks_apart: Vec<MarksApart>,
    /// What carries the work from the first step to the last.
    pub carried: Carried,
    /// What the chuck grips; absent for work that is never held in it.
    pub grip: Option<Grip>,
    /// The length of lathe that boring takes, in mm; absent where nothing is bored along axis A.
    pub boring_length_mm: Option<f64>,
    /// Figure 3: how each pass cleans up.
    pub clean_ups: Vec<CleanUp>,
    /// Figure 4: the wall and the floor of each hollow.
    pub walls: Vec<Wall>,
    /// Figure 6: what it holds.
    pub hold: Known<Hold>,
    /// Figure 7: how it lies on a table.
    pub rest: Rest,
    /// Figure 8: the boring schedule of each hollow.
    pub borings: Vec<Boring>,
    /// Figures 9 to 12: swing, air, balance and speed of each step that spins the work.
    pub turning: Vec<Turning>,
    /// Figure 12 for the facing and parting of ends.
    pub ends: Vec<EndSpeed>,
    /// The wooden jaws for each hollow across the grain.
    pub jaws: Vec<JawsFor>,
    /// Figure 14: the blank it needs, volumes and weights.
    pub blank: Blank,
    /// Figure 13: the strength of the neck in use, and of the thinnest wood while turning.
    pub strength: Strength,
    /// Figure 14: the wood, its moisture and what drying does.
    pub wood: WoodFigures,
}

impl Figures {
    /// The jaws that are planned for a hollow, by its place in the design; `None` where none are.
    #[must_use]
    pub fn jaws_for(&self, cut: usize) -> Option<&Jaws> {
        self.jaws.iter().find(|it| it.cut == cut)?.jaws.value()
    }
}

/// A design worked out: its geometry, figures and checks.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// The geometry.
    pub piece: Arc<Piece>,
    /// The figures.
    pub figures: Figures,
    /// The checks, the worst first.
    pub checks: Vec<Check>,
}
