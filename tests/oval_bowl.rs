//! Oval bowls and ladles, hollowed across the grain about one axis or several, against closed forms.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;
use skewline::design::following::choose;
use skewline::design::pattern::{HandleEnd, Hollows, Ladle, OvalBowlScoop};
use skewline::design::{AxisName, Choices, Cut, Design, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::plan::{Step, StepKind, plan};
use skewline::figures::ridge::ridges;
use skewline::figures::support::HeadEnd;
use skewline::figures::{Worked, work_out};
use skewline::geometry::{Vector, mass};
use skewline::piece::Piece;
use skewline::shelf::{Imported, read, write_design};

/// Waste before the bowl, in mm.
const BEFORE_MM: f64 = 12.0;
/// Radius of the nub at its tip, in mm.
const NUB_MM: f64 = 7.5;

fn near(found: f64, expected: f64, share: f64) {
    assert!((found - expected).abs() <= share * expected.abs(), "found {found}, expected {expected}");
}

fn piece(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

/// Half the length and half the width of a bowl, in mm.
fn halves(scoop: &OvalBowlScoop) -> (f64, f64) {
    (scoop.bowl_length_mm / 2.0, scoop.bowl_width_mm / 2.0)
}

/// Radius of the handle's root, in mm: 3 mm over the neck's, and less than 0.8 of the bowl's.
fn root_mm(scoop: &OvalBowlScoop) -> f64 {
    (scoop.neck_diameter_mm / 2.0 + 3.0).min(0.8 * scoop.bowl_width_mm / 2.0)
}

/// Distance of the outermost hollows from the middle, and the radius of the largest ball about one of them that the spheroid
/// holds, in mm. From memory: the normal of an ellipse at `x = m / e^2` meets its longer axis at `m`, and the nearest point of
/// the ellipse from there is `b sqrt(1 - m^2 / (a^2 - b^2))` away.
fn outermost(scoop: &OvalBowlScoop) -> (f64, f64) {
    let (a, b) = halves(scoop);
    let foci = a * a - b * b;
    let at = scoop.spread_share * foci / a;
    (at, b * (1.0 - at * at / foci).sqrt())
}

/// A sphere's cap drawn out to a spheroid `a` along the blank: `pi h^2 (3 b - h) / 3 * a / b`, `h` as on the sphere. MathWorld,
/// Spherical Cap; an affine map scales every volume alike.
fn cap_mm3(b: f64, height: f64, drawn_out: f64) -> f64 {
    PI * height * height * (3.0 * b - height) / 3.0 * drawn_out
}

/// The bowl as turned is a prolate spheroid, `4/3 pi a b^2`, less the caps beyond the nub and the handle's root. MathWorld,
/// Prolate Spheroid.
#[test]
fn the_bowl_as_turned_is_a_spheroid_less_two_caps() {
    for (bowl_length_mm, bowl_width_mm) in [(84.0, 60.0), (120.0, 50.0), (60.0, 60.0), (100.0, 90.0)] {
        let scoop = OvalBowlScoop { bowl_length_mm, bowl_width_mm, blank_side_mm: 110.0, ..OvalBowlScoop::straight() };
        let (a, b) = halves(&scoop);
        let mut design = scoop.design("turned");
        let to_root = |cut: &Cut| match cut {
            Cut::Pass(pass) if pass.name == "bowl" => Some(pass.to_mm),
            _ => None,
        };
        let root_at = design.cuts.iter().find_map(to_root).unwrap();
        let beyond = |cut: &Cut| !matches!(cut, Cut::Hollow(_) | Cut::Saw(_));
        design.cuts.retain(beyond);
        for cut in &mut design.cuts {
            match cut {
                Cut::Part(plane) if plane.at_mm > root_at => plane.at_mm = root_at,
                _ => {}
            }
        }
        let short = |radius: f64| b - (b * b - radius * radius).sqrt();
        let whole = 4.0 / 3.0 * PI * a * b * b;
        let caps = cap_mm3(b, short(NUB_MM), a / b) + cap_mm3(b, short(root_mm(&scoop)), a / b);
        near(root_at, BEFORE_MM + a + a * (1.0 - (root_mm(&scoop) / b).powi(2)).sqrt(), 1e-9);
        near(mass(&piece(&design).solid.finished()).volume_mm3, whole - caps, 1e-3);
    }
}

/// Level with a straight handle one hollow holds the cap of a ball under its opening, or of a spheroid where the floor is not
/// as thick as the wall. MathWorld, Spherical Cap.
#[test]
fn one_hollow_holds_the_cap_of_a_ball() {
    for (floor_mm, opening_share) in [(5.0, 0.0), (5.0, 0.3), (9.0, 0.0), (9.0, 0.25), (4.0, 0.15)] {
        let hollows = Hollows::One;
        let scoop = OvalBowlScoop { floor_mm, opening_share, hollows, ..OvalBowlScoop::straight() };
        let mut design = scoop.design("one");
        design.contents = "water".to_owned();
        let b = halves(&scoop).1;
        let (wide, deep) = (b - scoop.wall_mm, b - floor_mm);
        let held = cap_mm3(wide, wide + opening_share * b * wide / deep, deep / wide);
        near(worked(&design).figures.summary.holds_ml.unwrap() * 1000.0, held, 2e-3);
    }
}

/// Level with a straight handle and opened at the middle, two round hollows hold half of two balls less the lens in both:
/// `pi (4 R + d) (2 R - d)^2 / 12`. MathWorld, Sphere-Sphere Intersection, for equal radii. The wall is as
/// thick as wanted where a ball would touch the spheroid, and thinner at most behind the flat that the nub leaves.
#[test]
fn two_hollows_hold_two_balls_less_their_lens() {
    for (bowl_length_mm, spread_share, wall_mm) in [(84.0, 0.6, 5.0), (84.0, 0.9, 4.0), (100.0, 0.3, 6.0)] {
        let scoop = OvalBowlScoop {
            bowl_length_mm,
            spread_share,
            wall_mm,
            floor_mm: wall_mm,
            opening_share: 0.0,
            ..OvalBowlScoop::straight()
        };
        let mut design = scoop.design("two");
        design.contents = "water".to_owned();
        let ((a, b), (at, ball)) = (halves(&scoop), outermost(&scoop));
        let (radius, apart) = (ball - wall_mm, 2.0 * at);
        let lens = PI * (4.0 * radius + apart) * (2.0 * radius - apart).powi(2) / 12.0;
        let summary = worked(&design).figures.summary;
        near(summary.holds_ml.unwrap() * 1000.0, (8.0 / 3.0 * PI * radius.powi(3) - lens) / 2.0, 2e-3);
        let at_flat = a * (1.0 - (NUB_MM / b).powi(2)).sqrt() - at - radius;
        let least = summary.wall_min_mm.unwrap();
        assert!((least - wall_mm.min(at_flat)).abs() < 0.02, "{least} of {wall_mm} and {at_flat}");
    }
}

/// Two equal balls of radius `R` whose centres are `d` apart meet in a circle of radius `sqrt(R^2 - (d / 2)^2)`. MathWorld,
/// Sphere-Sphere Intersection. The plane that touches both is `R` below their centres.
#[test]
fn the_ridge_between_two_balls_is_as_high_as_its_circle_is_small() {
    for (spread_share, wall_mm) in [(0.6, 5.0), (0.8, 4.0), (0.1, 8.0)] {
        let scoop = OvalBowlScoop { spread_share, wall_mm, floor_mm: wall_mm, ..OvalBowlScoop::default() };
        let design = scoop.design("two");
        let (at, ball) = outermost(&scoop);
        let radius = ball - wall_mm;
        let crest = (radius * radius - at * at).sqrt();
        let [ridge] = ridges(&design, &piece(&design))[..] else { panic!("not one ridge") };
        assert!((ridge.height_mm - (radius - crest)).abs() < 0.01, "{ridge:?}, expected {}", radius - crest);
        assert!((ridge.crest - Vector::new(0.0, -crest, BEFORE_MM + halves(&scoop).0)).length() < 0.02, "{ridge:?}");
        assert!(ridge.first_cut < ridge.second_cut);
    }
}

/// Flatter hollows are the same drawn in: every height in proportion to the depth. An affine map keeps what touches.
#[test]
fn the_ridge_of_flatter_hollows_is_lower_in_proportion() {
    let scoop = OvalBowlScoop { wall_mm: 4.0, floor_mm: 11.0, ..OvalBowlScoop::default() };
    let design = scoop.design("flat");
    let (at, ball) = outermost(&scoop);
    let (wide, deep) = (ball - 4.0, ball - 11.0);
    let height = deep * (1.0 - (1.0 - (at / wide).powi(2)).sqrt());
    assert!((ridges(&design, &piece(&design))[0].height_mm - height).abs() < 0.01);
}

/// Balls of radii `R` and `r` meet at `x = (d^2 - r^2 + R^2) / 2 d` from the centre of the first, in a circle of radius
/// `sqrt(R^2 - x^2)`. MathWorld, Sphere-Sphere Intersection. What touches both leans by `asin((R - r) / d)`: MathWorld,
/// Circle-Circle Tangents.
#[test]
fn three_hollows_leave_two_ridges_between_unequal_balls() {
    let scoop = OvalBowlScoop {
        bowl_length_mm: 120.0,
        hollows: Hollows::Three,
        spread_share: 0.8,
        floor_mm: 5.0,
        ..OvalBowlScoop::default()
    };
    let (apart, ball) = outermost(&scoop);
    let (large, small) = (halves(&scoop).1 - 5.0, ball - 5.0);
    let x = (apart * apart - small * small + large * large) / (2.0 * apart);
    let (sin, out) = ((large - small) / apart, (large * large - x * x).sqrt());
    let height = large - x * sin - out * (1.0 - sin * sin).sqrt();
    let mut design = scoop.design("three");
    for _ in 0..2 {
        let found = ridges(&design, &piece(&design));
        assert_eq!(found.len(), 2);
        for (ridge, side) in found.iter().zip([-1.0, 1.0]) {
            assert!((ridge.height_mm - height).abs() < 0.01, "{ridge:?}, expected {height}");
            let at = Vector::new(0.0, -out, BEFORE_MM + 60.0 + side * x);
            assert!((ridge.crest - at).length() < 0.02, "{ridge:?}, expected {at:?}");
        }
        // Whatever the order of the work.
        design.cuts.reverse();
    }
}

/// Hollows that do not meet leave a wall and no ridge; one hollow, and one within another, leave none.
#[test]
fn there_is_no_ridge_where_hollows_do_not_meet() {
    let far = OvalBowlScoop { bowl_length_mm: 150.0, spread_share: 1.0, ..OvalBowlScoop::default() };
    let one = OvalBowlScoop { hollows: Hollows::One, ..OvalBowlScoop::default() };
    let mut within = OvalBowlScoop { bowl_length_mm: 64.0, ..OvalBowlScoop::default() }.design("within");
    let hollow = within.cuts.iter_mut().rev().find_map(|cut| match cut {
        Cut::Hollow(hollow) => Some(hollow),
        _ => None,
    });
    hollow.unwrap().shape =
        skewline::design::HollowShape::RoundEnded { diameter_mm: 10.0, depth_mm: 8.0, rounding_mm: 0.0 };
    for design in [far.design("far"), one.design("one"), within] {
        assert_eq!(ridges(&design, &piece(&design)), [], "{}", design.name);
    }
}

/// A ladle's bowl, dammed at its saw cut, is the cap of a ball. MathWorld, Spherical Cap.
#[test]
fn a_ladle_has_the_bowl_of_a_ball() {
    for (tilt_deg, opening_share) in [(10.0, 0.0), (20.0, 0.25), (35.0, 0.1)] {
        let ladle = Ladle { tilt_deg, opening_share, ..Ladle::default() };
        let worked = worked(&ladle.design("ladle"));
        let (outside, radius) = (ladle.ball_diameter_mm / 2.0, ladle.ball_diameter_mm / 2.0 - ladle.wall_mm);
        let deep = outside - ladle.floor_mm;
        let held = cap_mm3(radius, radius + opening_share * outside * radius / deep, deep / radius);
        let hold = worked.figures.hold.value().unwrap();
        near(hold.cavity_mm3, held, 3e-3);
        let tilt = piece(&ladle.design("ladle")).axis(AxisName::C).unwrap().tilt();
        near(tilt.to_degrees(), tilt_deg, 1e-9);
    }
}

/// Any number of a kind, within what may be typed.
fn within_bounds(choices: &mut Choices, shares: &[f64]) {
    for (place, share) in (0..choices.count()).zip(shares) {
        let bound = choices.look(place).unwrap().bound;
        *choices.number_mut(place).unwrap() = bound.from + share * (bound.to - bound.from);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, ..ProptestConfig::default() })]

    /// Whatever is chosen within bounds, the design is sound, has geometry, and comes back as saved.
    #[test]
    fn any_choices_make_a_sound_design(
        shares in proptest::collection::vec(prop_oneof![1 => Just(0.0), 1 => Just(1.0), 8 => 0.0..1.0_f64], 16),
        (is_ladle, hollows, end) in (any::<bool>(), 0_usize..3, 0_usize..3),
    ) {
        let handle_end = HandleEnd::UNHOOKED[end];
        let mut design = if is_ladle {
            Ladle { handle_end, ..Ladle::default() }.design("any")
        } else {
            OvalBowlScoop { hollows: Hollows::ALL[hollows], handle_end, ..OvalBowlScoop::default() }.design("any")
        };
        choose(&mut design, |choices| within_bounds(choices, &shares));
        prop_assert_eq!(design.problems(), []);
        let Ok(Imported::Design(saved)) = read(&write_design(&design).unwrap()) else { panic!("not read") };
        prop_assert_eq!(&saved.design, &design);
        prop_assert!(Piece::resolve_drawn(&design).is_ok());
    }
}

/// Choices within what a lathe and a bowl take.
fn any_scoop() -> impl Strategy<Value = OvalBowlScoop> {
    let bowl = (50.0..120.0_f64, 0.4..1.0_f64, 2.0..8.0, 2.0..12.0, 0.0..0.5, 0.1..1.0_f64);
    let handle = (prop_oneof![1 => Just(0.0), 3 => 0.5..20.0], 0.0..360.0, 8.0..30.0, 16.0..30.0, 60.0..180.0_f64);
    (bowl, handle, 0_usize..3).prop_map(|(bowl, handle, hollows)| OvalBowlScoop {
        bowl_length_mm: bowl.0,
        bowl_width_mm: (bowl.0 * bowl.1).max(25.0),
        wall_mm: bowl.2,
        floor_mm: bowl.3,
        opening_share: bowl.4,
        spread_share: bowl.5,
        hollows: Hollows::ALL[hollows],
        tilt_deg: handle.0,
        toward_deg: handle.1,
        neck_diameter_mm: handle.2,
        handle_diameter_mm: handle.3,
        handle_mm: handle.4,
        ..OvalBowlScoop::default()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// The outside is the spheroid all around, from the nub to the handle's root, but for the opening: within 0.05 mm of its
    /// surface there is wood inside, and none outside.
    #[test]
    fn the_outside_is_a_spheroid(scoop in any_scoop(), spread in 0.0..1.0_f64) {
        let design = scoop.design("any");
        let (a, b) = halves(&scoop);
        let finished = piece(&design);
        let finished = finished.solid.finished();
        let skewline::design::BlankSection::Square { side_mm } = design.blank.section else { panic!("a round blank") };
        let fits = |point: Vector| point.x.abs().max(point.y.abs()) < 0.5 * side_mm - 0.1;
        let ends = [NUB_MM, root_mm(&scoop)].map(|radius| a * (1.0 - (radius / b).powi(2)).sqrt());
        for i in 0..400 {
            // Even over the sphere that is drawn out: a Fibonacci lattice.
            let s = 1.0 - 2.0 * (f64::from(i) + spread) / 401.0;
            let clock = TAU * f64::from(i) * 0.618_033_988_75;
            let flat = b * (1.0 - s * s).sqrt();
            let on = Vector::new(flat * clock.sin(), flat * clock.cos(), a * s);
            let out = Vector::new(on.x / (b * b), on.y / (b * b), on.s / (a * a)).unit().unwrap();
            let middle = Vector::new(0.0, 0.0, BEFORE_MM + a);
            let (inside, outside) = (middle + on - out * 0.05, middle + on + out * 0.05);
            let is_turned = on.s > -ends[0] + 0.2 && on.s < ends[1] - 0.2;
            if is_turned && on.y < scoop.opening_share * b - 0.2 && fits(outside) {
                prop_assert!(finished.contains(inside), "no wood at {:?}", inside);
                prop_assert!(!finished.contains(outside), "wood at {:?}", outside);
            }
        }
    }
}

/// Jaws are planned for bowls that are round about the axis they are hollowed on: all else of an oval bowl is good, and all of
/// a ladle.
#[test]
fn every_check_but_an_ovals_jaws_is_good() {
    let mut designs = vec![Ladle::default().design("ladle")];
    for hollows in Hollows::ALL {
        for scoop in [OvalBowlScoop::default(), OvalBowlScoop::straight()] {
            designs.push(OvalBowlScoop { hollows, ..scoop.clone() }.design(&format!("{hollows:?} {}", scoop.tilt_deg)));
        }
    }
    for design in designs {
        let worked = worked(&design);
        let is_oval = design.name != "ladle";
        let is_jaws = |name: CheckName, verdict: Verdict| name == CheckName::Jaws && verdict == Verdict::Tight;
        let bad = worked.checks.iter().filter(|check| check.verdict != Verdict::Ok);
        let bad = bad.filter(|check| !(is_oval && is_jaws(check.name, check.verdict)));
        let bad: Vec<String> = bad
            .map(|check| format!("{:?} {:?}: {} {}", check.verdict, check.name, check.sentence, check.cure))
            .collect();
        assert!(bad.is_empty(), "{}: {bad:#?}", design.name);
    }
}

/// All that spins between centres is done before the bowl is opened; no step puts it back.
#[test]
fn an_opened_bowl_is_not_put_back_between_centres() {
    for design in [OvalBowlScoop::default().design("tilted"), Ladle::default().design("ladle")] {
        let (worked, shop) = (worked(&design), Shop::default());
        let plan = plan(&design, &worked, &shop).unwrap_or_else(|error| panic!("{}: {error}", design.name));
        let opened = plan.steps.iter().position(|step| step.carried.head == HeadEnd::Carrier).unwrap();
        for step in &plan.steps[opened..] {
            let between = matches!(step.carried.head, HeadEnd::DriveCentre | HeadEnd::Jaws);
            assert!(!between, "{}: {}", design.name, step.title);
        }
    }
}

/// A choice that gives the handle an axis of its own, or the bowl one more hollow, is taken back whole.
#[test]
fn choices_go_both_ways() {
    let design = OvalBowlScoop::straight().design("oval");
    let chosen = |design: &Design, change: fn(&mut OvalBowlScoop)| {
        let mut design = design.clone();
        choose(&mut design, |choices| {
            let Choices::OvalBowlScoop(scoop) = choices else { panic!("another kind") };
            change(scoop);
        });
        design
    };
    let up = chosen(&design, |it| (it.tilt_deg, it.hollows) = (6.0, Hollows::Three));
    let made = OvalBowlScoop { tilt_deg: 6.0, hollows: Hollows::Three, ..OvalBowlScoop::straight() };
    assert_eq!(up, made.design("oval"));
    assert_eq!(chosen(&up, |it| (it.tilt_deg, it.hollows) = (0.0, Hollows::Two)), design);
}

/// The step that scrapes the last hollow says how high the ridge is that stays between it and its neighbour, and where.
#[test]
fn the_plan_says_what_ridge_to_scrape_away() {
    let design = OvalBowlScoop { hollows: Hollows::Two, ..OvalBowlScoop::default() }.design("oval");
    let worked = worked(&design);
    let [ridge] = ridges(&design, &worked.piece)[..] else { panic!("one ridge") };
    let plan = plan(&design, &worked, &Shop::default()).unwrap();
    let number =
        |step: &Step, what: &str| step.numbers.iter().find(|it| it.what.starts_with(what)).and_then(|it| it.mm);
    let told: Vec<&Step> = plan.steps.iter().filter(|step| number(step, "ridge between").is_some()).collect();
    let [step] = told[..] else { panic!("{} steps", told.len()) };
    assert_eq!(step.kind, StepKind::Scrape);
    assert_eq!(number(step, "ridge between"), Some(ridge.height_mm));
    assert_eq!(number(step, "its place"), Some(ridge.crest.s));
}
