//! The starters: sound for many choices, and good in every check as they come.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{
    BoredEndScoop, HandleEnd, Opening, Outside, STARTERS, bored_end_scoop, bored_end_scoop_straight, demo,
};
use skewline::design::{AxisName, Chuck, Cut, Design, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::work_out;
use skewline::geometry::Vector;
use skewline::piece::Piece;

/// Every check that is not good, in full.
fn faults(design: &Design) -> String {
    let worked = work_out(design, &Shop::default()).unwrap_or_else(|error| panic!("{}: {error}", design.name));
    let bad = worked.checks.iter().filter(|check| check.verdict != Verdict::Ok);
    bad.map(|check| format!("{check:#?}\n")).collect()
}

fn piece(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

#[test]
fn every_check_of_a_starter_is_good() {
    for design in [demo(), bored_end_scoop(), bored_end_scoop_straight()] {
        assert_eq!(faults(&design), "", "{}", design.name);
    }
}

/// Of all that the shelf offers to begin with, only the jaws of an oval bowl are not planned, which is said.
#[test]
fn every_check_of_what_the_shelf_offers_is_good() {
    for (name, make) in STARTERS {
        let design = make(Chuck::default());
        if design.cuts.is_empty() {
            continue;
        }
        let worked = work_out(&design, &Shop::default()).unwrap();
        for check in worked.checks.iter().filter(|check| check.verdict != Verdict::Ok) {
            let unplanned =
                name == "Oval-bowl scoop" && check.name == CheckName::Jaws && check.verdict == Verdict::Tight;
            assert!(unplanned, "{name}: {:?} {}", check.name, check.sentence);
        }
    }
}

/// A straight scoop stays good with any end of its own axis.
#[test]
fn every_end_of_a_handle_is_good() {
    for handle_end in HandleEnd::ALL {
        for scoop in [BoredEndScoop::default(), BoredEndScoop::straight()] {
            // A hook is for handles on an axis of their own.
            if scoop.is_tilted() || handle_end != HandleEnd::Hooked {
                let design = BoredEndScoop { handle_end, ..scoop }.design(handle_end.name());
                assert_eq!(faults(&design), "", "{}", design.name);
            }
        }
    }
}

/// From the floor to the end of the handle there is wood all along the handle's axis, at least 6 mm thick on every side.
#[test]
fn the_handle_hangs_on_the_bowl() {
    for design in [demo(), bored_end_scoop(), bored_end_scoop_straight()] {
        let piece = piece(&design);
        let axis = *piece.axis(if design.axes.is_empty() { AxisName::A } else { AxisName::B }).unwrap();
        let finished = piece.solid.finished();
        for station in 50..=200 {
            let middle = axis.centre(f64::from(station)).unwrap();
            for (x, y) in [(0.0, 0.0), (6.0, 0.0), (-6.0, 0.0), (0.0, 6.0), (0.0, -6.0)] {
                let point = Vector::new(middle.x + x, middle.y + y, middle.s);
                assert!(finished.contains(point), "{}: no wood at {point:?}", design.name);
            }
        }
        assert!(!finished.contains(Vector::new(0.0, 0.0, 205.0)), "{} does not end", design.name);
    }
}

/// The saw opens the bore from above, and leaves its lower half.
#[test]
fn the_bowl_is_open_above_and_whole_below() {
    for design in [demo(), bored_end_scoop(), bored_end_scoop_straight()] {
        let finished = piece(&design);
        let finished = finished.solid.finished();
        assert!(!finished.contains(Vector::new(0.0, 22.6, 10.0)), "{}: the top is not sawn off", design.name);
        assert!(finished.contains(Vector::new(0.0, -22.6, 10.0)), "{}: the bottom is gone", design.name);
        assert!(!finished.contains(Vector::new(0.0, 0.0, 47.0)), "{}: the bore is not bored", design.name);
        assert!(finished.contains(Vector::new(0.0, 0.0, 49.0)), "{}: the floor is gone", design.name);
    }
}

/// The join is proposed anew for every change, so that a scoop that follows it stays good.
#[test]
fn a_scoop_that_follows_the_join_stays_good_while_things_change() {
    let change = |change: fn(&mut BoredEndScoop)| {
        let mut scoop = BoredEndScoop::default();
        change(&mut scoop);
        scoop.design("changed")
    };
    for design in [
        change(|it| it.tilt_deg = 3.0),
        change(|it| it.tilt_deg = 8.0),
        change(|it| it.wall_mm = 5.0),
        change(|it| it.neck_diameter_mm = 22.0),
        change(|it| it.opening = Opening::Straight),
        change(|it| it.handle_end = HandleEnd::Round),
        change(|it| it.handle_end = HandleEnd::Knob),
        change(|it| it.handle_end = HandleEnd::Plain),
        change(|it| it.bore_depth_mm = 44.0),
    ] {
        assert_eq!(faults(&design), "", "{design:#?}");
    }
}

#[test]
fn a_hook_is_one_more_pass_on_axis_a() {
    let passes = |design: &Design| -> Vec<(String, AxisName)> {
        let passes = design.cuts.iter().filter_map(|cut| match cut {
            Cut::Pass(pass) => Some((pass.name.clone(), pass.axis)),
            _ => None,
        });
        passes.collect()
    };
    let (a, b) = (AxisName::A, AxisName::B);
    let named = |list: &[(&str, AxisName)]| -> Vec<(String, AxisName)> {
        list.iter().map(|(name, axis)| ((*name).to_owned(), *axis)).collect()
    };
    assert_eq!(passes(&demo()), named(&[("tenon", a), ("bowl", a), ("hook", a), ("handle", b)]));
    assert_eq!(passes(&bored_end_scoop_straight()), named(&[("tenon", a), ("bowl", a), ("handle", a)]));
}

fn scoop() -> impl Strategy<Value = BoredEndScoop> {
    let bowl = (20.0..80.0, 20.0..80.0, 0.0..1.0_f64, 1.0..8.0, 1.0..12.0);
    let handle = (0.0..20.0, any::<bool>(), -50.0..250.0, 8.0..30.0, 8.0..40.0, 80.0..250.0);
    (bowl, handle, 20.0..120.0, (any::<[bool; 2]>(), 0..4_u8)).prop_map(
        |(bowl, handle, blank_side_mm, ([join, arc], end))| BoredEndScoop {
            bore_diameter_mm: bowl.0,
            bore_depth_mm: bowl.1,
            rounding_mm: bowl.2 * bowl.1.min(bowl.0 / 2.0),
            wall_mm: bowl.3,
            floor_mm: bowl.4,
            outside: if join { Outside::Join } else { Outside::RoundOver },
            tilt_deg: if handle.1 { handle.0 } else { 0.0 },
            crossing_mm: handle.2,
            neck_diameter_mm: handle.3,
            handle_diameter_mm: handle.4,
            handle_mm: handle.5,
            handle_end: HandleEnd::ALL[usize::from(end)],
            opening: if arc { Opening::Arc } else { Opening::Straight },
            blank_side_mm,
            ..BoredEndScoop::default()
        },
    )
}

proptest! {
    #[test]
    fn any_choices_make_a_sound_design(scoop in scoop()) {
        let design = scoop.design("any");
        let said: Vec<String> = design.problems().iter().map(ToString::to_string).collect();
        prop_assert_eq!(said, Vec::<String>::new());
        prop_assert!(Piece::resolve(&design, &design.limits.over(&Shop::default().limits)).is_ok());
    }
}
