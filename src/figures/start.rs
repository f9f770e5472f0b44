//! Figure 2: how near to a hollow a later pass may start.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::place::blank_station;
use crate::design::ends::{End, with_end};
use crate::design::validation::bounds;
use crate::design::{AxisName, Limits};
use crate::design::{Cut, Design, Pass, PassProfile};
use crate::form::Field;
use crate::form::edit::with_number;
use crate::geometry::surface::{HollowSurface, Spot, Start, WITHIN};
use crate::geometry::{Axis, Pace, Region, Removal, Revolved, Role, Solid, at_once};
use crate::piece::Piece;
use crate::piece::pass_region;

/// How near to the bowl a later pass may start.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct NearestStart {
    /// The pass, by its place in working order from 0.
    pub cut: usize,
    /// Where it starts now, in mm along its axis.
    pub from_mm: f64,
    /// The least start that keeps the wall, in mm along its axis.
    pub nearest_from_mm: f64,
    /// The blank station of that start on the pass's axis, in mm.
    pub station_mm: f64,
}

/// The start is found to this, in mm.
const FINE: f64 = 0.005;
/// The first step from the start as it is, in mm; each is twice the one before.
const STEP: f64 = 0.5;
/// No start is looked for nearer than this before the pass as it is, in mm.
const NEARER: f64 = 100.0;
/// What other cuts may leave too little of a wall by, in mm: with what the search may miss, so much as is promised.
const PROMISED: f64 = 0.02 - WITHIN / 2.0;

/// The nearest each pass on a tilted or moved axis may come to the hollows before a wall or a floor reaches its limit.
///
/// It is the start, as typed, at which the wall of the whole piece keeps its limit within 0.02 mm, and 0.1 mm nearer it
/// does not; nodes that come in the way go with it ([`with_end`]). Every hollow counts, its surface before a sunken mouth
/// too, and the shoulder of the pass, which leans. Without what counts there is none: a pass that could start anywhere, or
/// whose wall another cut has brought below its limit, so that no start can keep it.
#[must_use]
pub fn nearest_starts(design: &Design, piece: &Piece, limits: &Limits) -> Vec<NearestStart> {
    at_once(nearest_starts_in_slices(design, piece, limits, &Pace::unbroken()))
}

/// As [`nearest_starts`], in slices.
pub async fn nearest_starts_in_slices(
    design: &Design,
    piece: &Piece,
    limits: &Limits,
    pace: &Pace,
) -> Vec<NearestStart> {
    let moved = design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Pass(pass) if pass.axis != AxisName::A => Some((cut, pass)),
        _ => None,
    });
    let mut starts = Vec::new();
    for (cut, pass) in moved {
        pace.tell(cut, design.cuts.len());
        let Some(axis) = piece.axis(pass.axis).filter(|axis| **axis != Axis::A) else { continue };
        let mut search = Search { design, piece, limits, cut, pass, axis, last: None, pace };
        if let Some(nearest_from_mm) = search.nearest().await {
            let station_mm = blank_station(axis, nearest_from_mm);
            starts.push(NearestStart { cut, from_mm: pass.from_mm, nearest_from_mm, station_mm });
        }
    }
    starts
}

struct Search<'a> {
    design: &'a Design,
    piece: &'a Piece,
    limits: &'a Limits,
    cut: usize,
    pass: &'a Pass,
    axis: &'a Axis,
    /// Where it was too thin last, by hollow, and the limit there: mostly it is again.
    last: Option<(usize, Spot, f64)>,
    pace: &'a Pace,
}

impl Search<'_> {
    async fn nearest(&mut self) -> Option<f64> {
        let others = self.piece.solid.with_role(Role::Outside).filter(|removal| removal.cut != self.cut);
        let without = self.solid(others.cloned().collect());
        if self.too_thin(&without, PROMISED).await.is_some() {
            return None;
        }
        let (mut good, mut bad) = self.bracket().await?;
        while good - bad > FINE {
            let middle = f64::midpoint(good, bad);
            if self.keeps(middle).await { good = middle } else { bad = middle }
        }
        with_number(self.design, Field::PassFrom(self.cut), good).is_ok().then_some(good)
    }

    /// A start that keeps the wall and one before it that does not, by ever wider steps from the start as it is.
    async fn bracket(&mut self) -> Option<(f64, f64)> {
        let now = self.pass.from_mm;
        let lowest = (now - NEARER).max(bounds::STATION.from);
        let highest = self.pass.to_mm - bounds::LEAST_LENGTH_MM;
        let keeps_now = self.keeps(now).await;
        let (mut known, mut step) = (now, STEP);
        loop {
            let next = if keeps_now { (now - step).max(lowest) } else { (now + step).min(highest) };
            if self.keeps(next).await != keeps_now {
                return Some(if keeps_now { (known, next) } else { (next, known) });
            }
            if next <= lowest || next >= highest {
                return None;
            }
            known = next;
            step *= 2.0;
        }
    }

    /// Whether every wall and floor keeps its limit from this pass where it starts here.
    async fn keeps(&mut self, from_mm: f64) -> bool {
        self.pace.pause().await;
        let Some(region) = self.started_at(from_mm).await else { return false };
        let removal = Removal { region: Region::Revolved(region), role: Role::Outside, cut: self.cut };
        let solid = self.solid(vec![removal]);
        if let Some((hollow, place, limit)) = self.last {
            let surfaces = HollowSurface::all(&solid);
            if surfaces.get(hollow).is_some_and(|surface| surface.thinner(place, limit).is_some()) {
                return false;
            }
        }
        let thin = self.too_thin(&solid, 0.0).await;
        self.last = thin.or(self.last);
        thin.is_none()
    }

    /// What the pass takes where it starts here, as a document says that has this start.
    async fn started_at(&self, from_mm: f64) -> Option<Revolved> {
        if matches!(self.pass.profile, PassProfile::Drawn { .. }) {
            return pass_region(&with_end(self.pass, End::Start, from_mm), *self.axis);
        }
        let changed = with_number(self.design, Field::PassFrom(self.cut), from_mm).ok()?;
        Piece::resolve_in_slices(&changed, self.limits, self.pace).await.ok()?.revolved(self.cut).cloned()
    }

    /// The hollows and openings of the piece, and only these outsides.
    fn solid(&self, outsides: Vec<Removal>) -> Solid {
        let whole = &self.piece.solid;
        let mut removals: Vec<Removal> = whole.removals.iter().filter(|r| r.role != Role::Outside).cloned().collect();
        removals.extend(outsides);
        Solid { stock: whole.stock, removals, plugs: Vec::new() }
    }

    /// A place, by hollow, that is less far from the outside than its limit less so much, and that limit.
    async fn too_thin(&self, solid: &Solid, less_mm: f64) -> Option<(usize, Spot, f64)> {
        for (hollow, surface) in HollowSurface::all(solid).iter().enumerate() {
            let is_lower = self.limits.floor_mm <= self.limits.wall_mm || !is_lengthwise(surface);
            let floor = (!is_lower).then(|| (end_starts(surface), self.limits.floor_mm));
            for (starts, limit) in [Some((starts(surface), self.limits.wall_mm)), floor].into_iter().flatten() {
                let found = surface.nearer(&starts, limit - less_mm, self.pace).await;
                if let Some(found) = found {
                    return Some((hollow, found.place, limit - less_mm));
                }
            }
        }
        None
    }
}

/// Patches of this size, in mm, are looked at first, and so many around.
const PATCH: f64 = 6.0;
const AROUND: usize = 12;
/// Patches of an end face, from its edge to its middle and around.
const OF_END: (usize, usize) = (2, 8);

fn starts(surface: &HollowSurface<'_>) -> Vec<Start> {
    let sheet = &surface.sheet;
    let rows = (sheet.length() / PATCH).ceil().clamp(2.0, 60.0) as usize;
    surface.starts((0.0, sheet.length()), rows, AROUND)
}

fn end_starts(surface: &HollowSurface<'_>) -> Vec<Start> {
    surface.starts((surface.sheet.disc_from(), surface.sheet.length()), OF_END.0, OF_END.1)
}

/// Whether a hollow goes along the blank, so that its end is a floor with a limit of its own.
fn is_lengthwise(surface: &HollowSurface<'_>) -> bool {
    surface.sheet.hollow().axis.is_lengthwise()
}
