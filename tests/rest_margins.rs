//! How far a piece may be pushed before it tips, against closed forms and against the wood itself.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use skewline::design::{
    AxisChoice, AxisName, BlankSection, Cut, Design, EndPlane, Node, PassProfile, SawCut, SawPath, SawPoint, Shop, Side,
};
use skewline::figures::rest::{Pose, rest};
use skewline::geometry::{Mass, Ray, Vector, mass};
use skewline::piece::Piece;
use support::pieces::{pass, scoop};

#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected} within {tolerance}");
}

fn poses(design: &Design) -> (Vec<Pose>, Mass) {
    let piece = Piece::resolve(design, &Shop::default().limits).unwrap();
    let mass = mass(&piece.solid.finished());
    (rest(&piece, &mass).poses, mass)
}

fn drawn(nodes: Vec<Node>) -> PassProfile {
    PassProfile::Drawn { nodes }
}

fn parted(at_mm: f64) -> Cut {
    Cut::Part(EndPlane { axis: AxisName::A, at_mm, removes: Side::Head })
}

/// The pose nearest to a pitch.
fn at_pitch(poses: &[Pose], pitch_deg: f64) -> &Pose {
    let off = |pose: &&Pose| ((pose.pitch_deg - pitch_deg + 180.0).rem_euclid(360.0) - 180.0).abs();
    poses.iter().min_by(|a, b| off(a).total_cmp(&off(b))).unwrap()
}

/// The handle's end plane leans by a hair from the parting cut: between the two stands a feather of the square blank,
/// which the piece stands on as far as the line where both planes meet.
#[test]
fn a_piece_stands_on_all_of_its_end_down_to_a_feather() {
    let (half, end) = (35.0, 126.5);
    for (lean_x, lean_y) in [(0.0011, -0.0016), (0.00012, -0.0002), (-0.0011, -0.0016), (0.004, -0.01)] {
        let mut design = scoop();
        design.blank.section = BlankSection::Square { side_mm: 2.0 * half };
        design.blank.length_mm = 140.0;
        let head = |lean: f64| lean * design.blank.length_mm;
        design.axes = vec![AxisChoice::Marks {
            tail_x_mm: 0.0,
            tail_y_mm: 0.0,
            head_x_mm: head(lean_x),
            head_y_mm: head(lean_y),
        }];
        design.cuts = vec![
            pass("bowl", AxisName::A, 0.0, 60.0, drawn(vec![Node::line(0.0, 67.0), Node::line(60.0, 60.0)])),
            pass("handle", AxisName::B, 60.0, end, drawn(vec![Node::line(60.0, 24.0), Node::line(end, 20.0)])),
            parted(end),
        ];
        let (poses, mass) = poses(&design);
        let standing = at_pitch(&poses, 90.0);
        near(standing.pitch_deg, 90.0, 0.01);
        // The feather: lean_x x + lean_y y + end > end sqrt(1 + lean_x^2 + lean_y^2), in the blank's square. The handle
        // itself reaches up 10 mm from its axis.
        let lost = end * (f64::sqrt(1.0 + lean_x * lean_x + lean_y * lean_y) - 1.0);
        let feather = (lean_x.abs() * half - lost) / lean_y.abs();
        let top = feather.max(lean_y * end + 10.0);
        near(standing.margin_mm, (mass.centroid.y + half).min(top - mass.centroid.y), 0.02);
    }
}

/// A bowl sawn off along an arc lies upside down on the arc and on the corner where the saw came out: the tangent from
/// that corner to the circle.
#[test]
fn a_piece_lies_on_a_sawn_arc_where_the_table_touches_it() {
    for bulge in [2.4, 1.1, 4.0] {
        let (from, to) = ((2.0, -6.0), (38.0, 24.0));
        let mut design = scoop();
        design.axes.clear();
        design.blank.length_mm = 140.0;
        let nodes =
            vec![Node::line(0.0, 60.0), Node::line(50.0, 60.0), Node::line(50.0, 20.0), Node::line(126.0, 20.0)];
        let at = |p: (f64, f64)| SawPoint { at_mm: p.0, height_mm: p.1 };
        design.cuts = vec![
            pass("spindle", AxisName::A, 0.0, 126.0, drawn(nodes)),
            Cut::Saw(SawCut { path: SawPath::Arc { from: at(from), to: at(to), bulge_mm: bulge } }),
            parted(126.0),
        ];
        let (poses, mass) = poses(&design);
        let corner = (38.0, 30.0);
        // The circle through both ends: its centre is under the chord's middle.
        let (ds, dy) = (to.0 - from.0, to.1 - from.1);
        let chord = f64::hypot(ds, dy);
        let radius = chord * chord / (8.0 * bulge) + bulge / 2.0;
        let down = radius - bulge;
        let centre = (20.0 + dy / chord * down, 9.0 - ds / chord * down);
        // From the corner, the tangent leaves the way to the centre by asin(radius / distance).
        let (cs, cy) = (centre.0 - corner.0, centre.1 - corner.1);
        let distance = f64::hypot(cs, cy);
        let length = (distance * distance - radius * radius).sqrt();
        let angle = cy.atan2(cs) - (radius / distance).asin();
        let along = (angle.cos(), angle.sin());
        let touch = (corner.0 + length * along.0, corner.1 + length * along.1);
        assert!(from.0 < touch.0 && touch.0 < to.0, "the arc is touched at {touch:?}");
        let foot = (mass.centroid.s - corner.0) * along.0 + (mass.centroid.y - corner.1) * along.1;
        let lying = at_pitch(&poses, angle.to_degrees());
        near(lying.pitch_deg, angle.to_degrees(), 0.01);
        near(lying.margin_mm, foot.min(length - foot), 0.02);
    }
}

/// Scoops whose handle is turned on an axis that leans by next to nothing or by some degrees, in a square blank that shows at
/// both ends, now and then sawn along an arc or a line.
fn any_piece() -> impl Strategy<Value = Design> {
    let lean = || prop_oneof![Just(0.0), 0.0005..0.003, -0.003..-0.0005, -0.08..0.08_f64];
    let sawn = prop_oneof![Just(None), (-4.0..4.0).prop_map(Some)];
    let handle = prop_oneof![(14.0..30.0, 20.0..22.0), (50.0..64.0, 50.0..64.0_f64)];
    (60.0..72.0, 60.0..70.0, 44.0..60.0, handle, (lean(), lean()), sawn).prop_map(
        |(side_mm, wide, waist, (neck, end), (lean_x, lean_y), sawn)| {
            let mut design = scoop();
            design.blank.section = BlankSection::Square { side_mm };
            design.blank.length_mm = 150.0;
            design.axes = vec![AxisChoice::Marks {
                tail_x_mm: 0.0,
                tail_y_mm: 0.0,
                head_x_mm: lean_x * 150.0,
                head_y_mm: lean_y * 150.0,
            }];
            design.cuts = vec![
                pass("bowl", AxisName::A, 0.0, 60.0, drawn(vec![Node::line(0.0, wide), Node::line(60.0, waist)])),
                pass("handle", AxisName::B, 60.0, 130.0, drawn(vec![Node::line(60.0, neck), Node::line(130.0, end)])),
            ];
            let at = |at_mm: f64, height_mm: f64| SawPoint { at_mm, height_mm };
            design.cuts.extend(sawn.map(|bulge_mm| {
                Cut::Saw(SawCut { path: SawPath::Arc { from: at(2.0, -5.0), to: at(38.0, 21.0), bulge_mm } })
            }));
            design.cuts.push(parted(130.0));
            design
        },
    )
}

/// The poses of the one are those of the other.
fn assert_same(one: &[Pose], other: &[Pose]) -> Result<(), TestCaseError> {
    prop_assert_eq!(one.len(), other.len(), "{:?} {:?}", one, other);
    for (a, b) in one.iter().zip(other) {
        prop_assert!((a.pitch_deg - b.pitch_deg).abs() < 0.01, "{one:#?} {other:#?}");
        prop_assert!((a.margin_mm - b.margin_mm).abs() < 0.02, "{a:?} {b:?}");
    }
    Ok(())
}

/// No wood on the table lies farther out than a pose's margin, and there is wood at its ends. Wood counts as on the table when
/// it is within 3e-5 mm of it: round ends are then up to 0.2 mm longer.
fn assert_supported(design: &Design) -> Result<(), TestCaseError> {
    const STEP: f64 = 0.2;
    // Curves of saws are chords in the wood.
    const CHORD: f64 = 0.015;
    let piece = Piece::resolve(design, &Shop::default().limits).unwrap();
    let mass = mass(&piece.solid.finished());
    let state = piece.solid.finished();
    let lying = rest(&piece, &mass);
    for pose in lying.poses.iter().filter(|pose| !pose.rocks) {
        let pitch = pose.pitch_deg.to_radians();
        // Down and along the table in the side view [s, y].
        let (down, along) = ([pitch.sin(), -pitch.cos()], [pitch.cos(), pitch.sin()]);
        let level = lying.outline.iter().map(|p| p[0] * down[0] + p[1] * down[1]).fold(f64::NEG_INFINITY, f64::max);
        let foot = mass.centroid.s * along[0] + mass.centroid.y * along[1];
        let is_wood = |place: f64, under: f64| {
            let (h, u) = (level - under, foot + place);
            let start = Vector::new(0.0, h * down[1] + u * along[1], h * down[0] + u * along[0]);
            let across = state.along(Ray { start, direction: Vector::new(1.0, 0.0, 0.0) });
            across.iter().any(|(from, to)| to - from > 1e-6)
        };
        let places = || (1..1500).map(|i| STEP * f64::from(i));
        let reach = |turn: f64| places().filter(|place| is_wood(turn * place, 3e-5)).fold(0.0, f64::max);
        let supported = reach(1.0).min(reach(-1.0));
        prop_assert!(pose.margin_mm > supported - 0.25, "wood {supported} mm out: {pose:?}");
        let mut ends = (-20..=20).map(|i| pose.margin_mm - 1e-3 * f64::from(i));
        let is_held = ends.any(|place| is_wood(place, CHORD) || is_wood(-place, CHORD));
        // A feather's tip is too thin to be met so: it is a corner of the hull, which has no corners but wood.
        let off = |p: &[f64; 2]| (p[0] * along[0] + p[1] * along[1] - foot).abs() - pose.margin_mm;
        let is_corner = || lying.outline.iter().any(|p| off(p).abs() < 0.02);
        prop_assert!(is_held || is_corner(), "no wood at the margin: {pose:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn a_margin_ends_where_the_wood_on_the_table_does(design in any_piece()) {
        assert_supported(&design)?;
    }

    /// Nothing about the piece changes: every margin stays.
    #[test]
    fn a_cut_made_twice_and_a_node_on_a_straight_line_move_no_margin(design in any_piece(), cut in 0..3_usize, place in 0.1..0.9) {
        let (before, _) = poses(&design);
        let mut twice = design.clone();
        twice.cuts.insert(cut, design.cuts[cut].clone());
        assert_same(&poses(&twice).0, &before)?;
        let mut noded = design;
        for cut in &mut noded.cuts {
            if let Cut::Pass(pass) = cut
                && let PassProfile::Drawn { nodes } = &mut pass.profile
            {
                let between = |a: f64, b: f64| a + (b - a) * place;
                let (a, b) = (nodes[0], nodes[1]);
                nodes.insert(1, Node::line(between(a.at_mm, b.at_mm), between(a.diameter_mm, b.diameter_mm)));
            }
        }
        assert_same(&poses(&noded).0, &before)?;
    }
}
