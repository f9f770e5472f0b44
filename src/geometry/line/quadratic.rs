//! Where a quadratic is not positive, and where what is linear is not negative.

use crate::geometry::line::intervals::Intervals;

/// The places where `a x^2 + 2 b x + c <= 0`. Numerically stable for small `a`.
#[must_use]
pub fn not_positive(a: f64, b: f64, c: f64) -> Intervals {
    let mut set = Intervals::none();
    push_not_positive((a, b, c), (f64::NEG_INFINITY, f64::INFINITY), &mut set);
    set
}

/// Adds the places from `low` to `high` where `a x^2 + 2 b x + c <= 0` to a set that ends at or before `low`.
pub(crate) fn push_not_positive((a, b, c): (f64, f64, f64), (low, high): (f64, f64), set: &mut Intervals) {
    let scale = a.abs().max(b.abs()).max(c.abs());
    if !scale.is_finite() {
        return;
    }
    if a.abs() <= scale * 1e-15 {
        return push_linear((2.0 * b, c), (low, high), set);
    }
    let discriminant = b * b - a * c;
    if discriminant > 0.0 {
        // The larger of the two sums first, so that nothing cancels.
        let sum = -(b + discriminant.sqrt().copysign(b));
        let (p, q) = (sum / a, c / sum);
        let (from, to) = (p.min(q), p.max(q));
        if from < to {
            if a > 0.0 {
                set.push_rising(low.max(from), high.min(to));
            } else {
                set.push_rising(low, high.min(from));
                set.push_rising(low.max(to), high);
            }
            return;
        }
    }
    if a < 0.0 {
        set.push_rising(low, high);
    }
}

/// Adds the places from `low` to `high` where `slope x + value <= 0`.
fn push_linear((slope, value): (f64, f64), (low, high): (f64, f64), set: &mut Intervals) {
    let root = -value / slope;
    if slope == 0.0 {
        if value <= 0.0 {
            set.push_rising(low, high);
        }
    } else if slope > 0.0 {
        set.push_rising(low, high.min(root));
    } else {
        set.push_rising(low.max(root), high);
    }
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
