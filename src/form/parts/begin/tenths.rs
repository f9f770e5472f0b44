//! Sizes as one would choose them: rounded.

/// To the nearest tenth of a millimetre.
pub(super) fn to_tenth(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// To the nearest hundredth of a millimetre.
pub(super) fn to_hundredth(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}
