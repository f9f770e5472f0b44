//! Pieces that are turned between centres, with no bowl: blades between two far axes, sides around the middle, grooves.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::f64::consts::{FRAC_1_SQRT_2, PI, TAU};

use proptest::prelude::*;
use skewline::design::pattern::{GroovedHead, Handle, HandleEnd, Section, SidedSpindle, Spreader};
use skewline::design::{AxisName, Cut, Design, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::plan::{cautions, plan};
use skewline::figures::{Worked, work_out};
use skewline::geometry::{Axis, Vector, square_parts};
use skewline::piece::Piece;
use skewline::shelf::{Imported, read, write_design};

fn piece(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

/// The area of the finished piece's section square to axis A, in mm2.
fn area_mm2(piece: &Piece, station: f64) -> f64 {
    square_parts(&piece.solid.finished(), &Axis::A, station).iter().map(|part| part.moments.area_mm2).sum()
}

/// How far the finished piece reaches from axis A in a clock direction, in mm: halved between wood and none.
fn reach_mm(piece: &Piece, station: f64, clock_deg: f64) -> f64 {
    let (sin, cos) = clock_deg.to_radians().sin_cos();
    let finished = piece.solid.finished();
    let (mut inside, mut outside) = (0.0, 200.0);
    while outside - inside > 1e-6 {
        let middle = f64::midpoint(inside, outside);
        if finished.contains(Vector::new(middle * sin, middle * cos, station)) {
            inside = middle
        } else {
            outside = middle
        }
    }
    inside
}

fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "found {found}, expected {expected}");
}

/// Two circles of radius `R` whose middles are `D` apart meet in a lens: its chord is `sqrt(4 R^2 - D^2)`, its area
/// `2 R^2 acos(D / 2R) - D / 2 sqrt(4 R^2 - D^2)`. MathWorld, Circle-Circle Intersection, for equal radii.
#[test]
fn the_section_of_a_blade_is_the_lens_of_two_circles() {
    for (width_mm, thickness_mm) in [(32.0, 12.5), (28.0, 8.0), (40.0, 15.0), (24.0, 12.0)] {
        let blade = Spreader {
            width_mm,
            thickness_mm,
            tip_thickness_mm: thickness_mm,
            blank_side_mm: 90.0,
            ..Spreader::default()
        };
        let (apart, radius) = (2.0 * blade.marks_mm(), blade.marks_mm() + thickness_mm / 2.0);
        let chord = (4.0 * radius * radius - apart * apart).sqrt();
        let lens = 2.0 * radius * radius * (apart / (2.0 * radius)).acos() - apart / 2.0 * chord;
        near(chord, width_mm, 1e-9);
        let piece = piece(&blade.design("blade"));
        let at = blade.widest_at_mm();
        near(area_mm2(&piece, at), lens, 1e-3 * lens);
        // Marks stand at 45 degrees: the faces there, the edges square to them.
        for (clock, half) in [(45.0, thickness_mm / 2.0), (225.0, thickness_mm / 2.0), (135.0, chord / 2.0)] {
            near(reach_mm(&piece, at, clock), half, 0.02);
        }
    }
}

/// Edges that are not sharp: the outline cuts the lens off where it is as thick as was chosen.
#[test]
fn the_edges_of_a_blade_are_as_thick_as_chosen() {
    for edge_mm in [0.5, 1.0, 2.0] {
        let blade = Spreader { edge_mm, tip_thickness_mm: 12.5, blank_side_mm: 80.0, ..Spreader::default() };
        let piece = piece(&blade.design("blade"));
        // Pythagoras on the outline, a round of half the width.
        let (out, up) = ((16.0_f64.powi(2) - (edge_mm / 2.0).powi(2)).sqrt(), edge_mm / 2.0);
        let at = |out: f64, up: f64| {
            let (x, y) = (FRAC_1_SQRT_2 * (out + up), FRAC_1_SQRT_2 * (up - out));
            piece.solid.finished().contains(Vector::new(x, y, blade.widest_at_mm()))
        };
        assert!(at(out - 0.03, up - 0.03) && !at(out, up + 0.03) && !at(out + 0.03, up), "edge {edge_mm}");
    }
}

/// A tip that is thinner is narrower in step: half the chord of a lens `2 h` thick is `sqrt(2 d h + h^2)`.
#[test]
fn a_blade_tapers_to_its_tip() {
    let blade = Spreader { tip_width_mm: 32.0, tip_thickness_mm: 7.0, ..Spreader::default() };
    let piece = piece(&blade.design("blade"));
    let (tip, widest) = (blade.widest_at_mm() - 0.45 * blade.blade_mm, blade.widest_at_mm());
    for share in [0.01, 0.3, 0.7] {
        let half = f64::midpoint(0.0, 7.0 + share * (12.5 - 7.0));
        let chord = (2.0 * blade.marks_mm() * half + half * half).sqrt();
        let at = tip + share * (widest - tip);
        near(reach_mm(&piece, at, 45.0), half, 0.02);
        near(reach_mm(&piece, at, 135.0), chord, 0.03);
    }
}

fn spindle(section: Section, marks_mm: f64) -> SidedSpindle {
    SidedSpindle { section, marks_mm, blank_side_mm: 480.0, ..SidedSpindle::default() }
}

/// Three sides whose marks stand as far out as the corners: each arc is about the opposite corner. The width is `s`, the side
/// of the triangle, whichever way it is taken, and the area `(pi - sqrt 3) / 2 s^2`. MathWorld, Reuleaux Triangle.
#[test]
fn three_sides_about_their_corners_have_one_width() {
    let even = SidedSpindle { head_diameter_mm: 36.0, ..spindle(Section::Three, 18.0) };
    let piece = piece(&even.design("reuleaux"));
    let side = 18.0 * 3.0_f64.sqrt();
    near(area_mm2(&piece, 80.0), (PI - 3.0_f64.sqrt()) / 2.0 * side * side, 0.3);
    let edge: Vec<(f64, f64)> = (0..720)
        .map(|i| {
            let (sin, cos) = (f64::from(i) / 2.0).to_radians().sin_cos();
            let reach = reach_mm(&piece, 80.0, f64::from(i) / 2.0);
            (reach * sin, reach * cos)
        })
        .collect();
    for i in 0..60 {
        let (sin, cos) = (PI * f64::from(i) / 60.0).sin_cos();
        let along = edge.iter().map(|(x, y)| x * sin + y * cos);
        let (most, least) = (along.clone().fold(f64::MIN, f64::max), along.fold(f64::MAX, f64::min));
        near(most - least, side, 0.02);
    }
}

/// Corners stand on the round that was turned first, tapers and all; the middle of a side stands where the law of cosines has
/// it. The farther out the marks, the nearer to the apothem of a polygon, `c cos(pi / n)` (MathWorld, Regular Polygon): what
/// is left over it is the sagitta of half a side of radius `R`.
#[test]
fn sides_meet_on_the_outline() {
    for section in Section::ALL.into_iter().skip(1) {
        for marks_mm in [12.0, 18.0, 30.0, 150.0] {
            let spindle = spindle(section, marks_mm);
            let piece = piece(&spindle.design("sides"));
            let (count, step) = (section.sides() as f64, 360.0 / section.sides() as f64);
            let half = PI / count;
            for share in [0.0, 0.35, 0.8] {
                let at = 17.0 + 0.001 + share * 139.9;
                let corner = 18.0 - 3.0 * share;
                let radius = (corner * corner + 2.0 * corner * marks_mm * half.cos() + marks_mm * marks_mm).sqrt();
                for side in 0..section.sides() {
                    let flat_clock = 225.0 + step * side as f64;
                    near(reach_mm(&piece, at, flat_clock), radius - marks_mm, 0.02);
                    // At the very corner a hair aside is off it.
                    near(reach_mm(&piece, at, flat_clock + step / 2.0), corner, 0.03);
                }
                let half_side = corner * half.sin();
                let sagitta = radius - (radius * radius - half_side * half_side).sqrt();
                near(radius - marks_mm, corner * half.cos() + sagitta, 1e-9);
            }
            let (tail, head) = spindle.flats_mm();
            near(reach_mm(&piece, 17.001, 225.0), tail, 0.02);
            near(reach_mm(&piece, 156.999, 225.0), head, 0.02);
        }
    }
}

/// On skewed axes the sides wind by as much as the marks are turned on, and their corners stay on the outline.
#[test]
fn sides_wind_about_skewed_axes() {
    for winds_deg in [-70.0, 40.0, 90.0] {
        let spindle = SidedSpindle { winds_deg, ..spindle(Section::Three, 18.0) };
        let design = spindle.design("winding");
        let piece = piece(&design);
        let length = design.blank.length_mm;
        let axis = piece.axis(AxisName::B).unwrap();
        // Both marks are as far from the middle.
        for s in [0.0, length] {
            near(axis.centre(s).unwrap().radius(), 18.0, 1e-9);
        }
        let clock = |point: Vector| point.x.atan2(point.y).to_degrees();
        let turned = clock(axis.centre(length).unwrap()) - clock(axis.centre(0.0).unwrap());
        near(turned.rem_euclid(360.0), winds_deg.rem_euclid(360.0), 1e-9);
        for share in [0.05, 0.3, 0.5, 0.9] {
            let at = (length - 140.0) / 2.0 + 140.0 * share;
            let mark = axis.centre(at).unwrap();
            let flat_clock = clock(mark) + 180.0;
            let corner = 18.0 - 3.0 * share;
            // Sections square to the blank are those of circles that lean by the skew: 0.1 mm, measured.
            near(reach_mm(&piece, at, flat_clock + 60.0), corner, 0.1);
            near(reach_mm(&piece, at, flat_clock - 60.0), corner, 0.1);
            let d = mark.radius();
            near(reach_mm(&piece, at, flat_clock), (corner * corner + corner * d + d * d).sqrt() - d, 0.1);
        }
    }
}

#[test]
fn grooves_repeat_along_the_head() {
    let head = GroovedHead::default();
    let piece = piece(&head.design("dipper"));
    let pitch = head.head_mm / (head.grooves + 0.4);
    for groove in 0..6 {
        let from = 17.0 + pitch * f64::from(groove);
        let outline = |at: f64| {
            let share = (at - 17.0) / head.head_mm;
            16.0 - 4.0 * (2.0 * share - 1.0).powi(2)
        };
        let (ridge, middle) = (from + 0.2 * pitch, from + 0.7 * pitch);
        near(reach_mm(&piece, ridge, 30.0), outline(ridge), 0.1);
        near(reach_mm(&piece, middle, 200.0), outline(middle) - 5.0, 0.1);
    }
}

fn sided(section: Section) -> Handle {
    Handle { section, neck_diameter_mm: 20.0, diameter_mm: 25.0, marks_mm: 12.0, end: HandleEnd::Round }
}

/// The usual choices of every kind.
fn usual() -> Vec<Design> {
    let mut all = vec![
        Spreader::default().design("spreader"),
        Spreader::stirrer().design("stirrer"),
        GroovedHead::default().design("dipper"),
        GroovedHead { handle: sided(Section::Four), blank_side_mm: 48.0, ..GroovedHead::default() }.design("four"),
        Spreader { handle: sided(Section::Six), ..Spreader::default() }.design("six"),
    ];
    all.extend(Section::ALL.map(|section| SidedSpindle { section, ..SidedSpindle::default() }.design("spindle")));
    all.push(SidedSpindle { winds_deg: 45.0, ..SidedSpindle::default() }.design("winding"));
    all.push(
        SidedSpindle { winds_deg: 60.0, section: Section::Four, ..SidedSpindle::default() }.design("winding four"),
    );
    all
}

#[test]
fn every_check_of_the_usual_pieces_is_good() {
    let mut bad = Vec::new();
    for design in usual() {
        assert_eq!(design.problems(), [], "{}", design.name);
        let worked = worked(&design);
        let faults = worked.checks.iter().filter(|check| check.verdict != Verdict::Ok);
        bad.extend(faults.map(|it| format!("{}: {:?} {}: {}", design.name, it.verdict, it.name.title(), it.sentence)));
        assert!(worked.checks.iter().any(|check| check.name == CheckName::WasteStrength), "{}", design.name);
    }
    assert!(bad.is_empty(), "{bad:#?}");
}

/// Outline first, then the sides, then the end, and the partings last; whatever turns a side says how to spare the thin wood.
#[test]
fn the_plan_turns_what_is_thin_last_and_says_so() {
    for design in usual() {
        let (worked, shop) = (worked(&design), Shop::default());
        let plan = plan(&design, &worked, &shop).unwrap_or_else(|error| panic!("{}: {error}", design.name));
        let named = |name: &str| plan.steps.iter().position(|step| step.title == format!("Turn the {name}"));
        let outline = named("outline").unwrap();
        for cut in &design.cuts {
            let Cut::Pass(pass) = cut else { continue };
            let at = named(&pass.name).unwrap();
            assert!(at >= outline, "{}: {}", design.name, pass.name);
            let spares = plan.steps[at].cautions.iter().any(|caution| caution == cautions::SIDES);
            assert_eq!(spares, pass.axis != AxisName::A, "{}: {}", design.name, pass.name);
        }
        if let (Some(second), Some(end)) = (named("second face"), named("end")) {
            assert!(second < end);
        }
    }
}

/// A thrust beside a part with sides is meant, and counted in its strength; beside any other pass it stays a flaw.
#[test]
fn a_thrust_beside_sides_is_counted_in_their_strength() {
    let with = Spreader::default().design("sides");
    let mut without = with.clone();
    for cut in &mut without.cuts {
        if let Cut::Pass(pass) = cut {
            pass.shapes = None;
        }
    }
    let check = |design: &Design| worked(design).checks.iter().find(|it| it.name == CheckName::Plug).unwrap().verdict;
    assert_eq!((check(&with), check(&without)), (Verdict::Ok, Verdict::Tight));
    let stressed = worked(&with);
    let strength = &stressed.figures.strength.while_turning;
    let face = strength.iter().find(|waste| waste.axis == AxisName::C).unwrap();
    assert!(face.stresses.unwrap().thrust_mpa > 1.0);
}

fn any_handle() -> impl Strategy<Value = Handle> {
    (8.0..30.0, 10.0..40.0, 0_usize..6, 8.0..30.0, 0_usize..3).prop_map(|(neck, thick, section, marks_mm, end)| {
        Handle {
            neck_diameter_mm: neck,
            diameter_mm: thick,
            section: Section::ALL[section],
            marks_mm,
            end: [HandleEnd::Round, HandleEnd::Knob, HandleEnd::Plain][end],
        }
    })
}

fn any_piece() -> impl Strategy<Value = Design> {
    let blade = (25.0..100.0, 15.0..50.0, 0.3..1.0, 0.15..0.7, 0.5..1.0, 0.0..0.4, 50.0..250.0_f64);
    let spreader = (blade, any_handle(), 20.0..120.0).prop_map(|(it, handle, blank_side_mm)| {
        let thickness_mm = it.3 * it.1;
        Spreader {
            blade_mm: it.0,
            width_mm: it.1,
            tip_width_mm: it.2 * it.1,
            thickness_mm,
            tip_thickness_mm: it.4 * thickness_mm,
            edge_mm: it.5 * thickness_mm,
            handle_mm: it.6,
            handle,
            blank_side_mm,
        }
        .design("spreader")
    });
    let spindle = (0_usize..6, 60.0..300.0, 15.0..60.0, 15.0..60.0, 6.0..60.0, -90.0..90.0, 20.0..150.0_f64).prop_map(
        |(section, length_mm, tail_diameter_mm, head_diameter_mm, marks_mm, winds_deg, blank_side_mm)| {
            SidedSpindle {
                section: Section::ALL[section],
                length_mm,
                tail_diameter_mm,
                head_diameter_mm,
                marks_mm,
                winds_deg,
                blank_side_mm,
            }
            .design("spindle")
        },
    );
    let head = (15.0..60.0, 0.6..1.0, 20.0..100.0, 1.0..12.0, 0.1..0.9, 1.0..20.0, 50.0..250.0_f64);
    let grooved = (head, any_handle(), 20.0..120.0).prop_map(|(it, handle, blank_side_mm)| {
        GroovedHead {
            head_diameter_mm: it.0,
            end_diameter_mm: it.1 * it.0,
            head_mm: it.2,
            grooves: it.3,
            groove_share: it.4,
            groove_depth_mm: it.5,
            handle_mm: it.6,
            handle,
            blank_side_mm,
        }
        .design("grooved")
    });
    prop_oneof![spreader, spindle, grooved]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    /// Whatever is chosen, the design is sound, comes back as saved, and leaves a piece that hangs together from end to end:
    /// wood about the middle at every station, and none beyond its outline.
    #[test]
    fn whatever_is_chosen_is_a_piece(design in any_piece(), spread in 0.0..1.0_f64) {
        prop_assert_eq!(design.problems(), []);
        let Ok(Imported::Design(saved)) = read(&write_design(&design).unwrap()) else { panic!("not read") };
        prop_assert_eq!(&saved.design, &design);
        let piece = piece(&design);
        let planes: Vec<f64> = design.cuts.iter().filter_map(|cut| match cut {
            Cut::Part(plane) => Some(plane.at_mm),
            _ => None,
        }).collect();
        let Some(Cut::Pass(_)) = design.cuts.first() else { panic!("no outline") };
        let outline = piece.revolved(0).unwrap();
        let finished = piece.solid.finished();
        for i in 0..40 {
            let at = planes[0] + (planes[1] - planes[0]) * (f64::from(i) + spread) / 40.0;
            prop_assert!(finished.contains(Vector::new(0.0, 0.0, at)), "nothing at {}", at);
            let most = outline.meridian.radius_after(at).max(outline.meridian.radius_before(at)) + 0.01;
            let (sin, cos) = (TAU * f64::from(i) * 0.618).sin_cos();
            prop_assert!(!finished.contains(Vector::new(most * sin, most * cos, at)), "wood beyond the outline at {}", at);
        }
    }
}
