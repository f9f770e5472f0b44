//! The ranges that shade a slider: where they end, a check stops.

use skewline::design::{Cut, Design, Shop, starters};
use skewline::figures::checks::Verdict;
use skewline::figures::stop_free::StopFreeSearch;
use skewline::figures::work_out;
use skewline::form::edit::with_number;
use skewline::form::{Field, Group, sections};

fn stops(design: &Design, field: Field, value: f64) -> bool {
    let Ok(changed) = with_number(design, field, value) else { return true };
    work_out(&changed, &Shop::default()).is_ok_and(|it| it.checks.iter().any(|check| check.verdict == Verdict::Stop))
}

fn range(design: &Design, field: Field, from: f64, to: f64) -> Option<(f64, f64)> {
    StopFreeSearch::new(design, &Shop::default(), field, from, to).finish()
}

#[test]
fn inside_the_range_nothing_stops_and_past_its_ends_something_does() {
    let design = starters::demo();
    let mut ends = 0;
    for section in [Group::Handle, Group::Hollow].into_iter().flat_map(|group| sections(&design, group)) {
        for field in section.fields.into_iter().filter(|field| field.number(&design).is_some()) {
            let row = field.row(&design);
            let (low, high) = range(&design, field, row.from, row.to).expect("the example passes as it is");
            assert!(row.from <= low && low <= high && high <= row.to, "{row:?}");
            assert!(!stops(&design, field, low) && !stops(&design, field, high), "{row:?}");
            let near = (row.to - row.from) / 200.0;
            if low > row.from {
                ends += 1;
                assert!(stops(&design, field, low - near), "{row:?} at {low}");
            }
            if high < row.to {
                ends += 1;
                assert!(stops(&design, field, high + near), "{row:?} at {high}");
            }
        }
    }
    assert!(ends > 3, "only {ends} ends were found to try");
}

#[test]
fn a_value_that_fails_now_shows_where_it_would_pass() {
    let design = starters::demo();
    let bore = design.cuts.iter().position(|cut| matches!(cut, Cut::Hollow(_))).unwrap();
    let field = Field::BoreDiameter(bore);
    let (low, high) = range(&design, field, 5.0, 60.0).unwrap();
    assert!(high < 60.0, "a bore as wide as the blank");
    let wide = with_number(&design, field, f64::midpoint(high, 60.0)).unwrap();
    let (low_again, high_again) = range(&wide, field, 5.0, 60.0).unwrap();
    assert!((low - low_again).abs() < 0.5 && (high - high_again).abs() < 0.5);
}

#[test]
fn a_range_without_length_or_number_has_no_sound_part() {
    let design = starters::demo();
    for (from, to) in [(5.0, 5.0), (9.0, 2.0), (f64::NAN, 5.0), (0.0, f64::INFINITY)] {
        assert_eq!(range(&design, Field::AxisTilt(0), from, to), None);
    }
}
