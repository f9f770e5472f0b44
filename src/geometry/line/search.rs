//! Searches along one number: where something stops holding, and where a function is greatest.

use std::ops::RangeInclusive;

/// The most steps of a search, however fine: a stretch of doubles cannot be halved more often.
const MOST_STEPS: u32 = 60;
/// The share of a stretch that golden sections keep.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Bisects between a place where a test holds and one where it fails, on either side of it. Returns the last place found
/// at which it holds and the first at which it fails; after `steps` halvings. Neither end is tested.
pub fn bisect((mut holds, mut fails): (f64, f64), steps: u32, mut test: impl FnMut(f64) -> bool) -> (f64, f64) {
    for _ in 0..steps {
        let middle = f64::midpoint(holds, fails);
        if test(middle) { holds = middle } else { fails = middle }
    }
    (holds, fails)
}

/// As [`bisect`], until both places are within `tolerance`.
pub fn bisect_within(ends: (f64, f64), tolerance: f64, test: impl FnMut(f64) -> bool) -> (f64, f64) {
    bisect(ends, steps_down((ends.1 - ends.0).abs(), tolerance, 0.5), test)
}

/// How often a stretch must shrink to a share of itself to come within a tolerance; [`MOST_STEPS`] at most.
fn steps_down(stretch: f64, tolerance: f64, share: f64) -> u32 {
    let mut left = stretch;
    (0..MOST_STEPS)
        .find(|_| {
            let is_within = left <= tolerance;
            left *= share;
            is_within
        })
        .unwrap_or(MOST_STEPS)
}

/// What golden sections find.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// The best place met.
    pub at: f64,
    /// The value there.
    pub value: f64,
    /// The middle of the stretch that is left.
    pub middle: f64,
}

/// Where `value` is greatest in a range, by so many golden sections. Of several peaks any may be found.
pub fn golden_maximum(range: RangeInclusive<f64>, steps: u32, mut value: impl FnMut(f64) -> f64) -> Peak {
    let (mut low, mut high) = range.into_inner();
    let mut look = |place: f64| (place, value(place));
    let mut left = look(high - GOLDEN * (high - low));
    let mut right = look(low + GOLDEN * (high - low));
    let mut best = if left.1 >= right.1 { left } else { right };
    for _ in 0..steps {
        let new = if left.1 >= right.1 {
            (high, right) = (right.0, left);
            left = look(high - GOLDEN * (high - low));
            left
        } else {
            (low, left) = (left.0, right);
            right = look(low + GOLDEN * (high - low));
            right
        };
        if new.1 > best.1 {
            best = new;
        }
    }
    Peak { at: best.0, value: best.1, middle: (low + high) / 2.0 }
}

/// As [`golden_maximum`], until the stretch is within `tolerance`.
///
/// Time: the logarithm of the stretch over the tolerance.
pub fn golden_maximum_within(range: RangeInclusive<f64>, tolerance: f64, value: impl FnMut(f64) -> f64) -> Peak {
    let steps = steps_down(range.end() - range.start(), tolerance, GOLDEN);
    golden_maximum(range, steps, value)
}
