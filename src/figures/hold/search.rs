//! The greatest value of a function of one number.

use crate::geometry::search::narrow;

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
