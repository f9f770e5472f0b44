//! Figure 9: how far the work reaches as it spins, and where the tool rest must stand.

use serde::Serialize;

use super::step::Step;
use crate::design::Lathe;
use crate::figures::Place;
use crate::geometry::order::sort_by_number;
use crate::geometry::search::narrow;
use crate::geometry::{Around, Farthest, Spin};

/// Between the tool rest and the work, in mm: common practice, no source.
pub const REST_GAP_MM: f64 = 5.0;

/// How far the work reaches from the axis it spins on, before the step.
#[derive(Clone, Debug, PartialEq, Serialize)]
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
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SwingAt {
    /// Station along the axis, in mm.
    pub at_mm: f64,
    /// The farthest wood from the axis, in mm: 0 where there is none.
    pub radius_mm: f64,
}

/// The edge of the tool rest, [`REST_GAP_MM`] clear of the work all along the cut. Distances are from the axis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
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
/// How closely the station of the farthest wood is looked for, in mm.
const CLOSELY_MM: f64 = 0.1;
/// What is within this of the farthest is looked at closely, in mm.
const NEARLY_MM: f64 = 0.5;
/// A step in from the ends of the cut and of the work, in mm: there its surfaces begin.
pub(super) const INSIDE_MM: f64 = 1e-6;

/// How far the work reaches in the state before a step. Radii within 0.02 mm, corners of square stock exactly.
///
/// `looked` is what was seen within the cut already, rising by station.
pub(super) fn swing(step: &Step<'_>, spin: &Spin<'_>, looked: &[(f64, Around<'_>)], lathe: &Lathe) -> Swing {
    let seen = Seen::new(step, spin, looked);
    let all = seen.most(spin, f64::NEG_INFINITY, f64::INFINITY);
    let in_cut = all.filter(|most| step.from <= most.0 && most.0 <= step.to);
    let at_cut = in_cut.or_else(|| seen.most(spin, step.from, step.to)).map_or(0.0, |most| most.1.radius);
    let radius = all.map_or(0.0, |most| most.1.radius);
    let place = all.map(|(t, most)| Place::of(spin.axis().point(t, most.radius, most.clock)));
    Swing {
        radius_mm: radius,
        place,
        is_corner: all.is_some_and(|most| most.1.is_edge),
        radius_at_cut_mm: at_cut,
        over_bed_mm: lathe.swing_over_bed_mm / 2.0 - radius,
        over_rest_mm: step.is_pass.then_some(lathe.swing_over_rest_mm / 2.0 - at_cut),
        rest: if step.is_pass { seen.rest(at_cut, step.from, step.to) } else { None },
        stations: seen
            .stations
            .iter()
            .map(|s| SwingAt { at_mm: s.0, radius_mm: s.1.map_or(0.0, |f| f.radius) })
            .collect(),
    }
}

/// The farthest wood where it was looked at: along all of the work, within the cut, and where its edges end.
struct Seen {
    stations: Vec<(f64, Option<Farthest>)>,
    edges: Vec<(f64, Farthest)>,
}

impl Seen {
    fn new(step: &Step<'_>, spin: &Spin<'_>, looked: &[(f64, Around<'_>)]) -> Self {
        let (start, end) = spin.span();
        let is_square = step.is_square;
        let edges: Vec<(f64, Farthest)> = spin
            .edge_ends()
            .iter()
            .map(|point| {
                let seen = spin.axis().see(*point);
                let clock = seen.right.atan2(seen.up);
                (seen.t, Farthest { radius: seen.radius(), clock, is_edge: is_square })
            })
            .collect();
        let mut stations: Vec<(f64, Option<Farthest>)> =
            looked.iter().map(|(t, around)| (*t, around.farthest())).collect();
        for i in 0..=STATIONS {
            let t = start + (end - start) * (i as f64 / STATIONS as f64).clamp(1e-6, 1.0 - 1e-6);
            if !step.is_pass || t < step.from || t > step.to {
                stations.push((t, spin.farthest_at(t)));
            }
        }
        sort_by_number(&mut stations, |station| station.0);
        Self { stations, edges }
    }

    /// The farthest wood with a station in a range.
    fn most(&self, spin: &Spin<'_>, from: f64, to: f64) -> Option<(f64, Farthest)> {
        let within = |t: f64| from <= t && t <= to;
        let mut best: Option<(f64, Farthest)> = None;
        let mut take = |t: f64, found: Farthest| {
            if best.is_none_or(|known| found.radius > known.1.radius) {
                best = Some((t, found));
            }
        };
        self.edges.iter().filter(|e| within(e.0)).for_each(|(t, found)| take(*t, *found));
        let seen: Vec<(f64, Option<Farthest>)> = self.stations.iter().copied().filter(|s| within(s.0)).collect();
        seen.iter().for_each(|(t, found)| found.iter().for_each(|found| take(*t, *found)));
        let known = best?.1;
        // An edge is farthest where it ends, and that was looked at; elsewhere the farthest lies between stations.
        let mut top: Option<(usize, f64)> = None;
        for (i, (_, found)) in seen.iter().enumerate() {
            let radius = found.filter(|f| !f.is_edge).map_or(0.0, |f| f.radius);
            if radius > top.map_or(known.radius - NEARLY_MM, |top| top.1) {
                top = Some((i, radius));
            }
        }
        let Some((i, radius)) = top else { return best };
        let beside = [i.checked_sub(1), Some(i + 1)].map(|j| j.and_then(|j| seen.get(j)));
        let flat = beside.iter().flatten().all(|s| s.1.is_some_and(|f| (f.radius - radius).abs() < 1e-6));
        let [low, high] = beside.map(|s| s.map_or(seen[i].0, |s| s.0));
        if !flat
            && let Some((t, farther)) = farthest_between(spin, low, high)
            && best.is_none_or(|known| farther.radius > known.1.radius)
        {
            best = Some((t, farther));
        }
        best
    }

    /// The rest along a cut.
    fn rest(&self, farthest_mm: f64, from: f64, to: f64) -> Option<RestLine> {
        let wood = self.stations.iter().filter(|s| from <= s.0 && s.0 <= to);
        let points: Vec<(f64, f64)> = wood.filter_map(|(t, found)| Some((*t, (*found)?.radius))).collect();
        let (first, last) = (points.first()?, points.last()?);
        let middle = (first.0 + last.0) / 2.0;
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
            from_mm: first.0,
            to_mm: last.0,
            along_from_mm: at(first.0),
            along_to_mm: at(last.0),
        })
    }
}

/// The farthest wood between two stations.
fn farthest_between(spin: &Spin<'_>, low: f64, high: f64) -> Option<(f64, Farthest)> {
    let mut best: Option<(f64, Farthest)> = None;
    narrow((low, high), CLOSELY_MM, &mut |t| {
        let found = spin.farthest_at(t);
        // Past a shoulder it may fall at once, so the best place tried counts.
        if let Some(found) = found.filter(|found| best.is_none_or(|known| found.radius > known.1.radius)) {
            best = Some((t, found));
        }
        found.map_or(0.0, |found| found.radius)
    });
    best
}
