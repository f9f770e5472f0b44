//! A neck that bears what it lacks.

use crate::figures::checks::Check;

/// The least that a neck grows at a time, in mm. A choice of ours, no source.
const STEP_MM: f64 = 0.5;
/// A handle is this much thicker than its neck, in mm. A choice of ours, no source.
const OVER_NECK_MM: f64 = 3.0;

/// Diameters of neck and handle, in mm, with which the neck bears what a check of strength misses: a round's modulus grows
/// with the third power of its diameter. The neck is no thicker than `most_mm`, unless it is already.
pub(super) fn thickened(check: &Check, (neck_mm, handle_mm): (f64, f64), most_mm: f64) -> (f64, f64) {
    let short = check.limit.zip(check.value).map_or(1.0, |(limit, value)| (limit / value.max(0.1 * limit)).cbrt());
    let wanted = (neck_mm * short).max(neck_mm + STEP_MM);
    let stepped = (wanted / STEP_MM).ceil() * STEP_MM;
    let neck_mm = stepped.min(most_mm).max(neck_mm);
    (neck_mm, handle_mm.max(neck_mm + OVER_NECK_MM))
}
