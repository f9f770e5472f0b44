//! Where a function of one number is greatest.

/// Where `value` is greatest between two places, to within `tolerance`, by golden sections: at most 60. Of several peaks
/// between them any may be found.
///
/// Time: the logarithm of the stretch over the tolerance.
pub fn narrow((mut low, mut high): (f64, f64), tolerance: f64, value: &mut dyn FnMut(f64) -> f64) -> f64 {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let mut left = high - golden * (high - low);
    let mut right = low + golden * (high - low);
    let (mut at_left, mut at_right) = (value(left), value(right));
    for _ in 0..60 {
        if high - low <= tolerance {
            break;
        }
        if at_left >= at_right {
            high = right;
            (right, at_right) = (left, at_left);
            left = high - golden * (high - low);
            at_left = value(left);
        } else {
            low = left;
            (left, at_left) = (right, at_right);
            right = low + golden * (high - low);
            at_right = value(right);
        }
    }
    (low + high) / 2.0
}
