//! Sentences that hold their numbers, so that lengths are put into words in the unit of whoever reads them.

use std::borrow::Cow;

use serde::{Serialize, Serializer};

use super::bounds::{Bound, MM};
use crate::design::entry::Units;
use crate::design::shop::LengthUnit;
use crate::design::units::{MM_PER_INCH, Quantity, format_number, rounding_step_mm};

/// Numbers of this size and more are told by their power of ten.
const HUGE: f64 = 1.0e7;
/// The unit of a length in inches, as it stands after a number.
const INCHES: &str = " in";
/// In mm an upper limit is told in hundredths.
const FINEST_MM: f64 = 0.01;

/// A sentence whose lengths are still numbers. Shown without units of one's own, its lengths are in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Sentence(Vec<Part>);

/// A part of a sentence. A unit is written as in [`Bound`].
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Part {
    Text(Cow<'static, str>),
    /// A number with its unit.
    Number(f64, &'static str),
    /// Two numbers with their unit: "5 to 500 mm".
    Range(f64, f64, &'static str),
    /// The most that a number may be, with its unit: a length is rounded down, so that what is told is allowed.
    AtMost(f64, &'static str),
}

/// A length in mm.
pub(crate) fn length(mm: f64) -> Part {
    Part::Number(mm, MM)
}

/// From one length to another, in mm.
pub(crate) fn span(from_mm: f64, to_mm: f64) -> Part {
    Part::Range(from_mm, to_mm, MM)
}

impl From<Bound> for Part {
    fn from(bound: Bound) -> Self {
        Self::Range(bound.from, bound.to, bound.unit)
    }
}

impl From<&'static str> for Part {
    fn from(text: &'static str) -> Self {
        Self::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Part {
    fn from(text: String) -> Self {
        Self::Text(Cow::Owned(text))
    }
}

impl<T: Into<Part>> From<T> for Sentence {
    fn from(part: T) -> Self {
        Self(vec![part.into()])
    }
}

impl FromIterator<Part> for Sentence {
    fn from_iter<T: IntoIterator<Item = Part>>(parts: T) -> Self {
        Self(parts.into_iter().collect())
    }
}

/// A sentence from texts and numbers, in order.
macro_rules! words {
    ($($part:expr),+ $(,)?) => {
        [$($crate::design::validation::words::Part::from($part)),+]
            .into_iter()
            .collect::<$crate::design::validation::words::Sentence>()
    };
}
pub(crate) use words;

impl Sentence {
    /// In these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        let part = |part: &Part| match part {
            Part::Text(text) => text.to_string(),
            Part::Number(value, unit) => shown(*value, unit, units) + name(unit, units),
            Part::Range(from, to, unit) => {
                format!("{} to {}{}", shown(*from, unit, units), shown(*to, unit, units), name(unit, units))
            }
            Part::AtMost(value, MM) => shown(rounded_down(*value, units), MM, units) + name(MM, units),
            Part::AtMost(value, unit) => shown(*value, unit, units) + unit,
        };
        self.0.iter().map(part).collect()
    }
}

impl std::fmt::Display for Sentence {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.told(Units::default()))
    }
}

impl Serialize for Sentence {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// A number without its unit: a length in inches as the screen writes it, anything else as it is.
fn shown(value: f64, unit: &str, units: Units) -> String {
    match (unit, units.length) {
        (MM, LengthUnit::Inches) if value.abs() < HUGE => units.show_short(value, Quantity::Length),
        (MM, LengthUnit::Inches) => plain(value / MM_PER_INCH),
        _ => plain(value),
    }
}

/// The unit's name as it stands after a number.
fn name(unit: &'static str, units: Units) -> &'static str {
    match (unit, units.length) {
        (MM, LengthUnit::Inches) => INCHES,
        _ => unit,
    }
}

/// A number to at most three decimals, without trailing zeros.
fn plain(value: f64) -> String {
    if value.is_nan() || value.abs() >= HUGE {
        return format!("{value:e}");
    }
    let text = format_number(value, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The next length below that is told in full, in mm.
fn rounded_down(mm: f64, units: Units) -> f64 {
    let step = match units.length {
        LengthUnit::Millimetres => FINEST_MM,
        LengthUnit::Inches => rounding_step_mm(units.length, units.rounding),
    };
    // A sum that is a hair under a whole step stands for it.
    (mm / step + 1.0e-4).floor() * step
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::shop::Rounding;

    const MILLIMETRES: Units = Units { length: LengthUnit::Millimetres, rounding: Rounding::ThirtySeconds };
    const DECIMALS: Units = Units { length: LengthUnit::Inches, rounding: Rounding::Decimal };
    const FRACTIONS: Units = Units { length: LengthUnit::Inches, rounding: Rounding::ThirtySeconds };

    fn told(words: &Sentence) -> [String; 3] {
        [MILLIMETRES, DECIMALS, FRACTIONS].map(|units| words.told(units))
    }

    #[test]
    fn lengths_are_told_in_the_unit_asked_for_and_nothing_else_is() {
        let words =
            words!("It is ", length(12.7), ", outside ", span(25.4, 254.0), " at ", Part::Number(60.0, " rpm"), ".");
        assert_eq!(
            told(&words),
            [
                "It is 12.7 mm, outside 25.4 to 254 mm at 60 rpm.",
                "It is 0.5 in, outside 1 to 10 in at 60 rpm.",
                "It is 1/2 in, outside 1 to 10 in at 60 rpm.",
            ]
        );
        assert_eq!(words.to_string(), words.told(MILLIMETRES));
        // A name is the turner's own, whatever stands in it.
        assert_eq!(told(&Sentence::from("pass \"20 mm\"".to_owned())), ["pass \"20 mm\""; 3]);
    }

    #[test]
    fn the_most_that_is_told_is_allowed() {
        let words = words!(Part::AtMost(20.509, MM));
        assert_eq!(told(&words), ["20.5 mm", "0.807 in", "25/32 in"]);
        assert_eq!(told(&words!(Part::AtMost(25.4, MM))), ["25.4 mm", "1 in", "1 in"]);
        assert_eq!(told(&words!(Part::AtMost(3500.25, " rpm"))), ["3500.25 rpm"; 3]);
    }

    #[test]
    fn numbers_past_all_bounds_are_told_as_well() {
        for value in [f64::INFINITY, -1.0e300, 1.0e7] {
            for told in told(&words!(length(value))) {
                assert!(told.len() < 30 && !told.starts_with('\u{2013}'), "{told}");
            }
        }
    }
}
