//! The hull of the side view and the poses on it, against wood that is looked for.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use std::f64::consts::TAU;

use proptest::prelude::*;
use skewline::design::Shop;
use skewline::design::starters::{BoredEndScoop, HandleEnd, Opening};
use skewline::figures::rest::{Rest, rest};
use skewline::geometry::{
    Axis, Fill, Meridian, Ray, Region, Revolved, Role, Solid, State, Station, Vector, mass, shadow,
};
use skewline::piece::Piece;
use support::solids;

/// How far a hull reaches in the direction `[s, y]`.
fn reach(outline: &[[f64; 2]], toward: [f64; 2]) -> f64 {
    outline.iter().map(|p| p[0] * toward[0] + p[1] * toward[1]).fold(f64::NEG_INFINITY, f64::max)
}

/// Points of wood: the ends of all stretches along lines up and lines along the blank, a step apart.
fn wood(state: &State<'_>, step: f64) -> Vec<[f64; 2]> {
    let (half, length) = (state.stock.half_width(), state.stock.length);
    let across =
        |low: f64, high: f64| (0..=((high - low) / step) as usize).map(move |i| low + step * (i as f64 + 0.31));
    let mut points = Vec::new();
    let mut add = |start: Vector, direction: Vector| {
        let line = Ray { start, direction };
        for (from, to) in state.along(line).iter().filter(|(from, to)| to - from > 1e-4) {
            points.extend([line.at(from), line.at(to)].map(|p| [p.s, p.y]));
        }
    };
    for x in across(-half, half) {
        across(0.0, length).for_each(|s| add(Vector::new(x, 0.0, s), Vector::new(0.0, 1.0, 0.0)));
        across(-half, half).for_each(|y| add(Vector::new(x, y, 0.0), Vector::new(0.0, 0.0, 1.0)));
    }
    points
}

/// Whether there is wood, seen from the side, within 0.005 mm of a point.
fn has_wood(state: &State<'_>, [s, y]: [f64; 2]) -> bool {
    (0..96).any(|i| {
        let (sin, cos) = (TAU * f64::from(i) / 24.0).sin_cos();
        let off = [2e-5, 2e-4, 1e-3, 5e-3][i as usize / 24];
        let start = Vector::new(0.0, y + off * sin, s + off * cos);
        !state.along(Ray { start, direction: Vector::new(1.0, 0.0, 0.0) }).is_empty()
    })
}

/// The hull holds all wood that is found, and its corners are wood.
fn assert_hull(state: &State<'_>, step: f64) -> Result<(), TestCaseError> {
    let outline: Vec<[f64; 2]> = shadow(state).iter().map(|corner| corner.at).collect();
    let points = wood(state, step);
    if points.is_empty() {
        return Ok(());
    }
    for corner in &outline {
        prop_assert!(has_wood(state, *corner), "no wood at {corner:?} of {outline:?}");
    }
    for i in 0..720 {
        let (sin, cos) = (TAU * f64::from(i) / 720.0).sin_cos();
        let (hull, found) = (reach(&outline, [cos, sin]), reach(&points, [cos, sin]));
        prop_assert!(
            hull >= found - 5e-3,
            "toward {} degrees {hull}, wood at {found}; {outline:?}",
            f64::from(i) / 2.0
        );
    }
    Ok(())
}

/// Every pose is a local least of the height of the centre of mass, and every clear local least is a pose.
fn assert_poses(lying: &Rest, centre: Vector) -> Result<(), TestCaseError> {
    let height = |angle: f64| {
        let (sin, cos) = angle.sin_cos();
        reach(&lying.outline, [cos, sin]) - centre.s * cos - centre.y * sin
    };
    // Down is (s, y) = (sin pitch, -cos pitch).
    let down = |pitch_deg: f64| pitch_deg.to_radians() - TAU / 4.0;
    for pose in &lying.poses {
        let own = height(down(pose.pitch_deg));
        for off in [-0.4, -0.1, 0.1, 0.4_f64] {
            let beside = height(down(pose.pitch_deg + off));
            prop_assert!(own <= beside + 0.012, "{pose:?} is {own} high, and {beside} {off} degrees beside it");
        }
    }
    let heights: Vec<f64> = (0..1440).map(|i| height(TAU * f64::from(i) / 1440.0)).collect();
    let at = |i: usize| heights[i % 1440];
    for i in 0..1440 {
        // Low against both sides until 0.05 mm higher on each.
        let rises = |turn: usize| {
            (1..720)
                .map(|k| at(i + 1440 + turn * k - if turn > 1 { 1440 * k } else { 0 }))
                .find(|h| *h < at(i) || *h > at(i) + 0.05)
        };
        let clear = |found: Option<f64>| found.is_some_and(|h| h > at(i));
        if clear(rises(1)) && clear(rises(1439)) {
            let angle = TAU * i as f64 / 1440.0;
            let near = lying.poses.iter().any(|pose| {
                let off = (down(pose.pitch_deg) - angle).rem_euclid(TAU);
                off.min(TAU - off) < 0.02 || height(down(pose.pitch_deg)) <= at(i) + 0.012 && off.min(TAU - off) < 0.4
            });
            prop_assert!(near, "no pose at {} degrees: {:?}", angle.to_degrees(), lying.poses);
        }
    }
    Ok(())
}

fn scoops() -> impl Strategy<Value = Piece> {
    (0.0..14.0, 0.0..360.0, 70.0..130.0, 170.0..230.0, (any::<bool>(), any::<bool>())).prop_map(
        |(tilt_deg, toward_deg, crossing_mm, length_mm, (hooked, straight))| {
            let choices = BoredEndScoop {
                tilt_deg,
                crossing_mm,
                handle_mm: length_mm - 53.0,
                handle_end: if hooked { HandleEnd::Hooked } else { HandleEnd::Round },
                opening: if straight { Opening::Straight } else { Opening::Arc },
                blank_side_mm: 80.0,
                ..BoredEndScoop::default()
            };
            let mut design = choices.design("any");
            if let Some(skewline::design::AxisChoice::Tilt { toward_deg: toward, .. }) = design.axes.first_mut() {
                *toward = toward_deg;
            }
            Piece::resolve(&design, &Shop::default().limits).unwrap()
        },
    )
}

/// A cylinder of radius 10 about an axis that leans by 20 degrees, cut off square to the blank at both ends.
#[test]
fn a_leaning_cylinder_is_as_wide_as_its_ellipse() {
    let (sin, cos) = 20_f64.to_radians().sin_cos();
    for toward in [Vector::new(0.0, sin, cos), Vector::new(sin, 0.0, cos)] {
        let axis = Axis::new(Vector::ZERO, toward).unwrap();
        let meridian = Meridian::new(vec![Station::new(-400.0, 10.0), Station::new(600.0, 10.0)]).unwrap();
        let region = Region::Revolved(Revolved { axis, meridian, fill: Fill::Beyond });
        let removal = skewline::geometry::Removal { region, role: Role::Outside, cut: 0 };
        let solid = Solid { stock: solids::large_stock(), removals: vec![removal], plugs: vec![] };
        let outline: Vec<[f64; 2]> = shadow(&solid.finished()).iter().map(|corner| corner.at).collect();
        // Seen from the side the cylinder is a band of 2 r, along its own lean; seen along that, as wide as 2 r upright.
        let (slope, half) = (toward.y / toward.s, 10.0 / if toward.y > 0.0 { cos } else { 1.0 });
        let unit = 1.0_f64.hypot(slope);
        let up = reach(&outline, [-slope / unit, 1.0 / unit]);
        assert!((up - half / unit).abs() < 2e-3, "{up} for {}", half / unit);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn the_hull_of_any_solid_holds_its_wood(solid in solids::solid()) {
        assert_hull(&State { plug: None, ..solid.finished() }, 1.1)?;
    }

    #[test]
    fn the_hull_of_any_scoop_holds_its_wood(piece in scoops()) {
        assert_hull(&piece.solid.finished(), 1.1)?;
    }

    #[test]
    fn poses_are_local_leasts(piece in scoops()) {
        let mass = mass(&piece.solid.finished());
        assert_poses(&rest(&piece, &mass), mass.centroid)?;
    }
}
