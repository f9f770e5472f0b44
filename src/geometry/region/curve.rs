//! Flattening of profile curves in the half-plane of an axis (station `t`, radius `r`).

use kurbo::{CubicBez, Point, Vec2};

/// A segment between two points of a profile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Straight.
    Line,
    /// A circular arc that stands off its chord by `bulge`, positive toward greater `r`.
    Arc {
        /// Signed height over the chord, in mm.
        bulge: f64,
    },
    /// A smooth S, parallel to the axis at both ends.
    Ogee,
}

/// Appends to `out` the points after `(t0, r0)` of a segment that ends at `(t1, r1)`, chords within `tolerance` mm.
///
/// The chords hold the curve's own area but for the first and the last: see [`balance`].
pub(crate) fn flatten(from: Point, to: Point, segment: Segment, tolerance: f64, out: &mut Vec<Point>) {
    let first = out.len();
    match segment {
        Segment::Line => {}
        Segment::Arc { bulge } => flatten_arc(from, to, bulge, tolerance, out),
        Segment::Ogee => flatten_ogee(from, to, tolerance, out),
    }
    balance(from, to, &mut out[first..]);
    // A cove may dip below the axis; there is no wood to take there.
    out[first..].iter_mut().for_each(|p| p.y = p.y.max(0.0));
    out.push(to);
}

/// Moves the inner points of a flattened curve off it, so that the chords hold the curve's own area: chords between
/// points on a curve cut off two thirds of their arcs' height, always on the hollow side.
///
/// A point stands off the line between its neighbours by four times the height of a chord's arc where points are evenly
/// spaced: it moves by a sixth of that. It then lies off the curve by two thirds of what the chords did.
fn balance(from: Point, to: Point, inner: &mut [Point]) {
    let (mut before, mut least_t) = (from, from.x);
    for i in 0..inner.len() {
        let (here, after) = (inner[i], inner.get(i + 1).copied().unwrap_or(to));
        let moved = |here: f64, before: f64, after: f64| here + (here - (before + after) / 2.0) / 6.0;
        // Where a curve is square to the axis its stations must still not fall.
        let t = between(moved(here.x, before.x, after.x), least_t, to.x);
        inner[i] = Point::new(t, moved(here.y, before.y, after.y));
        (before, least_t) = (here, t);
    }
}

/// Whether an arc between two points stays a function of `t`: it does not turn back under itself.
#[must_use]
pub fn arc_is_single_valued(from: Point, to: Point, bulge: f64) -> bool {
    let (dt, dr) = (to.x - from.x, to.y - from.y);
    let chord = dt.hypot(dr);
    if chord <= 0.0 {
        return bulge == 0.0;
    }
    // Half the angle the arc spans, which is the angle between chord and end tangents.
    let half_angle = 2.0 * (2.0 * bulge.abs() / chord).atan();
    let slope = dr.abs().atan2(dt);
    half_angle + slope <= std::f64::consts::FRAC_PI_2 + ANGLE_SLACK
}

/// Lets a quarter round end exactly square to the axis in spite of rounding, and of figures typed to 0.001 mm.
const ANGLE_SLACK: f64 = 2e-3;

/// More points than this on one curve would only be asked for by absurd sizes.
const MOST_POINTS: f64 = 400.0;

fn flatten_arc(from: Point, to: Point, bulge: f64, tolerance: f64, out: &mut Vec<Point>) {
    let (dt, dr) = (to.x - from.x, to.y - from.y);
    let chord = dt.hypot(dr);
    if chord <= 0.0 || bulge.abs() < 1e-9 {
        return;
    }
    let radius = (chord * chord / 4.0 + bulge * bulge) / (2.0 * bulge.abs());
    let half_angle = 2.0 * (2.0 * bulge.abs() / chord).atan();
    // Centre: from the chord's middle, square to it, on the far side from the bulge.
    let (normal_t, normal_r) = (-dr / chord, dt / chord);
    let toward = (bulge.abs() - radius) * bulge.signum();
    let centre = (from.x + dt / 2.0 + normal_t * toward, from.y + dr / 2.0 + normal_r * toward);
    let start = (from.y - centre.1).atan2(from.x - centre.0);
    // An arc above its chord runs clockwise from left to right.
    let sweep = -2.0 * half_angle * bulge.signum();
    let step = 2.0 * (1.0 - (tolerance / radius).min(1.0)).acos().max(1e-3);
    let count = (sweep.abs() / step).ceil().clamp(1.0, MOST_POINTS);
    let mut t_before = from.x;
    for i in 1..count as usize {
        let angle = start + sweep * i as f64 / count;
        // A quarter round may lean back by rounding: stations never fall.
        let t = between(centre.0 + radius * angle.cos(), t_before, to.x);
        t_before = t;
        out.push(Point::new(t, centre.1 + radius * angle.sin()));
    }
}

fn flatten_ogee(from: Point, to: Point, tolerance: f64, out: &mut Vec<Point>) {
    let middle = (from.x + to.x) / 2.0;
    let curve = CubicBez::new(from, Point::new(middle, from.y), Point::new(middle, to.y), to);
    let path = [kurbo::PathEl::MoveTo(from), kurbo::PathEl::CurveTo(curve.p1, curve.p2, curve.p3)];
    let mut t_before = from.x;
    kurbo::flatten(path, tolerance, |element| {
        if let kurbo::PathEl::LineTo(Point { x, y }) = element {
            // Rounding near the ends must not make a station fall.
            t_before = between(x, t_before, to.x);
            out.push(Point::new(t_before, y.max(0.0)));
        }
    });
    // The end itself is appended by the caller.
    out.pop();
}

/// The point `(t, r)` of a segment that lies farthest the way `(along, out)`, of length 1. Exact: for an ogee, where the
/// cubic's tangent is square to that.
#[must_use]
pub fn farthest_along(from: Point, to: Point, segment: Segment, toward: Vec2) -> Point {
    let height = |p: &Point| p.x * toward.x + p.y * toward.y;
    let mut best = if height(&from) >= height(&to) { from } else { to };
    let mut consider = |p: Point| {
        if height(&p) > height(&best) {
            best = p;
        }
    };
    match segment {
        Segment::Line => {}
        Segment::Arc { bulge } => {
            let (dt, dr) = (to.x - from.x, to.y - from.y);
            let chord = dt.hypot(dr);
            if bulge > 0.0 && chord > 0.0 {
                let radius = (chord * chord / 4.0 + bulge * bulge) / (2.0 * bulge);
                let normal = (-dr / chord, dt / chord);
                let centre =
                    (from.x + dt / 2.0 + normal.0 * (bulge - radius), from.y + dr / 2.0 + normal.1 * (bulge - radius));
                let point = Point::new(centre.0 + radius * toward.x, centre.1 + radius * toward.y);
                // On the arc, and not on the rest of its circle.
                if (point.x - from.x) * normal.0 + (point.y - from.y) * normal.1 >= 0.0 {
                    consider(point);
                }
            }
        }
        Segment::Ogee => {
            // Heights of the control points; their cubic's slope is a quadratic.
            let middle = (from.x + to.x) / 2.0;
            let [a, b, c, d] = [from, Point::new(middle, from.y), Point::new(middle, to.y), to].map(|p| height(&p));
            let (p, q, r) = (d - 3.0 * c + 3.0 * b - a, 2.0 * (c - 2.0 * b + a), b - a);
            for u in roots(p, q, r) {
                let v = 1.0 - u;
                let blend = |a: f64, b: f64, c: f64, d: f64| {
                    a * v * v * v + 3.0 * b * u * v * v + 3.0 * c * u * u * v + d * u * u * u
                };
                consider(Point::new(blend(from.x, middle, middle, to.x), blend(from.y, from.y, to.y, to.y)));
            }
        }
    }
    best
}

/// The roots of `p u^2 + q u + r` between 0 and 1.
fn roots(p: f64, q: f64, r: f64) -> impl Iterator<Item = f64> {
    let all = if p.abs() <= 1e-12 * q.abs() {
        [-r / q, f64::NAN]
    } else {
        let root = (q * q - 4.0 * p * r).sqrt();
        let sum = -0.5 * (q + root.copysign(q));
        [sum / p, r / sum]
    };
    all.into_iter().filter(|u| (0.0..=1.0).contains(u))
}

/// The points of an arc from `from` to `to` that stands off its chord by `bulge` (positive upward), both ends
/// included, chords within `tolerance` mm.
#[must_use]
pub fn arc_points(from: Point, to: Point, bulge: f64, tolerance: f64) -> Vec<Point> {
    let mut points = vec![from];
    flatten_arc(from, to, bulge, tolerance, &mut points);
    points.push(to);
    points
}

/// The rise per mm of an arc's tangent at `from`; see [`arc_points`]. Infinite where it stands upright.
#[must_use]
pub fn arc_start_slope(from: Point, to: Point, bulge: f64) -> f64 {
    let (dt, dr) = (to.x - from.x, to.y - from.y);
    // Between chord and tangent lies half the angle the arc spans.
    let angle = dr.atan2(dt) + 2.0 * (2.0 * bulge).atan2(dt.hypot(dr));
    if angle.abs() < std::f64::consts::FRAC_PI_2 { angle.tan() } else { f64::INFINITY.copysign(angle) }
}

/// A number held between two others, the lower one first. Numbers too large to compute with make it the lower one.
fn between(number: f64, from: f64, to: f64) -> f64 {
    number.max(from).min(to.max(from))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The area under a chain, from its first point to its last.
    fn area(points: &[Point]) -> f64 {
        points.windows(2).map(|w| (w[1].x - w[0].x) * (w[0].y + w[1].y) / 2.0).sum()
    }

    /// A circular segment holds r^2 (a - sin a cos a), a half its angle (MathWorld, Circular Segment); a symmetric ogee
    /// as much as the straight line.
    #[test]
    fn chords_hold_the_area_of_their_curve() {
        let (from, to) = (Point::new(3.0, 20.0), Point::new(47.0, 11.0));
        let chord = 44.0_f64.hypot(9.0);
        for bulge in [7.0, -2.5, 0.4] {
            let radius = chord * chord / (8.0 * f64::abs(bulge)) + f64::abs(bulge) / 2.0;
            let half = 2.0 * (2.0 * f64::abs(bulge) / chord).atan();
            let segment = radius * radius * (half - half.sin() * half.cos()) * bulge.signum();
            for tolerance in [0.05, 0.01, 0.001] {
                let mut points = vec![from];
                flatten(from, to, Segment::Arc { bulge }, tolerance, &mut points);
                let off = area(&points) - 44.0 * 15.5 - segment;
                // Only the first and the last chord may lose anything.
                let lost = chord * tolerance / (points.len() - 1) as f64;
                assert!(off.abs() < lost, "{bulge} within {tolerance}: off by {off}, allowed {lost}");
            }
        }
        let mut points = vec![from];
        flatten(from, to, Segment::Ogee, 0.01, &mut points);
        assert!((area(&points) - 44.0 * 15.5).abs() < 0.02, "{}", area(&points));
    }

    /// A circle through (10, 0) and (50, 0) that sags 8 mm has its centre 21 mm above them.
    #[test]
    fn the_tangent_of_an_arc_is_square_to_its_radius() {
        assert!((arc_start_slope(Point::new(10.0, 0.0), Point::new(50.0, 0.0), -8.0) + 20.0 / 21.0).abs() < 1e-12);
        assert!((arc_start_slope(Point::new(10.0, 0.0), Point::new(50.0, 0.0), 8.0) - 20.0 / 21.0).abs() < 1e-12);
        assert_eq!(arc_start_slope(Point::new(10.0, 0.0), Point::new(50.0, 0.0), -20.0), f64::NEG_INFINITY);
    }

    /// Rounding once made the last station of this ogee fall behind the one before it.
    #[test]
    fn stations_of_an_ogee_never_fall() {
        for i in 0..4000 {
            let from = Point::new(25.0 + 0.01 * f64::from(i), 4.0);
            let mut points = vec![from];
            flatten(from, Point::new(from.x + 40.0, 6.0 + 0.003 * f64::from(i)), Segment::Ogee, 0.01, &mut points);
            assert!(points.windows(2).all(|w| w[0].x <= w[1].x), "from {from:?}");
        }
    }
}
