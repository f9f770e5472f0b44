//! Wooden jaws for a bowl hollowed across the grain, against closed forms and against the wood itself.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::f64::consts::{FRAC_PI_2, PI};

use proptest::prelude::*;
use skewline::design::pattern::RoundBowlScoop;
use skewline::design::{AxisName, Shop};
use skewline::figures::checks::{Check, CheckName, Verdict};
use skewline::figures::jaws::{PROUD_MM, RELIEF_MM, Recess, SEGMENTS, SLOT_ROOM_MM, closes_by_mm, leaves_at_n};
use skewline::figures::plan::{Step, StepKind, plan};
use skewline::figures::{Known, Worked};
use skewline::geometry::{Axis, Vector};
use skewline::shelf::{Imported, read};

mod support;
use support::jaws::{jaws_of, near, worked};

fn check(worked: &Worked, name: CheckName) -> Check {
    worked.checks.iter().find(|check| check.name == name).unwrap().clone()
}

/// A plane at distance h from the middle of a sphere cuts it in a circle of radius sqrt(R^2 - h^2): MathWorld, Spherical Cap.
#[test]
fn the_mouth_of_a_ball_is_the_circle_of_a_cap() {
    let recess = Recess::of_ball(33.0, 6.75);
    near(recess.mouth_mm, 32.302_283_201_4, 1e-9);
    near(recess.undercut_mm(), 33.0 - recess.mouth_mm, 1e-12);
    near(Recess::past_girth_for_mm(33.0, recess.undercut_mm()), 6.75, 1e-9);
    assert!(recess.grips());
    assert!(!Recess::of_ball(33.0, 0.0).grips() && !Recess::of_ball(33.0, -2.0).grips());
}

/// Two halves clear the ball when their corners do, which stand square to the way they move: by Pythagoras they move by the
/// height of the cap's plane.
#[test]
fn two_half_jaws_open_by_the_height_of_the_cap() {
    for (radius, past) in [(33.0, 6.75), (20.0, 1.0), (50.0, 30.0)] {
        near(Recess::of_ball(radius, past).open_by_mm(2), past, 1e-9);
    }
}

/// The force that drives a wedge of half the angle between faces with friction is P tan(angle + atan(friction)): the law of
/// the wedge of statics textbooks, from memory.
#[test]
fn a_lip_holds_as_a_wedge_does() {
    near(leaves_at_n(1000.0, 0.0, 0.3), 300.0, 1e-9);
    near(leaves_at_n(1000.0, PI / 6.0, 0.0), 1000.0 / 3.0_f64.sqrt(), 1e-9);
    // tan(a + b) = (tan a + tan b) / (1 - tan a tan b).
    let lean = 0.2_f64;
    let together = (lean.tan() + 0.3) / (1.0 - lean.tan() * 0.3);
    near(leaves_at_n(2000.0, lean, 0.3), 2000.0 * together, 1e-9);
    assert_eq!(leaves_at_n(2000.0, -FRAC_PI_2, 0.3), 0.0);
}

proptest! {
    /// Opened by so much, every point of every lip has cleared the ball, and a hair less does not do.
    #[test]
    fn opened_jaws_let_the_bowl_in(radius in 10.0..80.0_f64, share in 0.01..0.7_f64, count in 2_u32..7) {
        let recess = Recess::of_ball(radius, share * radius);
        let moved = recess.open_by_mm(count);
        let least = |moved: f64| {
            let half = PI / f64::from(count);
            (0..=40).map(|i| -half + 2.0 * half * f64::from(i) / 40.0).map(|angle| {
                let (sin, cos) = angle.sin_cos();
                (recess.mouth_mm * cos + moved).hypot(recess.mouth_mm * sin)
            }).fold(f64::INFINITY, f64::min)
        };
        prop_assert!(least(moved) >= radius - 1e-9);
        prop_assert!(least(moved - 1e-3) < radius);
        prop_assert!(moved >= recess.undercut_mm() - 1e-9);
    }

    /// The facing sides of two neighbours, each moved along its own middle, come nearer by the gap.
    #[test]
    fn jaws_close_by_what_their_gap_gives(gap in 0.1..10.0_f64, count in 2_u32..9) {
        let moved = closes_by_mm(gap, count);
        let half = PI / f64::from(count);
        // Both sides lie in the direction `half` from the first jaw's middle; the second jaw's middle is at 2 half.
        let across = |angle: f64| -angle.sin() * half.cos() + angle.cos() * half.sin();
        let apart = moved * across(0.0) - moved * across(2.0 * half);
        prop_assert!((apart - gap).abs() < 1e-9, "{} of {}", apart, gap);
    }
}

/// The recess is that of the ball, and every length follows from its radius and from how high the opening lies.
#[test]
fn the_jaws_of_a_ball_are_those_of_its_closed_form() {
    for scoop in [
        RoundBowlScoop::default(),
        RoundBowlScoop::straight(),
        RoundBowlScoop { ball_diameter_mm: 80.0, blank_side_mm: 86.0, opening_share: 0.4, ..RoundBowlScoop::default() },
    ] {
        let jaws = jaws_of(&worked(&scoop.design("round")));
        let radius = scoop.ball_diameter_mm / 2.0;
        let past = scoop.opening_share * radius - PROUD_MM;
        let exact = Recess::of_ball(radius, past);
        // The ball is turned within 0.01 mm.
        near(jaws.past_girth_mm, past, 0.02);
        near(jaws.girth_mm, 2.0 * radius, 0.02);
        near(jaws.mouth_mm, 2.0 * exact.mouth_mm, 0.02);
        near(jaws.undercut_mm, exact.undercut_mm(), 0.02);
        near(jaws.rim_mm, 2.0 * Recess::of_ball(radius, past + PROUD_MM).mouth_mm, 0.02);
        near(jaws.depth_mm, radius + past + RELIEF_MM, 0.02);
        near(jaws.open_by_mm, exact.open_by_mm(SEGMENTS), 0.03);
        let lean = (past / radius).asin().to_degrees();
        assert!(jaws.lip_deg <= lean && jaws.lip_deg > lean - 1.0, "{} of {lean}", jaws.lip_deg);
        for at in &jaws.recess {
            near(at.diameter_mm / 2.0, (radius * radius - (past - at.depth_mm).powi(2)).max(0.0).sqrt(), 0.25);
            // Where the ball is not near its bottom, where a hair of depth is much of radius.
            if at.depth_mm < radius {
                near(at.diameter_mm / 2.0, (radius * radius - (past - at.depth_mm).powi(2)).sqrt(), 0.02);
            }
        }
        assert!(jaws.takes_from_mm < jaws.girth_mm && jaws.takes_from_mm > jaws.girth_mm - 6.0);
        assert!(jaws.block.diameter_mm >= jaws.girth_mm + 30.0);
        assert!(jaws.block.screw_bite_mm < jaws.block.thickness_mm - jaws.depth_mm + radius);
    }
}

fn any_scoop() -> impl Strategy<Value = RoundBowlScoop> {
    let bowl = (50.0..90.0, 0.0..0.5_f64);
    let handle = (prop_oneof![1 => Just(0.0), 3 => 2.0..12.0], 0.0..360.0, 12.0..22.0, 16.0..30.0, 60.0..180.0_f64);
    (bowl, handle).prop_map(|((ball_diameter_mm, opening_share), handle)| RoundBowlScoop {
        ball_diameter_mm,
        opening_share,
        tilt_deg: handle.0,
        toward_deg: handle.1,
        neck_diameter_mm: handle.2,
        handle_diameter_mm: handle.3,
        handle_mm: handle.4,
        blank_side_mm: ball_diameter_mm + 4.0,
        ..RoundBowlScoop::default()
    })
}

/// The axis of the hollow, the station of its opening, and points of the wood that the jaws hold, seen along it.
fn wood(worked: &Worked, scoop: &RoundBowlScoop) -> (Axis, f64, Vec<Vector>) {
    let piece = &worked.piece;
    let axis = *piece.axis(AxisName::B).unwrap();
    let state = piece.solid.finished();
    let reach = scoop.ball_diameter_mm / 2.0 + scoop.handle_mm;
    let centre = axis.point(0.0, 0.0, 0.0).s;
    let half = scoop.ball_diameter_mm;
    let mut points = Vec::new();
    // A Halton sequence: even over the box, without a pattern.
    let halton = |mut i: u32, base: u32| {
        let (mut share, mut found) = (1.0, 0.0);
        while i > 0 {
            share /= f64::from(base);
            found += share * f64::from(i % base);
            i /= base;
        }
        found
    };
    for i in 1..12_000 {
        let along = centre - half + (reach + 2.0 * half) * halton(i, 2);
        let point = Vector::new(half * (halton(i, 3) - 0.5), half * (halton(i, 5) - 0.5), along);
        if state.contains(point) {
            points.push(point);
        }
    }
    (axis, -scoop.opening_share * scoop.ball_diameter_mm / 2.0, points)
}

/// The axis of the handle.
fn piece_axis(worked: &Worked) -> Axis {
    worked.piece.axis(AxisName::C).copied().unwrap_or(Axis::A)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Whatever the scoop, no wood of the handle meets the jaws outside the slot, none reaches farther than the sweep, nearer
    /// to the rest or nearer to the headstock than said; and jaws that do not reach past the girth are refused.
    #[test]
    fn the_wood_clears_the_jaws_and_what_is_around_them(scoop in any_scoop()) {
        let worked = worked(&scoop.design("any"));
        let jaws = jaws_of(&worked);
        let (axis, open, points) = wood(&worked, &scoop);
        let front = open + PROUD_MM;
        let back = front + jaws.block.thickness_mm;
        let along = piece_axis(&worked).along();
        let toward = (along - axis.along() * along.dot(axis.along())).unit().unwrap();
        for point in points {
            let seen = axis.see(point);
            let from_axis = axis.right() * seen.right + axis.up() * seen.up;
            prop_assert!(2.0 * seen.radius() <= jaws.clear.sweep_mm + 0.01);
            let off_ball = Vector::new(seen.right, seen.up, seen.t).length() > scoop.ball_diameter_mm / 2.0 + 0.3;
            if off_ball && seen.radius() < jaws.block.diameter_mm / 2.0 && seen.t > front && seen.t < back {
                let slot = jaws.slot.unwrap();
                let aside = (from_axis - toward * from_axis.dot(toward)).length();
                prop_assert!(aside < slot.width_mm / 2.0, "aside {} of {}", aside, slot.width_mm);
                prop_assert!(seen.t - front < slot.depth_mm - SLOT_ROOM_MM + 0.5, "{} of {}", seen.t - front, slot.depth_mm);
            }
            if seen.t < open - 0.5 {
                let rest = jaws.clear.rest_within_mm.unwrap();
                prop_assert!(open - seen.t <= jaws.clear.in_front_mm + 0.01);
                prop_assert!(seen.radius() >= rest, "{} nearer than the rest at {rest}", seen.radius());
            }
            let room = back + Shop::default().carrier.reach_mm - seen.t;
            prop_assert!(room >= jaws.clear.headstock_mm - 0.02 * jaws.clear.sweep_mm);
        }
        let slot = jaws.slot.unwrap();
        let widest = (scoop.neck_diameter_mm + 6.0).max(scoop.handle_diameter_mm);
        prop_assert!(slot.width_mm < widest + 2.0 * SLOT_ROOM_MM + 0.5, "{} for {}", slot.width_mm, widest);
        let tilt = scoop.tilt_deg.to_radians();
        let underside = widest / 2.0 / tilt.cos() + jaws.block.diameter_mm / 2.0 * tilt.tan();
        prop_assert!(slot.depth_mm < underside - front + SLOT_ROOM_MM + 0.5, "{} for {}", slot.depth_mm, underside);
        let refused = check(&worked, CheckName::Jaws);
        prop_assert_eq!(refused.verdict == Verdict::Stop, jaws.past_girth_mm <= 0.0, "{:?}", refused);
        if jaws.past_girth_mm <= 0.0 {
            prop_assert!(refused.sentence.contains("less than half of the bowl's girth"));
        }
        prop_assert!(jaws.grip.factor >= 0.0 && jaws.grip.leaves_at_n.is_finite());
    }
}

/// A bowl sawn open at its middle leaves jaws nothing to close over.
#[test]
fn jaws_that_grip_less_than_half_a_girth_are_refused() {
    let half = RoundBowlScoop { opening_share: 0.0, ..RoundBowlScoop::default() };
    let found = check(&worked(&half.design("half")), CheckName::Jaws);
    assert_eq!((found.verdict, found.value), (Verdict::Stop, Some(0.0)));
    let low = RoundBowlScoop { opening_share: 0.12, ..RoundBowlScoop::default() };
    let found = check(&worked(&low.design("low")), CheckName::Jaws);
    assert_eq!(found.verdict, Verdict::Tight);
    assert!(found.sentence.contains("friction alone"), "{}", found.sentence);
    let good = check(&worked(&RoundBowlScoop::default().design("good")), CheckName::Jaws);
    assert_eq!(good.verdict, Verdict::Ok);
    assert!(good.field.is_none() && good.value > good.limit);
}

/// A handle that hangs far down behind the bowl strikes the headstock.
#[test]
fn a_handle_that_points_at_the_headstock_is_stopped() {
    let down = RoundBowlScoop {
        tilt_deg: 35.0,
        toward_deg: 180.0,
        handle_mm: 240.0,
        blank_side_mm: 360.0,
        ..RoundBowlScoop::default()
    };
    let worked = worked(&down.design("down"));
    let jaws = jaws_of(&worked);

    assert!(jaws.clear.headstock_mm < 0.0, "{:?}", jaws.clear);
    assert_eq!(check(&worked, CheckName::Headstock).verdict, Verdict::Stop);
}

/// No jaws are planned for what is not round: it says so, and is never ok.
#[test]
fn a_bowl_that_is_not_round_has_no_planned_jaws() {
    let text = std::fs::read_to_string("tests/reference/pieces/oval-bowl-scoop.json").unwrap();
    let Imported::Design(saved) = read(&text).unwrap() else { panic!("not a design") };
    let worked = worked(&saved.design);
    assert!(!worked.figures.jaws.is_empty());
    for planned in &worked.figures.jaws {
        let Known::Missing { why_not } = &planned.jaws else { panic!("{planned:?}") };
        assert!(why_not.contains("not round") && why_not.ends_with('.'), "{why_not}");
    }
    assert_eq!(check(&worked, CheckName::Jaws).verdict, Verdict::Tight);
}

/// A scoop that is bored from its end has no jaws, and no check of them.
#[test]
fn a_bored_scoop_needs_no_wooden_jaws() {
    let worked = worked(&skewline::design::starters::bored_end_scoop());
    assert!(worked.figures.jaws.is_empty());
    assert!(worked.checks.iter().all(|check| !matches!(check.name, CheckName::Jaws | CheckName::Headstock)));
}

/// The plan makes the jaws before it sets the bowl in them, with every number; it hollows, calipers and scrapes in them; and
/// what spins there has its cautions.
#[test]
fn the_plan_makes_the_jaws_and_hollows_in_them() {
    let (design, shop) = (RoundBowlScoop::default().design("round"), Shop::default());
    let worked = worked(&design);
    let jaws = jaws_of(&worked);
    let plan = plan(&design, &worked, &shop).unwrap();
    let at = |name: &str| plan.steps.iter().position(|step| step.name == name).unwrap_or_else(|| panic!("{name}"));
    let saw = plan.steps.iter().position(|step| step.kind == StepKind::Saw).unwrap();
    let order =
        [saw, at("jaws quarters"), at("jaws recess"), at("jaws slot"), at("mark B"), at("hollow B"), at("scrape B")];
    assert!(order.is_sorted(), "{order:?}");
    let number = |step: &Step, what: &str| {
        let found = step.numbers.iter().chain(&step.setting).find(|number| number.what.starts_with(what));
        found.and_then(|number| number.mm).unwrap_or_else(|| panic!("{what} in {step:#?}"))
    };
    let step = |name: &str| &plan.steps[at(name)];
    assert_eq!(number(step("jaws quarters"), "its thickness"), jaws.block.thickness_mm);
    assert_eq!(number(step("jaws recess"), "recess, diameter 0"), jaws.mouth_mm);
    assert_eq!(number(step("jaws slot"), "width"), jaws.slot.unwrap().width_mm);
    let hollow = step("hollow B");
    assert_eq!(number(hollow, "handle sweeps"), jaws.clear.sweep_mm);
    assert_eq!(number(hollow, "tool rest no farther"), jaws.clear.rest_within_mm.unwrap());
    assert_eq!(number(hollow, "rim proud"), PROUD_MM);
    assert!(hollow.what.contains("from its edge down to the middle"));
    assert!(hollow.until.iter().any(|until| until.contains("caliper")));
    assert!(hollow.cautions.iter().any(|caution| caution.contains("sweeps a wide circle")));
    let recess = step("jaws recess");
    assert!(recess.speed.is_some() && recess.cautions.iter().any(|caution| caution.contains("Screws too long")));
}
