//! Cures that are offered were tried: pressed, the check is ok and no other is worse.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::collections::BTreeMap;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use skewline::design::starters::{BoredEndScoop, HandleEnd, Outside, demo};
use skewline::design::{BlankSection, Design, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::work_out;
use skewline::finding::{MOST_TRIED, cures_at_once};

fn verdicts(design: &Design) -> BTreeMap<&'static str, Verdict> {
    let mut all = BTreeMap::new();
    for check in work_out(design, &Shop::default()).unwrap().checks {
        let worst = all.entry(check.name.title()).or_insert(Verdict::Ok);
        *worst = (*worst).max(check.verdict);
    }
    all
}

/// Every check of the design that is not ok, by name.
fn faults(design: &Design) -> Vec<CheckName> {
    let mut all: Vec<CheckName> = Vec::new();
    for check in work_out(design, &Shop::default()).unwrap().checks {
        if check.verdict != Verdict::Ok && !all.contains(&check.name) {
            all.push(check.name);
        }
    }
    all
}

/// How many values the largest cure of the check changes, 0 where there is none; each of the cures cures it.
fn pressed(design: &Design, name: CheckName) -> usize {
    let before = verdicts(design);
    let cures = cures_at_once(design, &Shop::default(), name);
    assert!(cures.tried <= MOST_TRIED);
    for cure in &cures.found {
        assert_eq!(cure.design.problems(), vec![], "{}", cure.words);
        let after = verdicts(&cure.design);
        assert_eq!(after[name.title()], Verdict::Ok, "{}", cure.words);
        for (title, verdict) in after {
            let was = before.get(title).copied().unwrap_or(Verdict::Ok);
            assert!(verdict <= was, "{}: {title} is worse", cure.words);
        }
    }
    // Where there is none it is said, with what has to be given up.
    assert_eq!(cures.found.is_empty(), !cures.why_none.is_empty());
    cures.found.iter().map(|cure| cure.changes).max().unwrap_or_default()
}

/// A mark too far out for its drive centre.
#[test]
fn a_drive_centre_over_the_edge_is_cured() {
    let mut design = BoredEndScoop { tilt_deg: 9.0, crossing_mm: 92.0, ..BoredEndScoop::default() }.design("any");
    design.blank.section = BlankSection::Square { side_mm: 68.0 };
    assert!(faults(&design).contains(&CheckName::DriveCentre), "{:?}", faults(&design));
    assert!(pressed(&design, CheckName::DriveCentre) >= 1);
}

/// Where a choice cures a check, the whole piece goes on following.
#[test]
fn a_piece_that_follows_its_pattern_is_cured_by_its_choices() {
    let design = BoredEndScoop { tilt_deg: 9.0, crossing_mm: 92.0, ..BoredEndScoop::default() }.design("any");
    let name = *faults(&design).first().unwrap();
    let cures = cures_at_once(&design, &Shop::default(), name);
    assert!(!cures.found.is_empty());
    for cure in cures.found {
        let pattern = cure.design.pattern.as_ref().unwrap();
        assert!(pattern.own.is_empty(), "{}", cure.words);
        assert_eq!(cure.design.clone().of_pattern(pattern.choices.clone()), cure.design, "{}", cure.words);
    }
}

#[test]
fn a_design_with_every_check_ok_has_nothing_to_cure() {
    let cures = cures_at_once(&demo(), &Shop::default(), CheckName::Wall);
    assert_eq!(cures.tried, 0);
    assert!(cures.found.is_empty());
}

fn scoop() -> impl Strategy<Value = Design> {
    let bowl = (35.0..52.0_f64, 30.0..60.0_f64, 2.0..5.0_f64);
    let handle = (0.0..13.0_f64, 60.0..140.0_f64, 12.0..24.0_f64, 150.0..240.0_f64);
    (bowl, handle, 50.0..75.0_f64, any::<[bool; 2]>()).prop_map(|(bowl, handle, blank_side_mm, [join, hooked])| {
        let scoop = BoredEndScoop {
            bore_diameter_mm: bowl.0,
            bore_depth_mm: bowl.1,
            wall_mm: bowl.2,
            tilt_deg: handle.0,
            crossing_mm: handle.1,
            neck_diameter_mm: handle.2,
            handle_mm: handle.3 - bowl.1 - 5.0,
            blank_side_mm,
            outside: if join { Outside::Join } else { Outside::RoundOver },
            handle_end: if hooked { HandleEnd::Hooked } else { HandleEnd::Round },
            ..BoredEndScoop::default()
        };
        scoop.design("any")
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3))]

    /// Over random failing designs: a pressed cure always cures, and none is refused.
    #[test]
    fn a_pressed_cure_always_cures(design in scoop()) {
        for name in faults(&design).into_iter().take(1) {
            pressed(&design, name);
        }
    }
}

#[test]
#[ignore = "long: every cure of every fault of twenty random designs"]
fn every_cure_of_twenty_failing_designs_cures() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let mut sizes = [0; 4];
    for _ in 0..20 {
        let design = scoop().new_tree(&mut runner).unwrap().current();
        for name in faults(&design) {
            sizes[pressed(&design, name)] += 1;
        }
    }
    // None, one, two and three values.
    assert!(sizes[1] > sizes[0], "{sizes:?}");
}
