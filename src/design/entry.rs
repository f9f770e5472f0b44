//! A number as it is typed, stepped and shown, in the shop's units.

use super::shop::{LengthUnit, Rounding, Shop};
use super::units::{
    MM_PER_INCH, Quantity, UnitError, format_angle, format_length, format_number, parse_angle, parse_length,
    parse_number, rounding_step_mm,
};
use super::validation::bounds::Bound;

/// The usual step of a length in mm, and of a small one such as a limit.
const STEP_MM: f64 = 0.5;
const FINE_STEP_MM: f64 = 0.1;
/// The usual step of a length in decimal inches, in inches, and of a small one.
const STEP_IN: f64 = 0.02;
const FINE_STEP_IN: f64 = 0.005;

/// Units and rounding of the screen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// Unit of lengths.
    pub length: LengthUnit,
    /// How inches are written.
    pub rounding: Rounding,
}

impl From<&Shop> for Units {
    fn from(shop: &Shop) -> Self {
        Self { length: shop.length_unit, rounding: shop.rounding }
    }
}

impl Units {
    /// A value without its unit: a length given in mm, an angle in degrees.
    #[must_use]
    pub fn show(self, value: f64, quantity: Quantity) -> String {
        match quantity {
            Quantity::Length => format_length(value, self.length, self.rounding),
            Quantity::Angle => format_angle(value),
            Quantity::Number if value.fract() == 0.0 => format_number(value, 0),
            Quantity::Number => format_number(value, 1),
        }
    }

    /// A length given in mm without its unit.
    #[must_use]
    pub fn bare(self, mm: f64) -> String {
        self.show(mm, Quantity::Length)
    }

    /// As [`show`](Self::show), without zeros at the end of its decimals: for places where there is little room.
    #[must_use]
    pub fn show_short(self, value: f64, quantity: Quantity) -> String {
        let shown = self.show(value, quantity);
        match shown.split_once('.') {
            Some(_) => shown.trim_end_matches('0').trim_end_matches('.').to_owned(),
            None => shown,
        }
    }

    /// A value with its unit, as in `46.5 mm`, `1 3/8 in` or `12.5°`.
    #[must_use]
    pub fn show_with_unit(self, value: f64, quantity: Quantity) -> String {
        let shown = self.show(value, quantity);
        match quantity {
            Quantity::Length => format!("{shown} {}", self.name(quantity)),
            Quantity::Angle => format!("{shown}\u{b0}"),
            Quantity::Number => shown,
        }
    }

    /// The unit's name: `mm`, `in`, a sign for degrees, or nothing.
    #[must_use]
    pub const fn name(self, quantity: Quantity) -> &'static str {
        match (quantity, self.length) {
            (Quantity::Length, LengthUnit::Millimetres) => "mm",
            (Quantity::Length, LengthUnit::Inches) => "in",
            (Quantity::Angle, _) => "\u{b0}",
            (Quantity::Number, _) => "",
        }
    }

    /// The unit as it is read out after the name of a value: `, inches`.
    #[must_use]
    pub const fn read_out(self, quantity: Quantity) -> &'static str {
        match (quantity, self.length) {
            (Quantity::Length, LengthUnit::Millimetres) => ", mm",
            (Quantity::Length, LengthUnit::Inches) => ", inches",
            (Quantity::Angle, _) => ", degrees",
            (Quantity::Number, _) => "",
        }
    }

    /// The step of a stepper or slider, in mm or degrees: `fine` for small lengths such as a wall,
    /// and for numbers that are told in tenths.
    #[must_use]
    pub fn step(self, quantity: Quantity, fine: bool) -> f64 {
        match (quantity, self.length, self.rounding) {
            (Quantity::Angle, ..) => 0.5,
            (Quantity::Number, ..) if fine => 0.1,
            (Quantity::Number, ..) => 1.0,
            (Quantity::Length, LengthUnit::Millimetres, _) => {
                if fine {
                    FINE_STEP_MM
                } else {
                    STEP_MM
                }
            }
            (Quantity::Length, LengthUnit::Inches, Rounding::Decimal) => {
                MM_PER_INCH * if fine { FINE_STEP_IN } else { STEP_IN }
            }
            (Quantity::Length, LengthUnit::Inches, Rounding::SixtyFourths) if !fine => MM_PER_INCH / 32.0,
            (Quantity::Length, LengthUnit::Inches, rounding) => rounding_step_mm(LengthUnit::Inches, rounding),
        }
    }

    /// The least difference that is shown, in mm or degrees: what the rule reads to, and a tenth of anything else.
    #[must_use]
    pub fn least_shown(self, quantity: Quantity) -> f64 {
        match quantity {
            Quantity::Length => rounding_step_mm(self.length, self.rounding),
            Quantity::Angle | Quantity::Number => 0.1,
        }
    }

    /// Whether typing a value may need signs that a phone's number pad has not: a fraction, or a minus.
    #[must_use]
    pub fn needs_full_keyboard(self, quantity: Quantity, bound: &Bound) -> bool {
        bound.from < 0.0 || (quantity == Quantity::Length && self.length == LengthUnit::Inches)
    }

    /// Reads what was typed; the answer is in mm or degrees and inside the bound.
    ///
    /// # Errors
    ///
    /// A sentence: what is wrong and what to type instead.
    pub fn read(self, text: &str, quantity: Quantity, bound: &Bound) -> Result<f64, String> {
        let limit = |value| self.show_with_unit(value, quantity);
        let value = match quantity {
            Quantity::Length => parse_length(text, self.length),
            Quantity::Angle => parse_angle(text),
            Quantity::Number => parse_number(text),
        }
        .map_err(|error| match error {
            // What can be typed at all is of no use to who fills in this field.
            UnitError::TooLarge(_) => {
                format!("That is out of range: type {} to {}.", limit(bound.from), limit(bound.to))
            }
            other => other.to_string(),
        })?;
        if bound.holds(value) {
            return Ok(value);
        }
        Err(match value < bound.from {
            true => format!("That is too small: type {} or more.", limit(bound.from)),
            false => format!("That is too large: type {} or less.", limit(bound.to)),
        })
    }
}

/// The value moved by so many steps onto the next whole step, and kept inside the bound.
#[must_use]
pub fn stepped(value: f64, steps: f64, step: f64, bound: &Bound) -> f64 {
    snapped(value + steps * step, step).clamp(bound.from, bound.to)
}

/// The nearest whole step, free of the noise of binary fractions.
#[must_use]
pub fn snapped(value: f64, step: f64) -> f64 {
    let snapped = (value / step).round() * step;
    if !snapped.is_finite() {
        return value;
    }
    (snapped * 1.0e6).round() / 1.0e6
}

/// Where a value lies between two ends, as a share from 0 to 1.
#[must_use]
pub fn share(value: f64, from: f64, to: f64) -> f64 {
    if to > from { ((value - from) / (to - from)).clamp(0.0, 1.0) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WIDTH: Bound = Bound { from: 5.0, to: 500.0, unit: " mm" };

    fn millimetres() -> Units {
        Units::default()
    }

    fn inches(rounding: Rounding) -> Units {
        Units { length: LengthUnit::Inches, rounding }
    }

    #[test]
    fn what_is_typed_is_read_in_the_units_of_the_screen() {
        assert_eq!(millimetres().read("46,5", Quantity::Length, &WIDTH), Ok(46.5));
        assert_eq!(millimetres().read("1 3/8 in", Quantity::Length, &WIDTH), Ok(34.925));
        assert_eq!(inches(Rounding::ThirtySeconds).read("1 3/8", Quantity::Length, &WIDTH), Ok(34.925));
        assert_eq!(inches(Rounding::Decimal).read("40 mm", Quantity::Length, &WIDTH), Ok(40.0));
    }

    /// Not the bound of anything that can be typed at all, which would be refused here as well.
    #[test]
    fn far_out_of_range_typing_says_the_range_of_the_field() {
        let tilt = Bound { from: 0.0, to: 45.0, unit: " degrees" };
        let said = "That is out of range: type 0.0\u{b0} to 45.0\u{b0}.".to_owned();
        assert_eq!(millimetres().read("700", Quantity::Angle, &tilt), Err(said.clone()));
        assert_eq!(millimetres().read("-700", Quantity::Angle, &tilt), Err(said));
    }

    #[test]
    fn out_of_range_typing_says_the_range_in_the_units_of_the_screen() {
        let read = |units: Units, text| units.read(text, Quantity::Length, &WIDTH);
        assert_eq!(read(millimetres(), "4"), Err("That is too small: type 5.0 mm or more.".to_owned()));
        let answer = read(inches(Rounding::Decimal), "20");
        assert_eq!(answer, Err("That is too large: type 19.685 in or less.".to_owned()));
    }

    #[test]
    fn nonsense_is_answered_with_a_sentence() {
        for text in ["", "wide", "1/0", "-", "1..2"] {
            let answer = millimetres().read(text, Quantity::Length, &WIDTH);
            assert!(answer.is_err_and(|sentence| sentence.ends_with('.')), "{text:?}");
        }
    }

    #[test]
    fn a_short_length_drops_only_zeros_of_its_decimals() {
        let short = |mm| millimetres().show_short(mm, Quantity::Length);
        assert_eq!((short(68.0), short(70.5), short(200.04)), ("68".into(), "70.5".into(), "200".into()));
        assert_eq!(inches(Rounding::Sixteenths).show_short(254.0, Quantity::Length), "10");
    }

    #[test]
    fn steps_land_on_whole_steps_and_stop_at_the_bound() {
        assert_eq!(stepped(46.3, 1.0, 0.5, &WIDTH), 47.0);
        assert_eq!(stepped(46.0, -1.0, 0.5, &WIDTH), 45.5);
        assert_eq!(stepped(5.0, -1.0, 0.5, &WIDTH), 5.0);
        assert_eq!(stepped(0.3, 1.0, 0.1, &Bound { from: 0.0, to: 1.0, unit: "" }), 0.4);
    }

    #[test]
    fn a_step_in_inches_is_one_that_is_shown() {
        let units = inches(Rounding::Sixteenths);
        let step = units.step(Quantity::Length, false);
        let next = stepped(25.4, 1.0, step, &WIDTH);
        assert_eq!(units.show(next, Quantity::Length), "1 1/16");
    }

    #[test]
    fn the_share_of_a_range_never_leaves_it() {
        assert_eq!(share(5.0, 0.0, 20.0), 0.25);
        assert_eq!(share(-5.0, 0.0, 20.0), 0.0);

        assert_eq!(share(1.0, 2.0, 2.0), 0.0);
    }
}
