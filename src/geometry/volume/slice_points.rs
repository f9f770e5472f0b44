//! Points of a slice: where a profile's corner shows, and where two outlines cross.

use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::revolved::Revolved;

/// Two outlines cross at a point where their slopes there span more than this, of 1 where they are square to each other: on
/// outlines that touch, Newton's steps lead nowhere.
const CROSSES_WELL: f64 = 1e-3;
/// A circle that reaches less far than this along the blank, in mm, is square to it: it lies in one slice or in none.
const RISES_MM: f64 = 1e-12;

/// The two points of the circle at a profile's node that lie in the slice at `s`.
pub(super) fn corner_points(revolved: &Revolved, Station { t, r: radius }: Station, s: f64) -> Option<[Vector; 2]> {
    let axis = &revolved.axis;
    let (a, b) = (radius * axis.right().s, radius * axis.up().s);
    let (size, rise) = (a.hypot(b), s - axis.point(t, 0.0, 0.0).s);
    if size < RISES_MM || rise.abs() > size {
        return None;
    }
    let (middle, spread) = (a.atan2(b), (rise / size).acos());
    Some([middle + spread, middle - spread].map(|clock| axis.point(t, radius, clock)))
}

/// The height where the outlines of two regions cross in a slice, by Newton's method from a point near it.
pub(super) fn crossing_near(a: &Revolved, b: &Revolved, near: Vector) -> Option<f64> {
    const STEP: f64 = 1e-4;
    // An outline that ends well before the point does not cross anything there.
    const PAST_END: f64 = 1.0;
    let past_end = |region: &Revolved| {
        let (t, (from, to)) = (region.axis.see(near).t, region.span());
        t < from - PAST_END || t > to + PAST_END
    };
    if past_end(a) || past_end(b) {
        return None;
    }
    let mut at = near;
    for _ in 0..2 {
        let [(fa, ax, ay), (fb, bx, by)] = [a, b].map(|region| {
            let here = region.signed_distance(at);
            let slope = |d: Vector| (region.signed_distance(at + d) - here) / STEP;
            (here, slope(Vector::new(STEP, 0.0, 0.0)), slope(Vector::new(0.0, STEP, 0.0)))
        });
        let determinant = ax * by - ay * bx;
        if determinant.abs() < CROSSES_WELL {
            return None;
        }
        at = at - Vector::new((fa * by - fb * ay) / determinant, (fb * ax - fa * bx) / determinant, 0.0);
    }
    at.is_finite().then_some(at.y)
}
