//! Figure 2: what a first pass must leave, and what a drawn profile has missing or to spare.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::place::Place;
use crate::design::{Cut, Design, LengthUnit, PassProfile};
use crate::geometry::{Revolved, Station};
use crate::piece::Piece;
use crate::piece::join::{JoinLine, JoinStation};

/// The join of one pass.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Join {
    /// The pass, by its place in working order from 0.
    pub cut: usize,
    /// Its name.
    pub name: String,
    /// Whether the pass follows the proposal, or is drawn.
    pub follows_proposal: bool,
    /// Caliper diameters at round stations and at the ends of the tapers.
    pub caliper: Vec<Caliper>,
    /// The fewest straight tapers that never go below the join.
    pub tapers: Vec<TaperEnd>,
    /// The least that the pass leaves over the join; negative where wood will be missing. `None` for a pass that has
    /// nothing to leave.
    pub least_spare: Option<Spare>,
}

/// A diameter to check with a caliper.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Caliper {
    /// Station along the pass's axis, in mm.
    pub at_mm: f64,
    /// Diameter that must be left, in mm: the tightest that loses nothing.
    pub least_diameter_mm: f64,
    /// Diameter that the pass turns, in mm.
    pub turned_diameter_mm: f64,
    /// Turned less least, in mm on the diameter; negative where wood will be missing.
    pub spare_mm: f64,
    /// What asks for the diameter.
    pub because: Because,
}

/// What asks for a diameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, BorshSerialize, BorshDeserialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    /// A later axis.
    LaterPass,
    /// The wall or the floor over the hollow.
    Wall,
    /// Nothing does.
    Nothing,
}

/// The end of a straight taper.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct TaperEnd {
    /// Station along the pass's axis, in mm.
    pub at_mm: f64,
    /// Diameter, in mm.
    pub diameter_mm: f64,
}

/// How much a pass leaves over what is needed, at the place where it is least.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Spare {
    /// On the radius, in mm; negative where wood is missing.
    pub radius_mm: f64,
    /// Where.
    pub place: Place,
    /// What asks for the wood there.
    pub because: Because,
}

/// Caliper stations are this far apart, in mm: 10 mm, or half an inch.
#[must_use]
pub const fn caliper_step_mm(unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Millimetres => 10.0,
        LengthUnit::Inches => 12.7,
    }
}

impl Caliper {
    /// Whether its station is a round one in this unit.
    #[must_use]
    pub fn is_round(&self, unit: LengthUnit) -> bool {
        let steps = self.at_mm / caliper_step_mm(unit);
        (steps - steps.round()).abs() < 1e-6
    }
}

/// The join of every pass that has something to leave, with calipers at stations that are round in a unit. Radii within
/// 0.02 mm.
///
/// # Units
/// mm, as named.
#[must_use]
pub fn joins(design: &Design, piece: &Piece, unit: LengthUnit) -> Vec<Join> {
    piece.joins.iter().filter_map(|line| join(design, piece, line, unit)).collect()
}

fn join(design: &Design, piece: &Piece, line: &JoinLine, unit: LengthUnit) -> Option<Join> {
    let Some(Cut::Pass(pass)) = design.cuts.get(line.cut) else { return None };
    let turned = piece.revolved(line.cut)?;
    Some(Join {
        cut: line.cut,
        name: pass.name.clone(),
        follows_proposal: matches!(pass.profile, PassProfile::Join),
        caliper: calipers(line, turned, caliper_step_mm(unit)),
        tapers: line.tapers.iter().map(|Station { t, r }| TaperEnd { at_mm: *t, diameter_mm: 2.0 * r }).collect(),
        least_spare: least_spare(line, turned),
    })
}

fn because(station: &JoinStation) -> Because {
    match station.leave {
        _ if station.join <= 0.0 => Because::Nothing,
        Some(leave) if leave >= station.wall => Because::LaterPass,
        _ => Because::Wall,
    }
}

fn calipers(line: &JoinLine, turned: &Revolved, step: f64) -> Vec<Caliper> {
    let (Some(first), Some(last)) = (line.stations.first(), line.stations.last()) else { return Vec::new() };
    let rounds = (0..).map(|i| ((first.t / step).ceil() + f64::from(i)) * step);
    let mut at: Vec<f64> = rounds.take_while(|t| *t < last.t).take(200).collect();
    // A round station stands for an end of a taper beside it.
    let ends = line.tapers.iter().map(|p| p.t);
    let apart: Vec<f64> = ends.filter(|end| at.iter().all(|t| (t - end).abs() >= 0.5)).collect();
    at.extend(apart);
    at.sort_unstable_by(f64::total_cmp);
    at.dedup_by(|b, a| *b - *a < 0.5);
    at.iter().map(|t| caliper(line, turned, *t)).collect()
}

fn caliper(line: &JoinLine, turned: &Revolved, t: f64) -> Caliper {
    let after = line.stations.partition_point(|s| s.t < t).min(line.stations.len() - 1);
    let before = after.saturating_sub(1);
    let (a, b) = (&line.stations[before], &line.stations[after]);
    let part = if b.t > a.t { ((t - a.t) / (b.t - a.t)).clamp(0.0, 1.0) } else { 1.0 };
    let least = 2.0 * (a.join + (b.join - a.join) * part);
    let radius = turned.meridian.least_at(t);
    let nearest = if part < 0.5 { a } else { b };
    Caliper {
        at_mm: t,
        least_diameter_mm: least,
        turned_diameter_mm: 2.0 * radius,
        spare_mm: 2.0 * radius - least,
        because: because(nearest),
    }
}

fn least_spare(line: &JoinLine, turned: &Revolved) -> Option<Spare> {
    let spare = |s: &JoinStation| {
        let radius = turned.meridian.least_at(s.t);
        (radius - s.join, *s)
    };
    let needed = line.stations.iter().filter(|s| s.join > 0.0).map(spare);
    let (radius_mm, station) = needed.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let point = turned.axis.point(station.t, 0.0, 0.0);
    Some(Spare { radius_mm, place: Place::station(point.s), because: because(&station) })
}
