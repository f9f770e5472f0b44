//! Closed forms of axes and of bores that no other test holds; sources and values in `tests/reference/closed_forms.md`.
//!
//! Sections of parallel and tilted cylinders are in `section.rs`; frustums, spheres, hoofs and crossing cylinders in
//! `mass.rs`; what hoofs, wedges, truncated cylinders, hemispheres and heaps hold in `hold.rs`; the wall round an
//! eccentric bore in `wall.rs`.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use std::f64::consts::PI;

use skewline::design::starters::{BoredEndScoop, Opening};
use skewline::design::{
    AxisChoice, AxisName, Blank, BlankSection, Cut, Design, EndPlane, Hollow, HollowShape, Node, Shop, Side,
};
use skewline::figures::hold::Vessel;
use skewline::figures::work_out;
use skewline::geometry::{Axis, Vector, mass};
use skewline::piece::Piece;
use support::pieces::scoop;
use support::solids::assert_within;

/// Lengths, to rounding.
const EXACT_MM: f64 = 1e-9;

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected} within {tolerance}");
}

/// A shift and a rotation: what the lengths and angles between axes must not notice.
struct Motion {
    shift: Vector,
    about: Vector,
    angle: f64,
}

impl Motion {
    /// Rodrigues' rotation formula.
    fn turn(&self, v: Vector) -> Vector {
        let (sin, cos) = self.angle.sin_cos();
        v * cos + self.about.cross(v) * sin + self.about * (self.about.dot(v) * (1.0 - cos))
    }

    fn apply(&self, point: Vector) -> Vector {
        self.turn(point) + self.shift
    }

    /// The line from a point, moved; its stations count from there.
    fn line(&self, from: Vector, along: Vector) -> Axis {
        Axis::new(self.apply(from), self.turn(along)).unwrap()
    }
}

fn motions() -> Vec<Motion> {
    let motion = |shift: Vector, about: Vector, angle| Motion { shift, about: about.unit().unwrap(), angle };
    vec![
        motion(Vector::new(0.0, 0.0, 0.0), Vector::new(0.0, 0.0, 1.0), 0.0),
        motion(Vector::new(31.0, -7.0, 120.0), Vector::new(0.3, -0.2, 1.0), 1.1),
        motion(Vector::new(-4.0, 55.0, -18.0), Vector::new(1.0, 0.4, -0.1), 0.4),
    ]
}

/// Section 7: an axis through two end points, e1 = 6 and e2 = 10 off the centre line on faces 250 apart. Elementary.
#[test]
fn an_axis_through_two_marks() {
    let mark = |e: f64, clock_deg: f64, s: f64| {
        let (sin, cos) = clock_deg.to_radians().sin_cos();
        Vector::new(e * sin, e * cos, s)
    };
    for reference in [0.0, 73.0, 200.0] {
        // Clock angle between the marks, tilt, least distance from the centre line and its station.
        let rows = [
            (180.0, 3.661935576, 0.0, 93.75),
            (0.0, 0.9166542564, 0.0, -375.0),
            (120.0, 3.205215931, 3.711537445, 84.18367347),
        ];
        for (between, tilt_deg, gap, station) in rows {
            let (tail, head) = (mark(6.0, reference, 0.0), mark(10.0, reference + between, 250.0));
            let placed = Axis::through(tail, head).unwrap();
            near(placed.tilt().to_degrees(), tilt_deg, 1e-8);
            for motion in motions() {
                let centre_line = motion.line(Vector::default(), Vector::new(0.0, 0.0, 250.0));
                let nearest = centre_line.nearest(&motion.line(tail, head - tail));
                assert!(!nearest.parallel);
                near(nearest.gap, gap, 1e-8);
                near(centre_line.see(nearest.here).t, station, 1e-7);
            }
        }
        // Distance of the point (0, 0, 100) from the third of these axes.
        for motion in motions() {
            let (tail, head) = (mark(6.0, reference, 0.0), mark(10.0, reference + 120.0, 250.0));
            let axis = motion.line(tail, head - tail);
            near(axis.see(motion.apply(Vector::new(0.0, 0.0, 100.0))).radius(), 3.815435431, 1e-8);
        }
    }
}

/// Section 8, MathWorld, Line-Line Distance: least distance and nearest points of skew lines; of parallel ones the gap.
#[test]
fn skew_lines() {
    for motion in motions() {
        let first = motion.line(Vector::new(1.0, 2.0, 3.0), Vector::new(2.0, -1.0, 4.0));
        let second = motion.line(Vector::new(4.0, 0.0, -2.0), Vector::new(1.0, 3.0, 1.0));
        let nearest = first.nearest(&second);
        near(nearest.gap, 78.0 / 222.0_f64.sqrt(), EXACT_MM);
        let (here, there) =
            (Vector::new(0.02702702703, 2.486486486, 1.054054054), Vector::new(4.594594595, 1.783783784, -1.405405405));
        near((nearest.here - motion.apply(here)).length(), 0.0, 1e-8);
        near((nearest.there - motion.apply(there)).length(), 0.0, 1e-8);
        near(first.along().dot(second.along()).abs().acos().to_degrees(), 78.61588783, 1e-7);

        let crossing = motion.line(Vector::default(), Vector::new(1.0, 0.0, 0.0));
        let over = motion.line(Vector::new(0.0, 0.0, 5.0), Vector::new(0.0, 1.0, 0.0));
        near(crossing.nearest(&over).gap, 5.0, EXACT_MM);

        // abs((p2 - p1) x d1) / abs(d1), p2 - p1 = (3, -2, -5) and d1 = (2, -1, 4): sqrt(13^2 + 22^2 + 1) / sqrt(21).
        let beside = motion.line(Vector::new(4.0, 0.0, -2.0), Vector::new(2.0, -1.0, 4.0));
        let nearest = first.nearest(&beside);
        assert!(nearest.parallel);
        near(nearest.gap, (654.0_f64 / 21.0).sqrt(), EXACT_MM);
    }
}

/// Volume of a cylinder of radius R and depth h whose floor has a corner rounded by c: a cylinder down to the rounding,
/// one of radius R - c beside it, and a quarter circle swept round (MathWorld, Pappus's Centroid Theorem).
fn rounded_cylinder(r: f64, depth: f64, c: f64) -> f64 {
    let quarter = PI * c * c / 4.0;
    PI * r * r * (depth - c) + PI * (r - c) * (r - c) * c + 2.0 * PI * (r - c + 4.0 * c / (3.0 * PI)) * quarter
}

/// A block with a bore on an axis placed as given.
fn bored_block(axis: AxisChoice, mouth_mm: f64, (r, depth_mm, rounding_mm): (f64, f64, f64)) -> Design {
    let shape = HollowShape::RoundEnded { diameter_mm: 2.0 * r, depth_mm, rounding_mm };
    let mut design = scoop();
    design.blank.section = BlankSection::Square { side_mm: 96.0 };
    design.axes = vec![axis];
    design.cuts = vec![Cut::Hollow(Hollow { axis: AxisName::B, mouth_mm, shape })];
    design
}

/// A cylinder with a rounded floor, bored straight, aside and askew; a hemispherical floor is the greatest rounding.
///
/// A bore on a tilted axis runs on outward of its mouth to the bowl-end face: a cylinder cut askew, as long as it is
/// in the middle (MathWorld, Cylindrical Segment).
#[test]
fn a_bore_with_a_rounded_floor() {
    near(rounded_cylinder(20.0, 50.0, 20.0), PI * 400.0 * 30.0 + 2.0 / 3.0 * PI * 8000.0, 1e-9);
    let aside = AxisChoice::Marks { tail_x_mm: 4.0, tail_y_mm: -7.0, head_x_mm: 4.0, head_y_mm: -7.0 };
    let tilted = |tilt_deg, toward_deg| AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm: 25.0 };
    let placed = [(aside, 0.0_f64), (tilted(5.0, 0.0), 5.0), (tilted(12.5, 130.0), 12.5), (tilted(16.0, 250.0), 16.0)];
    for (axis, tilt_deg) in placed {
        for (r, depth, rounding) in [(22.0, 57.0, 0.0), (22.0, 57.0, 9.5), (20.0, 44.0, 20.0), (13.0, 61.0, 4.0)] {
            for mouth in [0.0, 6.5] {
                let design = bored_block(axis, mouth, (r, depth, rounding));
                let limits = design.limits.over(&Shop::default().limits);
                let solid = Piece::resolve(&design, &limits).unwrap().solid;
                let removed = mass(&solid.state(0)).volume_mm3 - mass(&solid.finished()).volume_mm3;
                let expected = rounded_cylinder(r, depth, rounding) + PI * r * r * mouth;
                assert_within(removed, expected, if tilt_deg < 1.0 { 0.0005 } else { 0.001 });
                // What it holds with its mouth dammed.
                assert_within(Vessel::new(&solid).unwrap().cavity_mm3(), expected, 0.001);
            }
        }
    }
}

/// A round bowl two thirds as deep as its radius, hollowed across a square block from above and open at its upper face.
fn bowl(contents: &str, radius: f64) -> Design {
    let mut design = scoop();
    design.blank = Blank { section: BlankSection::Square { side_mm: 3.2 * radius }, length_mm: 8.0 * radius };
    design.axes = vec![AxisChoice::Across { station_mm: 2.0 * radius, from_deg: 0.0 }];
    // A cap of height h is an arc that stands off its chord, from rim to bottom, by R (1 - cos(alpha / 2)), where
    // cos(alpha) = (R - h) / R.
    let depth = radius * 2.0 / 3.0;
    let (rim, alpha) = ((2.0 * radius * depth - depth * depth).sqrt(), ((radius - depth) / radius).acos());
    let nodes = vec![Node::arc(0.0, 2.0 * rim, radius * (1.0 - (alpha / 2.0).cos())), Node::line(depth, 0.0)];
    let shape = HollowShape::Drawn { nodes };
    let face = EndPlane { axis: AxisName::B, at_mm: -1.3 * radius, removes: Side::Tail };
    design.cuts = vec![Cut::Hollow(Hollow { axis: AxisName::B, mouth_mm: -1.3 * radius, shape }), Cut::Face(face)];
    design.contents = contents.to_owned();
    design
}

/// Section 3: a spherical cap, R = 30 and h = 20: 29321.53143; and heaped at 35 degrees, a cone more (elementary).
/// Pitched by theta, the level through the lowest point of the rim leaves a cap of height R (1 - cos(alpha - theta)),
/// where cos(alpha) = (R - h) / R (elementary).
#[test]
fn a_round_bowl_holds_its_cap_level_and_pitched() {
    let cap = |radius: f64, h: f64| PI * h * h * (3.0 * radius - h) / 3.0;
    near(cap(30.0, 20.0), 29_321.531_43, 1e-4);
    let alpha = (1.0_f64 / 3.0).acos();
    for radius in [8.0, 30.0, 110.0] {
        let design = bowl("water", radius);
        let solid = Piece::resolve(&design, &design.limits.over(&Shop::default().limits)).unwrap().solid;
        let vessel = Vessel::new(&solid).unwrap();
        let whole = cap(radius, radius * 2.0 / 3.0);
        for theta in [0.0_f64, 7.0, -20.0, 45.0, -60.0] {
            let left = cap(radius, radius * (1.0 - (alpha - theta.to_radians().abs()).cos()));
            // 0.1 % of the cavity is promised.
            near(vessel.hold(theta.to_radians(), 0.0).volume_mm3, left, 0.001 * whole);
        }
        let (rim, repose) = (radius * alpha.sin(), 35.0_f64.to_radians());
        let cone = PI * rim.powi(3) * repose.tan() / 3.0;
        near(vessel.hold(0.0, repose).volume_mm3, whole + cone, 0.001 * whole);
        near(vessel.struck(0.0, repose).volume_mm3, whole, 0.001 * whole);
    }
}

/// The headline is what it holds level with its handle, struck: of a bowl with a straight handle its cap, whether of water
/// or of sugar. Heaped, sugar stands higher beside it.
#[test]
fn the_headline_is_level_with_the_handle_and_struck() {
    let cap_ml = 29.321_531_43;
    for contents in ["water", "sugar, granulated"] {
        let figures = work_out(&bowl(contents, 30.0), &Shop::default()).unwrap().figures;
        assert_within(figures.summary.holds_ml.unwrap(), cap_ml, 0.001);
        let dry = figures.hold.value().unwrap().dry_handle_level;
        assert!(contents == "water" || dry.heaped.volume_mm3 > 1.1 * dry.struck.volume_mm3);
    }
}

/// What a wedge of a bored cylinder holds, in mm3: cylindrical wedge (MathWorld, Cylindrical Wedge) of radius R, height h and
/// toe b, `h / (3 b) (a (3 R^2 - a^2) + 3 R^2 (b - R) phi)` with `a^2 = b (2 R - b)` and `cos phi = 1 - b / R`.
fn wedge(radius: f64, height: f64, toe: f64) -> f64 {
    let (half, phi) = ((toe * (2.0 * radius - toe)).sqrt(), (1.0 - toe / radius).acos());
    let square = 3.0 * radius * radius;
    height / (3.0 * toe) * (half * (square - half * half) + square * (toe - radius) * phi)
}

/// A bored scoop with a flat floor, level with its handle, holds a wedge of water under the level of the lowest point of its
/// mouth: a hoof where that meets the middle of the floor.
#[test]
fn a_bored_scoop_holds_a_wedge_of_water_level_with_its_handle() {
    near(wedge(25.0, 60.0, 25.0), 25_000.0, 1e-6);
    for (tilt_deg, bore_diameter_mm, bore_depth_mm) in [(5.0_f64, 40.0, 45.0), (7.5, 41.275, 48.0), (10.0, 38.1, 40.0)]
    {
        let scoop = BoredEndScoop {
            tilt_deg,
            bore_diameter_mm,
            bore_depth_mm,
            rounding_mm: 0.0,
            opening: Opening::Straight,
            ..BoredEndScoop::default()
        };
        let mut design = scoop.design("water");
        design.contents = "water".to_owned();
        let holds_ml = work_out(&design, &Shop::default()).unwrap().figures.summary.holds_ml.unwrap();
        let toe = bore_depth_mm * tilt_deg.to_radians().tan();
        let expected_ml = wedge(bore_diameter_mm / 2.0, bore_depth_mm, toe) / 1000.0;
        assert_within(holds_ml, expected_ml, 0.001);
    }
}
