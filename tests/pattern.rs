//! Patterns: what a choice moves, what stays the turner's own, and how it is given back.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::Value;
use skewline::design::following::{choose, follow_again};
use skewline::design::pattern::{BoredEndScoop, HandleEnd, parts_of};
use skewline::design::starters::demo;
use skewline::design::{AxisChoice, AxisName, Choices, Cut, Design, HollowShape, PatternPart, SawPath};
use skewline::form::edit::{accepted, with_number};
use skewline::form::own::not_moved_by;
use skewline::form::{Field, Group, sections};
use support::arbitrary;

fn choices(design: &Design) -> &Choices {
    &design.pattern.as_ref().unwrap().choices
}

/// The field of the choice that has this name.
fn field(design: &Design, name: &str) -> Field {
    let places = 0..choices(design).count();
    let here = |place: &usize| choices(design).look(*place).unwrap().name == name;
    Field::Choice(places.into_iter().find(here).unwrap())
}

fn chosen(design: &Design, name: &str, value: f64) -> Design {
    with_number(design, field(design, name), value).unwrap_or_else(|problem| panic!("{name}: {problem}"))
}

fn pass(name: &str) -> PatternPart {
    PatternPart::Pass(name.to_owned())
}

fn place_of(design: &Design, part: &PatternPart) -> usize {
    design.cut_of_part(part).unwrap()
}

/// What stands in the design as a part of its pattern, as it would be written.
fn content(design: &Design, part: &PatternPart) -> Value {
    let cut = || design.cut_of_part(part).map(|cut| &design.cuts[cut]);
    let value = match part {
        PatternPart::Blank => serde_json::to_value(design.blank),
        PatternPart::Thickness => serde_json::to_value((design.limits.wall_mm, design.limits.floor_mm)),
        PatternPart::Axis(axis) => serde_json::to_value(design.axes.get(axis.index() - 1)),
        _ => serde_json::to_value(cut()),
    };
    value.unwrap()
}

/// The design as its pattern makes it, nothing made one's own.
fn as_made(design: &Design) -> Design {
    design.clone().of_pattern(choices(design).clone())
}

#[test]
fn depth_moves_neck_shoulder_and_saw_line() {
    let before = demo();
    let after = chosen(&before, "bore_depth_mm", 53.0);
    let handle_from = |design: &Design| match &design.cuts[place_of(design, &pass("handle"))] {
        Cut::Pass(pass) => pass.from_mm,
        other => panic!("{other:?}"),
    };
    let saw_to = |design: &Design| match &design.cuts[place_of(design, &PatternPart::Saw(0))] {
        Cut::Saw(saw) => match &saw.path {
            SawPath::Arc { to, .. } => to.at_mm,
            SawPath::Lines { points } => points[1].at_mm,
        },
        other => panic!("{other:?}"),
    };
    let tilt = 7.5_f64.to_radians();
    assert!((handle_from(&after) - handle_from(&before) - 5.0 * tilt.cos()).abs() < 1e-9);
    assert!((saw_to(&after) - saw_to(&before) - 5.0).abs() < 1e-9);
    assert_eq!(after.blank.length_mm - before.blank.length_mm, 5.0);
}

#[test]
fn wall_moves_the_outside_and_tilt_the_join() {
    let before = demo();
    let bowl = |design: &Design| match &design.cuts[place_of(design, &pass("bowl"))] {
        Cut::Pass(pass) => pass.clone(),
        other => panic!("{other:?}"),
    };
    let outside = |design: &Design| Field::NodeDiameter(place_of(design, &pass("bowl")), 0).number(design).unwrap();
    assert!((outside(&chosen(&before, "wall_mm", 5.5)) - outside(&before) - 3.0).abs() < 1e-9);
    let steeper = chosen(&before, "tilt_deg", 9.0);
    assert!(bowl(&steeper).to_mm > bowl(&before).to_mm);
    assert!(matches!(steeper.axes[0], AxisChoice::Tilt { tilt_deg: 9.0, .. }));
}

#[test]
fn a_choice_of_no_tilt_takes_the_axis_away_and_back() {
    let straight = chosen(&demo(), "tilt_deg", 0.0);
    assert!(straight.axes.is_empty() && straight.problems().is_empty());
    assert_eq!(chosen(&straight, "tilt_deg", 7.5), demo());
}

/// A part edited by hand stands as edited, whatever is chosen, until it is given back.
#[test]
fn a_cut_edited_by_hand_is_the_turners_own_until_it_is_given_back() {
    let saw = PatternPart::Saw(0);
    let field = Field::SawHeight(place_of(&demo(), &saw), 0);
    let edited = with_number(&demo(), field, -4.0).unwrap();
    assert_eq!(edited.pattern.as_ref().unwrap().own, std::slice::from_ref(&saw));
    let deeper = chosen(&edited, "bore_depth_mm", 53.0);
    assert_eq!(content(&deeper, &saw), content(&edited, &saw));
    assert!(deeper.is_own(&saw) && !deeper.is_own(&pass("handle")));
    let given_back = accepted(&deeper, |design| follow_again(design, &saw)).unwrap();
    assert_eq!(given_back, chosen(&demo(), "bore_depth_mm", 53.0));
}

/// What a choice would move but for what is the turner's own is told beside it.
#[test]
fn a_choice_tells_what_of_ones_own_it_does_not_move() {
    let place = |name: &str| {
        let choices = choices(&demo()).clone();
        Field::Choice((0..choices.count()).find(|place| choices.look(*place).unwrap().name == name).unwrap())
    };
    assert_eq!(not_moved_by(&demo(), place("tilt_deg")), None);
    let own_tilt = with_number(&demo(), Field::AxisTilt(0), 6.0).unwrap();
    assert_eq!(not_moved_by(&own_tilt, place("tilt_deg")).unwrap(), "Yours, so not moved by this: Axis B.");
    assert_eq!(not_moved_by(&own_tilt, place("wall_mm")), None);
    assert_eq!(not_moved_by(&own_tilt, Field::AxisTilt(0)), None);
}

/// A sweep of a choice past the very value that was set by hand does not catch the part again.
#[test]
fn a_part_of_ones_own_is_not_caught_by_a_choice_that_comes_by() {
    let bore = PatternPart::Hollow(0);
    let edited = with_number(&demo(), Field::BoreDepth(place_of(&demo(), &bore)), 50.0).unwrap();
    let passed = chosen(&chosen(&edited, "bore_depth_mm", 50.0), "bore_depth_mm", 52.0);
    let Cut::Hollow(hollow) = &passed.cuts[place_of(&passed, &bore)] else { panic!() };
    assert!(matches!(hollow.shape, HollowShape::RoundEnded { depth_mm: 50.0, .. }));
}

fn ends_in(design: &mut Design, end: HandleEnd) {
    choose(design, |choices| {
        let Choices::BoredEndScoop(scoop) = choices else { panic!("another kind") };
        scoop.handle_end = end;
    });
}

#[test]
fn a_choice_that_leaves_ones_own_part_without_a_place_is_refused_with_a_sentence() {
    let handle = place_of(&demo(), &pass("hook"));
    let edited = with_number(&demo(), Field::PassFrom(handle), 180.0).unwrap();
    let round = |design: &mut Design| ends_in(design, HandleEnd::Round);
    let refused = accepted(&edited, round).unwrap_err().to_string();
    assert_eq!(
        refused,
        "The pass \u{201c}hook\u{201d} is yours, and with these choices the piece has none. Let it follow again first."
    );
    let without = accepted(&demo(), round).unwrap();
    assert!(without.cut_of_part(&pass("hook")).is_none());
    // And back: in its place in the working order.
    let hooked = accepted(&without, |design| {
        ends_in(design, HandleEnd::Hooked);
    });
    assert_eq!(hooked.unwrap(), demo());
}

/// A choice out of its bound, or one that makes an unsound part, is refused, and nothing has changed.
#[test]
fn a_choice_that_makes_no_sound_piece_is_refused() {
    let demo = demo();
    for (name, value) in [("bore_diameter_mm", 0.0), ("tilt_deg", 61.0), ("handle_mm", f64::NAN), ("wall_mm", -3.0)] {
        let problem = with_number(&demo, field(&demo, name), value).unwrap_err();
        assert!(problem.field.starts_with("pattern.choices."), "{problem:?}");
    }
    assert!(with_number(&demo, field(&demo, "neck_diameter_mm"), 499.0).is_err());
}

/// What the turner added stays where it was, on the axis where it was.
#[test]
fn what_is_no_part_of_the_pattern_stays() {
    let mut straight = BoredEndScoop::straight().design("straight");
    let own_axis = AxisChoice::Tilt { tilt_deg: 3.0, toward_deg: 90.0, crossing_mm: 50.0 };
    straight.axes.push(own_axis);
    let place = place_of(&straight, &pass("handle"));
    let Cut::Pass(handle) = straight.cuts[place].clone() else { panic!() };
    let bead = skewline::design::Pass { name: "bead".to_owned(), axis: AxisName::B, ..handle };
    straight.cuts.insert(place + 1, Cut::Pass(bead.clone()));
    let tilted = chosen(&straight, "tilt_deg", 5.0);
    assert_eq!(tilted.axes[1], own_axis);
    let after = place_of(&tilted, &pass("handle")) + 1;
    let moved = skewline::design::Pass { axis: AxisName::C, ..bead };
    assert_eq!(tilted.cuts[after], Cut::Pass(moved));
    assert_eq!(chosen(&tilted, "tilt_deg", 0.0), straight);
}

#[test]
fn the_screen_has_a_row_for_every_choice_that_matters() {
    let rows = |design: &Design| sections(design, Group::Whole).iter().map(|it| it.fields.len()).sum::<usize>();
    assert_eq!(rows(&demo()), 17);
    assert_eq!(rows(&BoredEndScoop::straight().design("straight")), 15);
    let free = Design { pattern: None, ..demo() };
    assert_eq!(rows(&free), 0);
    // Each goes by the name it is saved by, and within its bound.
    let saved = serde_json::to_value(choices(&demo())).unwrap();
    for place in 0..choices(&demo()).count() {
        let look = choices(&demo()).look(place).unwrap();
        let pointer = format!("/bored_end_scoop/{}", look.name.replace('.', "/"));
        let value = saved.pointer(&pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("{pointer}"));
        assert!(look.bound.holds(value) && look.bound.holds(look.slider.0) && look.bound.holds(look.slider.1));
        assert_eq!(Field::Choice(place).path(&demo()), format!("pattern.choices.{}", look.name));
    }
}

/// Edits by hand, each of one number somewhere in blank, axes and cuts.
fn edit() -> impl Strategy<Value = (Index, f64)> {
    (any::<Index>(), 0.9..1.1_f64)
}

fn by_hand(design: &Design, (which, share): &(Index, f64)) -> Option<Design> {
    let all: Vec<Field> =
        Group::ALL.iter().flat_map(|group| sections(design, *group)).flat_map(|it| it.fields).collect();
    let shape: Vec<Field> = all.into_iter().filter(|field| !matches!(field, Field::Choice(_))).collect();
    let field = *which.get(&shape);
    with_number(design, field, field.number(design)? * share).ok()
}

proptest! {
    /// A change of one choice leaves what is the turner's own untouched, and makes the rest what the pattern makes.
    #[test]
    fn a_choice_rewrites_what_follows_and_nothing_else(
        kind in arbitrary::choices(), edits in prop::collection::vec(edit(), 0..4),
        which in any::<Index>(), share in 0.8..1.25_f64,
    ) {
        let mut design = arbitrary::design_of(kind);
        prop_assume!(design.problems().is_empty());
        for edit in &edits {
            design = by_hand(&design, edit).unwrap_or(design);
        }
        let made = as_made(&design);
        for part in choices(&design).made().parts() {
            prop_assert!(design.is_own(&part) || content(&design, &part) == content(&made, &part), "{:?}", part);
        }
        let place = which.index(choices(&design).count());
        let Ok(changed) = with_number(&design, Field::Choice(place), share * choices(&design).number(place).unwrap()) else {
            return Ok(());
        };
        let made = as_made(&changed);
        prop_assert_eq!(&changed.pattern.as_ref().unwrap().own, &design.pattern.as_ref().unwrap().own);
        // What the choice moved of a piece with nothing of one's own is all that it tells of.
        let own_beside = design.own_beside(place);
        for part in &design.pattern.as_ref().unwrap().own {
            let is_moved = content(&as_made(&design), part) != content(&made, part);
            prop_assert!(!is_moved || own_beside.contains(part), "{:?}", part);
        }
        for part in choices(&changed).made().parts() {
            let like = if changed.is_own(&part) { &design } else { &made };
            prop_assert_eq!(content(&changed, &part), content(like, &part), "{:?}", part);
        }
        prop_assert_eq!(parts_of(&changed.cuts), parts_of(&made.cuts));
        // All given back, it is as it would be made.
        let mut given_back = changed.clone();
        for part in changed.pattern.as_ref().unwrap().own.clone() {
            follow_again(&mut given_back, &part);
        }
        prop_assert_eq!(&given_back.cuts, &made.cuts);
        prop_assert_eq!((given_back.axes, given_back.blank), (made.axes, made.blank));
    }
}
