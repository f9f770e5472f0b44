//! Every figure and check of a design, computed once and shared by every view.

use serde::Serialize;
use thiserror::Error;

use super::blank::{Blank, blank};
use super::boring::{Boring, schedules};
use super::checks::{Check, checks};
use super::clean_up::{CleanUp, clean_ups};
use super::fin::{Fin, fins};
use super::hold::{Asked, Hold, Vessel, level_pitch};
use super::known::Known;
use super::leave::{Join, NearestStart, joins, nearest_starts};
use super::marks::{AxisMarks, marks};
use super::rest::{Rest, rest};
use super::strength::{Strength, strength};
use super::summary::Summary;
use super::tables::Content;
use super::turning::{StateMasses, Turning, turnings};
use super::wall::{Wall, walls};
use super::wood::{WoodFigures, wood};
use crate::design::validation::Problem;
use crate::design::{Cut, Design, Piece, PieceError, Shop};
use crate::geometry::Axis;

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
    /// Figure 14: the blank it needs, volumes and weights.
    pub blank: Blank,
    /// Figure 13: the strength of the neck in use, and of the thinnest wood while turning.
    pub strength: Strength,
    /// Figure 14: the wood, its moisture and what drying does.
    pub wood: WoodFigures,
}

/// A design worked out: its geometry, figures and checks.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// The geometry.
    pub piece: Piece,
    /// The figures.
    pub figures: Figures,
    /// The checks, the worst first.
    pub checks: Vec<Check>,
}

/// Why a design has no figures.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum FiguresError {
    /// The document has problems.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))]
    Problems(Vec<Problem>),
    /// It has no geometry.
    #[error(transparent)]
    Piece(#[from] PieceError),
}

/// Works out everything about a design.
///
/// # Errors
/// [`FiguresError`]: every problem of the document at once, or the first thing that has no geometry.
pub fn work_out(design: &Design, shop: &Shop) -> Result<Worked, FiguresError> {
    let mut problems = design.problems();
    problems.extend(shop.problems());
    if !problems.is_empty() {
        return Err(FiguresError::Problems(problems));
    }
    let limits = design.limits.over(&shop.limits);
    let piece = Piece::resolve(design, &limits)?;
    let borings = schedules(design, &piece, shop);
    let deepest_point = |cut: usize| borings.iter().find(|b| b.cut == cut).map(|b| b.deepest_point_mm);
    let walls = walls(&piece, deepest_point);
    let masses = StateMasses::of(design, &piece);
    let finished = masses.finished();
    let rest = rest(&piece, finished);
    let lying = rest.opening_up.and_then(|i| rest.poses.get(i)).map(|pose| pose.pitch_deg.to_radians());
    let asked = Asked { handle_level: handle_level(design, &piece), lying, repose: repose(design) };
    let hold = Known::from(Vessel::new(&piece.solid).map(|vessel| vessel.report(&asked)));
    let marks = marks(design, &piece, &shop.centres);
    let blank = blank(design, &piece, &marks, shop, finished);
    let summary = Summary::of(design, &marks, &walls, &hold, &blank);
    let turning = turnings(design, &piece, shop, &density(&blank), &masses);
    let force_n = |cut: usize| {
        let known = turning.iter().find(|step| step.cut == cut).and_then(Turning::force_n);
        known.unwrap_or(shop.lathe.force_limit_n)
    };
    let strength = strength(design, shop, &piece, &rest, force_n);
    let wood = wood(design, shop, &piece, &blank, summary.holds_ml);
    let figures = Figures {
        summary,
        marks,
        joins: joins(design, &piece),
        nearest_starts: nearest_starts(design, &piece, &limits),
        fins: fins(design, &piece),
        clean_ups: clean_ups(design, &piece),
        walls,
        hold,
        rest,
        borings,
        turning,
        blank,
        strength,
        wood,
    };
    let checks = checks(design, &piece, shop, &figures, finished);
    Ok(Worked { piece, figures, checks })
}

/// The density of the wood as it is worked, in kg/m3.
fn density(blank: &Blank) -> Known<f64> {
    match &blank.weight {
        Known::Value(weight) => Known::Value(weight.density_kg_m3),
        Known::Missing { why_not } => Known::missing(why_not.as_str()),
    }
}

/// The pitch that brings the handle level, in radians.
#[must_use]
pub fn handle_level(design: &Design, piece: &Piece) -> f64 {
    level_pitch(handle_axis(design, piece))
}

/// The axis of the handle: that of the last pass on a tilted axis, else axis A.
#[must_use]
pub fn handle_axis<'a>(design: &Design, piece: &'a Piece) -> &'a Axis {
    let tilted = design.cuts.iter().rev().find_map(|cut| match cut {
        Cut::Pass(pass) => piece.axis(pass.axis).filter(|axis| axis.tilt() > 1e-9),
        _ => None,
    });
    tilted.unwrap_or(&Axis::A)
}

/// The angle of repose of what the design holds, in radians: 0 for a liquid.
#[must_use]
pub fn repose(design: &Design) -> f64 {
    use super::tables::contents::USUAL_REPOSE_DEG;
    Content::named(&design.contents).map_or(USUAL_REPOSE_DEG, Content::repose_deg).to_radians()
}
