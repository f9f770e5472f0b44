//! Sound documents resolve, and what serves the work at the lathe leaves the finished piece alone.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::Value;
use skewline::design::validation::bounds;
use skewline::design::{AxisName, Cut, Design, Hollow, HollowShape, Node, PassProfile, Plug, Shop};
use skewline::figures::turning::StateMasses;
use skewline::figures::work_out;
use skewline::form::Field;
use skewline::form::edit::with_number;
use skewline::piece::Piece;
use support::arbitrary;
use support::pieces::{pass, scoop};

fn plug(spigot_diameter_mm: f64, spigot_length_mm: f64) -> Cut {
    Cut::FitPlug(Plug { disc_diameter_mm: 62.0, thickness_mm: 12.0, spigot_diameter_mm, spigot_length_mm, tenon: None })
}

/// A scoop bored 41 mm wide and 48 mm deep, its floor rounded by 14 mm, with a plug in it.
fn plugged(spigot_diameter_mm: f64, spigot_length_mm: f64) -> Design {
    let mut design = scoop();
    design.cuts.insert(1, plug(spigot_diameter_mm, spigot_length_mm));
    design
}

fn said(design: &Design) -> Vec<String> {
    design.problems().iter().map(|problem| format!("{}: {problem}", problem.field)).collect()
}

#[test]
fn a_spigot_is_no_wider_and_no_longer_than_its_bore() {
    for (diameter, length) in [(41.0, 34.0), (40.5, 10.0), (13.0, 48.0), (60.0, 0.0)] {
        assert_eq!(said(&plugged(diameter, length)), Vec::<String>::new(), "{diameter} {length}");
    }
    assert_eq!(
        said(&plugged(55.0, 10.0)),
        [
            "cuts[1].spigot_diameter_mm: The spigot of the plug is 55 mm, more than its bore at 41 mm. Make it 41 mm or less."
        ]
    );
    assert_eq!(
        said(&plugged(13.0, 60.0)),
        [
            "cuts[1].spigot_length_mm: The spigot of the plug is 60 mm long, and its bore is as wide as it for 48 mm. Make it 48 mm or less."
        ]
    );
    // Into the rounding of the floor: a quarter round of 14 mm is 27 mm wide when it is 14 (1 - sin) from the floor.
    let half_way = 34.0 + 14.0 * (1.0_f64 - 0.25).sqrt();
    assert_eq!(said(&plugged(27.0, half_way - 0.02)), Vec::<String>::new());
    assert_eq!(said(&plugged(27.0, half_way + 0.02)).len(), 1);
}

/// A second, wider bore takes a wider spigot as far as it goes.
#[test]
fn stepped_bores_take_the_spigot_of_the_wider() {
    let bore = |diameter_mm, depth_mm| {
        let shape = HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm: 0.0 };
        Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm: 0.0, shape })
    };
    let mut design = plugged(50.0, 8.0);
    assert_eq!(said(&design).len(), 1);
    design.cuts.insert(1, bore(50.0, 8.0));
    assert_eq!(said(&design), Vec::<String>::new());
}

/// The bore is set by hand, and the plug keeps its play; it grows with the bore as it shrank.
#[test]
fn a_plug_follows_its_bore() {
    let design = plugged(40.5, 15.0);
    let spigot = |design: &Design| {
        let Cut::FitPlug(plug) = &design.cuts[1] else { panic!("no plug") };
        (plug.spigot_diameter_mm, plug.spigot_length_mm)
    };
    let narrower = with_number(&design, Field::BoreDiameter(0), 35.0).unwrap();
    assert_eq!(spigot(&narrower), (34.5, 15.0));
    let again = with_number(&narrower, Field::BoreDiameter(0), 41.0).unwrap();
    assert_eq!(spigot(&again), (40.5, 15.0));
    let shallow = with_number(&design, Field::BoreDepth(0), 12.0).unwrap();
    assert!(spigot(&shallow).1 < 12.0);
    assert_eq!(said(&shallow), Vec::<String>::new());
}

/// A pass that follows the join may be as short as any other.
#[test]
fn the_shortest_join_resolves() {
    for length_mm in [bounds::LEAST_LENGTH_MM, 0.011, 0.03, 0.049, 0.05, 0.051, 0.1, 0.15, 3.0] {
        for from_mm in [-7.0, 0.0, 30.0, 57.99, 60.0, 61.037] {
            let mut design = scoop();
            design.cuts[1] = pass("short", AxisName::A, from_mm, from_mm + length_mm, PassProfile::Join);
            if design.problems().is_empty() {
                let piece = Piece::resolve(&design, &Shop::default().limits).unwrap();
                let join = &piece.revolved(1).unwrap().meridian;
                assert_eq!((join.start(), join.end()), (from_mm, from_mm + length_mm));
            }
        }
    }
}

/// Geometry does not ask whether a document is sound: a plug that no bore would take is in no finished piece either.
#[test]
fn even_a_plug_that_does_not_fit_is_not_in_the_finished_piece() {
    let volume = |design: &Design| {
        let piece = Piece::resolve(design, &Shop::default().limits).unwrap();
        StateMasses::of(design, &piece).finished().volume_mm3
    };
    let bare = volume(&scoop());
    for (diameter, length) in [(40.0, 10.0), (62.0, 10.0), (62.0, 47.0), (20.0, 120.0), (62.0, 200.0)] {
        let with = volume(&plugged(diameter, length));
        assert!((with / bare - 1.0).abs() < 1e-3, "{diameter} {length}: {with} for {bare}");
    }
}

/// Every number of a document, by its path.
fn numbers(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Number(_) => found.push(path.to_owned()),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| numbers(item, &format!("{path}/{i}"), found))
        }
        Value::Object(fields) => fields.iter().for_each(|(key, item)| numbers(item, &format!("{path}/{key}"), found)),
        _ => {}
    }
}

/// The document with some of its numbers made equal to, or all but equal to, others; or set to what is nothing, tiny or
/// a bound. Where that is no design of the program's own kind, the design itself.
fn mutated(design: &Design, changes: &[(usize, usize, u8)]) -> Design {
    let mut document = serde_json::to_value(design).unwrap();
    let mut paths = Vec::new();
    numbers(&document["axes"], "/axes", &mut paths);
    numbers(&document["cuts"], "/cuts", &mut paths);
    numbers(&document["blank"], "/blank", &mut paths);
    for (which, other, how) in changes {
        let number = |at: usize| document.pointer(&paths[at % paths.len()]).and_then(Value::as_f64).unwrap();
        let (own, other) = (number(*which), number(*other));
        let set = match how % 10 {
            0 => other,
            1 => other + bounds::LEAST_LENGTH_MM,
            2 => other - bounds::LEAST_LENGTH_MM,
            3 => other + 0.03,
            4 => other * (1.0 + 1e-12),
            5 => 0.0,
            6 => -own,
            7 => 1e-9,
            8 => 500.0,
            _ => own / 2.0,
        };
        *document.pointer_mut(&paths[which % paths.len()]).unwrap() = Value::from(set);
    }
    serde_json::from_value(document).unwrap_or_else(|_| design.clone())
}

/// A scoop with a plug that fits and an axis placed by its tilt.
fn plugged_scoop() -> impl Strategy<Value = (Design, Cut)> {
    (25.0..50.0, 20.0..60.0, 0.0..1.0, 0.0..0.9, 0.0..12.0, 0.2..1.0, 0.0..1.0_f64).prop_map(
        |(bore, depth, rounding, play, tilt_deg, narrower, shorter): (f64, f64, f64, f64, f64, f64, f64)| {
            let mut design = scoop();
            let rounding_mm = rounding * depth.min(bore / 2.0);
            let shape = HollowShape::RoundEnded { diameter_mm: bore, depth_mm: depth, rounding_mm };
            design.cuts[0] = Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm: 0.0, shape });
            design.cuts[1] = pass(
                "bowl",
                AxisName::A,
                -5.0,
                66.0,
                PassProfile::Drawn { nodes: vec![Node::line(-5.0, bore + 9.0), Node::line(66.0, 20.0)] },
            );
            design.axes = vec![skewline::design::AxisChoice::Tilt { tilt_deg, toward_deg: 30.0, crossing_mm: 62.0 }];
            let spigot = Plug {
                disc_diameter_mm: bore + 20.0,
                thickness_mm: 12.0,
                spigot_diameter_mm: narrower * bore - play.min(narrower * bore - 2.0),
                spigot_length_mm: shorter * (depth - rounding_mm),
                tenon: None,
            };
            (design, Cut::FitPlug(spigot))
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// Whatever validation accepts has geometry.
    #[test]
    fn what_validation_accepts_resolves(
        design in arbitrary::design(),
        changes in vec((any::<usize>(), any::<usize>(), any::<u8>()), 1..4),
    ) {
        let design = mutated(&design, &changes);
        if design.problems().is_empty() {
            let piece = Piece::resolve(&design, &design.limits.over(&Shop::default().limits));
            prop_assert!(piece.is_ok(), "{:?}\n{}", piece.err(), serde_json::to_string(&design).unwrap());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// No plug changes a figure of the finished piece: not one that stays in to the end, nor one that is taken out.
    #[test]
    fn no_plug_changes_the_finished_piece((design, plug) in plugged_scoop(), taken_out in any::<bool>()) {
        let mut with = design.clone();
        with.cuts.insert(1, plug);
        if taken_out {
            with.cuts.push(Cut::TakeOutPlug);
        }
        prop_assume!(design.problems().is_empty());
        prop_assert_eq!(said(&with), Vec::<String>::new());
        let figures = |design: &Design| {
            let worked = work_out(design, &Shop::default()).unwrap();
            let figures = serde_json::to_value(&worked.figures).unwrap();
            let finished = ["summary", "hold", "rest"].map(|key| figures[key].clone());
            let walls: Vec<Value> =
                figures["walls"].as_array().unwrap().iter().map(|wall| wall["least"]["wall_mm"].clone()).collect();
            (finished, walls, figures["blank"]["finished_ml"].clone(), figures["strength"]["neck"]["factor"].clone())
        };
        let (bare, plugged) = (figures(&design), figures(&with));
        prop_assert!(near(&serde_json::json!(bare), &serde_json::json!(plugged)), "{bare:#?}\n{plugged:#?}");
    }
}

/// Whether two answers are the same but for what is promised of volumes and lengths: masses are summed together with those
/// of the states that have the plug in, over other stations than without it.
fn near(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap());
            (a - b).abs() <= 1e-3 * a.abs() + 0.05
        }
        (Value::Array(a), Value::Array(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| near(a, b)),
        (Value::Object(a), Value::Object(b)) => {
            a.len() == b.len() && a.iter().all(|(key, value)| b.get(key).is_some_and(|other| near(value, other)))
        }
        _ => a == b,
    }
}
