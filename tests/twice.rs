//! A cut made twice changes nothing of the finished piece.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use proptest::prelude::*;
use serde_json::Value;
use skewline::design::{Cut, Design, PassProfile, Shop, starters};
use skewline::figures::{Worked, work_out};

mod support;
use support::arbitrary;

/// The design with one of its drawn passes, hollows or saw cuts made once more right after it; `None` where it has none.
fn with_twice(design: &Design, which: &prop::sample::Index) -> Option<Design> {
    let counts = |cut: &Cut| match cut {
        Cut::Pass(pass) => matches!(pass.profile, PassProfile::Drawn { .. }),
        Cut::Hollow(_) | Cut::Saw(_) | Cut::Face(_) => true,
        Cut::FitPlug(_) | Cut::TakeOutPlug | Cut::Part(_) => false,
    };
    let places: Vec<usize> = (0..design.cuts.len()).filter(|place| counts(&design.cuts[*place])).collect();
    let place = *places.get(if places.is_empty() { 0 } else { which.index(places.len()) })?;
    let mut twice = design.clone();
    twice.cuts.insert(place + 1, design.cuts[place].clone());
    twice.problems().is_empty().then_some(twice)
}

/// Every number of a value that does not name a cut, with its path.
fn numbers(value: &Value, path: &str, found: &mut Vec<(String, f64)>) {
    match value {
        Value::Number(number) => found.push((path.to_owned(), number.as_f64().unwrap())),
        Value::Array(items) => items.iter().enumerate().for_each(|(i, v)| numbers(v, &format!("{path}[{i}]"), found)),
        Value::Object(fields) => {
            let named = fields.iter().filter(|(key, _)| !key.contains("cut") || key.ends_with("mm3"));
            named.for_each(|(key, v)| numbers(v, &format!("{path}.{key}"), found));
        }
        Value::Null | Value::Bool(_) | Value::String(_) => {}
    }
}

/// What is known of the finished piece: what it holds, how it lies, how much wood there is, how thick it is.
fn finished(worked: &Worked) -> Vec<(String, f64)> {
    let figures = &worked.figures;
    let mut found = Vec::new();
    numbers(&serde_json::to_value(&figures.hold).unwrap(), "hold", &mut found);
    numbers(&serde_json::to_value(&figures.rest).unwrap(), "rest", &mut found);
    found.push(("finished_ml".to_owned(), figures.blank.finished_ml));
    found
}

fn least_wall(worked: &Worked) -> Option<f64> {
    worked.figures.walls.iter().filter_map(|wall| Some(wall.least?.wall_mm)).reduce(f64::min)
}

fn check(design: &Design, which: &prop::sample::Index) -> Result<(), TestCaseError> {
    let Some(twice) = with_twice(design, which) else { return Ok(()) };
    let shop = Shop::default();
    let (once, twice) = (work_out(design, &shop).unwrap(), work_out(&twice, &shop).unwrap());
    let (a, b) = (finished(&once), finished(&twice));
    prop_assert_eq!(a.len(), b.len());
    for ((path, a), (_, b)) in a.iter().zip(&b) {
        prop_assert!((a - b).abs() <= 1e-6 * a.abs().max(1.0), "{path}: {a} once, {b} twice");
    }
    // Least walls are found within 0.02 mm.
    let (a, b) = (least_wall(&once), least_wall(&twice));
    prop_assert_eq!(a.is_some(), b.is_some());
    prop_assert!(a.zip(b).is_none_or(|(a, b)| (a - b).abs() <= 0.02), "wall {a:?} once, {b:?} twice");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn of_any_design(design in arbitrary::design(), which in any::<prop::sample::Index>()) {
        check(&design, &which)?;
    }

    #[test]
    fn of_every_starter(which in any::<prop::sample::Index>(), starter in any::<prop::sample::Index>()) {
        let all = [starters::demo(), starters::bored_end_scoop_straight(), support::pieces::scoop(), support::sound_design()];
        check(starter.get(&all), &which)?;
    }
}
