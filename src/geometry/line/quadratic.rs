//! Where a quadratic is not positive, and where what is linear is not negative.

use crate::geometry::line::intervals::Intervals;

/// The places where `a x^2 + 2 b x + c <= 0`. Numerically stable for small `a`.
#[must_use]
pub fn not_positive(a: f64, b: f64, c: f64) -> Intervals {
    let scale = a.abs().max(b.abs()).max(c.abs());
    if !scale.is_finite() {
        return Intervals::none();
    }
    if a.abs() <= scale * 1e-15 {
        return linear(2.0 * b, c);
    }
    let discriminant = b * b - a * c;
    if discriminant <= 0.0 {
        return if a > 0.0 { Intervals::none() } else { Intervals::all() };
    }
    // The larger of the two sums first, so that nothing cancels.
    let sum = -(b + discriminant.sqrt().copysign(b));
    let (p, q) = (sum / a, c / sum);
    let inside = Intervals::one(p.min(q), p.max(q));
    if a > 0.0 { inside } else { inside.complement() }
}

/// The places where `slope x + value <= 0`.
fn linear(slope: f64, value: f64) -> Intervals {
    if slope == 0.0 {
        return if value <= 0.0 { Intervals::all() } else { Intervals::none() };
    }
    let root = -value / slope;
    if slope > 0.0 { Intervals::one(f64::NEG_INFINITY, root) } else { Intervals::one(root, f64::INFINITY) }
}

/// The part of a stretch where `value + slope x >= 0`; `None` when it is negative all over for want of slope. Otherwise
/// the part may be empty: its end then comes before its start.
#[must_use]
pub fn not_negative((low, high): (f64, f64), value: f64, slope: f64) -> Option<(f64, f64)> {
    let root = -value / slope;
    if slope == 0.0 || !root.is_finite() {
        return if value < 0.0 { None } else { Some((low, high)) };
    }
    Some(if slope > 0.0 { (low.max(root), high) } else { (low, high.min(root)) })
}
