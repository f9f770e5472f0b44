//! The thinnest wall.

use super::point::WallPoint;
use super::sheet::{Field, WallSheet};
use crate::geometry::Pace;
use crate::geometry::surface::Spot;
use crate::geometry::surface::{Thinnest, WITHIN};

/// A place that is thinner by less than this, in mm, does not take the place of one found before.
const NO_THINNER: f64 = 1e-3;

/// The thinnest wall over the kept surface: walks downhill from the lowest place of the field, then proves that nothing
/// that is kept is thinner, or finds it.
pub(super) async fn least(sheet: &WallSheet<'_, '_>, field: &Field, pace: &Pace) -> Option<WallPoint> {
    let known = match lowest(field) {
        Some(low) => Some(sheet.surface.descend(low, sheet.stretch, sheet.row_height(), pace).await),
        None => None,
    };
    let enough = known.map_or(f64::INFINITY, |known| known.distance - WITHIN);
    let found = sheet.surface.thinnest(&sheet.starts(field, sheet.columns(), enough), known, pace).await;
    proven(sheet, found, known, pace).await.map(|found| sheet.wall_at(sheet.surface.sheet.point(found.place)))
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
