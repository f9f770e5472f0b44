//! The farthest point of a profile's inside from another axis, in a plane square to that axis.

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::plane::Plane;
use crate::geometry::frame::station::Station;
use crate::geometry::frame::tolerance::PARALLEL;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::pace::spend;
use crate::geometry::line::search::bisect;
use crate::geometry::plane::conic::{AxisInPlane, ConicPiece};
use crate::geometry::region::revolved::Revolved;

/// The farthest point found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Farthest {
    /// Its distance from the axis that the plane is square to, in mm.
    pub distance: f64,
    /// The point, moved by a hair into the stretch of the plane that it ends.
    pub inside: Vector,
}

/// How far the point is moved from the end of a stretch, in mm.
const HAIR: f64 = 1e-5;
/// Halvings in searches along the plane: the last is shorter than 1e-6 mm.
const HALVINGS: u32 = 28;

/// The farthest point from `about`, in the plane square to it at station `t`, that lies between a region's end planes
/// and within its profile, whichever side of it the region is. `None` where there is none. Exact for the chain to
/// 1e-6 mm.
pub(crate) fn farthest_within(about: &Axis, t: f64, region: &Revolved) -> Option<Farthest> {
    let centre = about.point(t, 0.0, 0.0);
    let frame = AxisInPlane::new(&Plane::square_to(about, t), &region.axis);
    if frame.sine < PARALLEL {
        return parallel(centre, region);
    }
    let (start, end) = (region.meridian.start(), region.meridian.end());
    let reach = region.meridian.largest_radius();
    // Off the middle line by m, where the profile is no wider than that, nothing is within it.
    let (low, high) = nearer_than(&frame, reach, start, end)?;
    let points = region.meridian.points();
    let (first, last) = (region.meridian.piece_at(low), region.meridian.piece_at(high));
    let mut best: Option<(f64, f64, f64)> = None;
    spend(4 * (last + 1 - first));
    for pair in points[first..=last + 1].windows(2) {
        let Some(stretch) = Stretch::new(&frame, pair[0], pair[1]) else { continue };
        if best.is_some_and(|b| stretch.bound(pair[0].r.max(pair[1].r)) <= b.0) {
            continue;
        }
        let mut consider = |u: f64| {
            let distance_sq = stretch.distance_sq(u);
            if best.is_none_or(|b| distance_sq > b.0) {
                let hair = HAIR.min((stretch.piece.high - stretch.piece.low) / 2.0);
                let inner = u.clamp(stretch.piece.low + hair, stretch.piece.high - hair);
                best = Some((distance_sq, inner, stretch.height(inner)));
            }
        };
        consider(stretch.piece.low);
        consider(stretch.piece.high);
        if stretch.aside > 0.0 {
            for half in stretch.halves() {
                stretch.peak(half).into_iter().for_each(&mut consider);
            }
        }
    }
    let (distance_sq, u, height) = best?;
    let aside = if frame.q0 > 0.0 { -frame.q0 - height } else { -frame.q0 + height };
    Some(Farthest { distance: distance_sq.sqrt(), inside: centre + frame.downhill * u + frame.level * aside })
}

fn parallel(centre: Vector, region: &Revolved) -> Option<Farthest> {
    let seen = region.axis.see(centre);
    if !(region.meridian.start() <= seen.t && seen.t <= region.meridian.end()) {
        return None;
    }
    // What a pass keeps reaches to the greater side of a step, from the station beside it.
    let (apart, radius) = (seen.radius(), region.meridian.greatest_at(seen.t));
    let away = region.axis.right() * seen.right + region.axis.up() * seen.up;
    let direction = away.unit().unwrap_or(region.axis.up());
    let foot = centre - away;
    Some(Farthest { distance: apart + radius, inside: foot - direction * radius })
}

/// The least and the greatest station in the plane, from `start` to `end`, where the middle line is nearer to the axis than
/// `reach`.
fn nearer_than(frame: &AxisInPlane, reach: f64, start: f64, end: f64) -> Option<(f64, f64)> {
    let (mut low, mut high) = (start, end);
    if frame.m1.abs() > PARALLEL {
        let at = |m: f64| frame.t0 + frame.sine * (m - frame.m0) / frame.m1;
        let (a, b) = (at(-reach), at(reach));
        (low, high) = (low.max(a.min(b)), high.min(a.max(b)));
    } else if frame.m0.abs() > reach {
        return None;
    }
    (low <= high).then_some((low, high))
}

/// What the plane shows of one straight piece of a profile: half heights whose square is `q2 u^2 + q1 u + q0`, about a
/// middle line `aside` from the plane's centre.
struct Stretch {
    piece: ConicPiece,
    q2: f64,
    q1: f64,
    q0: f64,
    aside: f64,
}

impl Stretch {
    fn new(frame: &AxisInPlane, from: Station, to: Station) -> Option<Self> {
        let piece = ConicPiece::new(from, to, frame, f64::INFINITY)?;
        let [q0, q1, q2] = piece.height_squared();
        Some(Self { piece, q2, q1, q0, aside: frame.q0.abs() })
    }

    fn height(&self, u: f64) -> f64 {
        self.piece.height(u)
    }

    fn distance_sq(&self, u: f64) -> f64 {
        let across = self.aside + self.height(u);
        u * u + across * across
    }

    /// What no squared distance exceeds, when no half height is more than `radius`.
    fn bound(&self, radius: f64) -> f64 {
        (self.piece.low * self.piece.low).max(self.piece.high * self.piece.high)
            + (self.aside + radius) * (self.aside + radius)
    }

    /// Half the slope of the squared distance.
    fn slope(&self, u: f64) -> f64 {
        let rise = self.q2 * u + self.q1 / 2.0;
        let height = self.height(u);
        let of_height = if height > 0.0 { rise / height } else { f64::INFINITY * rise };
        u + rise + self.aside * of_height
    }

    /// The two parts on which the half height only rises or only falls.
    fn halves(&self) -> [(f64, f64); 2] {
        let middle = (-self.q1 / (2.0 * self.q2)).clamp(self.piece.low, self.piece.high);
        let middle = if middle.is_nan() { self.piece.high } else { middle };
        [(self.piece.low, middle), (middle, self.piece.high)]
    }

    /// Where the squared distance comes to a peak inside one half, if it does.
    ///
    /// Its second derivative is a constant less another over the cube of the half height. So it peaks only where the
    /// half height is below some limit, at that end of the half, and there its slope only falls.
    fn peak(&self, (from, to): (f64, f64)) -> Option<f64> {
        if from >= to {
            return None;
        }
        let discriminant = self.q1 * self.q1 - 4.0 * self.q2 * self.q0;
        let steady = 4.0 * (1.0 + self.q2);
        let limit_cubed = self.aside * discriminant / steady;
        let bows = |u: f64| steady <= 0.0 || self.height(u).powi(3) < limit_cubed;
        let (mut low, mut high) = (from, to);
        match (bows(from), bows(to)) {
            (true, true) => {}
            (false, false) => return None,
            (true, false) => high = halve(from, to, bows),
            (false, true) => low = halve(from, to, |u| !bows(u)),
        }
        if !(self.slope(low) > 0.0 && self.slope(high) < 0.0) {
            return None;
        }
        Some(halve(low, high, |u| self.slope(u) > 0.0))
    }
}

/// Where something stops holding that holds from `low` on up to somewhere before `high`.
fn halve(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (holds, fails) = bisect((low, high), HALVINGS, holds);
    f64::midpoint(holds, fails)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::region::meridian::Meridian;
    use crate::geometry::region::revolved::{Fill, Ray};
    use std::f64::consts::TAU;

    fn region(axis: Axis, points: &[Station]) -> Revolved {
        Revolved { axis, meridian: Meridian::new(points.to_vec()).unwrap(), fill: Fill::Beyond }
    }

    /// The farthest end of what lies within the profile, along many lines from the axis.
    fn by_lines(about: &Axis, t: f64, region: &Revolved) -> Option<f64> {
        let start = about.point(t, 0.0, 0.0);
        let reach = |clock: f64| {
            let direction = about.point(t, 1.0, clock) - start;
            region.within_along(Ray { start, direction }).last_end().filter(|end| *end >= 0.0)
        };
        (0..20_000).filter_map(|i| reach(TAU * f64::from(i) / 20_000.0)).reduce(f64::max)
    }

    #[test]
    fn a_cylinder_across_reaches_as_far_as_its_half_chord() {
        // Square to axis A at s = 3 off its middle line: half chord 4 of radius 5, from x = -10 to 7.
        let across = Axis::new(Vector::new(0.0, 0.0, 20.0), Vector::new(1.0, 0.0, 0.0)).unwrap();
        let farthest =
            farthest_within(&Axis::A, 23.0, &region(across, &[Station::new(-10.0, 5.0), Station::new(7.0, 5.0)]))
                .unwrap();
        assert!((farthest.distance - 10_f64.hypot(4.0)).abs() < 1e-9, "{farthest:?}");
    }

    #[test]
    fn a_leaning_cylinder_reaches_as_far_as_its_ellipse() {
        let (sin, cos) = 20_f64.to_radians().sin_cos();
        let leaning = Axis::new(Vector::ZERO, Vector::new(0.0, sin, cos)).unwrap();
        let farthest =
            farthest_within(&Axis::A, 0.0, &region(leaning, &[Station::new(-50.0, 8.0), Station::new(50.0, 8.0)]))
                .unwrap();
        assert!((farthest.distance - 8.0 / cos).abs() < 1e-9, "{farthest:?}");
    }

    #[test]
    fn leaning_regions_that_pass_the_axis_by_reach_as_far_as_lines_tell() {
        let chain = [(-12.0, 3.0), (-4.0, 9.0), (0.0, 2.0), (0.0, 6.0), (9.0, 6.5), (14.0, 0.0)].map(Station::from);
        for i in 0..240 {
            let f = f64::from(i);
            let origin = Vector::new((f * 0.7).sin() * 9.0, (f * 1.3).cos() * 6.0, 5.0);
            let tilt = f / 240.0 * 3.1;
            let along = Vector::new(tilt.sin() * (f * 0.4).cos(), tilt.sin() * (f * 0.4).sin(), tilt.cos());
            let region = region(Axis::new(origin, along).unwrap(), &chain);
            let t = 5.0 + (f * 2.1).sin() * 12.0;
            let (found, expected) = (farthest_within(&Axis::A, t, &region), by_lines(&Axis::A, t, &region));
            match (found, expected) {
                (Some(found), Some(expected)) => {
                    let off = found.distance - expected;
                    assert!((-1e-6..3e-3).contains(&off), "{i}: {found:?} {expected}");
                    assert!((Axis::A.see(found.inside).radius() - found.distance).abs() < 2e-2, "{i}: {found:?}");
                }
                // Lines may miss a sliver.
                (Some(found), None) => assert!(found.distance > 0.0, "{i}: {found:?}"),
                (None, None) => {}
                (None, Some(expected)) => panic!("{i}: {expected}"),
            }
        }
    }
}
