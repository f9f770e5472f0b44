//! The log of makings: what is a sound one, that it is kept, and the usual error it shows.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::log::day;
use skewline::design::{AxisName, Design, Making, Measured, MeasuredHold, MeasuredWhat};
use skewline::figures::usual_error::{LEAST_LENGTHS, usual_error};
use skewline::shelf::{Imported, read, write_design};

mod support;
use support::{arbitrary, sound_design};

fn line(what: MeasuredWhat, planned_mm: f64, measured_mm: f64) -> Measured {
    Measured { what, axis: AxisName::A, at_mm: 20.0, planned_mm, measured_mm }
}

fn making(measured: Vec<Measured>) -> Making {
    Making { date: "2026-03-09".to_owned(), measured, ..Making::default() }
}

fn logged(log: Vec<Making>) -> Design {
    Design { log, ..sound_design() }
}

#[test]
fn a_day_is_one_of_the_calendar() {
    assert_eq!(day("2026-03-09"), Some((2026, 3, 9)));
    assert_eq!(day("2024-02-29"), Some((2024, 2, 29)));
    assert_eq!(day("2000-02-29"), Some((2000, 2, 29)));
    for wrong in ["2026-02-29", "1900-02-29", "2026-13-01", "2026-04-31", "2026-00-10", "2026-01-00", "0000-01-01"] {
        assert_eq!(day(wrong), None, "{wrong}");
    }
    for unread in ["", "26-03-09", "2026/03/09", "2026-3-9", "2026-03-09 ", "２０２６-03-09", "today"] {
        assert_eq!(day(unread), None, "{unread}");
    }
}

#[test]
fn what_is_wrong_in_a_log_is_told_with_its_field() {
    let mut wrong = making(vec![line(MeasuredWhat::Wall, f64::NAN, 3.0), line(MeasuredWhat::Wall, 3.0, -1.0)]);
    wrong.date = "2026-02-30".to_owned();
    wrong.went_wrong = "x".repeat(2001);
    wrong.holds = Some(MeasuredHold { planned_ml: 30.0, measured_ml: f64::INFINITY });
    let mut design = logged(vec![Making { date: "2026-01-02".to_owned(), ..Making::default() }, wrong]);
    design.done = vec!["s".repeat(121)];
    let fields: Vec<String> = design.problems().into_iter().map(|problem| problem.field).collect();
    let expected = [
        "done[0]",
        "log[1].date",
        "log[1].went_wrong",
        "log[1].measured[0].planned_mm",
        "log[1].measured[1].measured_mm",
        "log[1].holds.measured_ml",
    ];
    assert_eq!(fields, expected);
    let long = logged(vec![making(Vec::new()); 201]).problems();
    assert_eq!(long.len(), 1);
    assert!(long[0].to_string().contains("201 makings"), "{}", long[0].sentence);
}

/// A design saved before there was a log is read with an empty one.
#[test]
fn a_saved_design_without_a_log_has_an_empty_one() {
    let mut value: serde_json::Value = serde_json::from_str(&write_design(&sound_design()).unwrap()).unwrap();
    let fields = value["design"].as_object_mut().unwrap();
    assert!(fields.remove("log").is_some() && fields.remove("done").is_some());
    let Ok(Imported::Design(saved)) = read(&value.to_string()) else { panic!("it is not read") };
    assert_eq!(saved.design, sound_design());
}

/// By hand: errors 0.3, -0.1, 0.4 of walls, and 0.8 and -0.6 of diameters, which count by half.
#[test]
fn the_usual_error_is_measured_minus_planned() {
    let first = making(vec![
        line(MeasuredWhat::Wall, 3.0, 3.3),
        line(MeasuredWhat::Wall, 4.0, 3.9),
        line(MeasuredWhat::Diameter, 46.0, 46.8),
    ]);
    let mut second = making(vec![line(MeasuredWhat::Wall, 3.0, 3.4), line(MeasuredWhat::Diameter, 14.0, 13.4)]);
    second.holds = Some(MeasuredHold { planned_ml: 40.0, measured_ml: 38.0 });
    let found = usual_error(&[logged(vec![first.clone()]), logged(vec![Making::default(), second])]);
    assert_eq!(found.pieces, 2);
    let [wall, diameter] = found.kinds[..] else { panic!("{:?}", found.kinds) };
    assert_eq!((wall.what, wall.count), (MeasuredWhat::Wall, 3));
    assert!((wall.mean_mm - 0.2).abs() < 1e-12);
    assert!((wall.rms_mm - (0.26_f64 / 3.0).sqrt()).abs() < 1e-12);
    assert!((wall.largest_mm - 0.4).abs() < 1e-12);
    assert!((diameter.mean_mm - 0.1).abs() < 1e-12);
    let offered = found.offered_mm.value().unwrap();
    assert!((offered - ((0.09 + 0.01 + 0.16 + 0.16 + 0.09) / 5.0_f64).sqrt()).abs() < 1e-12, "{offered}");
    assert!((found.hold_share.unwrap() - 0.95).abs() < 1e-12);
    let few = usual_error(&[logged(vec![first])]);
    assert!(few.offered_mm.value().is_none());
    assert!(few.offered_mm.why_not().unwrap().starts_with("There are 3 lengths"));
}

proptest! {
    /// What is offered is a sound setting of the shop whatever the log, and no part of the log changes it but lengths.
    #[test]
    fn what_is_offered_lies_between_the_least_and_the_largest_error(designs in prop::collection::vec(arbitrary::design(), 0..4)) {
        let found = usual_error(&designs);
        let lengths: Vec<f64> = designs.iter().flat_map(|d| &d.log).flat_map(|m| &m.measured).map(|m| {
            let error = (m.measured_mm - m.planned_mm).abs();
            if m.what == MeasuredWhat::Diameter { error / 2.0 } else { error }
        }).collect();
        prop_assert_eq!(found.kinds.iter().map(|kind| kind.count).sum::<usize>(), lengths.len());
        prop_assert_eq!(found.offered_mm.value().is_some(), lengths.len() >= LEAST_LENGTHS);
        if let Some(offered) = found.offered_mm.value() {
            let least = lengths.iter().copied().fold(f64::INFINITY, f64::min);
            let largest = lengths.iter().copied().fold(0.0, f64::max);
            prop_assert!((least - 1e-9..=largest + 1e-9).contains(offered));
        }
        for kind in found.kinds {
            prop_assert!(kind.mean_mm.abs() <= kind.rms_mm + 1e-9 && kind.rms_mm <= kind.largest_mm + 1e-9);
        }
    }
}
