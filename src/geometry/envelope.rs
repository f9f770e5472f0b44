//! How wide a profile about one axis must stay, for what other axes still need.

use std::f64::consts::TAU;

use super::axis::Axis;
use super::intervals::Intervals;
use super::revolved::{Fill, Ray, Revolved};
use super::vector::Vector;

/// Directions tried around the axis before the widest are searched more finely.
const COARSE: usize = 24;
/// Each refinement splits the bracket around the widest direction in this many steps on each side.
const SPLIT: usize = 4;
/// Refinements: the last step is TAU / 24 / 4^5, 0.00026 rad, or 0.01 mm at 40 mm even across a sudden end.
const REFINEMENTS: u32 = 5;

/// The least radius about `about`, at station `t`, that contains every point which lies between the end planes of at
/// least one of `later` and outside all of them: what later outside turning still needs there.
///
/// `None` where no later region reaches. In mm, within 0.01 mm.
#[must_use]
pub fn kept_radius(about: &Axis, t: f64, later: &[&Revolved]) -> Option<f64> {
    if later.is_empty() {
        return None;
    }
    let reach = |clock: f64| kept_reach(about, t, clock, later);
    widest(&special_clocks(about, t, later), reach)
}

/// The farthest kept point along one direction, in mm; `None` when nothing is kept there.
fn kept_reach(about: &Axis, t: f64, clock: f64, later: &[&Revolved]) -> Option<f64> {
    let start = about.point(t, 0.0, 0.0);
    let ray = Ray { start, direction: about.point(t, 1.0, clock) - start };
    let mut in_a_span = Intervals::none();
    let mut gone = Intervals::none();
    for region in later {
        in_a_span = in_a_span.union(&region.span_along(ray));
        gone = gone.union(&region.along(ray));
    }
    let end = in_a_span.minus(&gone).last_end()?;
    (end >= 0.0 && end.is_finite()).then_some(end)
}

/// The least radius about `about`, at station `t`, beyond which every point is at least `gap` from each of `solids`.
///
/// Zero where the solids are far. In mm, within 0.01 mm. Solids about the same axis are exact to 1e-4 mm.
#[must_use]
pub fn radius_clear_of(about: &Axis, t: f64, solids: &[&Revolved], gap: f64) -> f64 {
    let mut clear: f64 = 0.0;
    for solid in solids {
        let far = outer_bound(about, solid, gap);
        let reach = |clock: f64| Some(reach_clear_of(about, t, clock, solid, gap, far));
        let radius = if same_line(about, &solid.axis) { reach(0.0) } else { widest(&[], reach) };
        clear = clear.max(radius.unwrap_or(0.0));
    }
    clear
}

/// A radius about `about` that the solid and its gap cannot pass; open mouths count to 1 m before their start.
fn outer_bound(about: &Axis, solid: &Revolved, gap: f64) -> f64 {
    let start = solid.meridian.start() - if solid.fill == Fill::WithinOpen { 1000.0 } else { 0.0 };
    [start, solid.meridian.end()].iter().map(|t| about.see(solid.axis.point(*t, 0.0, 0.0)).radius()).fold(0.0, f64::max)
        + solid.meridian.largest_radius()
        + gap.max(0.0)
        + 1.0
}

/// Walks in from `far` by the free distance each time, so that it cannot step over the solid.
fn reach_clear_of(about: &Axis, t: f64, clock: f64, solid: &Revolved, gap: f64, far: f64) -> f64 {
    let mut radius = far;
    for _ in 0..200 {
        let free = solid.signed_distance(about.point(t, radius, clock)) - gap;
        if free < 1e-4 {
            return radius;
        }
        radius -= free;
        if radius <= 0.0 {
            return 0.0;
        }
    }
    radius
}

fn same_line(a: &Axis, b: &Axis) -> bool {
    a.along().cross(b.along()).length() < 1e-12 && a.see(b.origin()).radius() < 1e-9
}

/// The largest value over the clock: coarse steps and special directions first, then closer around the two best.
fn widest(special: &[f64], reach: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let step = TAU / COARSE as f64;
    let coarse = (0..COARSE).map(|i| i as f64 * step);
    let mut seen: Vec<(f64, f64)> =
        coarse.chain(special.iter().copied()).filter_map(|clock| reach(clock).map(|r| (r, clock))).collect();
    seen.sort_by(|a, b| b.0.total_cmp(&a.0));
    let best = seen.first()?;
    let runner_up = seen.iter().find(|s| angle_between(s.1, best.1) > 1.5 * step);
    let refined = [Some(best), runner_up].into_iter().flatten().map(|start| refine(*start, step, &reach));
    refined.reduce(f64::max)
}

fn angle_between(a: f64, b: f64) -> f64 {
    let apart = (a - b).rem_euclid(TAU);
    apart.min(TAU - apart)
}

fn refine(start: (f64, f64), coarse_step: f64, reach: &impl Fn(f64) -> Option<f64>) -> f64 {
    let (mut best, mut clock) = start;
    let mut step = coarse_step;
    for _ in 0..REFINEMENTS {
        step /= SPLIT as f64;
        let centre = clock;
        for i in 1..SPLIT {
            for side in [-1.0, 1.0] {
                let tried = centre + side * step * i as f64;
                if let Some(r) = reach(tried).filter(|r| *r > best) {
                    (best, clock) = (r, tried);
                }
            }
        }
    }
    best
}

/// Directions in which the widest point often lies: toward each later axis, away from it, and the corners where the
/// later regions' end planes meet their profiles.
fn special_clocks(about: &Axis, t: f64, later: &[&Revolved]) -> Vec<f64> {
    let mut clocks = Vec::with_capacity(6 * later.len());
    for region in later {
        let centre = about.point(t, 0.0, 0.0);
        let along = region.axis.along().dot(about.along());
        if along.abs() > 1e-9 {
            let offset = (region.axis.origin() - centre).dot(about.along());
            let pierced = about.see(region.axis.origin() - region.axis.along() * (offset / along));
            if pierced.radius() > 1e-9 {
                let clock = pierced.right.atan2(pierced.up);
                clocks.extend([clock, clock + TAU / 2.0]);
            }
        }
        let (first, last) = (region.meridian.points()[0], region.meridian.points()[region.meridian.points().len() - 1]);
        for (station, radius) in [first, last] {
            clocks.extend(corners(about, t, region, station, radius));
        }
    }
    clocks
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
        let towards = seen.right.atan2(seen.up);
        clocks.extend([towards - 1e-7, towards + 1e-7]);
    }
    clocks
}

/// The radius about `about` that contains a region's end circle at `station`: used to place fins and shoulders.
#[must_use]
pub fn end_circle_reach(about: &Axis, region: &Revolved, at_end: bool) -> (f64, f64) {
    let points = region.meridian.points();
    let (station, radius) = if at_end { points[points.len() - 1] } else { points[0] };
    let axis = &region.axis;
    let centre: Vector = axis.point(station, 0.0, 0.0);
    let lean = radius * (axis.right().dot(about.along()).powi(2) + axis.up().dot(about.along()).powi(2)).sqrt();
    let t = about.see(centre).t;
    (t - lean, t + lean)
}
