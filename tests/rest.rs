//! How pieces lie on a table, and the blank they need.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use skewline::design::{
    AxisName, BlankSection, Cut, Design, EndPlane, Node, PassProfile, SawCut, SawPath, SawPoint, Shop, Side,
};
use skewline::figures::blank::blank;
use skewline::figures::marks::marks;
use skewline::figures::rest::rest;
use skewline::geometry::{Mass, Vector, mass};
use skewline::piece::Piece;

mod support;
use support::pieces::{pass, scoop};

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected} within {tolerance}");
}

fn resolved(design: &Design) -> (Piece, Mass) {
    let piece = Piece::resolve(design, &Shop::default().limits).unwrap();
    let mass = mass(&piece.solid.finished());
    (piece, mass)
}

/// One pass on axis A with these nodes, parted at its end.
fn spindle(nodes: Vec<Node>) -> Design {
    let mut design = scoop();
    design.axes.clear();
    let (from, to) = (nodes[0].at_mm, nodes[nodes.len() - 1].at_mm);
    design.cuts = vec![
        pass("spindle", AxisName::A, from, to, PassProfile::Drawn { nodes }),
        Cut::Part(EndPlane { axis: AxisName::A, at_mm: to, removes: Side::Head }),
    ];
    design
}

/// A cone frustum lies on its slope: the pitch is its half angle, the wide end up by it.
#[test]
fn a_frustum_lies_on_its_side_at_its_half_angle() {
    let (piece, mass) = resolved(&spindle(vec![Node::line(0.0, 50.0), Node::line(180.0, 20.0)]));
    let rest = rest(&piece, &mass);
    let half_angle = (15.0_f64 / 180.0).atan().to_degrees();
    // Wide at the bowl end: its axis there is 25 mm up, at the head end 10.
    near(rest.poses[0].pitch_deg, half_angle, 0.02);
    assert_eq!(rest.opening_up, Some(0));
    // The other side is the same with the other way up, and both ends are faces to stand on.
    let pitches: Vec<f64> = rest.poses.iter().map(|p| p.pitch_deg.round()).collect();
    assert!(pitches.contains(&90.0) || pitches.contains(&-90.0), "{pitches:?}");
    // Standing on the wide end, the centre of mass is over its middle.
    let standing = rest.poses.iter().find(|p| (p.pitch_deg.abs() - 90.0).abs() < 0.5).unwrap();
    assert!(standing.margin_mm > 9.9);
}

/// A cylinder of 40 by 120 lies on its side over its whole length, and stands on either end within its radius.
#[test]
fn a_cylinder_lies_on_its_side_and_stands_on_its_ends() {
    let (piece, mass) = resolved(&spindle(vec![Node::line(0.0, 40.0), Node::line(120.0, 40.0)]));
    let poses = rest(&piece, &mass).poses;
    let near_all = |pose: &skewline::figures::rest::Pose, pitch: f64, margin: f64| {
        near(pose.pitch_deg.abs(), pitch, 1e-3);
        near(pose.margin_mm, margin, 0.02);
    };
    assert_eq!(poses.len(), 4, "{poses:?}");
    near_all(&poses[0], 0.0, 60.0);
    near_all(&poses[1], 90.0, 20.0);
    near_all(&poses[2], 90.0, 20.0);
    near_all(&poses[3], 180.0, 60.0);
}

/// A flat ring of 3 mm stands out under one end, off every even station: the piece lies on it and on its other end.
#[test]
fn corners_of_a_narrow_ring_are_seen() {
    let ring = |at: f64, d: f64| {
        [Node::line(at, 24.0), Node::line(at, d), Node::line(at + 0.7, d), Node::line(at + 0.7, 24.0)]
    };
    let mut nodes = vec![Node::line(0.0, 24.0)];
    nodes.extend(ring(31.37, 33.0));
    nodes.push(Node::line(140.0, 24.0));
    let (piece, mass) = resolved(&spindle(nodes));
    let poses = rest(&piece, &mass).poses;
    // From (31.37 + 0.7, 16.5) down to (140, 12); the centre of mass is between them.
    let slope = (4.5_f64 / (140.0 - 32.07)).atan().to_degrees();
    near(poses[0].pitch_deg, slope, 1e-3);
    near(poses[0].from_station_mm, 32.07, 1e-3);
    let run = 4.5_f64.hypot(140.0 - 32.07);
    let along = ((mass.centroid.s - 32.07) * (140.0 - 32.07) + (mass.centroid.y + 16.5) * 4.5) / run;
    near(poses[0].margin_mm, along.min(run - along), 0.01);
}

/// A hemisphere of radius R under a cylinder of the same radius rocks upright as long as the cylinder is lower than
/// R / sqrt 2 (a standard exercise of statics; from memory), and then on its very pole. Of all its chords none is a pose.
#[test]
fn a_round_bottom_rocks_on_its_pole() {
    let radius = 30.0;
    let rocker = |height: f64| {
        let bulge = radius * (1.0 - std::f64::consts::FRAC_1_SQRT_2);
        let end = radius + height;
        resolved(&spindle(vec![
            Node::arc(0.0, 0.0, bulge),
            Node::line(radius, 2.0 * radius),
            Node::line(end, 2.0 * radius),
        ]))
    };
    for (share, stands) in [(0.3, true), (0.68, true), (0.73, false), (1.0, false)] {
        let (piece, mass) = rocker(share * radius);
        let poses = rest(&piece, &mass).poses;
        let upright: Vec<_> = poses.iter().filter(|pose| pose.rocks).collect();
        assert_eq!(upright.len(), usize::from(stands), "{share}: {poses:?}");
        for pose in upright {
            near(pose.pitch_deg, -90.0, 0.01);
            near(pose.from_station_mm, 0.0, 1e-3);
        }
    }
}

/// A weight beyond the end of the table edge tips it; one above the edge does not.
#[test]
fn contents_beyond_the_edge_tip_it() {
    let (piece, mass) = resolved(&spindle(vec![Node::line(0.0, 40.0), Node::line(120.0, 40.0)]));
    let rest = rest(&piece, &mass);
    let pose = rest.poses[0];
    near(pose.pitch_deg, 0.0, 1e-6);
    near(pose.margin_mm, 60.0, 0.1);
    // 100 g at s = 60 and 100 g at s = -70: middle at -5, off the edge by 5.
    assert!(!pose.stays_with(100.0, mass.centroid, 100.0, Vector::new(0.0, 0.0, -70.0)));
    assert!(pose.stays_with(100.0, mass.centroid, 100.0, Vector::new(0.0, 0.0, -50.0)));
}

/// Sawing a cylinder off along a slope leaves a flat that it can lie on, opening down.
#[test]
fn a_sawn_face_is_a_side_to_lie_on() {
    let mut design = spindle(vec![Node::line(0.0, 40.0), Node::line(60.0, 40.0)]);
    let at = |at_mm: f64, height_mm: f64| SawPoint { at_mm, height_mm };
    design.cuts.push(Cut::Saw(SawCut { path: SawPath::Lines { points: vec![at(-1.0, -5.1), at(61.0, 1.1)] } }));
    let (piece, mass) = resolved(&design);
    let rest = rest(&piece, &mass);
    // Slope 0.1: lying on it, the piece is upside down.
    let on_the_flat = rest.poses.iter().find(|p| p.pitch_deg.abs() > 170.0).unwrap();
    near(180.0 - on_the_flat.pitch_deg.abs(), 0.1_f64.atan().to_degrees(), 0.1);
}

/// A cylinder of diameter 40 and one of 24 set 10 mm off: the blank is as wide as both together.
#[test]
fn the_blank_holds_every_pass_and_its_weight_is_volume_times_density() {
    let mut design = scoop();
    design.axes =
        vec![skewline::design::AxisChoice::Marks { tail_x_mm: 0.0, tail_y_mm: 10.0, head_x_mm: 0.0, head_y_mm: 10.0 }];
    let drawn = |d: f64, a: f64, b: f64| PassProfile::Drawn { nodes: vec![Node::line(a, d), Node::line(b, d)] };
    design.cuts = vec![
        pass("first", AxisName::A, 0.0, 100.0, drawn(40.0, 0.0, 100.0)),
        pass("second", AxisName::B, 100.0, 230.0, drawn(24.0, 100.0, 230.0)),
    ];
    design.blank.section = BlankSection::Square { side_mm: 60.0 };
    let (piece, mass) = resolved(&design);
    let shop = Shop::default();
    let marks = marks(&design, &piece, &shop.centres);
    let needed = blank(&design, &piece, &marks, &shop, &mass);
    // Upward: 10 + 12 for the second pass, 10 + 10 + 3 for the drive centre and its margin.
    near(needed.least_square_side_mm, 2.0 * 23.0, 0.05);
    near(needed.least_round_diameter_mm, 2.0 * 23.0, 0.05);
    near(needed.blank_ml, 60.0 * 60.0 * 230.0 / 1000.0, 1e-9);
    let finished = std::f64::consts::PI * (20.0 * 20.0 * 100.0 + 12.0 * 12.0 * 130.0) / 1000.0;
    near(needed.finished_ml / finished, 1.0, 1e-3);
    // Black cherry, 560 kg/m3 at 12 percent (Wood Handbook); the design says 8 percent.
    let weight = needed.weight.value().unwrap();
    near(weight.density_kg_m3, 560.0 * 108.0 / 112.0, 1e-9);
    near(weight.finished_g / (finished * 560.0 * 108.0 / 112.0 / 1000.0), 1.0, 1e-3);
}
