//! The thinnest wall.

use super::breakthrough::part_size;
use super::point::WallPoint;
use super::sheet::{COLUMNS, Field, WallSheet};
use crate::geometry::Pace;
use crate::geometry::surface::{HolePart, Near, Spot, Start, Thinnest, WITHIN};

/// A place that is thinner by less than this, in mm, does not take the place of one found before.
const NO_THINNER: f64 = 1e-3;

/// The thinnest wall of a sheet, and the holes in it where that is none.
pub(super) struct Found {
    pub(super) least: Option<WallPoint>,
    pub(super) holes: Vec<Vec<HolePart>>,
}

/// The thinnest wall over the kept surface: walks downhill from the lowest place of the field, then proves that nothing
/// that is kept is thinner, or finds it. Holes in the open air, with no kept wood beside them, do not count.
pub(super) async fn least(sheet: &WallSheet<'_, '_>, field: &Field, pace: &Pace) -> Found {
    let surface = sheet.surface;
    let known = match lowest(field) {
        Some(low) => Some(surface.descend(low, sheet.stretch, sheet.row_height(), pace).await),
        None => None,
    };
    let enough = known.map_or(f64::INFINITY, |known| known.distance - WITHIN);
    let found = surface.thinnest(&sheet.starts(field, sheet.columns(), enough), known, pace).await;
    let found = proven(sheet, found, known, pace).await;
    let wall_at = |found: Thinnest| sheet.wall_at(surface.sheet.point(found.place));
    if found.is_none_or(|found| found.distance > 0.0) {
        return Found { least: found.map(wall_at), holes: Vec::new() };
    }
    let size = part_size(sheet);
    let holes = surface.split_at_holes(&sheet.starts(field, COLUMNS, 0.0), size, pace).await.holes;
    let count = holes.len();
    let holes = with_wood_beside(sheet, holes, pace).await;
    if holes.len() == count {
        return Found { least: found.map(wall_at), holes };
    }
    let split = surface.split_at_holes(&sheet.starts(field, COLUMNS, f64::INFINITY), size, pace).await;
    let holes = with_wood_beside(sheet, split.holes, pace).await;
    let part = |it: &HolePart| Start { patch: it.patch, place: it.patch.middle(), distance: None, near: Near::ALL };
    let starts: Vec<Start> = split.rest.into_iter().chain(holes.iter().flatten().map(part)).collect();
    Found { least: surface.thinnest(&starts, None, pace).await.map(wall_at), holes }
}

/// The holes that are not in the open air.
async fn with_wood_beside(sheet: &WallSheet<'_, '_>, holes: Vec<Vec<HolePart>>, pace: &Pace) -> Vec<Vec<HolePart>> {
    let mut left = Vec::new();
    for hole in holes {
        if !sheet.surface.is_in_open_air(&hole, sheet.surface.sheet.profile_from(), pace).await {
            left.push(hole);
        }
    }
    left
}

/// What was found in place of what was known, walked downhill to its lowest; what was known where that is as good.
pub(super) async fn proven(
    sheet: &WallSheet<'_, '_>,
    found: Option<Thinnest>,
    known: Option<Thinnest>,
    pace: &Pace,
) -> Option<Thinnest> {
    let found = found.filter(|found| known.is_none_or(|known| found.distance < known.distance - NO_THINNER));
    match found {
        Some(found) => Some(sheet.surface.descend(found, sheet.stretch, sheet.row_height() / 4.0, pace).await),
        None => known,
    }
}

/// The lowest place of the field.
fn lowest(field: &Field) -> Option<Thinnest> {
    let places =
        field.iter().flatten().filter_map(|at| Some(Thinnest { distance: at.wall?, place: Spot::new(at.u, at.clock) }));
    places.min_by(|a, b| a.distance.total_cmp(&b.distance))
}
