//! The hollow under its openings, measured along lines: for the rare pieces whose openings do not all run across.

use super::elements::Elements;
use crate::geometry::{Intervals, Ray, Revolved, Role, Solid, Vector};

/// Lines each way.
const LINES: usize = 48;

/// Volume of the hollows past s = 0, within the outside and under every opening, in mm3. No surface lies
/// more than `margin` mm past the outermost elements.
pub(super) fn by_lines(solid: &Solid, hollows: &[&Revolved], elements: &Elements, margin: f64) -> f64 {
    let (s0, s1) = range(&elements.s, margin);
    let (y0, y1) = range(&elements.y, margin);
    let (ds, dy) = ((s1 - s0) / LINES as f64, (y1 - y0) / LINES as f64);
    let mut length = 0.0;
    for i in 0..LINES {
        for j in 0..LINES {
            let (s, y) = (s0 + ds * (i as f64 + 0.5), y0 + dy * (j as f64 + 0.5));
            let ray = Ray { start: Vector::new(0.0, y, s), direction: Vector::new(1.0, 0.0, 0.0) };
            length += hollow_along(solid, hollows, ray).length();
        }
    }
    length * ds * dy
}

fn hollow_along(solid: &Solid, hollows: &[&Revolved], ray: Ray) -> Intervals {
    let hollow = hollows.iter().fold(Intervals::none(), |all, h| all.union(&h.along(ray)));
    let taken = solid.removals.iter().filter(|r| r.role != Role::Inside);
    let inside = solid.stock.along(ray).intersection(&hollow);
    taken.fold(inside, |left, removal| if left.is_empty() { left } else { left.minus(&removal.region.along(ray)) })
}

fn range(values: &[f64], margin: f64) -> (f64, f64) {
    let (low, high) =
        values.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(*v), high.max(*v)));
    (low - margin, high + margin)
}
