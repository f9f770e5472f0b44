//! Designs of version 1: they come in whole, and as their pattern where they are exactly one.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use serde_json::{Value, json};
use skewline::design::pattern::{BoredEndScoop, HandleEnd};
use skewline::design::starters::{bored_end_scoop, bored_end_scoop_straight, demo};
use skewline::design::{Choices, Design, PatternPart, Shop};
use skewline::finding::{TiltWanted, Wants, find_at_once};
use skewline::shelf::{ImportError, Imported, read, write_design, write_shelf};
use support::{arbitrary, sound_design};

/// The design as version 1 would have written it.
fn of_version_1(design: &Design) -> String {
    let mut value: Value = serde_json::from_str(&write_design(design).unwrap()).unwrap();
    value["version"] = json!(1);
    value["design"].as_object_mut().unwrap().remove("pattern");
    value.to_string()
}

fn brought_in(text: &str) -> Design {
    match read(text) {
        Ok(Imported::Design(saved)) => saved.design,
        other => panic!("{other:?}"),
    }
}

/// Everything but the pattern.
fn plain(design: &Design) -> Design {
    Design { pattern: None, ..design.clone() }
}

#[test]
fn every_saved_file_comes_in_whole() {
    for file in std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/saved")).unwrap() {
        let text = std::fs::read_to_string(file.unwrap().path()).unwrap();
        let design = brought_in(&text);
        let again = brought_in(&write_design(&design).unwrap());
        assert_eq!(again, design);
        let kept: Value = serde_json::from_str(&text).unwrap();
        let written: Value = serde_json::from_str(&write_design(&design).unwrap()).unwrap();
        for (name, value) in kept["design"].as_object().unwrap() {
            assert!(is_within(value, &written["design"][name]), "{name}: {value}\n{}", written["design"][name]);
        }
    }
}

/// Whether all that one value says is said by another: what was left out may be written in full.
fn is_within(value: &Value, whole: &Value) -> bool {
    match (value, whole) {
        (Value::Object(value), Value::Object(whole)) => {
            value.iter().all(|(name, inner)| whole.get(name).is_some_and(|whole| is_within(inner, whole)))
        }
        (Value::Array(value), Value::Array(whole)) => {
            value.len() == whole.len() && value.iter().zip(whole).all(|(value, whole)| is_within(value, whole))
        }
        _ => value == whole,
    }
}

#[test]
fn the_demo_and_every_starter_come_in_as_their_pattern() {
    for design in [demo(), bored_end_scoop(), bored_end_scoop_straight()] {
        assert_eq!(brought_in(&of_version_1(&design)), design);
    }
}

/// The pieces that were found from wants follow their choices from now on; what they were wanted for was not kept.
#[test]
fn a_piece_that_was_found_comes_in_as_its_pattern() {
    let shop = Shop::default();
    for tilt in [TiltWanted::Degrees(0.0), TiltWanted::Degrees(6.0)] {
        let found = find_at_once(&Wants { tilt, ..Wants::usual(&shop) }, &shop).found.unwrap().design;
        let came = brought_in(&of_version_1(&found));
        assert_eq!(plain(&came), plain(&found));
        let Choices::BoredEndScoop(scoop) = came.pattern.unwrap().choices else { panic!("another kind") };
        let Choices::BoredEndScoop(wanted) = found.pattern.unwrap().choices else { panic!("another kind") };
        assert!((scoop.handle_mm - wanted.handle_mm).abs() < 1e-6 && (scoop.floor_mm - wanted.floor_mm).abs() < 1e-6);
    }
}

#[test]
fn a_design_that_is_no_pattern_comes_in_as_a_free_piece() {
    assert_eq!(brought_in(&of_version_1(&sound_design())).pattern, None);
    let mut edited = demo();
    edited.blank.length_mm += 1.0;
    assert_eq!(brought_in(&of_version_1(&edited)), plain(&edited));
}

#[test]
fn version_1_has_no_pattern() {
    let text = write_design(&demo()).unwrap().replacen("\"version\": 2", "\"version\": 1", 1);
    let Err(error @ ImportError::Malformed { .. }) = read(&text) else { panic!("{:?}", read(&text)) };
    assert!(error.to_string().contains("unknown field `pattern`"), "{error}");
}

/// Saved documents of version 2 stay readable: this text is never changed.
#[test]
fn version_2_is_read_as_ever() {
    let kept = include_str!("saved/version_2.json");
    let design = brought_in(kept);
    assert_eq!(design.pattern.as_ref().unwrap().own, [PatternPart::Saw(0)]);
    let Choices::BoredEndScoop(scoop) = &design.pattern.as_ref().unwrap().choices else { panic!("another kind") };
    assert_eq!((scoop.tilt_deg, scoop.handle_end), (6.0, HandleEnd::Knob));
    assert_eq!(scoop.wanted.as_ref().unwrap().blank.unwrap().length_mm, Some(300.0));
}

#[test]
fn a_shelf_of_version_1_comes_in_whole() {
    let designs = [demo(), sound_design(), bored_end_scoop_straight()];
    let text = write_shelf(&designs.each_ref(), Some(&Shop::default()), None, &["{".to_owned()], 9).unwrap();
    let mut value: Value = serde_json::from_str(&text).unwrap();
    value["version"] = json!(1);
    for design in value["designs"].as_array_mut().unwrap() {
        design.as_object_mut().unwrap().remove("pattern");
    }
    let Ok(Imported::Shelf(shelf)) = read(&value.to_string()) else { panic!("no shelf") };
    assert_eq!(shelf.designs, designs);
    assert_eq!((shelf.shop, shelf.refused.len(), shelf.set_aside), (Some(Shop::default()), 0, vec!["{".to_owned()]));
}

/// The line of an error in a design of version 1 is that of its file.
#[test]
fn errors_of_version_1_tell_the_line_of_the_file() {
    let text = include_str!("saved/version_1.json").replacen("\"length_mm\": 255.0", "\"length_mm\": true", 1);
    let line = 1 + text.lines().position(|line| line.contains("\"length_mm\": true")).unwrap();
    match read(&text) {
        Err(ImportError::Malformed { line: told, .. }) => assert_eq!(told, line),
        other => panic!("{other:?}"),
    }
}

proptest! {
    /// What version 1 says of a design is never changed by coming in, and what is written comes back the same.
    #[test]
    fn nothing_is_changed_by_coming_in(design in arbitrary::design()) {
        let came = brought_in(&of_version_1(&design));
        prop_assert_eq!(plain(&came), plain(&design));
        prop_assert_eq!(brought_in(&write_design(&came).unwrap()), came);
        prop_assert_eq!(brought_in(&write_design(&design).unwrap()), design);
    }

    /// A scoop of any choices that version 1 had comes in as a pattern that makes the very same piece.
    #[test]
    fn a_scoop_comes_in_as_a_pattern_that_makes_it(scoop in arbitrary::bored_end_scoop(), hooked in any::<bool>()) {
        let handle_end = if hooked { HandleEnd::Hooked } else { HandleEnd::Round };
        let thousandths = |mm: f64| (mm * 1000.0).round() / 1000.0;
        let scoop = BoredEndScoop { handle_end, floor_mm: thousandths(scoop.floor_mm), ..scoop };
        let design = scoop.design("any");
        prop_assume!(design.problems().is_empty());
        let came = brought_in(&of_version_1(&design));
        prop_assert_eq!(plain(&came), plain(&design));
        prop_assert!(came.pattern.is_some(), "{:#?}", scoop);
    }
}
