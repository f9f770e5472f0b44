//! Moving things of a design by their place in the side view.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod scoops;
mod support;

use proptest::prelude::*;
use skewline::design::{AxisChoice, Cut, Design, HollowShape, Node, PassProfile, SawPath, Shop, Side};
use skewline::form::moves::{Movable, apply, movables, place};
use skewline::geometry::Point;
use skewline::piece::Piece;

fn resolve(design: &Design) -> Option<Piece> {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).ok()
}

fn nodes(design: &Design, cut: usize) -> Vec<Node> {
    match &design.cuts[cut] {
        Cut::Pass(pass) => match &pass.profile {
            PassProfile::Drawn { nodes } => nodes.clone(),
            PassProfile::Join => vec![],
        },
        _ => vec![],
    }
}

/// The turn of the axis worked out here by hand: B leans 6.5 degrees up and crosses A at 62.
#[test]
fn a_node_on_a_tilted_axis_moves_along_and_about_that_axis() {
    let mut design = scoops::angled_scoop();
    let piece = resolve(&design).unwrap();
    let node = Movable::PassNode { cut: 3, node: 2 };
    // 0 on axis B is where it pierces s = 0; it crosses A at a length of 62 / cos from there.
    let (sin, cos) = 6.5_f64.to_radians().sin_cos();
    let crossing = 62.0 / cos;
    let at = |t: f64, below: f64| {
        let along = t - crossing;
        Point::new(62.0 + along * cos + below * sin, along * sin - below * cos)
    };
    let found = place(&design, &piece, node).unwrap();
    let expected = at(160.0, 12.5);
    assert!((found.x - expected.x).abs() < 1e-9 && (found.y - expected.y).abs() < 1e-9, "{found:?} {expected:?}");

    assert!(apply(&mut design, &piece, node, at(150.0, 11.0)));
    let moved = nodes(&design, 3)[2];
    assert!((moved.at_mm - 150.0).abs() < 1e-9 && (moved.diameter_mm - 22.0).abs() < 1e-9, "{moved:?}");
}

#[test]
fn a_node_stops_short_of_its_neighbours_and_an_end_node_takes_the_pass_along() {
    let mut design = scoops::angled_scoop();
    let piece = resolve(&design).unwrap();
    assert!(apply(&mut design, &piece, Movable::PassNode { cut: 2, node: 1 }, Point::new(300.0, -20.0)));
    assert!((nodes(&design, 2)[1].at_mm - 75.9).abs() < 1e-9);

    assert!(apply(&mut design, &piece, Movable::PassNode { cut: 2, node: 2 }, Point::new(80.0, -14.0)));
    let Cut::Pass(bowl) = &design.cuts[2] else { panic!("cut 2 is the bowl") };
    assert_eq!((bowl.to_mm, nodes(&design, 2)[2].diameter_mm), (80.0, 28.0));
}

#[test]
fn the_saw_line_the_crossing_the_tilt_and_the_end_follow_the_finger() {
    let mut design = scoops::angled_scoop();
    let piece = resolve(&design).unwrap();
    assert!(apply(&mut design, &piece, Movable::SawPoint { cut: 6, point: 1 }, Point::new(70.0, 18.0)));
    assert!(apply(&mut design, &piece, Movable::SawBulge { cut: 6 }, Point::new(35.0, 10.0)));
    let Cut::Saw(saw) = &design.cuts[6] else { panic!("cut 6 is the saw") };
    let SawPath::Arc { from, to, bulge_mm } = saw.path else { panic!("it saws an arc") };
    assert_eq!((to.at_mm, to.height_mm), (70.0, 18.0));
    // (35, 10) is the middle of the chord itself.
    assert!(bulge_mm.abs() < 1e-9 && from.height_mm == 2.0, "{bulge_mm}");

    assert!(apply(&mut design, &piece, Movable::Crossing { axis: 0 }, Point::new(70.0, 9.0)));
    assert!(apply(&mut design, &piece, Movable::Tilt { axis: 0 }, Point::new(1.0, 180.0 * 5.0_f64.to_radians().tan())));
    let AxisChoice::Tilt { tilt_deg, crossing_mm, .. } = design.axes[0] else { panic!("axis B is tilted") };
    assert!((tilt_deg - 5.0).abs() < 1e-9 && crossing_mm == 70.0, "{tilt_deg}");

    let piece = resolve(&design).unwrap();
    let end = Movable::EndPlane { cut: 5 };
    let Point { x: s, y } = place(&design, &piece, end).unwrap();
    let (sin, cos) = 5.0_f64.to_radians().sin_cos();
    assert!(apply(&mut design, &piece, end, Point::new(s - 10.0 * cos, y - 10.0 * sin)));
    let Cut::Part(plane) = &design.cuts[5] else { panic!("cut 5 parts") };
    assert!((plane.at_mm - 211.0).abs() < 1e-9, "{}", plane.at_mm);
}

#[test]
fn a_bore_keeps_its_rounding_inside_itself() {
    let mut design = scoops::angled_scoop();
    let piece = resolve(&design).unwrap();
    assert!(apply(&mut design, &piece, Movable::BoreFloor { cut: 0 }, Point::new(6.0, 3.0)));
    assert!(apply(&mut design, &piece, Movable::BoreSide { cut: 0 }, Point::new(3.0, -4.0)));
    let Cut::Hollow(bore) = &design.cuts[0] else { panic!("cut 0 is the bore") };
    let HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm } = bore.shape else {
        panic!("it is round-ended")
    };
    assert_eq!((diameter_mm, depth_mm, rounding_mm), (8.0, 6.0, 4.0));
}

#[test]
fn what_is_no_place_or_no_part_of_the_design_changes_nothing() {
    let design = scoops::three_axes();
    let piece = resolve(&design).unwrap();
    let gone = [
        Movable::PassNode { cut: 99, node: 0 },
        Movable::HollowNode { cut: 0, node: 99 },
        Movable::Crossing { axis: 0 },
        Movable::SawBulge { cut: 5 },
        Movable::Mark { axis: 1, face: Side::Head },
    ];
    for thing in gone {
        let mut changed = design.clone();
        assert!(!apply(&mut changed, &piece, thing, Point::new(10.0, 10.0)), "{thing:?}");
        assert_eq!(changed, design);
    }
    for thing in movables(&design) {
        let mut changed = design.clone();
        assert!(!apply(&mut changed, &piece, thing, Point::new(f64::NAN, 10.0)));
        assert!(!apply(&mut changed, &piece, thing, Point::new(10.0, f64::INFINITY)));
        assert_eq!(changed, design);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// Put where it is, a thing stays where it is; put anywhere, it leaves a design without problems.
    #[test]
    fn a_move_never_spoils_a_design(
        design in support::arbitrary::design(),
        which in any::<prop::sample::Index>(),
        to in (-1e4..1e4_f64, -1e3..1e3_f64),
    ) {
        let Some(piece) = resolve(&design) else { return Ok(()) };
        let all = movables(&design);
        prop_assume!(!all.is_empty());
        let thing = *which.get(&all);
        let Some(at) = place(&design, &piece, thing) else { return Ok(()) };
        let mut same = design.clone();
        if apply(&mut same, &piece, thing, at)
            && let Some(after) = resolve(&same).and_then(|piece| place(&same, &piece, thing))
        {
            let off = (after.x - at.x).abs().max((after.y - at.y).abs());
            // Two nodes nearer than 0.1 mm are put that far apart, and a tilt is held to its range.
            prop_assert!(off < 0.11 || matches!(thing, Movable::Tilt { .. }), "{thing:?}: {at:?} {after:?}");
        }
        let mut moved = design.clone();
        if apply(&mut moved, &piece, thing, to.into()) {
            prop_assert_eq!(moved.problems(), vec![]);
            prop_assert!(resolve(&moved).is_some(), "{:?}", thing);
        } else {
            prop_assert_eq!(&moved, &design);
        }
    }
}
