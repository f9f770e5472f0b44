//! Strength against closed forms of beams, the handbook's table of grain slope, and Hankinson's formula.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod support;

use std::f64::consts::PI;

use skewline::design::{AxisChoice, AxisName, Design, Node, PassProfile, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::strength::{
    CATCH_N, Governs, Grain, HALVED, Loads, Neck, Strength, TAIL_THRUST_N, WhileTurning, hankinson, table_share,
    while_turning,
};
use skewline::figures::wood::Timber;
use skewline::figures::wood::moisture::wet_share;
use skewline::figures::work_out;
use skewline::geometry::{
    Axis, Bending, CutFace, HalfSpace, Outline, Region, Removal, Role, Solid, Station, Vector, spokes, square_section,
};
use skewline::piece::Piece;
use support::pieces::{bar, pass, scoop};
use support::solids::{assert_within, kept_body, leaning_axes, piece, taken_body};
use support::table::Table;

const UP: [f64; 2] = [0.0, 1.0];
const RIGHT: [f64; 2] = [1.0, 0.0];
/// A cantilever of 120 mm with 50 N at its end, in N mm.
const MOMENT: f64 = 6000.0;

fn section_of(removals: Vec<Removal>, about: &Axis, t: f64) -> Bending {
    let solid: Solid = piece(removals);
    square_section(&solid.finished(), about, t)
}

/// tests/reference/closed_forms.md, section 6: round and hollow round (Roark; Gere).
#[test]
fn round_and_hollow_cantilevers_have_their_closed_form_stress() {
    for axis in leaning_axes() {
        let round = kept_body(axis, &[Station::new(-40.0, 7.0), Station::new(40.0, 7.0)], 0);
        let section = section_of(vec![round], &axis, 3.0);
        assert_within(section.modulus_mm3(UP), 269.3915700, 1e-9);
        assert_within(MOMENT / section.modulus_mm3(RIGHT), 22.27241186, 1e-9);
        assert_within(section.least_modulus_mm3(), 269.3915700, 1e-9);
        // Largest shear of a twist: 16 T / (pi d^3). Same source, from memory.
        assert_within(section.twist_mpa(1000.0), 16.0 * 1000.0 / (PI * 14.0_f64.powi(3)), 1e-9);
        let hollow = vec![
            kept_body(axis, &[Station::new(-40.0, 10.0), Station::new(40.0, 10.0)], 0),
            taken_body(axis, &[Station::new(-30.0, 5.0), Station::new(30.0, 5.0)], 1),
        ];
        let section = section_of(hollow, &axis, 3.0);
        for load in [UP, RIGHT, [0.6, -0.8]] {
            assert_within(section.modulus_mm3(load), 736.3107782, 1e-3);
            assert_within(MOMENT / section.modulus_mm3(load), 8.148733086, 1e-3);
        }
    }
}

/// A round of 12 mm cut at an angle is an ellipse of 12 by 18: same source.
#[test]
fn an_elliptical_cantilever_has_its_closed_form_stress() {
    let lean = (12.0_f64 / 18.0).acos();
    for (right, up) in [(0.0, 1.0), (1.0, 0.0)] {
        let middle = Vector::new(3.0, -2.0, 150.0);
        let along = Vector::new(lean.sin() * right, lean.sin() * up, lean.cos());
        let round =
            kept_body(Axis::new(middle, along).unwrap(), &[Station::new(-90.0, 6.0), Station::new(90.0, 6.0)], 0);
        let section = section_of(vec![round], &Axis::A, 150.0);
        let (across_height, across_width) = if up > 0.0 { (RIGHT, UP) } else { (UP, RIGHT) };
        assert_within(section.modulus_mm3(across_height), 254.4690049, 1e-3);
        assert_within(section.modulus_mm3(across_width), 381.7035074, 1e-3);
        assert_within(MOMENT / section.modulus_mm3(across_height), 23.57851009, 1e-3);
    }
}

/// A half round: centroid 4 r / (3 pi) from the flat, second moment r^4 (pi / 8 - 8 / (9 pi)) about a line along it
/// (Roark; from memory).
#[test]
fn a_d_shaped_cantilever_has_its_closed_form_stress() {
    let r: f64 = 9.0;
    let saw = HalfSpace { into: Vector::new(0.0, 1.0, 0.0), offset: 0.0 };
    let cuts = vec![
        kept_body(Axis::A, &[Station::new(50.0, r), Station::new(250.0, r)], 0),
        Removal { region: Region::HalfSpace(saw), role: Role::Opening, cut: 1 },
    ];
    let section = section_of(cuts, &Axis::A, 150.0);
    let centroid = 4.0 * r / (3.0 * PI);
    let second = r.powi(4) * (PI / 8.0 - 8.0 / (9.0 * PI));
    assert_within(section.moments.centroid[1], -centroid, 1e-3);
    assert_within(section.modulus_mm3(UP), second / (r - centroid), 2e-3);
    assert_within(section.modulus_mm3(RIGHT), PI * r.powi(4) / 8.0 / r, 2e-3);
    assert!(section.least_modulus_mm3() <= section.modulus_mm3(UP).min(section.modulus_mm3(RIGHT)) * (1.0 + 1e-9));
}

/// A rectangle turned on its corner: the load's parts along its sides add up at a corner. A square resists least
/// against its diagonal.
#[test]
fn skew_bending_is_the_sum_of_its_parts() {
    let (b, h) = (18.0, 12.0);
    for turn in [0.0_f64, 10.0, 30.0, 45.0, 77.0] {
        let (sin, cos) = turn.to_radians().sin_cos();
        let corner = |u: f64, v: f64| [u * cos - v * sin + 5.0, u * sin + v * cos - 3.0];
        let points = vec![corner(-9.0, -6.0), corner(9.0, -6.0), corner(9.0, 6.0), corner(-9.0, 6.0)];
        let face = CutFace { outlines: vec![Outline { points, hole: false }] };
        let section = Bending::of(&face);
        // Rectangle: b h^2 / 6, closed_forms.md section 6.
        let parts = MOMENT * cos / (b * h * h / 6.0) + MOMENT * sin / (h * b * b / 6.0);
        assert_within(MOMENT / section.modulus_mm3(UP), parts, 1e-9);
        assert_within(section.modulus_mm3([-sin, cos]), 432.0, 1e-9);
        let worst = MOMENT * (1.0_f64 / 432.0).hypot(1.0 / 648.0);
        assert_within(MOMENT / section.least_modulus_mm3(), worst, 1e-9);
    }
}

/// A thrust at the edge of a round gives five times the stress of one in its middle: 1 + 4 e / r.
#[test]
fn a_thrust_aside_bends_too() {
    let round = Bending::of_round(7.0);
    for share in [0.0, 0.25, 0.5, 1.0] {
        let middle = 200.0 / (PI * 49.0);
        for (right, up) in [(0.6, -0.8), (1.0, 0.0), (0.0, 1.0)] {
            let aside = [right * 7.0 * share, up * 7.0 * share];
            assert_within(round.thrust_mpa(200.0, aside), middle * (1.0 + 4.0 * share), 1e-9);
        }
    }
    assert_eq!(Bending::default().thrust_mpa(1.0, UP), f64::INFINITY);
    assert_eq!(Bending::default().least_modulus_mm3(), 0.0);
}

/// Wood Handbook, FPL-GTR-190 (2010), Table 5-12, and Hankinson's formula at the same slopes: tests/reference/grain_slope.csv.
#[test]
fn grain_slope_takes_what_the_handbook_says() {
    let table = Table::read(include_str!("reference/grain_slope.csv"));
    let number = |row: &[String], head| table.get(row, head).parse::<f64>().unwrap();
    let (mut rows, mut checks) = (0, 0);
    for row in &table.rows {
        let Some(slope) = (match table.get(row, "slope") {
            "straight" => Some(0.0),
            slope => slope.strip_prefix("1 in ").map(|n| 1.0 / n.parse::<f64>().unwrap()),
        }) else {
            continue;
        };
        let percent = number(row, "modulus_of_rupture_pct");
        let grain = Grain::at(slope.atan());
        match table.get(row, "kind") {
            "table" => {
                rows += 1;
                assert_within(grain.table_share.unwrap(), percent / 100.0, 1e-6);
                assert_eq!((grain.governs, grain.share()), (Governs::Table, grain.table_share.unwrap()));
            }
            "check" => {
                checks += 1;
                assert!((100.0 * grain.hankinson_share - percent).abs() < 0.005, "{slope}: {grain:?}");
            }
            other => panic!("{other}"),
        }
    }
    assert_eq!((rows, checks), (6, 5));
    // Half way from 1 in 10 to 1 in 5, and beyond the table.
    assert_within(table_share(0.15).unwrap(), 0.68, 1e-9);
    assert_eq!(table_share(0.21), None);
    let steep = Grain::at(20.0_f64.to_radians());
    assert_eq!((steep.governs, steep.table_share), (Governs::Hankinson, None));
}

/// Hankinson's formula, Wood Handbook chapter 5, N = P Q / (P sin^n + Q cos^n): along the grain it gives P, across Q, at
/// 45 degrees with n = 2 twice the product over the sum.
#[test]
fn hankinson_at_three_angles() {
    for q in [0.04, 0.1, 0.4] {
        for n in [1.5, 2.0, 2.5] {
            assert_within(hankinson(0.0, q, n), 1.0, 1e-12);
            assert_within(hankinson(PI / 2.0, q, n), q, 1e-6);
        }
        assert_within(hankinson(PI / 4.0, q, 2.0), 2.0 * q / (1.0 + q), 1e-12);
    }
    // sin^2 30 = 1/4: 0.1 / (0.25 + 0.075).
    assert_within(hankinson(PI / 6.0, 0.1, 2.0), 0.1 / 0.325, 1e-12);
}

/// Wood Handbook chapter 5 (from memory): at the moisture where strength stops changing all of the green share is lost.
#[test]
fn wet_wood_is_weaker() {
    assert_eq!((wet_share(0.0), wet_share(12.0)), (1.0, 1.0));
    assert_within(wet_share(18.5), 0.6_f64.sqrt(), 1e-12);
    assert_eq!((wet_share(25.0), wet_share(80.0)), (0.6, 0.6));
}

fn strength(design: &Design) -> Strength {
    work_out(design, &Shop::default()).unwrap().figures.strength
}

fn neck(design: &Design) -> Neck {
    *strength(design).neck.value().unwrap()
}

/// Rows of closed_forms.md section 6: a round of 14 mm with 50 N at 120 mm, where the hand begins; a taper from 10 to
/// 22 mm is weakest 50 mm from the load.
#[test]
fn a_bar_bears_what_a_cantilever_bears() {
    let straight = neck(&bar(None, 160.0, vec![Node::line(0.0, 14.0), Node::line(160.0, 14.0)]));
    assert_within(straight.lever_mm, 120.0, 1e-3);
    assert_within(straight.stress_mpa.unwrap(), 22.27241186, 1e-3);
    // Black cherry, 84.8 MPa: tests/reference/species.csv.
    assert_within(straight.factor.unwrap(), 84.8 / 22.27241186, 1e-3);
    let nodes = vec![Node::line(0.0, 10.0), Node::line(120.0, 22.0), Node::line(160.0, 22.0)];
    let tapered = neck(&bar(None, 160.0, nodes));
    assert!((tapered.lever_mm - 50.0).abs() < 1.5, "{tapered:?}");
    assert_within(tapered.stress_mpa.unwrap(), 7.545123228, 1e-3);
}

/// The same bar across the grain by 1 in 10 keeps 81 percent of its strength (Table 5-12); beyond 1 in 5 the check says so.
#[test]
fn a_leaning_bar_is_weaker_by_its_grain() {
    let leaning = |tilt_deg: f64| {
        let axis = AxisChoice::Tilt { tilt_deg, toward_deg: 90.0, crossing_mm: 80.0 };
        bar(Some(axis), 160.0, vec![Node::line(0.0, 6.0), Node::line(160.0, 6.0)])
    };
    let tilt_deg = 0.1_f64.atan().to_degrees();
    let neck = neck(&leaning(tilt_deg));
    assert_within(neck.bears_mpa.unwrap(), 0.81 * 84.8, 1e-9);
    let verdict = |tilt_deg: f64| {
        let worked = work_out(&leaning(tilt_deg), &Shop::default()).unwrap();
        worked.checks.iter().find(|c| c.name == CheckName::GrainSlope).unwrap().verdict
    };
    assert_eq!([tilt_deg, 11.0, 12.0, 35.0].map(verdict), [Verdict::Ok, Verdict::Ok, Verdict::Tight, Verdict::Stop]);
}

fn spun(design: &Design, loads: &Loads) -> WhileTurning {
    let shop = Shop::default();
    let solid = Piece::resolve(design, &shop.limits).unwrap();
    while_turning(design, &solid, 0, loads, Timber::of(design, &shop).as_ref()).unwrap()
}

/// Between two centres 240 mm apart (standard beam tables; from memory): a pull in the middle bends by F L / 4, one of F
/// at each end by F times the way to the middle; a thrust aside by e adds N e.
#[test]
fn a_bar_between_centres_bears_what_a_beam_bears() {
    let round = bar(None, 240.0, vec![Node::line(0.0, 14.0), Node::line(240.0, 14.0)]);
    let none = Loads { thrust_n: 0.0, balance_n: 0.0, catch_n: 0.0 };
    let caught = spun(&round, &Loads { catch_n: 100.0, ..none });
    assert_within(caught.stresses.unwrap().catch_mpa, 22.27241186, 1e-3);
    assert!((caught.place.station_mm - 120.0).abs() < 1.0, "{caught:?}");
    let shaken = spun(&round, &Loads { balance_n: 50.0, ..none });
    assert_within(shaken.stresses.unwrap().balance_mpa, 22.27241186, 1e-3);
    let aside = AxisChoice::Marks { tail_x_mm: 3.0, tail_y_mm: 4.0, head_x_mm: 3.0, head_y_mm: 4.0 };
    let mut design = bar(Some(aside), 240.0, vec![Node::line(0.0, 14.0), Node::line(240.0, 14.0)]);
    let nodes = vec![Node::line(0.0, 40.0), Node::line(240.0, 40.0)];
    design.cuts.push(pass("round", AxisName::A, 0.0, 240.0, PassProfile::Drawn { nodes }));
    let shop = Shop::default();
    let solid = Piece::resolve(&design, &shop.limits).unwrap();
    let pressed = while_turning(&design, &solid, 1, &Loads { thrust_n: 200.0, ..none }, None).unwrap();
    let expected = 200.0 / (PI * 49.0) + 200.0 * 5.0 / 269.3915700;
    assert_within(pressed.stresses.unwrap().thrust_mpa, expected, 1e-3);
    assert_eq!(pressed.factor, None);
}

/// A pass that narrows to the end of the piece is judged without its end, and says what to leave there until last.
#[test]
fn a_thin_end_is_turned_last() {
    let nodes = vec![Node::line(0.0, 30.0), Node::line(200.0, 30.0), Node::line(215.0, 0.8)];
    let thin = spun(&bar(None, 240.0, nodes), &Loads { balance_n: 20.0, ..Loads::default() });
    let last = thin.turned_last.unwrap();
    assert!(thin.factor.unwrap() > 2.0, "{thin:?}");
    assert_within(last.station_mm, 215.0, 1e-9);
    assert_within(last.diameter_mm, 0.8, 1e-9);
    let d = last.leave_mm;
    // Thrust, 20 N and a catch of 300 N, 25 mm from the drive: the sum of their stresses is half of what it bears.
    let modulus = PI * d.powi(3) / 32.0;
    let sum = 200.0 / (PI * d * d / 4.0) + 20.0 * 25.0 / modulus + 300.0 * 25.0 * 215.0 / 240.0 / modulus;
    assert_within(sum, 84.8 / 2.0, 1e-6);
}

#[test]
fn the_assumptions_tell_the_loads_that_are_used() {
    let told = strength(&scoop()).assumptions;
    assert!(told[0].contains(&format!("{TAIL_THRUST_N} N")));
    assert!(told[2].contains(&format!("{CATCH_N} N")));
    assert!(told[5].contains("halve") && told[5].contains(&format!("{HALVED} times")));
}

/// Nothing left between the lip and the hand, or between the centres, is a stop and not a number.
#[test]
fn a_parted_piece_bears_nothing() {
    let nodes = vec![Node::line(0.0, 20.0), Node::line(80.0, 0.0), Node::line(160.0, 20.0)];
    let worked = work_out(&bar(None, 160.0, nodes), &Shop::default()).unwrap();
    let verdict = |name| worked.checks.iter().find(|c| c.name == name).unwrap().verdict;
    assert_eq!(verdict(CheckName::NeckStrength), Verdict::Stop);
    assert_eq!(verdict(CheckName::WasteStrength), Verdict::Stop);
    assert_eq!(worked.figures.strength.neck.value().unwrap().stress_mpa, None);
}

/// Rounds beside the axis by up to half their radius, and a square bar, against pi r^4 / 4, pi r^2 and a^4 / 12.
#[test]
fn spokes_come_near_the_section() {
    for share in [0.0, 0.2, 0.35, 0.5] {
        for clock in [0.0, 0.2, 0.4, 1.0, 2.5] {
            let aside = Axis::new(Axis::A.point(0.0, 9.0 * share, clock), Axis::A.along()).unwrap();
            let round: Solid = piece(vec![kept_body(aside, &[Station::new(50.0, 9.0), Station::new(250.0, 9.0)], 0)]);
            let quick = spokes(&round.finished(), &Axis::A, 120.0).moments;
            assert_within(quick.area_mm2, PI * 81.0, 0.01);
            assert_within(quick.second_vertical_mm4, PI * 9.0_f64.powi(4) / 4.0, 0.06);
            assert_within(quick.second_sideways_mm4, PI * 9.0_f64.powi(4) / 4.0, 0.06);
        }
    }
    let bar: Solid = piece(vec![]);
    let quick = spokes(&bar.finished(), &Axis::A, 120.0).moments;
    assert_within(quick.second_vertical_mm4, 300.0_f64.powi(4) / 12.0, 0.25);
}
