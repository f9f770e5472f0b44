//! Lengths and angles as typed and as shown.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::units::{
    LARGEST_LENGTH_MM, MM_PER_INCH, Quantity, format_angle, format_length, format_number, parse_angle, parse_length,
    parse_number, rounding_step_mm,
};
use skewline::design::{LengthUnit, Rounding, Units};

const MM: LengthUnit = LengthUnit::Millimetres;
const IN: LengthUnit = LengthUnit::Inches;

#[test]
fn every_way_to_type_a_length_is_read() {
    let cases = [
        ("46.5", MM, 46.5),
        ("46,5", MM, 46.5),
        (" 46.5 mm ", MM, 46.5),
        ("46.5mm", IN, 46.5),
        ("4.65 cm", IN, 46.5),
        ("1.375", IN, 34.925),
        ("1.375 in", MM, 34.925),
        ("1.375\"", MM, 34.925),
        ("1 3/8\u{2033}", MM, 34.925),
        ("1 3/8", IN, 34.925),
        ("1-3/8", IN, 34.925),
        ("1  3 / 8 inches", MM, 34.925),
        ("11/8", IN, 34.925),
        ("3/8", IN, 9.525),
        ("1\u{bd}", IN, 38.1),
        ("\u{be}", IN, 19.05),
        ("-1 3/8", IN, -34.925),
        ("\u{2212}5", MM, -5.0),
        ("+5", MM, 5.0),
        ("5.", MM, 5.0),
        (".5", MM, 0.5),
        ("-0", MM, 0.0),
        ("1 3/8+", IN, 34.925),
        ("1 3/8- in", MM, 34.925),
        ("7 1/2", MM, 7.5),
        ("10000", MM, LARGEST_LENGTH_MM),
    ];
    for (text, unit, mm) in cases {
        let read = parse_length(text, unit).unwrap_or_else(|error| panic!("{text:?}: {error}"));
        assert!((read - mm).abs() < 1.0e-12, "{text:?} read as {read}, not {mm}");
        assert!(read != 0.0 || read.is_sign_positive(), "{text:?} read as -0");
    }
}

#[test]
fn a_text_that_is_no_length_gets_a_sentence() {
    let texts = [
        "",
        "  ",
        "-",
        ".",
        "1 3",
        "1-3",
        "3/",
        "1 3/",
        "1.2.3",
        "1,234.5",
        "1.5/8",
        "/8",
        "x/8",
        "1/2/3",
        "3/0",
        "abc",
        "mm",
        "5 ft",
        "5 mm 3",
        "1e3",
        "NaN",
        "inf",
        "1 2 3",
        "- -5",
        "10001",
        "394 in",
        "5%",
        "99999999999999999999999999999999999999",
        "00000000000000000000000000000000000000000000000000000001",
    ];
    let said: Vec<String> = texts
        .iter()
        .map(|text| match parse_length(text, MM) {
            Ok(mm) => panic!("{text:?} read as {mm}"),
            Err(error) => format!("{text:?}: {error}"),
        })
        .collect();
    insta::assert_snapshot!(said.join("\n"));
}

#[test]
fn angles_and_numbers_are_read_with_their_own_units() {
    assert_eq!(parse_angle("12,5\u{b0}"), Ok(12.5));
    assert_eq!(parse_angle("-7 deg"), Ok(-7.0));
    assert_eq!(parse_angle("12 1/2 degrees"), Ok(12.5));
    assert_eq!(parse_number(" 900 "), Ok(900.0));
    let said = [
        parse_angle("12 mm").unwrap_err().to_string(),
        parse_angle("361").unwrap_err().to_string(),
        parse_angle("").unwrap_err().to_string(),
        parse_number("900 rpm").unwrap_err().to_string(),
        parse_number("1000001").unwrap_err().to_string(),
        parse_number("-").unwrap_err().to_string(),
    ];
    insta::assert_snapshot!(said.join("\n"));
}

#[test]
fn lengths_are_shown_as_a_rule_reads_them() {
    let fraction = |inches: f64, rounding| format_length(inches * MM_PER_INCH, IN, rounding);
    assert_eq!(format_length(46.46, MM, Rounding::default()), "46.5");
    assert_eq!(format_length(-0.04, MM, Rounding::default()), "0.0");
    let with_unit =
        |mm, length| Units { length, rounding: Rounding::ThirtySeconds }.show_with_unit(mm, Quantity::Length);
    assert_eq!(with_unit(34.925, IN), "1 3/8 in");
    assert_eq!(with_unit(40.0, MM), "40.0 mm");
    assert_eq!(format_length(34.925, IN, Rounding::Decimal), "1.375");
    assert_eq!(fraction(-1.375, Rounding::Sixteenths), "-1 3/8");
    assert_eq!(fraction(0.75, Rounding::SixtyFourths), "3/4");
    assert_eq!(fraction(2.0, Rounding::SixtyFourths), "2");
    assert_eq!(fraction(0.0, Rounding::SixtyFourths), "0");
    // Three tenths of a step over and under 1 3/8; then over and under 0.
    assert_eq!(fraction(1.375 + 0.3 / 16.0, Rounding::Sixteenths), "1 3/8+");
    assert_eq!(fraction(1.375 - 0.3 / 16.0, Rounding::Sixteenths), "1 3/8-");
    assert_eq!(fraction(-1.375 - 0.3 / 16.0, Rounding::Sixteenths), "-1 3/8+");
    assert_eq!(fraction(1.375 + 0.2 / 16.0, Rounding::Sixteenths), "1 3/8");
    assert_eq!(fraction(0.3 / 16.0, Rounding::Sixteenths), "0+");
    assert_eq!(fraction(-0.3 / 16.0, Rounding::Sixteenths), "0-");
    assert_eq!(fraction(0.999, Rounding::Sixteenths), "1");
    assert_eq!(format_angle(-0.02), "0.0");
    assert_eq!(format_angle(12.34), "12.3");
    assert_eq!(format_number(f64::NAN, 1), "\u{2013}");
    assert_eq!(format_length(f64::INFINITY, IN, Rounding::Sixteenths), "\u{2013}");
}

fn any_rounding() -> impl Strategy<Value = Rounding> {
    prop::sample::select(vec![Rounding::Decimal, Rounding::Sixteenths, Rounding::ThirtySeconds, Rounding::SixtyFourths])
}

proptest! {
    #[test]
    fn what_is_shown_reads_back_within_the_rounding(
        mm in -LARGEST_LENGTH_MM * 0.99..LARGEST_LENGTH_MM * 0.99,
        unit in prop::sample::select(vec![MM, IN]),
        rounding in any_rounding(),
    ) {
        let shown = format_length(mm, unit, rounding);
        let read = parse_length(&shown, unit).unwrap();
        let half_step = rounding_step_mm(unit, rounding) / 2.0;
        prop_assert!((read - mm).abs() <= half_step + 1.0e-9, "{} shown as {}, read as {}", mm, shown, read);
        prop_assert!(!matches!(shown.as_str(), "-0" | "-0.0" | "-0.000"));
    }

    #[test]
    fn any_text_is_a_bounded_length_or_an_error(text in "\\PC{0,48}", inches in any::<bool>()) {
        if let Ok(mm) = parse_length(&text, if inches { IN } else { MM }) {
            prop_assert!(mm.abs() <= LARGEST_LENGTH_MM);
        }
    }

    #[test]
    fn number_like_text_is_a_bounded_length_or_an_error(text in "[-+0-9./, \"inm\u{bd}]{0,14}") {
        if let Ok(mm) = parse_length(&text, IN) {
            prop_assert!(mm.abs() <= LARGEST_LENGTH_MM);
        }
    }
}
