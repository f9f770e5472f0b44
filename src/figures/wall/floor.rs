//! The floor of a hollow.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::least::proven;
use super::point::WallPoint;
use super::sheet::{COLUMNS, WallSheet, column_clock};
use crate::geometry::frame::tolerance::ROUNDING_MM;
use crate::geometry::surface::Spot;
use crate::geometry::surface::{Taker, Thinnest};
use crate::geometry::{Pace, Ray, Role};

/// The floor of one hollow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Floor {
    /// The least wood behind the end of a bore, or straight on along the axis of a bowl hollowed across the grain.
    pub least: WallPoint,
    /// Whether it was measured straight on along the axis.
    pub straight_on: bool,
    /// The wood left at the point of the boring bit that reaches deepest, in mm; absent for a hollow across the grain.
    pub at_bit_point_mm: Option<f64>,
}

/// Rings of the end face that are tried.
const RINGS: usize = 8;
/// Patches of the end face that are looked into, from its edge to its middle and around.
const PATCHES: (usize, usize) = (3, 8);

/// The floor; `None` when nothing of the hollow's end is kept.
pub(super) async fn floor(sheet: &WallSheet<'_, '_>, deepest_point: Option<f64>, pace: &Pace) -> Option<Floor> {
    let hollow = sheet.surface.sheet.hollow();
    let lengthwise = hollow.axis.is_lengthwise();
    if !lengthwise {
        return straight_on(sheet);
    }
    let least = end_face(sheet, pace).await?;
    let at_bit_point_mm = deepest_point.map(|depth| {
        let t = hollow.meridian.start() + depth;
        sheet.surface.solid.to_outside(hollow.axis.point(t, 0.0, 0.0)).distance
    });
    Some(Floor { least, straight_on: false, at_bit_point_mm })
}

/// The least wall over the end face, its rim included: the lowest of some rings, and whatever is lower yet.
async fn end_face(sheet: &WallSheet<'_, '_>, pace: &Pace) -> Option<WallPoint> {
    let surface = sheet.surface;
    let disc = sheet.end_face();
    let known = rings(&disc);
    pace.pause().await;
    let starts = surface.starts(disc.stretch, PATCHES.0, PATCHES.1);
    let found = surface.thinnest(&starts, known, pace).await;
    let least = proven(&disc, found, known, pace).await?;
    Some(sheet.wall_at(surface.sheet.point(least.place)))
}

/// Whether each of some places of the end face lies inside another hollow or on its surface.
pub(super) fn is_taken_by_hollows(sheet: &WallSheet<'_, '_>) -> bool {
    let surface = sheet.surface;
    let disc = sheet.end_face();
    let hollows = surface.endings().iter().filter(|ending| matches!(ending.taker, Taker::Hollow(_)));
    surface.starts(disc.stretch, RINGS, COLUMNS).iter().all(|start| {
        let at = surface.sheet.see(start.place);
        hollows.clone().any(|hollow| hollow.takes(&at))
    })
}

/// The lowest of some places of the end face, in rings from its middle to its edge.
fn rings(disc: &WallSheet<'_, '_>) -> Option<Thinnest> {
    let (sheet, edge) = (&disc.surface.sheet, disc.stretch.1 - disc.stretch.0);
    let directions = sheet.hollow().axis.directions(COLUMNS);
    let mut least: Option<Thinnest> = None;
    let mut last = None;
    for i in 0..=RINGS {
        let u = disc.stretch.1 - edge * i as f64 / RINGS as f64;
        for (j, toward) in directions[..if i == 0 { 1 } else { disc.columns() }].iter().enumerate() {
            let at = sheet.see_toward(Spot::new(u, column_clock(j)), *toward);
            // The wall changes by no more than the way from the point measured last.
            let at_least = last.map_or(f64::NEG_INFINITY, |(wall, from)| wall - (at.point - from).length());
            if least.is_some_and(|known| at_least >= known.distance) || disc.surface.clearance_within(&at) <= 0.0 {
                continue;
            }
            let distance = disc.surface.solid.to_outside(at.point).distance;
            last = Some((distance, at.point));
            if least.is_none_or(|known| distance < known.distance) {
                least = Some(Thinnest { distance, place: at.place });
            }
        }
    }
    least
}

/// The wood straight on along the axis from the hollow's end.
fn straight_on(sheet: &WallSheet<'_, '_>) -> Option<Floor> {
    let surface = sheet.surface;
    let axis = &surface.sheet.hollow().axis;
    let end = surface.sheet.see(Spot::new(surface.sheet.length(), 0.0));
    if surface.clearance_within(&end) <= 0.0 {
        return None;
    }
    let ray = Ray { start: end.point, direction: axis.along() };
    let mut wood = surface.solid.stock.along(ray);
    for outside in surface.solid.with_role(Role::Outside) {
        wood = wood.minus(&outside.region.along(ray));
    }
    let thickness = wood.iter().find(|(from, to)| *from <= ROUNDING_MM && *to >= 0.0).map(|(_, to)| to);
    let mut least = sheet.wall_at(end.point);
    // With no wood straight on, the depth of the overrun stands.
    least.wall_mm = thickness.unwrap_or(least.wall_mm.min(0.0));
    Some(Floor { least, straight_on: true, at_bit_point_mm: None })
}
