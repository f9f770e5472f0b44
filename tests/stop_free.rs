//! How far a value may go before a check stops: the ends were tried, and so was the step past them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::collections::BTreeMap;

use skewline::design::entry::snapped;
use skewline::design::units::Quantity;
use skewline::design::{Cut, Design, Shop, Units, starters};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::stop_free::{EndedBy, Now, StopFree, StopFreeSearch};
use skewline::figures::work_out;
use skewline::form::edit::with_number;
use skewline::form::{Field, Group, sections};

/// How often each check stops; `None` where there is no such piece.
fn stops(design: &Design) -> Option<BTreeMap<&'static str, usize>> {
    let worked = work_out(design, &Shop::default()).ok()?;
    let mut all = BTreeMap::new();
    for check in worked.checks.iter().filter(|check| check.verdict == Verdict::Stop) {
        *all.entry(check.name.title()).or_default() += 1;
    }
    Some(all)
}

fn with(design: &Design, field: Field, value: f64) -> Option<Design> {
    with_number(design, field, value).ok()
}

fn range(design: &Design, field: Field) -> StopFree {
    StopFreeSearch::new(design, &Shop::default(), field).unwrap().finish().unwrap()
}

fn fields(design: &Design, groups: &[Group]) -> Vec<Field> {
    let sections = groups.iter().flat_map(|group| sections(design, *group));
    sections.flat_map(|section| section.fields).filter(|field| field.number(design).is_some()).collect()
}

/// What a range promises, held against the design as it is worked out anew.
fn holds_what_it_promises(design: &Design, field: Field) -> usize {
    let (row, found) = (field.row(design), range(design, field));
    let before = stops(design).unwrap();
    let now = field.number(design).unwrap();
    let (from, to) = row.slider(now);
    let step = Units::default().least_shown(row.quantity);
    assert!(from <= found.low.value && found.low.value <= now, "{row:?}: {found:?}");
    assert!(now <= found.high.value && found.high.value <= to, "{row:?}: {found:?}");
    let worse = |value: f64| {
        let Some(after) = with(design, field, value).as_ref().and_then(stops) else { return vec![None] };
        after.iter().filter(|(title, count)| before.get(*title) < Some(*count)).map(|(title, _)| Some(*title)).collect()
    };
    let mut ends = 0;
    for (end, way, last) in [(found.low, -1.0, from), (found.high, 1.0, to)] {
        assert_eq!(worse(end.value), [], "{row:?} at {}", end.value);
        // The next whole step, or the end of the slider before it.
        let next =
            if way > 0.0 { (end.value / step + 1e-6).floor() + 1.0 } else { (end.value / step - 1e-6).ceil() - 1.0 };
        let past = snapped(next * step, step).clamp(from, to);
        match end.ended_by {
            EndedBy::Slider => assert_eq!(end.value, last, "{row:?}"),
            EndedBy::NoSuchPiece => assert_eq!(worse(past), [None], "{row:?} at {past}"),
            EndedBy::Check(name) => assert!(worse(past).contains(&Some(name.title())), "{row:?} at {past}: {name:?}"),
        }
        ends += usize::from(end.ended_by != EndedBy::Slider);
    }
    match found.now {
        Now::NothingStops => assert!(before.is_empty(), "{row:?}: {before:?}"),
        Now::FreeAt(value) => {
            assert!(!before.is_empty() && from <= value && value <= to, "{row:?}: {value}");
            assert_eq!(
                with(design, field, value).as_ref().and_then(stops).unwrap(),
                BTreeMap::new(),
                "{row:?} at {value}"
            );
        }
        Now::FreeNowhere => assert!(!before.is_empty(), "{row:?}"),
    }
    ends
}

#[test]
fn inside_the_range_nothing_stops_and_a_step_past_its_ends_something_does() {
    let design = starters::demo();
    let ends: usize = fields(&design, &[Group::Handle, Group::Hollow])
        .into_iter()
        .map(|it| holds_what_it_promises(&design, it))
        .sum();
    assert!(ends > 6, "only {ends} ends were found to try");
}

#[test]
fn of_a_design_that_stops_it_is_where_nothing_gets_worse() {
    let mut design = starters::demo();
    // The drive centre then leaves the wood.
    design = with(&design, Field::AxisTilt(0), 16.0).unwrap();
    assert!(!stops(&design).unwrap().is_empty());
    for field in [Field::AxisTilt(0), Field::AxisCrossing(0), Field::BlankWidth, Field::Moisture] {
        if field.number(&design).is_some() {
            holds_what_it_promises(&design, field);
        }
    }
    assert_eq!(range(&design, Field::Moisture).now, Now::FreeNowhere, "dry wood moves no mark");
    let Now::FreeAt(tilt) = range(&design, Field::AxisTilt(0)).now else { panic!("less tilt is free") };
    assert!((7.5..16.0).contains(&tilt), "the nearest: {tilt}");
}

#[test]
fn a_bore_too_wide_says_what_ends_it_and_where_it_would_be_free() {
    let design = starters::demo();
    let bore = design.cuts.iter().position(|cut| matches!(cut, Cut::Hollow(_))).unwrap();
    let field = Field::BoreDiameter(bore);
    let found = range(&design, field);
    assert_eq!(found.now, Now::NothingStops);
    let EndedBy::Check(name) = found.high.ended_by else { panic!("a bore as wide as the blank: {found:?}") };
    assert!(
        matches!(name, CheckName::Breakthrough | CheckName::Wall | CheckName::Plug | CheckName::Boring),
        "{name:?}"
    );
    let wide = with(&design, field, found.high.value + 4.0).unwrap();
    let Now::FreeAt(free) = range(&wide, field).now else { panic!("a narrower one is free") };
    assert!((free - found.high.value).abs() < 0.11, "{free} for {}", found.high.value);
}

#[test]
fn a_number_that_is_not_there_has_no_range() {
    let design = starters::demo();
    assert!(StopFreeSearch::new(&design, &Shop::default(), Field::AxisTilt(7)).is_none());
    assert_eq!(Units::default().least_shown(Quantity::Angle), 0.1);
}

/// A straight handle is OK, a handle tilted by a hair has its marks too close: the range ends before that stretch.
#[test]
fn a_stretch_that_stops_just_before_the_end_of_the_slider_is_no_part_of_the_range() {
    let design = starters::demo();
    let field = Field::AxisTilt(0);
    let low = range(&design, field).low;
    assert!(stops(&with(&design, field, 0.0).unwrap()).unwrap().is_empty());
    assert!(!stops(&with(&design, field, 0.1).unwrap()).unwrap().is_empty());
    assert_eq!(low.ended_by, EndedBy::Check(CheckName::Marks), "{low:?}");
    assert!(low.value > 0.1 && low.value < 7.5, "{low:?}");
}
