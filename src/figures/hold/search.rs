//! The greatest value of a function of one number.

/// Where `value` is greatest between `low` and `high`, to within `tolerance`: the best of `steps` + 1 places, then
/// narrowed between its neighbours. Of two peaks nearer than a step, either may be found.
pub(super) fn greatest(
    (low, high): (f64, f64),
    steps: u32,
    tolerance: f64,
    mut coarse: impl FnMut(f64) -> f64,
    mut fine: impl FnMut(f64) -> f64,
) -> f64 {
    let step = (high - low) / f64::from(steps);
    let mut best = (low, f64::NEG_INFINITY);
    for i in 0..=steps {
        let place = low + step * f64::from(i);
        let value = coarse(place);
        if value > best.1 {
            best = (place, value);
        }
    }
    narrow(((best.0 - step).max(low), (best.0 + step).min(high)), tolerance, &mut fine)
}

/// Golden-section search.
fn narrow((mut low, mut high): (f64, f64), tolerance: f64, value: &mut impl FnMut(f64) -> f64) -> f64 {
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
