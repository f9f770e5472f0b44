//! Figure 9: how far the work reaches as it spins, and where the tool rest must stand.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::looked::{INSIDE_MM, Looked};
use super::step::Step;
use crate::design::Lathe;
use crate::figures::Place;
use crate::geometry::line::order::sort_by_number;
use crate::geometry::{Farthest, Outermost, Pace, Spin};

/// Between the tool rest and the work, in mm: common practice, no source.
pub const REST_GAP_MM: f64 = 5.0;

/// How far the work reaches from the axis it spins on, before the step.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Swing {
    /// The farthest wood from the axis, in mm.
    pub radius_mm: f64,
    /// Where it is; absent when there is no wood.
    pub place: Option<Place>,
    /// Whether it is a corner of square stock.
    pub is_corner: bool,
    /// The farthest wood between the ends of the cut, where the rest stands, in mm.
    pub radius_at_cut_mm: f64,
    /// What is left between the work and the bed, in mm on the radius; negative when it strikes.
    pub over_bed_mm: f64,
    /// What is left between the work and the base of the tool rest, in mm on the radius; negative when it strikes,
    /// absent for a hollow, whose rest stands before the work.
    pub over_rest_mm: Option<f64>,
    /// Where the tool rest stands; absent for a hollow.
    pub rest: Option<RestLine>,
    /// The farthest wood at stations along the axis, rising.
    pub stations: Vec<SwingAt>,
}

/// The farthest wood at one station.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct SwingAt {
    /// Station along the axis, in mm.
    pub at_mm: f64,
    /// The farthest wood from the axis, in mm: 0 where there is none.
    pub radius_mm: f64,
}

/// The edge of the tool rest, [`REST_GAP_MM`] clear of the work all along the cut. Distances are from the axis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct RestLine {
    /// Set parallel to the axis: how far from it, in mm.
    pub parallel_mm: f64,
    /// The first station of the cut with wood, in mm along the axis.
    pub from_mm: f64,
    /// The last, in mm.
    pub to_mm: f64,
    /// Set along the work, as near as a straight rest can be to the middle of the cut: its distance at `from_mm`.
    pub along_from_mm: f64,
    /// Its distance at `to_mm`, in mm.
    pub along_to_mm: f64,
}

/// Stations along all of the work.
const STATIONS: usize = 12;

/// How far the work reaches in the state before a step. Proven: no wood is farther by more than
/// 0.0001 mm, but for what is thinner than that. Along the cut the rest clears every place, not only the stations.
///
/// `looked` is what was seen within the cut already, rising by station.
pub(super) async fn swing(
    step: &Step<'_>,
    spin: &Spin<'_>,
    looked: &[Looked<'_>],
    lathe: &Lathe,
    pace: &Pace,
) -> Swing {
    let all = spin.farthest_between(f64::NEG_INFINITY, f64::INFINITY);
    pace.pause().await;
    let (from, to) = (step.from + INSIDE_MM, step.to - INSIDE_MM);
    let in_cut = all.filter(|most| from <= most.t && most.t <= to).or_else(|| spin.farthest_between(from, to));
    let radius_of = |most: Option<Outermost>| most.map_or(0.0, |most| most.farthest.radius);
    let (radius, at_cut) = (radius_of(all), radius_of(in_cut));
    pace.pause().await;
    let stations = stations(step, spin, looked, pace).await;
    let rest = if step.is_pass { rest(&stations, spin, at_cut, step, pace).await } else { None };
    Swing {
        radius_mm: radius,
        place: all.map(|most| Place::of(spin.axis().point(most.t, radius, most.farthest.clock))),
        is_corner: all.is_some_and(|most| most.farthest.is_edge),
        radius_at_cut_mm: at_cut,
        over_bed_mm: lathe.swing_over_bed_mm / 2.0 - radius,
        over_rest_mm: step.is_pass.then_some(lathe.swing_over_rest_mm / 2.0 - at_cut),
        rest,
        stations,
    }
}

/// The farthest wood along all of the work and within the cut.
async fn stations(step: &Step<'_>, spin: &Spin<'_>, looked: &[Looked<'_>], pace: &Pace) -> Vec<SwingAt> {
    let (start, end) = spin.span();
    let even = (0..=STATIONS).map(|i| start + (end - start) * (i as f64 / STATIONS as f64).clamp(1e-6, 1.0 - 1e-6));
    let beside = even.filter(|t| !step.is_pass || *t < step.from || *t > step.to);
    let swing_at =
        |at_mm: f64, farthest: Option<Farthest>| SwingAt { at_mm, radius_mm: farthest.map_or(0.0, |it| it.radius) };
    let mut stations: Vec<SwingAt> = looked.iter().map(|look| swing_at(look.at_mm, look.farthest)).collect();
    for at_mm in beside {
        stations.push(swing_at(at_mm, spin.farthest_at(at_mm)));
        pace.pause().await;
    }
    sort_by_number(&mut stations, |station| station.at_mm);
    stations
}

/// The rest along a cut.
async fn rest(
    stations: &[SwingAt],
    spin: &Spin<'_>,
    farthest_mm: f64,
    step: &Step<'_>,
    pace: &Pace,
) -> Option<RestLine> {
    let in_cut = stations.iter().filter(|s| step.from <= s.at_mm && s.at_mm <= step.to && s.radius_mm > 0.0);
    let mut points: Vec<(f64, f64)> = in_cut.map(|s| (s.at_mm, s.radius_mm)).collect();
    let (first, last) = (points.first()?.0, points.last()?.0);
    // What is between two stations counts at both.
    let mut between: Vec<f64> = Vec::with_capacity(points.len());
    for pair in points.windows(2) {
        let straight = pair[0].1.max(pair[1].1);
        between.push(spin.farthest_between(pair[0].0, pair[1].0).map_or(straight, |most| most.farthest.radius));
        pace.pause().await;
    }
    for (i, most) in between.into_iter().enumerate() {
        points[i].1 = points[i].1.max(most);
        points[i + 1].1 = points[i + 1].1.max(most);
    }
    let middle = f64::midpoint(first, last);
    // Of the chords over the middle the highest clears every station.
    let mut line = (f64::NEG_INFINITY, 0.0);
    for p in points.iter().filter(|p| p.0 <= middle) {
        for q in points.iter().filter(|q| q.0 >= middle) {
            let slope = if q.0 - p.0 < 1e-9 { 0.0 } else { (q.1 - p.1) / (q.0 - p.0) };
            let height = p.1 + slope * (middle - p.0);
            if height > line.0 {
                line = (height, slope);
            }
        }
    }
    let at = |t: f64| line.0 + line.1 * (t - middle) + REST_GAP_MM;
    Some(RestLine {
        parallel_mm: farthest_mm + REST_GAP_MM,
        from_mm: first,
        to_mm: last,
        along_from_mm: at(first),
        along_to_mm: at(last),
    })
}
