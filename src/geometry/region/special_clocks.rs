//! Directions around an axis in which the widest point of what is kept often lies.

use std::f64::consts::TAU;

use smallvec::SmallVec;

use crate::geometry::Station;
use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::revolved::{Ray, Revolved};

/// Directions in which the widest point often lies: toward each later axis, away from it, and the corners where the
/// later regions' end planes meet profiles, their own and those of the others: there what is kept ends suddenly.
pub(super) fn special_clocks(about: &Axis, t: f64, later: &[&Revolved]) -> Vec<f64> {
    let mut clocks = Vec::with_capacity(6 * later.len());
    for region in later {
        if !reaches(about, t, region) {
            continue;
        }
        if let Some(pierced) = pierced(about, t, &region.axis).map(|p| about.see(p)).filter(|p| p.radius() > 1e-9) {
            let clock = pierced.clock();
            clocks.extend([clock, clock + TAU / 2.0]);
        }
        let (first, last) = (region.meridian.points()[0], region.meridian.points()[region.meridian.points().len() - 1]);
        for Station { t: station, r: radius } in [first, last] {
            clocks.extend(corners(about, t, region, station, radius));
            let others = later.iter().filter(|other| !std::ptr::eq(**other, *region));
            clocks.extend(end_edge(about, t, &region.axis, station).iter().flat_map(|edge| {
                others.clone().flat_map(|other| {
                    let ends = other.within_along(*edge);
                    let ends: SmallVec<[f64; 4]> = ends.iter().flat_map(|(from, to)| [from, to]).collect();
                    let found = ends.into_iter().filter(|end| end.is_finite());
                    found.flat_map(|end| both_sides(about.see(edge.start + edge.direction * end).clock()))
                })
            }));
        }
    }
    clocks
}

/// The line in which an axis's plane at `station` meets the plane at `t`; `None` where they are parallel.
fn end_edge(about: &Axis, t: f64, axis: &Axis, station: f64) -> Option<Ray> {
    let along = about.along().cross(axis.along());
    let sine = along.length();
    if sine < 1e-9 {
        return None;
    }
    let start = about.point(t, 0.0, 0.0);
    // In the plane at `t`, square to the line.
    let across = along.cross(about.along()) * (1.0 / sine);
    let off = (axis.point(station, 0.0, 0.0) - start).dot(axis.along()) / across.dot(axis.along());
    Some(Ray { start: start + across * off, direction: along * (1.0 / sine) })
}

/// A hair to either side of a direction in which something ends.
fn both_sides(clock: f64) -> [f64; 2] {
    [clock - 1e-7, clock + 1e-7]
}

/// Clock directions of the points of the plane at `t` that lie on the region's end circle at `station`, nudged inside
/// its span on both sides.
fn corners(about: &Axis, t: f64, region: &Revolved, station: f64, radius: f64) -> Vec<f64> {
    // On the end plane, points are origin + along station + right r sin + up r cos; the plane's height is linear in
    // sin and cos.
    let axis = &region.axis;
    let plane = about.point(t, 0.0, 0.0);
    let normal = about.along();
    let constant = (axis.point(station, 0.0, 0.0) - plane).dot(normal);
    let (a, b) = (radius * axis.right().dot(normal), radius * axis.up().dot(normal));
    let size = a.hypot(b);
    if size < 1e-12 || constant.abs() > size {
        return Vec::new();
    }
    let (middle, spread) = (a.atan2(b), (-constant / size).acos());
    let mut clocks = Vec::with_capacity(4);
    for clock in [middle + spread, middle - spread] {
        let seen = about.see(axis.point(station, radius, clock));
        clocks.extend(both_sides(seen.clock()));
    }
    clocks
}

/// Whether the plane at `t` meets the span of a region anywhere within its largest radius.
fn reaches(about: &Axis, t: f64, region: &Revolved) -> bool {
    let Some(pierced) = pierced(about, t, &region.axis) else { return true };
    let along = region.axis.along().dot(about.along()).abs();
    let lean = region.meridian.largest_radius() * (1.0 - along * along).max(0.0).sqrt() / along;
    let station = region.axis.see(pierced).t;
    let (from, to) = region.span();
    station + lean >= from - 1e-9 && station - lean <= to + 1e-9
}

/// Where an axis pierces the plane square to `about` at `t`; `None` when it runs along the plane.
fn pierced(about: &Axis, t: f64, axis: &Axis) -> Option<Vector> {
    let along = axis.along().dot(about.along());
    let centre = about.point(t, 0.0, 0.0);
    (along.abs() > 1e-9).then(|| axis.origin() - axis.along() * ((axis.origin() - centre).dot(about.along()) / along))
}
