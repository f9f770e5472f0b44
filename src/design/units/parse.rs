//! From typed text to a number, or to the sentence that says what is wrong with it.

use thiserror::Error;

use super::MM_PER_INCH;
use crate::design::shop::LengthUnit;

/// The largest length that can be typed, in mm, either side of zero.
pub const LARGEST_LENGTH_MM: f64 = 10_000.0;
/// The largest angle that can be typed, in degrees, either side of zero.
pub const LARGEST_ANGLE_DEG: f64 = 360.0;
/// The largest plain number that can be typed, either side of zero.
pub const LARGEST_NUMBER: f64 = 1_000_000.0;
/// The longest text that is read as a number, in characters.
pub const LONGEST_TEXT: usize = 40;

/// What a text was read as; it chooses the example in a message.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// A length.
    Length,
    /// An angle.
    Angle,
    /// A number without a unit.
    Number,
}

impl Quantity {
    fn example(self) -> &'static str {
        match self {
            Self::Length => "46.5 or 1 3/8",
            Self::Angle => "12.5",
            Self::Number => "900",
        }
    }

    fn cure_for_a_unit(self) -> &'static str {
        match self {
            Self::Length => "use mm, cm or in",
            Self::Angle => "use degrees",
            Self::Number => "leave it out",
        }
    }

    fn limit(self) -> &'static str {
        match self {
            Self::Length => "10 m (393 in)",
            Self::Angle => "360 degrees",
            Self::Number => "1000000",
        }
    }
}

/// Why a text is no length, angle or number: what is wrong and what to type instead.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum UnitError {
    /// Nothing but spaces.
    #[error("Nothing is typed: type a number, such as {}.", .0.example())]
    Empty(Quantity),
    /// A text that could still become a number.
    #[error("\"{text}\" is not finished: go on typing, as in {}.", .quantity.example())]
    HalfTyped {
        /// What was typed.
        text: String,
        /// What it was read as.
        quantity: Quantity,
    },
    /// No number at all.
    #[error("\"{text}\" is not a number: use digits, as in {}.", .quantity.example())]
    NotANumber {
        /// What was typed.
        text: String,
        /// What it was read as.
        quantity: Quantity,
    },
    /// More than one decimal point or comma.
    #[error("\"{text}\" has more than one decimal point or comma: keep one, and leave out thousands marks.")]
    TwoDecimalMarks {
        /// What was typed.
        text: String,
    },
    /// A fraction whose parts are not whole numbers.
    #[error("\"{text}\" is not a fraction: use whole numbers, as in 3/8 or 1 3/8.")]
    BadFraction {
        /// What was typed.
        text: String,
    },
    /// A fraction over zero.
    #[error("\"{text}\" divides by 0: the lower number of a fraction is 1 or more, as in 3/8.")]
    OverZero {
        /// What was typed.
        text: String,
    },
    /// A unit that is not known, or does not fit.
    #[error("\"{unit}\" is not a unit that fits here: {}.", .quantity.cure_for_a_unit())]
    UnknownUnit {
        /// What stands where the unit should.
        unit: String,
        /// What it was read as.
        quantity: Quantity,
    },
    /// A number past the bound.
    #[error("That is too large: stay within {} either side of 0.", .0.limit())]
    TooLarge(Quantity),
    /// A text too long to be a number.
    #[error("That is too long to be a number: use at most {LONGEST_TEXT} characters.")]
    TooLong,
}

/// Reads a length; the answer is in mm, finite, and within [`LARGEST_LENGTH_MM`] either side of zero.
///
/// Takes `46.5`, `46,5`, `46.5 mm`, `4.65 cm`, `1.375 in`, `1.375"`, `3/8`, `1 3/8`, `1-3/8`, `1½`. A written unit is
/// stronger than `unit`. A trailing `+` or `-`, which [`format_length`](super::format_length) writes, is passed over.
///
/// # Errors
///
/// [`UnitError`], which reads as a sentence.
pub fn parse_length(text: &str, unit: LengthUnit) -> Result<f64, UnitError> {
    let typed = read(text, Quantity::Length)?;
    let mm_per_unit = match (typed.unit.as_str(), unit) {
        ("mm", _) | ("", LengthUnit::Millimetres) => 1.0,
        ("cm", _) => 10.0,
        ("in" | "in." | "inch" | "inches" | "\"" | "''", _) | ("", LengthUnit::Inches) => MM_PER_INCH,
        _ => return Err(UnitError::UnknownUnit { unit: typed.unit, quantity: Quantity::Length }),
    };
    bounded(typed.value * mm_per_unit, LARGEST_LENGTH_MM, Quantity::Length)
}

/// Reads an angle; the answer is in degrees, finite, and within [`LARGEST_ANGLE_DEG`] either side of zero.
///
/// # Errors
///
/// [`UnitError`], which reads as a sentence.
pub fn parse_angle(text: &str) -> Result<f64, UnitError> {
    let typed = read(text, Quantity::Angle)?;
    match typed.unit.as_str() {
        "" | "\u{b0}" | "deg" | "deg." | "degree" | "degrees" => {
            bounded(typed.value, LARGEST_ANGLE_DEG, Quantity::Angle)
        }
        _ => Err(UnitError::UnknownUnit { unit: typed.unit, quantity: Quantity::Angle }),
    }
}

/// Reads a number without a unit; the answer is finite and within [`LARGEST_NUMBER`] either side of zero.
///
/// # Errors
///
/// [`UnitError`], which reads as a sentence.
pub fn parse_number(text: &str) -> Result<f64, UnitError> {
    let typed = read(text, Quantity::Number)?;
    if typed.unit.is_empty() {
        bounded(typed.value, LARGEST_NUMBER, Quantity::Number)
    } else {
        Err(UnitError::UnknownUnit { unit: typed.unit, quantity: Quantity::Number })
    }
}

/// A number and the unit written after it, in small letters.
struct Typed {
    value: f64,
    unit: String,
}

fn bounded(value: f64, largest: f64, quantity: Quantity) -> Result<f64, UnitError> {
    // Written so that a NaN is refused too. Adding 0 turns -0 into 0.
    if value.abs() <= largest { Ok(value + 0.0) } else { Err(UnitError::TooLarge(quantity)) }
}

fn read(text: &str, quantity: Quantity) -> Result<Typed, UnitError> {
    if text.chars().take(LONGEST_TEXT + 1).count() > LONGEST_TEXT {
        return Err(UnitError::TooLong);
    }
    let typed = text.trim();
    if typed.is_empty() {
        return Err(UnitError::Empty(quantity));
    }
    let plain = plain_signs(typed);
    let text = plain.trim();
    let is_number_part = |c: char| c.is_ascii_digit() || matches!(c, ' ' | '.' | '/' | '-' | '+');
    let end = text.find(|c| !is_number_part(c)).unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let unit = unit.trim().to_ascii_lowercase();
    if !number.contains(|c: char| c.is_ascii_digit()) {
        let text = typed.to_owned();
        return Err(match unit.is_empty() {
            true => UnitError::HalfTyped { text, quantity },
            false => UnitError::NotANumber { text, quantity },
        });
    }
    Ok(Typed { value: signed(number.trim(), typed, quantity)?, unit })
}

/// Rewrites the signs a phone's keyboard offers as plain ones.
fn plain_signs(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            ',' => plain.push('.'),
            '\u{2212}' | '\u{2013}' => plain.push('-'),
            '\u{2044}' | '\u{2215}' => plain.push('/'),
            '\u{bc}' => plain.push_str(" 1/4"),
            '\u{bd}' => plain.push_str(" 1/2"),
            '\u{be}' => plain.push_str(" 3/4"),
            '\u{215b}' => plain.push_str(" 1/8"),
            '\u{215c}' => plain.push_str(" 3/8"),
            '\u{215d}' => plain.push_str(" 5/8"),
            '\u{215e}' => plain.push_str(" 7/8"),
            '\u{2033}' | '\u{201d}' => plain.push('"'),
            c if c.is_whitespace() => plain.push(' '),
            c => plain.push(c),
        }
    }
    plain
}

/// `typed` is the whole text, for messages.
fn signed(number: &str, typed: &str, quantity: Quantity) -> Result<f64, UnitError> {
    let (sign, rest) = match number.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, number.strip_prefix('+').unwrap_or(number)),
    };
    let size = rest.strip_suffix(['+', '-']).unwrap_or(rest).trim();
    Ok(sign * unsigned(size, typed, quantity)?)
}

fn unsigned(size: &str, typed: &str, quantity: Quantity) -> Result<f64, UnitError> {
    let text = || typed.to_owned();
    if let Some((upper, lower)) = size.split_once('/') {
        return fraction(upper.trim(), lower.trim(), typed, quantity);
    }
    if size.matches('.').count() > 1 {
        return Err(UnitError::TwoDecimalMarks { text: text() });
    }
    if let Some((whole, upper)) = size.split_once([' ', '-']) {
        return Err(match is_whole(whole) && is_whole(upper.trim()) {
            true => UnitError::HalfTyped { text: text(), quantity },
            false => UnitError::NotANumber { text: text(), quantity },
        });
    }
    decimal(size).ok_or_else(|| UnitError::NotANumber { text: text(), quantity })
}

/// Powers of ten that a number has exactly.
const EXACT_POWERS: i32 = 22;
/// More digits than this do not fit the whole number that they are gathered in.
const MOST_DIGITS: u32 = 19;

/// The number that digits with one point or none stand for; `None` for anything else.
///
/// As [`f64::from_str`](std::str::FromStr), rightly rounded, for up to 15 digits that count; with more, within 1e-15 of it.
/// That routine brings a table of 10 kB of powers with it, which no compression makes smaller and a phone would have to fetch.
fn decimal(text: &str) -> Option<f64> {
    let (mut gathered, mut digits, mut power) = (0_u64, 0_u32, 0_i32);
    let (mut seen, mut past_point) = (false, false);
    for byte in text.bytes() {
        let digit = match byte {
            b'0'..=b'9' => u64::from(byte - b'0'),
            b'.' if !past_point => {
                past_point = true;
                continue;
            }
            _ => return None,
        };
        seen = true;
        if digits < MOST_DIGITS {
            gathered = gathered * 10 + digit;
            digits += u32::from(gathered > 0);
            power -= i32::from(past_point);
        } else {
            power += i32::from(!past_point);
        }
    }
    let whole = gathered as f64;
    let scaled = if power >= 0 {
        whole * 10_f64.powi(power)
    } else {
        // One rounding where one power does.
        let exact = (-power).min(EXACT_POWERS);
        whole / 10_f64.powi(exact) / 10_f64.powi(-power - exact)
    };
    seen.then_some(scaled)
}

/// `upper` is `3` or `1 3` or `1-3`; `lower` is `8`.
fn fraction(upper: &str, lower: &str, typed: &str, quantity: Quantity) -> Result<f64, UnitError> {
    let text = || typed.to_owned();
    if lower.is_empty() {
        return Err(UnitError::HalfTyped { text: text(), quantity });
    }
    let (whole, upper) = match upper.rsplit_once([' ', '-']) {
        Some((whole, upper)) => (whole.trim(), upper),
        None => ("0", upper),
    };
    let part = |part: &str| match is_whole(part) {
        true => decimal(part).ok_or_else(|| UnitError::BadFraction { text: text() }),
        false => Err(UnitError::BadFraction { text: text() }),
    };
    let (whole, upper, lower) = (part(whole)?, part(upper)?, part(lower)?);
    if lower == 0.0 {
        return Err(UnitError::OverZero { text: text() });
    }
    Ok(whole + upper / lower)
}

fn is_whole(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// The standard library's reader is the reference.
        #[test]
        fn decimals_are_those_of_the_standard_library(text in "[0-9]{0,20}[.]?[0-9]{0,20}") {
            match text.parse::<f64>() {
                Ok(expected) => {
                    let found = decimal(&text).unwrap();
                    prop_assert!((found - expected).abs() <= 1e-15 * expected, "{found} of {expected}");
                }
                Err(_) => prop_assert_eq!(decimal(&text), None),
            }
        }

        #[test]
        fn what_a_person_types_is_rightly_rounded(whole in 0_u64..1_000_000, places in 0_usize..10, part in 0_u64..1_000_000_000) {
            let part = format!("{part:09}");
            let text = format!("{whole}.{}", &part[..places.min(9)]);
            prop_assert_eq!(decimal(&text), text.parse::<f64>().ok());
        }
    }

    #[test]
    fn what_is_no_decimal_is_none() {
        for text in ["", ".", "1.2.3", "1e5", "-1", "inf", "nan", "1 2", "\u{663}"] {
            assert_eq!(decimal(text), None, "{text}");
        }
        assert_eq!([".5", "5.", "0", "00.10"].map(decimal), [Some(0.5), Some(5.0), Some(0.0), Some(0.1)]);
    }
}
