//! The wall against closed forms and brute force.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::{
    AxisChoice, AxisName, Cut, Design, HollowShape, Node, PassProfile, SawCut, SawPath, SawPoint, Shop,
};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::wall::{Wall, least_wall_mm, wall_samples, walls};
use skewline::figures::{Worked, shape, work_out};
use skewline::geometry::{
    Axis, Fill, HalfSpace, Meridian, Point, Region, Removal, Revolved, Role, Sawn, Section, Solid, Station, Stock,
    Vector,
};
use skewline::piece::Piece;

mod support;
use support::pieces::{pass, scoop};
use support::sound_design;

fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

fn wall(design: &Design) -> Wall {
    worked(design).figures.walls[0].clone()
}

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected} within {tolerance}");
}

fn drawn(nodes: Vec<Node>) -> PassProfile {
    PassProfile::Drawn { nodes }
}

/// A straight bore of 44 mm in a cylinder of 60 mm turned 3 mm off centre: t = (D - d)/2 - e = 5 (worked example
/// "least wall around a bore set e off centre", elementary).
#[test]
fn wall_around_a_bore_set_off_centre() {
    let mut design = scoop();
    design.axes = vec![AxisChoice::Marks { tail_x_mm: 1.8, tail_y_mm: -2.4, head_x_mm: 1.8, head_y_mm: -2.4 }];
    let Cut::Hollow(hollow) = &mut design.cuts[0] else { panic!("the hollow") };
    hollow.shape = HollowShape::RoundEnded { diameter_mm: 44.0, depth_mm: 48.0, rounding_mm: 0.0 };
    let nodes = vec![Node::line(-5.0, 60.0), Node::line(150.0, 60.0)];
    design.cuts[1] = pass("bowl", AxisName::B, -5.0, 150.0, drawn(nodes));
    design.cuts.truncate(2);
    let wall = wall(&design);
    near(wall.least.unwrap().wall_mm, 5.0, 0.005);
    // Opposite to the way the outside has moved.
    near(wall.least.unwrap().place.clock_deg.unwrap(), (-1.8_f64).atan2(2.4).to_degrees().rem_euclid(360.0), 1.0);
    assert_eq!(wall.least.unwrap().limited_by_cut, Some(1));
}

/// A cylinder turned e under the bore's axis leaves least wall at the top. Two saw lines that meet in a peak leave the bore's
/// surface up to a tip there, `height` over the axis: its wall is R - sqrt(r^2 + e^2 + 2 e height).
#[test]
fn the_tip_of_a_sawn_lip_is_the_thinnest() {
    let (r, large, e) = (20.0, 27.0, 2.0);
    for (at_mm, height_mm, end_mm) in [(25.0, 6.0, -9.0), (31.7, 11.3, -12.0), (12.3, 2.2, -17.0), (44.0, 17.5, 4.0)] {
        let mut design = scoop();
        let offset = AxisChoice::Marks { tail_x_mm: 0.0, tail_y_mm: -e, head_x_mm: 0.0, head_y_mm: -e };
        design.axes = vec![offset];
        let Cut::Hollow(hollow) = &mut design.cuts[0] else { panic!("the hollow") };
        hollow.shape = HollowShape::RoundEnded { diameter_mm: 2.0 * r, depth_mm: 50.0, rounding_mm: 0.0 };
        let nodes = vec![Node::line(-5.0, 2.0 * large), Node::line(150.0, 2.0 * large)];
        design.cuts[1] = pass("bowl", AxisName::B, -5.0, 150.0, drawn(nodes));
        let point = |at_mm: f64, height_mm: f64| SawPoint { at_mm, height_mm };
        let points = vec![point(-1.0, -15.0), point(at_mm, height_mm), point(60.0, end_mm)];
        design.cuts[2] = Cut::Saw(SawCut { path: SawPath::Lines { points } });
        let least = wall(&design).least.unwrap();
        near(least.wall_mm, large - (r * r + e * e + 2.0 * e * height_mm).sqrt(), 0.002);
        near(least.place.station_mm, at_mm, 0.5);
    }
}

/// The wall beside a taper is square to the taper, not to the axis: radius difference times cos of the half angle.
#[test]
fn wall_under_a_taper_is_the_nearest_distance() {
    let mut design = scoop();
    let nodes = vec![Node::line(-20.0, 80.0), Node::line(80.0, 30.0)];
    let Cut::Hollow(hollow) = &mut design.cuts[0] else { panic!("the hollow") };
    hollow.shape = HollowShape::RoundEnded { diameter_mm: 30.0, depth_mm: 40.0, rounding_mm: 0.0 };
    design.blank.section = skewline::design::BlankSection::Round { diameter_mm: 90.0 };
    design.cuts[1] = pass("bowl", AxisName::A, -20.0, 80.0, drawn(nodes));
    design.cuts.truncate(2);
    // At the square corner of the bore, station 40 and radius 15, the taper's radius is 25.
    near(wall(&design).least.unwrap().wall_mm, (25.0 - 15.0) * (0.25_f64).atan().cos(), 0.005);
    // The floor's nearest outside is the same corner's.
    near(wall(&design).floor.unwrap().least.wall_mm, 10.0 * (0.25_f64).atan().cos(), 0.005);
}

/// A hollow goes on outward of its mouth at its first radius, and its wall there counts: here it is the thinnest.
#[test]
fn wall_counts_outward_of_the_mouth() {
    let mut design = scoop();
    let nodes = vec![Node::line(-20.0, 30.0), Node::line(80.0, 80.0)];
    let Cut::Hollow(hollow) = &mut design.cuts[0] else { panic!("the hollow") };
    hollow.mouth_mm = 10.0;
    hollow.shape = HollowShape::RoundEnded { diameter_mm: 30.0, depth_mm: 40.0, rounding_mm: 0.0 };
    design.blank.section = skewline::design::BlankSection::Round { diameter_mm: 90.0 };
    design.cuts[1] = pass("bowl", AxisName::A, -20.0, 80.0, drawn(nodes));
    design.cuts.truncate(2);
    let wall = wall(&design);
    // On the bowl-end face the taper's radius is 20 and the hollow's 15.
    near(wall.least.unwrap().wall_mm, 5.0 * (0.25_f64).atan().cos(), 0.005);
    near(wall.least.unwrap().place.station_mm, 0.0, 0.01);
    assert!(wall.breakthroughs.is_empty());
}

/// A saw line through the axis meets the bore's side square on; one above it leaves a sharper edge.
#[test]
fn the_sawn_rim_has_the_angle_between_saw_and_bore() {
    for (height, expected) in [(0.0, 90.0), (10.0, 90.0 - (10.0_f64 / 20.5).asin().to_degrees())] {
        let mut design = scoop();
        let at = |at_mm: f64| SawPoint { at_mm, height_mm: height };
        design.cuts.push(Cut::Saw(SawCut { path: SawPath::Lines { points: vec![at(-10.0), at(40.0)] } }));
        let Cut::Hollow(hollow) = &mut design.cuts[0] else { panic!("the hollow") };
        hollow.shape = HollowShape::RoundEnded { diameter_mm: 41.0, depth_mm: 60.0, rounding_mm: 0.0 };
        near(wall(&design).rim_edge_deg.unwrap(), expected, 0.5);
    }
}

#[test]
fn an_opening_that_misses_is_found_and_placed() {
    let mut design = scoop();
    let at = |at_mm: f64| SawPoint { at_mm, height_mm: 22.0 };
    design.cuts.push(Cut::Saw(SawCut { path: SawPath::Lines { points: vec![at(-10.0), at(40.0)] } }));
    let worked = worked(&design);
    let opening = worked.figures.walls[0].openings[0];
    near(opening.depth_mm, -(22.0 - 20.5), 0.02);
    let check = worked.checks.iter().find(|c| c.name == CheckName::Opening).unwrap();
    assert_eq!(check.verdict, Verdict::Stop);
}

/// A handle that starts over the bowl comes through, and the cure it names keeps the wall.
#[test]
fn a_breakthrough_is_found_placed_and_cured() {
    let mut design = scoop();
    design.axes = vec![AxisChoice::Tilt { tilt_deg: 12.5, toward_deg: 0.0, crossing_mm: 62.0 }];
    let nodes = vec![Node::line(38.0, 15.0), Node::line(190.0, 20.0)];
    design.cuts[2] = pass("handle", AxisName::B, 38.0, 190.0, drawn(nodes));
    let broken = worked(&design);
    let found = &broken.figures.walls[0].breakthroughs[0];
    assert!(found.deepest.wall_mm < -3.0 && found.deepest.limited_by_cut == Some(2));
    assert!(found.from_station_mm > 30.0 && found.to_station_mm <= 48.0);
    assert_eq!(broken.checks[0].verdict, Verdict::Stop);
    // The depth is said as such, not as a wall of nothing.
    let wall_check = broken.checks.iter().find(|c| c.name == CheckName::Wall).unwrap();
    let depth = format!("the outside goes {:.1} mm into the hollow.", -found.deepest.wall_mm);
    assert!(wall_check.sentence.starts_with("No wall is left, ") && wall_check.sentence.ends_with(&depth));
    let start = broken.figures.nearest_starts.iter().find(|s| s.cut == 2).unwrap().nearest_from_mm;
    let Cut::Pass(handle) = &mut design.cuts[2] else { panic!("the handle") };
    handle.from_mm = start;
    let wall = wall(&design);
    assert!(wall.breakthroughs.is_empty());
    near(wall.least.unwrap().wall_mm, 3.0, 0.05);
}

fn revolved(axis: Axis, points: Vec<(f64, f64)>, fill: Fill) -> Region {
    Region::Revolved(Revolved {
        axis,
        meridian: Meridian::new(points.into_iter().map(Station::from).collect()).unwrap(),
        fill,
    })
}

/// A bowl that leans toward the handle: carried on past its mouth, its surface leaves the wood above the saw, and passes the
/// saw's end in the open air. No kept wood lies beside it there, so it is no hole.
#[test]
fn a_bowl_is_not_broken_through_where_its_surface_runs_on_in_the_open_air() {
    let leaning = Axis::new(Vector::new(0.0, -10.2, 26.5), Vector::new(-0.122, -0.974, -0.189)).unwrap();
    let removals = [
        (revolved(Axis::A, vec![(-1.0, 26.35), (70.0, 26.35), (95.0, 12.0)], Fill::Beyond), Role::Outside),
        (revolved(leaning, vec![(0.0, 10.75), (3.0, 9.9), (5.6, 5.2)], Fill::WithinOpen), Role::Inside),
        (Region::Sawn(Sawn::above(&[Point::new(-1.9, -11.9), Point::new(45.55, -5.56)]).unwrap()), Role::Opening),
    ];
    let removals =
        removals.into_iter().enumerate().map(|(cut, (region, role))| Removal { region, role, cut }).collect();
    let stock = Stock { section: Section::Square { half_side: 35.0 }, length: 200.0 };
    let solid = Solid { stock, removals, plugs: vec![] };
    let least = least_wall_mm(&solid).unwrap();
    assert!(least > 5.0, "{least}");
    let piece = Piece { solid, axes: vec![Axis::A], tail_face: 0.0, head_face: 200.0, joins: vec![] };
    let walls = walls(&piece, |_| None);
    assert!(walls[0].breakthroughs.is_empty(), "{:?}", walls[0].breakthroughs);
    near(walls[0].least.unwrap().wall_mm, least, 1e-9);
}

/// A bored block with two passes on axes that pass each other by.
fn any_piece() -> impl Strategy<Value = Solid> {
    let off = || (-3.0..3.0, -3.0..3.0, -6.0..6.0, -6.0..6.0_f64);
    let axis = |(a, b, c, d)| Axis::through(Vector::new(a, b, 0.0), Vector::new(c, d, 200.0)).unwrap();
    (off(), off(), 20.0..32.0, 10.0..28.0, 8.0..20.0_f64).prop_map(move |(one, two, bowl, floor, bore)| {
        let outside =
            |axis, points, cut| Removal { region: revolved(axis, points, Fill::Beyond), role: Role::Outside, cut };
        let hollow = revolved(Axis::A, vec![(0.0, bore), (40.0, bore), (48.0, bore * 0.4)], Fill::WithinOpen);
        Solid {
            stock: Stock { section: Section::Square { half_side: 27.0 }, length: 200.0 },
            removals: vec![
                Removal { region: hollow, role: Role::Inside, cut: 0 },
                outside(axis(one), vec![(-9.0, bowl), (30.0, bowl + 1.0), (60.0, floor)], 1),
                outside(axis(two), vec![(58.0, 9.0), (150.0, 8.0)], 2),
            ],
            plugs: vec![],
        }
    })
}

/// The nearest of many points of the outside surfaces: an upper bound that the spacing makes nearly tight.
fn brute_force(solid: &Solid, from: Vector) -> f64 {
    let mut best = f64::INFINITY;
    for removal in solid.with_role(Role::Outside) {
        let Region::Revolved(region) = &removal.region else { continue };
        let chain = region.meridian.points();
        let mut sheet: Vec<(f64, f64)> = Vec::new();
        for pair in chain.windows(2) {
            sheet.extend((0..=80).map(|i| {
                let part = f64::from(i) / 80.0;
                (pair[0].t + (pair[1].t - pair[0].t) * part, pair[0].r + (pair[1].r - pair[0].r) * part)
            }));
        }
        for end in [chain[0], chain[chain.len() - 1]] {
            sheet.extend((0..100).map(|i| (end.t, end.r + 0.4 * f64::from(i))));
        }
        for (t, r) in sheet {
            for i in 0..90 {
                let clock = std::f64::consts::TAU * f64::from(i) / 90.0;
                best = best.min((region.axis.point(t, r, clock) - from).length());
            }
        }
    }
    best.min(solid.stock.depth_from_sides(from))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn the_least_wall_is_the_nearest_distance_by_brute_force(solid in any_piece()) {
        let piece = skewline::piece::Piece {
            solid: solid.clone(),
            axes: vec![Axis::A],
            tail_face: 0.0,
            head_face: 200.0,
            joins: vec![],
        };
        let wall = walls(&piece, |_| None).remove(0);
        let least = wall.least.unwrap();
        // No point of the hollow tried here is nearer to the outside.
        let Region::Revolved(hollow) = &solid.removals[0].region else { panic!("the hollow") };
        for i in 0..400 {
            let (part, turn) = (f64::from(i % 20) / 19.0, f64::from(i / 20) / 20.0);
            let t = hollow.meridian.end() * part;
            let point = Axis::A.point(t, hollow.meridian.radius_before(t), std::f64::consts::TAU * turn);
            prop_assert!(solid.to_outside(point).distance >= least.wall_mm - 0.005);
        }
        if least.wall_mm > 0.0 {
            // Samples of the outside are at most about 1.2 mm from its nearest point, seen square on.
            let nearest = brute_force(&solid, least.point);
            prop_assert!(nearest >= least.wall_mm - 1e-6, "{nearest} is nearer than {}", least.wall_mm);
            prop_assert!(nearest <= least.wall_mm.hypot(1.3) + 0.01, "{nearest} for {}", least.wall_mm);
        } else {
            prop_assert!(!wall.breakthroughs.is_empty());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A piece that is the same on both sides of the upright plane is measured on one of them. A facing far off the wood,
    /// and leaning to one side, takes nothing and has the same piece measured all around.
    #[test]
    fn one_half_of_a_mirrored_piece_stands_for_both(
        tail in -3.0..3.0_f64, head in -6.0..6.0_f64, bowl in 20.0..32.0_f64, bore in 8.0..20.0_f64,
    ) {
        let leaning = Axis::through(Vector::new(0.0, tail, 0.0), Vector::new(0.0, head, 200.0)).unwrap();
        let hollow = revolved(Axis::A, vec![(0.0, bore), (40.0, bore), (48.0, bore * 0.4)], Fill::WithinOpen);
        let outside = revolved(leaning, vec![(-9.0, bowl), (30.0, bowl + 1.0), (60.0, 12.0), (200.0, 8.0)], Fill::Beyond);
        let mut solid = Solid {
            stock: Stock { section: Section::Square { half_side: 27.0 }, length: 200.0 },
            removals: vec![
                Removal { region: hollow, role: Role::Inside, cut: 0 },
                Removal { region: outside, role: Role::Outside, cut: 1 },
            ],
            plugs: vec![],
        };
        prop_assert!(solid.is_mirrored());
        let half = (least_wall_mm(&solid).unwrap(), wall_samples(&solid));
        let far_off = HalfSpace { into: Vector::new(0.6, 0.8, 0.0), offset: 1e4 };
        solid.removals.push(Removal { region: Region::HalfSpace(far_off), role: Role::Opening, cut: 2 });
        prop_assert!(!solid.is_mirrored());
        let whole = (least_wall_mm(&solid).unwrap(), wall_samples(&solid));
        prop_assert!((half.0 - whole.0).abs() < 0.002, "{} and {}", half.0, whole.0);
        for (one, both) in half.1.iter().zip(&whole.1) {
            prop_assert_eq!(one.is_some(), both.is_some());
            prop_assert!((one.unwrap_or_default() - both.unwrap_or_default()).abs() < 1e-9);
        }
    }
}

#[test]
fn the_wall_of_any_hollow_is_found_by_its_cut() {
    let shape = shape(&sound_design(), &Shop::default()).unwrap();
    assert_eq!(shape.walls.iter().map(|it| it.cut).collect::<Vec<_>>(), [0, 1]);
    for (asked, found) in [(Some(0), 0), (Some(1), 1), (None, 0), (Some(2), 0), (Some(99), 0)] {
        assert_eq!(shape.wall_of(asked).unwrap().cut, found);
    }
}
