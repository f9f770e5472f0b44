//! Flattening of profile curves in the half-plane of an axis (station `t`, radius `r`).

use kurbo::{CubicBez, Point};

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
pub(crate) fn flatten(from: (f64, f64), to: (f64, f64), segment: Segment, tolerance: f64, out: &mut Vec<(f64, f64)>) {
    match segment {
        Segment::Line => {}
        Segment::Arc { bulge } => {
            let first = out.len();
            flatten_arc(from, to, bulge, tolerance, out);
            // A cove may dip below the axis; there is no wood to take there.
            out[first..].iter_mut().for_each(|p| p.1 = p.1.max(0.0));
        }
        Segment::Ogee => flatten_ogee(from, to, tolerance, out),
    }
    out.push(to);
}

/// Whether an arc between two points stays a function of `t`: it does not turn back under itself.
#[must_use]
pub fn arc_is_single_valued(from: (f64, f64), to: (f64, f64), bulge: f64) -> bool {
    let (dt, dr) = (to.0 - from.0, to.1 - from.1);
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

fn flatten_arc(from: (f64, f64), to: (f64, f64), bulge: f64, tolerance: f64, out: &mut Vec<(f64, f64)>) {
    let (dt, dr) = (to.0 - from.0, to.1 - from.1);
    let chord = dt.hypot(dr);
    if chord <= 0.0 || bulge.abs() < 1e-9 {
        return;
    }
    let radius = (chord * chord / 4.0 + bulge * bulge) / (2.0 * bulge.abs());
    let half_angle = 2.0 * (2.0 * bulge.abs() / chord).atan();
    // Centre: from the chord's middle, square to it, on the far side from the bulge.
    let (normal_t, normal_r) = (-dr / chord, dt / chord);
    let toward = (bulge.abs() - radius) * bulge.signum();
    let centre = (from.0 + dt / 2.0 + normal_t * toward, from.1 + dr / 2.0 + normal_r * toward);
    let start = (from.1 - centre.1).atan2(from.0 - centre.0);
    // An arc above its chord runs clockwise from left to right.
    let sweep = -2.0 * half_angle * bulge.signum();
    let step = 2.0 * (1.0 - (tolerance / radius).min(1.0)).acos().max(1e-3);
    let count = (sweep.abs() / step).ceil().clamp(1.0, MOST_POINTS);
    let mut t_before = from.0;
    for i in 1..count as usize {
        let angle = start + sweep * i as f64 / count;
        // A quarter round may lean back by rounding: stations never fall.
        let t = (centre.0 + radius * angle.cos()).clamp(t_before, to.0.max(t_before));
        t_before = t;
        out.push((t, centre.1 + radius * angle.sin()));
    }
}

fn flatten_ogee(from: (f64, f64), to: (f64, f64), tolerance: f64, out: &mut Vec<(f64, f64)>) {
    let middle = (from.0 + to.0) / 2.0;
    let curve = CubicBez::new(from, (middle, from.1), (middle, to.1), to);
    let path = [kurbo::PathEl::MoveTo(from.into()), kurbo::PathEl::CurveTo(curve.p1, curve.p2, curve.p3)];
    let mut t_before = from.0;
    kurbo::flatten(path, tolerance, |element| {
        if let kurbo::PathEl::LineTo(Point { x, y }) = element {
            // Rounding near the ends must not make a station fall.
            t_before = x.clamp(t_before, to.0.max(t_before));
            out.push((t_before, y.max(0.0)));
        }
    });
    // The end itself is appended by the caller.
    out.pop();
}

/// The points of an arc from `from` to `to` that stands off its chord by `bulge` (positive upward), both ends
/// included, chords within `tolerance` mm.
#[must_use]
pub fn arc_points(from: (f64, f64), to: (f64, f64), bulge: f64, tolerance: f64) -> Vec<(f64, f64)> {
    let mut points = vec![from];
    flatten_arc(from, to, bulge, tolerance, &mut points);
    points.push(to);
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rounding once made the last station of this ogee fall behind the one before it.
    #[test]
    fn stations_of_an_ogee_never_fall() {
        for i in 0..4000 {
            let from = (25.0 + 0.01 * f64::from(i), 4.0);
            let mut points = vec![from];
            flatten(from, (from.0 + 40.0, 6.0 + 0.003 * f64::from(i)), Segment::Ogee, 0.01, &mut points);
            assert!(points.windows(2).all(|w| w[0].0 <= w[1].0), "from {from:?}");
        }
    }
}
