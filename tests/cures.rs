//! What a check names as its cure: the number works on the design as it stands, and the field is on screen.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{BoredEndScoop, HandleEnd, Outside, demo};
use skewline::design::{Cut, Design, PassProfile, Shop};
use skewline::figures::checks::{Check, CheckName, Verdict};
use skewline::figures::work_out;
use skewline::form::edit::set;
use skewline::form::{Field, Group, nodes_of, sections, shown};

mod support;
use support::arbitrary;

fn checks(design: &Design) -> Vec<Check> {
    work_out(design, &Shop::default()).unwrap_or_else(|error| panic!("{error}")).checks
}

fn worst(checks: &[Check], name: CheckName) -> Verdict {
    checks.iter().filter(|check| check.name == name).map(|check| check.verdict).max().unwrap_or(Verdict::Ok)
}

/// Every number of a design that has a row on screen.
fn rows(design: &Design) -> Vec<Field> {
    let mut fields: Vec<Field> = Vec::new();
    for group in Group::ALL {
        fields.extend(sections(design, group).iter().flat_map(|section| section.fields.clone()));
    }
    for (cut, choice) in design.cuts.iter().enumerate() {
        let nodes = nodes_of(choice).map_or(0, Vec::len);
        fields.extend((0..nodes).flat_map(|node| Field::of_node(design, cut, node)));
        fields.extend((0..200).flat_map(|point| Field::of_point(design, cut, point)));
    }
    fields
}

/// Choices that are no numbers, by their paths.
const CHOICES: [&str; 2] = ["wood.species", "contents"];

/// A scoop of ordinary size, with one thing wrong with it, or more.
fn failing() -> impl Strategy<Value = Design> {
    let bowl = (30.0..45.0, 32.0..50.0, 0.2..0.9_f64, 3.0..6.0, 4.0..7.0);
    let handle = (0.0..13.0, 85.0..115.0, 12.0..18.0, 16.0..24.0, 165.0..220.0_f64);
    let wrong = (0_usize..8, 0.0..1.0_f64);
    (bowl, handle, any::<[bool; 3]>(), 42.0..76.0, wrong).prop_map(
        |(bowl, handle, [join, hook, straight], side, wrong)| {
            let scoop = BoredEndScoop {
                bore_diameter_mm: bowl.0,
                bore_depth_mm: bowl.1,
                rounding_mm: bowl.2 * bowl.0 / 2.0,
                wall_mm: bowl.3,
                floor_mm: bowl.4,
                outside: if join { Outside::Join } else { Outside::RoundOver },
                tilt_deg: if straight { 0.0 } else { handle.0 },
                crossing_mm: handle.1,
                neck_diameter_mm: handle.2,
                handle_diameter_mm: handle.3,
                handle_mm: handle.4 - bowl.1 - bowl.4,
                handle_end: if hook { HandleEnd::Hooked } else { HandleEnd::Round },
                blank_side_mm: side,
                ..BoredEndScoop::default()
            };
            spoiled(scoop.design("failing"), wrong)
        },
    )
}

/// The design with one thing more wrong.
fn spoiled(mut design: Design, (what, share): (usize, f64)) -> Design {
    let place = |wanted: fn(&Cut) -> bool| design.cuts.iter().position(wanted);
    let tenon = place(|cut| matches!(cut, Cut::Pass(pass) if pass.name == "tenon")).unwrap();
    let plug = place(|cut| matches!(cut, Cut::FitPlug(_))).unwrap();
    let number = |field: Field| field.number(&design).unwrap();
    let (length, start, spigot) =
        (design.blank.length_mm, number(Field::PassFrom(tenon)), number(Field::SpigotDiameter(plug)));
    match what {
        0 => set(&mut design, Field::BlankLength, length - 1.0 - 40.0 * share),
        1 => set(&mut design, Field::BlankLength, length + 2.0 + 30.0 * share),
        2 => set(&mut design, Field::PassFrom(tenon), start - 8.0 * share),
        3 => set(&mut design, Field::PassFrom(tenon), start + 6.9 * share),
        4 => set(&mut design, Field::SpigotDiameter(plug), spigot - 10.0 * share),
        5 => design.wood.moisture_percent = 60.0 * share,
        _ => {}
    }
    design
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// After the value that a check names is set, that check is ok; and no other is worse, unless the cure says to look.
    #[test]
    fn a_value_that_a_cure_names_cures(design in failing()) {
        let before = checks(&design);
        for check in before.iter().filter(|check| check.cured_by.is_some()) {
            prop_assert!(check.verdict != Verdict::Ok);
            let (path, value) = (check.field.clone().unwrap(), check.cured_by.unwrap());
            let field = rows(&design).into_iter().find(|field| field.path(&design) == path).unwrap();
            let mut cured = design.clone();
            set(&mut cured, field, value);
            let problems: Vec<String> = cured.problems().iter().map(ToString::to_string).collect();
            prop_assert_eq!(problems, Vec::<String>::new());
            let after = checks(&cured);
            let told = |name| {
                let of = |checks: &[Check]| {
                    let found = checks.iter().filter(|check| check.name == name);
                    found.map(|check| format!("{:?} {}", check.verdict, check.sentence)).collect::<Vec<_>>().join(" ")
                };
                format!("{path} = {value}: {} {}\nbefore: {}\nafter: {}", check.sentence, check.cure, of(&before), of(&after))
            };
            prop_assert_eq!(worst(&after, check.name), Verdict::Ok, "{}", told(check.name));
            for other in after.iter().filter(|_| !check.cure.contains("look at the other checks again")) {
                prop_assert!(other.verdict <= worst(&before, other.name), "{}", told(other.name));
            }
        }
    }

    /// A check points at a number or a choice that is on screen.
    #[test]
    fn every_field_of_a_check_is_on_screen(design in prop_oneof![failing(), arbitrary::design()]) {
        let listed: Vec<String> = rows(&design).into_iter().map(|field| field.path(&design)).collect();
        for check in checks(&design) {
            if let Some(field) = check.field {
                let known = listed.contains(&field) || CHOICES.contains(&field.as_str());
                prop_assert!(known, "{:?} points at {field}", check.name);
                prop_assert!(shown(&design, &field, None).is_some(), "no row shows {field}");
            }
        }
    }
}

/// A pass that follows the join comes down to nothing where nothing asks for wood: it is told, and not offered as a cure.
#[test]
fn following_the_join_to_a_point_is_no_cure() {
    let mut design = demo();
    let hook = design.cuts.iter().position(|cut| matches!(cut, Cut::Pass(pass) if pass.name == "hook")).unwrap();
    // Not said to shape one part with the handle: else nothing is asked of it.
    for cut in &mut design.cuts {
        if let Cut::Pass(pass) = cut {
            pass.shapes = None;
        }
    }
    let Cut::Pass(pass) = &mut design.cuts[hook] else { panic!("the hook") };
    let drawn = std::mem::replace(&mut pass.profile, PassProfile::Join);
    let found = checks(&design);
    let join = found.iter().find(|check| check.name == CheckName::Join).unwrap();
    assert_eq!(join.verdict, Verdict::Stop, "{}", join.sentence);
    // Drawn too thin, it is not sent to the join either.
    let Cut::Pass(pass) = &mut design.cuts[hook] else { panic!("the hook") };
    pass.profile = drawn;
    for node in 0..2 {
        set(&mut design, Field::NodeDiameter(hook, node), 20.0);
    }
    let found = checks(&design);
    let join = found.iter().find(|check| check.name == CheckName::Join).unwrap();
    assert_ne!(join.verdict, Verdict::Ok, "{}", join.sentence);
    assert!(!join.cure.contains("follow"), "{}", join.cure);
}
