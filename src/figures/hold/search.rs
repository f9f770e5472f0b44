//! The greatest value of a function of one number.

use crate::geometry::line::search::golden_maximum_within;

/// Where `value` is greatest between `low` and `high`, to within `tolerance`: the best of `steps` + 1 places, then
/// narrowed between its neighbours. Of two peaks nearer than a step, either may be found.
pub(super) fn greatest(
    (low, high): (f64, f64),
    steps: u32,
    tolerance: f64,
    mut coarse: impl FnMut(f64) -> f64,
    fine: impl FnMut(f64) -> f64,
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
    golden_maximum_within((best.0 - step).max(low)..=(best.0 + step).min(high), tolerance, fine).middle
}

/// Where `value`, which bends evenly, is about greatest between `low` and `high`: the best of `steps` + 1 places (at
/// least 2 steps), then the crests of parabolas through the best three, until one gains no more than the share `gain`.
pub(super) async fn crest((low, high): (f64, f64), steps: u32, gain: f64, value: impl AsyncFn(f64) -> f64) -> f64 {
    let step = (high - low) / f64::from(steps);
    let mut known: Vec<(f64, f64)> = Vec::with_capacity(steps as usize + 6);
    for i in 0..=steps {
        let place = low + step * f64::from(i);
        known.push((place, value(place).await));
    }
    for _ in 0..MOST_CRESTS {
        let best = highest(&known);
        // At an end it takes another place beside it to see whether it still rises.
        let inner = best.clamp(1, known.len() - 2);
        let (a, b, c) = (known[inner - 1], known[inner], known[inner + 1]);
        let at_end_of_wide = inner != best && c.0 - a.0 > step * 1.25;
        let place = if at_end_of_wide { (known[best].0 + b.0) / 2.0 } else { top(a, b, c).clamp(a.0, c.0) };
        if known.iter().any(|k| (k.0 - place).abs() < step * 0.01) || place.is_nan() {
            break;
        }
        let next = known.partition_point(|k| k.0 < place);
        let (before, found) = (known[best].1, value(place).await);
        known.insert(next, (place, found));
        if !at_end_of_wide && found <= before * (1.0 + gain) {
            break;
        }
    }
    known[highest(&known)].0
}

/// Crests tried, at most.
const MOST_CRESTS: u32 = 5;

fn highest(known: &[(f64, f64)]) -> usize {
    let mut best = 0;
    for (i, point) in known.iter().enumerate() {
        if point.1 > known[best].1 {
            best = i;
        }
    }
    best
}

/// Where the parabola through three points is highest; for one that is not, the higher end.
fn top(a: (f64, f64), b: (f64, f64), c: (f64, f64)) -> f64 {
    let (left, right) = ((b.1 - a.1) / (b.0 - a.0), (c.1 - b.1) / (c.0 - b.0));
    let bend = (right - left) / (c.0 - a.0);
    if bend < 0.0 {
        (a.0 + b.0) / 2.0 - left / (2.0 * bend)
    } else if a.1 > c.1 {
        a.0
    } else {
        c.0
    }
}
