//! From a number to the text shown for it.

use super::MM_PER_INCH;
use crate::design::shop::{LengthUnit, Rounding};

/// Shown in place of a number that is not finite.
const NO_NUMBER: &str = "\u{2013}";
/// Fractions of an inch are not worth showing past this many inches.
const LARGEST_FRACTION_IN: f64 = 1.0e6;

/// The length given in mm as text without its unit: mm to one decimal, inches to three, or the nearest fraction in
/// lowest terms.
///
/// A fraction ends in `+` when the true length is more than a quarter of a step greater in size, in `-` when it is
/// more than a quarter of a step smaller. Never `-0`. A length that is not finite gives a dash.
#[must_use]
pub fn format_length(mm: f64, unit: LengthUnit, rounding: Rounding) -> String {
    match (unit, parts_of_an_inch(rounding)) {
        (LengthUnit::Millimetres, _) => format_number(mm, 1),
        (LengthUnit::Inches, Some(parts)) if (mm / MM_PER_INCH).abs() < LARGEST_FRACTION_IN => {
            nearest_fraction(mm / MM_PER_INCH, parts)
        }
        (LengthUnit::Inches, _) => format_number(mm / MM_PER_INCH, 3),
    }
}

/// What the marks after a fraction of an inch mean, in a sentence; `None` where lengths have no such marks.
#[must_use]
pub fn marks_explained(unit: LengthUnit, rounding: Rounding) -> Option<String> {
    let parts = parts_of_an_inch(rounding).filter(|_| unit == LengthUnit::Inches)?;
    let (near, half) = (4 * parts, 2 * parts);
    Some(format!(
        "Lengths are to the nearest 1/{parts} in. A + after a fraction means 1/{near} to 1/{half} in more, a - as much less; \
         without either it is nearer than 1/{near} in."
    ))
}

/// The angle given in degrees, to one decimal and without a sign for degrees. Never `-0`.
#[must_use]
pub fn format_angle(deg: f64) -> String {
    format_number(deg, 1)
}

/// A number with this many decimals. Never `-0`; a dash when it is not finite.
#[must_use]
pub fn format_number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return NO_NUMBER.to_owned();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(size) if size.bytes().all(|b| matches!(b, b'0' | b'.')) => size.to_owned(),
        _ => text,
    }
}

/// The smallest difference of length that is shown, in mm.
#[must_use]
pub fn rounding_step_mm(unit: LengthUnit, rounding: Rounding) -> f64 {
    match (unit, parts_of_an_inch(rounding)) {
        (LengthUnit::Millimetres, _) => 0.1,
        (LengthUnit::Inches, Some(parts)) => MM_PER_INCH / f64::from(parts),
        (LengthUnit::Inches, None) => MM_PER_INCH / 1000.0,
    }
}

fn parts_of_an_inch(rounding: Rounding) -> Option<u32> {
    match rounding {
        Rounding::Decimal => None,
        Rounding::Sixteenths => Some(16),
        Rounding::ThirtySeconds => Some(32),
        Rounding::SixtyFourths => Some(64),
    }
}

/// `parts` is a power of two. `inches` is finite and small enough for its parts to be counted exactly.
fn nearest_fraction(inches: f64, parts: u32) -> String {
    let exact = inches.abs() * f64::from(parts);
    let count = exact.round() as u64;
    let off = exact - exact.round();
    let (whole, upper) = (count / u64::from(parts), count % u64::from(parts));
    let common = 1 << upper.trailing_zeros().min(parts.trailing_zeros());
    let (upper, lower) = (upper / common, u64::from(parts) / common);
    let size = match (whole, upper) {
        (whole, 0) => format!("{whole}"),
        (0, upper) => format!("{upper}/{lower}"),
        (whole, upper) => format!("{whole} {upper}/{lower}"),
    };
    let sign = if inches < 0.0 && count > 0 { "-" } else { "" };
    // Around 0 there is no size to compare with, so the mark shows the side.
    let over = if inches < 0.0 && count == 0 { "-" } else { "+" };
    let mark = match off {
        off if off > 0.25 => over,
        off if off < -0.25 => "-",
        _ => "",
    };
    format!("{sign}{size}{mark}")
}
