//! The round-bowl scoop: a ball, sawn open and hollowed across the grain, against closed forms.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;
use skewline::design::following::choose;
use skewline::design::pattern::{HandleEnd, RoundBowlScoop};
use skewline::design::{AxisName, Choices, Cut, Design, Hollow, HollowShape, Node, PassProfile, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::plan::{StepKind, cautions, plan};
use skewline::figures::support::HeadEnd;
use skewline::figures::{Worked, work_out};
use skewline::finding::{BlankOnHand, TiltWanted, Wants, find_round_bowl};
use skewline::form::{Group, sections};
use skewline::geometry::{Plane, SECTION_TOLERANCE, Vector, mass, section};
use skewline::piece::Piece;
use skewline::shelf::{Imported, read, write_design};

mod support;
use support::pieces::{pass, scoop};

fn near(found: f64, expected: f64, share: f64) {
    assert!((found - expected).abs() <= share * expected.abs(), "found {found}, expected {expected}");
}

fn piece(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

/// What a hollow holds below its opening, in mm3: a spherical cap, drawn out as much as the egg is. MathWorld, Spherical
/// Cap: pi h^2 (3 R - h) / 3.
fn cap_mm3(scoop: &RoundBowlScoop) -> f64 {
    let radius = scoop.ball_diameter_mm / 2.0;
    let (wide, deep) = (radius - scoop.wall_mm, radius - scoop.floor_mm);
    let height = wide + scoop.opening_share * radius * wide / deep;
    PI * height * height * (3.0 * wide - height) / 3.0 * deep / wide
}

/// A sphere less a coaxial cylinder keeps pi h^3 / 6, whatever its radius: h is the height of the ring that stays.
/// MathWorld, Spherical Ring; the napkin ring of Polya, Mathematics and Plausible Reasoning (1954).
#[test]
fn a_ball_bored_through_keeps_a_napkin_ring() {
    for (radius, bore) in [(33.0_f64, 12.0_f64), (33.0, 25.0), (20.0, 19.0), (45.0, 3.0)] {
        let mut design = scoop();
        design.blank.length_mm = 2.0 * radius;
        let ball = vec![
            Node::arc(0.0, 0.0, radius * (1.0 - 0.5_f64.sqrt())),
            Node::arc(radius, 2.0 * radius, radius * (1.0 - 0.5_f64.sqrt())),
            Node::line(2.0 * radius, 0.0),
        ];
        let through = HollowShape::RoundEnded { diameter_mm: 2.0 * bore, depth_mm: 2.0 * radius, rounding_mm: 0.0 };
        design.axes.clear();
        design.blank.section = skewline::design::BlankSection::Square { side_mm: 2.0 * radius + 1.0 };
        design.cuts = vec![
            pass("ball", AxisName::A, 0.0, 2.0 * radius, PassProfile::Drawn { nodes: ball }),
            Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm: 0.0, shape: through }),
        ];
        let height = 2.0 * (radius * radius - bore * bore).sqrt();
        near(mass(&piece(&design).solid.finished()).volume_mm3, PI * height.powi(3) / 6.0, 1e-3);
    }
}

/// Level with a straight handle a round bowl holds the cap of a ball under its opening, and of an egg as much as that is
/// drawn out.
#[test]
fn a_round_bowl_holds_the_cap_of_a_ball() {
    for (floor_mm, opening_share) in [(5.0, 0.0), (5.0, 0.3), (9.0, 0.0), (9.0, 0.25), (4.0, 0.15)] {
        let scoop = RoundBowlScoop { floor_mm, opening_share, ..RoundBowlScoop::straight() };
        let mut design = scoop.design("round");
        design.contents = "water".to_owned();
        assert_eq!(design.problems(), []);
        let worked = worked(&design);
        near(worked.figures.summary.holds_ml.unwrap() * 1000.0, cap_mm3(&scoop), 2e-3);
        // Nearest of all are the flat that the nub leaves at the height of the centre, 7.5 mm from its middle to its edge, and
        // the floor.
        let radius = scoop.ball_diameter_mm / 2.0;
        let at_flat = scoop.wall_mm - (radius - (radius * radius - 7.5 * 7.5).sqrt());
        let least = worked.figures.summary.wall_min_mm.unwrap();
        assert!((least - at_flat.min(floor_mm)).abs() < 0.02, "{least} of {at_flat} and {floor_mm}");
        near(worked.figures.summary.floor_min_mm.unwrap(), floor_mm, 0.01);
    }
}

/// Choices within what a lathe and a bowl take.
fn any_scoop() -> impl Strategy<Value = RoundBowlScoop> {
    let bowl = (50.0..90.0, 3.0..8.0, 3.0..12.0, 0.0..0.45_f64);
    let handle = (prop_oneof![1 => Just(0.0), 3 => 0.5..12.0], 0.0..360.0, 12.0..22.0, 16.0..30.0, 60.0..180.0_f64);
    (bowl, handle, 0_usize..3, 50.0..120.0).prop_map(|(bowl, handle, end, blank_side_mm)| RoundBowlScoop {
        ball_diameter_mm: bowl.0,
        wall_mm: bowl.1,
        floor_mm: bowl.2,
        opening_share: bowl.3,
        tilt_deg: handle.0,
        toward_deg: handle.1,
        neck_diameter_mm: handle.2,
        handle_diameter_mm: handle.3,
        handle_mm: handle.4,
        handle_end: [HandleEnd::Round, HandleEnd::Knob, HandleEnd::Plain][end],
        blank_side_mm,
        ..RoundBowlScoop::default()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// Whatever is chosen, the design is sound, comes back as saved, and its outside is a ball all around but for the
    /// opening, the handle and the flat at the bowl end: within 0.05 mm of its surface there is wood inside, and none outside.
    #[test]
    fn the_outside_is_a_ball(scoop in any_scoop(), spread in 0.0..1.0_f64) {
        let design = scoop.design("any");
        prop_assert_eq!(design.problems(), []);
        let Ok(Imported::Design(saved)) = read(&write_design(&design).unwrap()) else { panic!("not read") };
        prop_assert_eq!(&saved.design, &design);
        let piece = piece(&design);
        let across = piece.axis(AxisName::B).unwrap();
        let centre = across.point(0.0, 0.0, 0.0);
        let handle = if scoop.is_tilted() { piece.axis(AxisName::C).unwrap().along() } else { Vector::new(0.0, 0.0, 1.0) };
        let radius = scoop.ball_diameter_mm / 2.0;
        // Larger than the blank it is not all there.
        let fits = |point: Vector| point.x.abs().max(point.y.abs()) < 0.5 * scoop.blank_side_mm - 0.1;
        let finished = piece.solid.finished();
        let root = ((scoop.neck_diameter_mm + 6.0) / 2.0 / radius).asin();
        for i in 0..400 {
            // Even over the sphere: a Fibonacci lattice.
            let s = 1.0 - 2.0 * (f64::from(i) + spread) / 401.0;
            let clock = TAU * f64::from(i) * 0.618_033_988_75;
            let flat = (1.0 - s * s).sqrt();
            let out = Vector::new(flat * clock.sin(), flat * clock.cos(), s);
            let off_handle = out.dot(handle).clamp(-1.0, 1.0).acos() > root + 0.02;
            let off_front = out.dot(handle) > -(7.5_f64.powi(2) / radius.powi(2)).mul_add(-1.0, 1.0).sqrt() + 0.01;
            let under = out.y * radius < scoop.opening_share * radius - 0.2;
            let (inside, outside) = (centre + out * (radius - 0.05), centre + out * (radius + 0.05));
            if off_handle && off_front && under && fits(outside) {
                prop_assert!(finished.contains(inside), "no wood at {:?}", inside);
                prop_assert!(!finished.contains(outside), "wood at {:?}", outside);
            }
        }
    }
}

/// All that spins between centres is done before the bowl is opened; no step puts it back; and how it is held across the
/// grain is said, with the cautions that belong to it.
#[test]
fn an_opened_bowl_is_not_put_back_between_centres() {
    for design in [RoundBowlScoop::default().design("tilted"), RoundBowlScoop::straight().design("straight")] {
        let (worked, shop) = (worked(&design), Shop::default());
        let plan = plan(&design, &worked, &shop).unwrap_or_else(|error| panic!("{}: {error}", design.name));
        let opened = plan.steps.iter().position(|step| step.carried.head == HeadEnd::Carrier).unwrap();
        for step in &plan.steps[opened..] {
            let between = matches!(step.carried.head, HeadEnd::DriveCentre | HeadEnd::Jaws);
            assert!(!between, "{}: {}", design.name, step.title);
            // The recess of the jaws is turned before there is a bowl in them.
            if step.carried.head == HeadEnd::Carrier && step.kind != StepKind::Jaws {
                assert!(
                    cautions::ACROSS.iter().all(|it| step.cautions.iter().any(|caution| caution == it)),
                    "{step:?}"
                );
                assert!(step.kind != StepKind::Bore || step.held.contains("wooden jaws"), "{}", step.held);
            }
        }
        // No number beside a hollow across is beyond the blank.
        for row in worked.figures.joins.iter().flat_map(|join| &join.caliper) {
            assert!(row.least_diameter_mm < 150.0, "{}: {row:?}", design.name);
        }
    }
}

#[test]
fn every_check_of_a_round_bowl_is_good() {
    for scoop in [RoundBowlScoop::straight(), RoundBowlScoop::default()] {
        let worked = worked(&scoop.design("round"));
        let bad = worked.checks.iter().filter(|check| check.verdict != Verdict::Ok);
        let bad: Vec<String> = bad
            .map(|check| format!("{:?} {:?}: {} {}", check.verdict, check.name, check.sentence, check.cure))
            .collect();
        assert!(bad.is_empty(), "tilt {}: {bad:#?}", scoop.tilt_deg);
        assert!(worked.checks.iter().any(|check| check.name == CheckName::Wall));
    }
}

/// The screen is made of the kind's own rows, and a choice that gives the handle an axis of its own is taken back whole.
#[test]
fn choices_are_rows_and_go_both_ways() {
    let design = RoundBowlScoop::straight().design("round");
    let rows = |design: &Design| sections(design, Group::Whole).iter().map(|it| it.fields.len()).sum::<usize>();
    assert_eq!(rows(&design), 12);
    let tilted = |design: &Design, tilt_deg: f64| {
        let mut design = design.clone();
        choose(&mut design, |choices| {
            let Choices::RoundBowlScoop(scoop) = choices else { panic!("another kind") };
            scoop.tilt_deg = tilt_deg;
        });
        design
    };
    let up = tilted(&design, 6.0);
    assert_eq!(up, RoundBowlScoop { tilt_deg: 6.0, ..RoundBowlScoop::straight() }.design("round"));
    assert_eq!(rows(&up), 13);
    assert_eq!(tilted(&up, 0.0), design);
}

/// A round bowl is found that holds what is wanted within 0.5 percent, every check ok; or a sentence says why there is none.
#[test]
fn a_round_bowl_is_found_from_what_is_wanted() {
    let shop = Shop::default();
    let usual = Wants { handle_mm: 100.0, contents: "sugar, granulated".to_owned(), ..Wants::usual(&shop) };
    for (ml, tilt_deg) in [(30.0, 0.0), (45.0, 6.0), (60.0, 7.0)] {
        let wants = Wants { holds_mm3: ml * 1000.0, tilt: TiltWanted::Degrees(tilt_deg), ..usual.clone() };
        let found = find_round_bowl(&wants, &shop).unwrap_or_else(|why| panic!("{ml} mL at {tilt_deg}: {why}"));
        near(found.worked.figures.summary.holds_ml.unwrap(), ml, 0.005 + 1e-9);
        assert!(found.worked.checks.iter().all(|check| check.verdict == Verdict::Ok));
        assert_eq!(found.design.problems(), []);
        assert!(found.words.starts_with("A ball of ") && found.words.contains("wooden jaws"), "{}", found.words);
    }
    for (wants, word) in [
        (Wants { holds_mm3: 5e6, ..usual.clone() }, "holds"),
        // The marks of a ball this small with so little tilt lie too close on the bowl end.
        (Wants { holds_mm3: 45e3, tilt: TiltWanted::Degrees(4.0), ..usual.clone() }, "Marks too close"),
        (Wants { blank: Some(BlankOnHand { side_mm: 40.0, length_mm: None }), ..usual.clone() }, "is wanted"),
        (Wants { blank: Some(BlankOnHand { side_mm: 90.0, length_mm: Some(150.0) }), ..usual.clone() }, "long"),
    ] {
        let why = find_round_bowl(&wants, &shop).unwrap_err();
        assert!(why.contains(word) && why.ends_with('.'), "{why}");
    }
}

/// A hollow that opens to the side asks no profile for wood without end: a caliper row is never wider than the blank. A ladle
/// was told never less than 2085.2 mm.
#[test]
fn no_caliper_row_beside_a_hollow_across_is_wider_than_the_blank() {
    for name in ["oval-bowl-scoop", "ladle-20"] {
        let text = std::fs::read_to_string(format!("tests/reference/pieces/{name}.json")).unwrap();
        let Imported::Design(saved) = read(&text).unwrap() else { panic!("not a design") };
        let worked = worked(&saved.design);
        for row in worked.figures.joins.iter().flat_map(|join| &join.caliper) {
            assert!(row.least_diameter_mm < 140.0, "{name}: {row:?}");
        }
    }
}
/// A pass that ends on the plane where the piece is parted leaves no sliver of wood beside the handle: the outline stays
/// within the handle there.
#[test]
fn no_sliver_stays_where_the_handle_is_parted() {
    let scoop = RoundBowlScoop::default();
    let piece = piece(&scoop.design("round"));
    let plane = Plane { origin: Vector::ZERO, right: Vector::new(0.0, 0.0, 1.0), up: Vector::new(0.0, 1.0, 0.0) };
    let face = section(&piece.solid.finished(), &plane, SECTION_TOLERANCE);
    let handle = piece.axis(AxisName::C).unwrap();
    for [s, y] in face.outlines.iter().flat_map(|outline| &outline.points) {
        let seen = handle.see(Vector::new(0.0, *y, *s));
        if *s > 110.0 {
            assert!(seen.radius() <= scoop.handle_diameter_mm / 2.0 + 0.01, "{s}, {y}");
        }
    }
}
