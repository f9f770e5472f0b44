//! Places where the outside comes through into the hollow.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::point::WallPoint;
use super::sheet::WallSheet;
use crate::geometry::line::order::sort_by_number;
use crate::geometry::surface::{HolePart, Near, Patch, Spot, Start};
use crate::geometry::{Pace, Vector};

/// A patch of the hollow's kept surface that lies outside the outside shape.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Breakthrough {
    /// Its deepest point; `wall_mm` is negative, the depth by which the cut overruns.
    pub deepest: WallPoint,
    /// The smallest station along the blank that it reaches, in mm.
    pub from_station_mm: f64,
    /// The greatest station along the blank that it reaches, in mm.
    pub to_station_mm: f64,
    /// Its area on the hollow's surface, in mm2; to about the spacing of the map.
    pub area_mm2: f64,
}

/// Patches of a hole are no larger than this, in mm, on a hollow of a common size.
const PATCH: f64 = 2.5;
/// A hollow is looked at in about so many patches at most, so that a huge one that is lost takes no longer.
const PATCHES: f64 = 3000.0;
/// Places of a patch by which its area is known, along it and around it.
const PLACES: usize = 4;

/// No part of a hole in a sheet is larger than this, in mm.
pub(super) fn part_size(sheet: &WallSheet<'_, '_>) -> f64 {
    let whole = &sheet.surface.sheet;
    let largest = whole.corners().map(|(_, _, radius)| radius).fold(0.0, f64::max);
    PATCH.max((std::f64::consts::TAU * largest * whole.length() / PATCHES).sqrt())
}

/// Every breakthrough, the deepest first.
pub(super) async fn find(
    sheet: &WallSheet<'_, '_>,
    holes: &[Vec<HolePart>],
    least: Option<&WallPoint>,
    pace: &Pace,
) -> Vec<Breakthrough> {
    let Some(least) = least.filter(|least| least.wall_mm <= 0.0) else { return Vec::new() };
    let mut found = Vec::new();
    for hole in holes {
        found.push(described(sheet, hole, pace).await);
    }
    sort_by_number(&mut found, |it: &Breakthrough| it.deepest.wall_mm);
    match found.first_mut() {
        Some(deepest) => deepest.deepest = *least,
        None => found.push(Breakthrough {
            deepest: *least,
            from_station_mm: least.place.station_mm,
            to_station_mm: least.place.station_mm,
            area_mm2: 0.0,
        }),
    }
    found
}

/// A hole: its deepest point, its reach and its area.
async fn described(sheet: &WallSheet<'_, '_>, hole: &[HolePart], pace: &Pace) -> Breakthrough {
    let surface = sheet.surface;
    let lowest = hole.iter().map(|one| one.broken).reduce(|a, b| if b.distance < a.distance { b } else { a });
    let start = |one: &HolePart| Start { patch: one.patch, place: one.patch.middle(), distance: None, near: Near::ALL };
    let starts: Vec<Start> = hole.iter().map(start).collect();
    let deepest = surface.thinnest(&starts, lowest, pace).await.or(lowest);
    let point = deepest.map_or(Vector::ZERO, |deepest| surface.sheet.point(deepest.place));
    let mut whole =
        Breakthrough { deepest: sheet.wall_at(point), from_station_mm: point.s, to_station_mm: point.s, area_mm2: 0.0 };
    for one in hole {
        add(sheet, one, &mut whole);
        pace.pause().await;
    }
    whole
}

/// Adds a patch: its area, and how far it reaches.
fn add(sheet: &WallSheet<'_, '_>, hole: &HolePart, whole: &mut Breakthrough) {
    let surface = sheet.surface;
    let Patch { u, clock } = hole.patch;
    let part = |(from, to): (f64, f64), i: usize| from + (to - from) * (i as f64 + 0.5) / PLACES as f64;
    let places = (0..PLACES * PLACES).map(|i| Spot::new(part(u, i / PLACES), part(clock, i % PLACES)));
    let mut reach = |s: f64| {
        whole.from_station_mm = whole.from_station_mm.min(s);
        whole.to_station_mm = whole.to_station_mm.max(s);
    };
    reach(surface.sheet.point(hole.broken.place).s);
    for place in places {
        if surface.thinner(place, 0.0).is_some() {
            let at = surface.sheet.see(place);
            reach(at.point.s);
            whole.area_mm2 += at.radius * (u.1 - u.0) * (clock.1 - clock.0) / (PLACES * PLACES) as f64;
        }
    }
}
