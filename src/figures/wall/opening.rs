//! What saws and facings do to a hollow.

use serde::Serialize;

use super::surface::{COLUMNS, Field, FieldPoint, HollowSurface, ROWS};
use crate::figures::Place;
use crate::geometry::{Ray, Region, Removal, Vector};

/// Whether a saw or a facing reaches the hollow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct OpeningReach {
    /// The saw or facing, by its place in working order from 0.
    pub cut: usize,
    /// How deep it goes into the hollow at most, in mm; negative when it misses, by that much.
    pub depth_mm: f64,
    /// Where it comes deepest, or nearest.
    pub place: Place,
}

/// What each saw and facing does to the hollow, judged on the points of the field.
pub(super) fn reaches(surface: &HollowSurface<'_>, field: &Field) -> Vec<OpeningReach> {
    let deepest = |opening: &&Removal| {
        let (depth_mm, point) = deepest(surface, &opening.region, field)?;
        Some(OpeningReach { cut: opening.cut, depth_mm, place: Place::of(point) })
    };
    surface.openings().iter().filter_map(deepest).collect()
}

/// The deepest point of the field in a region, or the nearest to it.
fn deepest(surface: &HollowSurface<'_>, region: &Region, field: &Field) -> Option<(f64, Vector)> {
    let mut deepest: Option<(f64, Vector)> = None;
    let mut last: Option<(f64, Vector)> = None;
    let points = field.iter().flat_map(|row| &row[..surface.columns()]).map(|p| p.point);
    for point in points.filter(|p| p.s >= 0.0) {
        // The depth changes by no more than the way from the point measured last.
        let at_most = last.map_or(f64::INFINITY, |(depth, from)| depth + (point - from).length());
        if deepest.is_some_and(|best| at_most <= best.0) {
            continue;
        }
        let depth = -region.signed_distance(point);
        last = Some((depth, point));
        if deepest.is_none_or(|best| depth >= best.0) {
            deepest = last;
        }
    }
    deepest
}

/// The sharpest angle of wood between a saw cut and the hollow's surface, in degrees, along the rim.
pub(super) fn rim_edge_deg(surface: &HollowSurface<'_>, field: &Field) -> Option<f64> {
    let saws = surface.openings().iter().filter(|o| matches!(o.region, Region::Sawn(_)));
    saws.filter_map(|saw| sharpest(surface, &saw.region, field)).reduce(f64::min)
}

/// The sharpest angle along the rim that one saw cuts. Of mirror images, one side is looked at.
fn sharpest(surface: &HollowSurface<'_>, saw: &Region, field: &Field) -> Option<f64> {
    let columns = surface.columns();
    let row = |row: &Vec<FieldPoint>| (0..=columns).map(|j| saw.contains(row[j % COLUMNS].point)).collect();
    let sawn: Vec<Vec<bool>> = field.iter().map(row).collect();
    let mut sharpest: Option<f64> = None;
    for i in 0..ROWS - 1 {
        for j in 0..columns {
            let here = field[i][j].point;
            for (a, b) in [(i, j + 1), (i + 1, j)] {
                let other = field[a][b % COLUMNS].point;
                if sawn[i][j] == sawn[a][b] || other.s < 0.0 || here.s < 0.0 {
                    continue;
                }
                let angle = crossing(saw, here, other).and_then(|rim| edge_angle_deg(surface, saw, rim));
                sharpest = sharpest.into_iter().chain(angle).reduce(f64::min);
            }
        }
    }
    sharpest
}

/// Where the straight line between two points meets a region's surface.
fn crossing(region: &Region, a: Vector, b: Vector) -> Option<Vector> {
    let ray = Ray { start: a, direction: b - a };
    let stretches = region.along(ray);
    let place = stretches.iter().flat_map(|(from, to)| [from, to]).find(|place| (0.0..=1.0).contains(place));
    place.map(|place| ray.at(place))
}

/// The angle of wood at a rim point: a right angle and what the two surfaces' normals lean toward each other.
fn edge_angle_deg(surface: &HollowSurface<'_>, saw: &Region, rim: Vector) -> Option<f64> {
    let saw_normal = gradient(|p| -saw.signed_distance(p), rim)?;
    let hollow_normal = gradient(|p| -surface.hollow.signed_distance(p), rim)?;
    // Both point out of the wood; the wood's own angle is what is left of half a turn.
    Some(180.0 - saw_normal.dot(hollow_normal).clamp(-1.0, 1.0).acos().to_degrees())
}

/// The direction in which a value grows fastest.
fn gradient(value: impl Fn(Vector) -> f64, at: Vector) -> Option<Vector> {
    const STEP: f64 = 1e-4;
    let slope = |d: Vector| value(at + d * STEP) - value(at - d * STEP);
    Vector::new(slope(Vector::new(1.0, 0.0, 0.0)), slope(Vector::new(0.0, 1.0, 0.0)), slope(Vector::new(0.0, 0.0, 1.0)))
        .unit()
}
