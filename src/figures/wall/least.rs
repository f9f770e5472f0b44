//! The thinnest wall.

use super::point::WallPoint;
use super::sheet::{Field, WallSheet};
use crate::geometry::surface::{Thinnest, WITHIN};

/// A place that is thinner by less than this, in mm, does not take the place of one found before.
const NO_THINNER: f64 = 1e-3;

/// The thinnest wall over the kept surface: walks downhill from the lowest place of the field, then proves that nothing
/// that is kept is thinner, or finds it.
pub(super) fn least(sheet: &WallSheet<'_, '_>, field: &Field) -> Option<WallPoint> {
    let known = lowest(field).map(|low| sheet.surface.descend(low, sheet.stretch, sheet.row_height()));
    let enough = known.map_or(f64::INFINITY, |known| known.distance - WITHIN);
    let found = sheet.surface.thinnest(&sheet.starts(field, sheet.columns(), enough), known);
    proven(sheet, found, known).map(|found| sheet.wall_at(sheet.surface.sheet.point(found.place)))
}

/// What was found in place of what was known, walked downhill to its lowest; what was known where that is as good.
pub(super) fn proven(sheet: &WallSheet<'_, '_>, found: Option<Thinnest>, known: Option<Thinnest>) -> Option<Thinnest> {
    let found = found.filter(|found| known.is_none_or(|known| found.distance < known.distance - NO_THINNER));
    found.map(|found| sheet.surface.descend(found, sheet.stretch, sheet.row_height() / 4.0)).or(known)
}

/// The lowest place of the field.
fn lowest(field: &Field) -> Option<Thinnest> {
    let places = field.iter().flatten().filter_map(|at| Some(Thinnest { distance: at.wall?, place: (at.u, at.clock) }));
    places.min_by(|a, b| a.distance.total_cmp(&b.distance))
}
