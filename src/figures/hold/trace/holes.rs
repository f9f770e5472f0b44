//! Places where the wall is known to be broken through: a hole may be smaller than the patches that are looked at.

use std::f64::consts::{PI, TAU};

use super::Tracer;
use super::cell::{Cell, Spot};
use crate::geometry::Vector;
use crate::geometry::line::search::bisect;
use crate::geometry::surface::Sheet;

/// A point this near to a sheet lies on it, in mm.
const ON_SHEET: f64 = 1e-3;
/// Directions in which the edge of a hole is looked for from its deepest place.
const DIRECTIONS: u32 = 16;
/// The edge of a hole is looked for from this far, in mm, and then twice as far each time.
const FIRST: f64 = 1e-3;

impl Tracer<'_> {
    /// Takes note of a hole by a point in it: its deepest place, and others in it near its edge. Points that are not on
    /// this sheet, or not in a hole, are passed over.
    pub(super) fn note_hole(&mut self, point: Vector, one_side: bool) {
        let Some(Spot { u, clock }) = place_of(self.sheet, point) else { return };
        let turned = if clock < 0.0 && !one_side { clock + TAU } else { clock.abs() };
        let deepest = Spot::new(u, turned);
        if !self.is_taken(deepest) {
            return;
        }
        self.holes.push(deepest);
        let round = 1.0 / self.sheet.at(u).r.max(FIRST);
        for i in 0..DIRECTIONS {
            let (sin, cos) = (TAU * f64::from(i) / f64::from(DIRECTIONS)).sin_cos();
            let at = |way: f64| Spot::new(u + way * sin, turned + way * cos * round);
            if let Some(way) = self.edge_of_hole(at) {
                self.holes.push(at(way));
            }
        }
    }

    /// How far out the hole goes one way, in mm, on its own side of the edge; `None` for a hole that goes on so far that
    /// it is found without.
    fn edge_of_hole(&self, at: impl Fn(f64) -> Spot) -> Option<f64> {
        let (mut within, mut beyond) = (0.0, FIRST);
        while self.is_taken(at(beyond)) {
            (within, beyond) = (beyond, 2.0 * beyond);
            if beyond > self.leaf {
                return None;
            }
        }
        Some(bisect((within, beyond), 10, |way| self.is_taken(at(way))).0)
    }

    fn is_taken(&self, place: Spot) -> bool {
        let at = self.sheet.see(place);
        self.bounds.iter().any(|bound| bound.clearance(&at) <= 0.0)
    }

    /// A place in a hole that a cell has in it.
    pub(super) fn hole_in(&self, cell: &Cell) -> Option<Spot> {
        let within = |(from, to): (f64, f64), at: f64| from <= at && at <= to;
        self.holes.iter().copied().find(|hole| within(cell.u, hole.u) && within(cell.clock, hole.clock))
    }
}

/// Where a point of the surface lies on its sheet, its clock from -pi to pi.
fn place_of(sheet: &Sheet<'_>, point: Vector) -> Option<Spot> {
    let seen = sheet.hollow().axis.see(point);
    let radius = seen.radius();
    let clock = if radius > 0.0 { seen.clock().clamp(-PI, PI) } else { 0.0 };
    let mut nearest = (ON_SHEET, None);
    let mut before: Option<(f64, f64, f64)> = None;
    for corner in sheet.corners() {
        if let Some((u, t, r)) = before {
            let (dt, dr) = (corner.1 - t, corner.2 - r);
            let length = dt.hypot(dr);
            let along = if length > 0.0 { ((seen.t - t) * dt + (radius - r) * dr) / length } else { 0.0 };
            let along = along.clamp(0.0, length);
            let part = if length > 0.0 { along / length } else { 0.0 };
            let off = (seen.t - t - dt * part).hypot(radius - r - dr * part);
            if off < nearest.0 {
                nearest = (off, Some(u + along));
            }
        }
        before = Some(corner);
    }
    nearest.1.map(|u| Spot::new(u, clock))
}
