//! The floor of a hollow.

use serde::Serialize;

use super::WallPoint;
use super::surface::{COLUMNS, HollowSurface};
use crate::geometry::{Axis, Ray, Role};

/// The floor of one hollow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
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

/// The floor; `None` when nothing of the hollow's end is kept.
pub(super) fn floor(surface: &HollowSurface<'_>, deepest_point: Option<f64>) -> Option<Floor> {
    let hollow = surface.hollow;
    let lengthwise = hollow.axis.along().dot(Axis::A.along()).abs() > std::f64::consts::FRAC_1_SQRT_2;
    if !lengthwise {
        return straight_on(surface);
    }
    let least = end_face(surface)?;
    let at_bit_point_mm = deepest_point.map(|depth| {
        let t = hollow.meridian.start() + depth;
        surface.solid.to_outside(hollow.axis.point(t, 0.0, 0.0)).distance
    });
    Some(Floor { least, straight_on: false, at_bit_point_mm })
}

/// The least wall over the end face, its rim included. Within 0.02 mm: the nearest outside changes slowly across it.
fn end_face(surface: &HollowSurface<'_>) -> Option<WallPoint> {
    let hollow = surface.hollow;
    let (t, edge) = (hollow.meridian.end(), hollow.meridian.points()[hollow.meridian.points().len() - 1].1);
    let directions = hollow.axis.directions(COLUMNS);
    let mut least: Option<WallPoint> = None;
    let mut last: Option<WallPoint> = None;
    for i in 0..=RINGS {
        let radius = edge * i as f64 / RINGS as f64;
        for toward in &directions[..if i == 0 { 1 } else { surface.columns() }] {
            let point = hollow.axis.point_toward(t, radius, *toward);
            // The wall changes by no more than the way from the point measured last.
            let at_least = last.map_or(f64::NEG_INFINITY, |l| l.wall_mm - (point - l.point).length());
            if least.is_some_and(|known| at_least >= known.wall_mm) || !surface.keeps(point) {
                continue;
            }
            let here = surface.wall_at(point);
            last = Some(here);
            if least.is_none_or(|known| here.wall_mm < known.wall_mm) {
                least = last;
            }
        }
    }
    least
}

/// The wood straight on along the axis from the hollow's end.
fn straight_on(surface: &HollowSurface<'_>) -> Option<Floor> {
    let axis = &surface.hollow.axis;
    let end = axis.point(surface.hollow.meridian.end(), 0.0, 0.0);
    if !surface.keeps(end) {
        return None;
    }
    let ray = Ray { start: end, direction: axis.along() };
    let mut wood = surface.solid.stock.along(ray);
    for outside in surface.solid.with_role(Role::Outside) {
        wood = wood.minus(&outside.region.along(ray));
    }
    let thickness = wood.iter().find(|(from, to)| *from <= 1e-9 && *to >= 0.0).map(|(_, to)| to);
    let mut least = surface.wall_at(end);
    // With no wood straight on, the depth of the overrun stands.
    least.wall_mm = thickness.unwrap_or(least.wall_mm.min(0.0));
    Some(Floor { least, straight_on: true, at_bit_point_mm: None })
}
