//! Sections by any plane: closed forms, and agreement with inside and outside.

#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod support;

use std::f64::consts::PI;

use proptest::prelude::*;
use skewline::geometry::{
    AreaMoments, Axis, Fill, Meridian, Plane, Ray, Region, Removal, Revolved, Role, SECTION_TOLERANCE, Section, Solid,
    Station, Stock, Vector, section,
};
use support::solids::{self, assert_within, kept_cylinder};

/// The share by which an area at the default tolerance may be off.
const AREA_SHARE: f64 = 0.0005;

fn stock() -> Stock {
    Stock { section: Section::Round { radius: 150.0 }, length: 400.0 }
}

/// A piece of cylinders about parallel axes, at `(right, up)` of `about`, cut square to them.
fn parallel_cylinders(about: &Axis, cylinders: &[(f64, f64, f64)], tolerance: f64) -> AreaMoments {
    let removals = cylinders.iter().enumerate().map(|(cut, (right, up, radius))| {
        let origin = about.origin() + about.right() * *right + about.up() * *up;
        kept_cylinder(Axis::new(origin, about.along()).unwrap(), *radius, cut)
    });
    let solid = Solid { stock: stock(), removals: removals.collect(), plugs: vec![] };
    let plane = Plane::square_to(about, 160.0 - about.origin().s);
    section(&solid.finished(), &plane, tolerance).moments()
}

/// Axis A, and one shifted and tilted two ways.
fn fixtures() -> [Axis; 2] {
    [Axis::A, Axis::new(Vector::new(3.0, -7.0, 0.0), Vector::new(0.11, -0.23, 1.0)).unwrap()]
}

/// MathWorld, Circle-Circle Intersection; Reuleaux Triangle; Fewell (2006), DSTO-TN-0722, three circles.
#[test]
fn overlaps_of_parallel_cylinders_have_their_closed_form_areas() {
    let third = |e: f64| {
        let corner = |k: f64| (e * (2.0 * PI * k / 3.0).sin(), e * (2.0 * PI * k / 3.0).cos());
        [corner(0.0), corner(1.0), corner(2.0)]
    };
    let three = |e: f64, r: f64| third(e).map(|(right, up)| (right, up, r)).to_vec();
    let cases = vec![
        (vec![(4.0, -2.0, 30.0)], PI * 900.0),
        (vec![(-25.0, 0.0, 40.0), (25.0, 0.0, 40.0)], 1304.877841),
        (vec![(0.0, -20.0, 50.0), (0.0, 40.0, 30.0)], 692.7129207),
        (vec![(0.0, 20.0, 30.0), (0.0, -20.0, 30.0)], 619.4964160),
        (three(60.0 / 3f64.sqrt(), 60.0), 2537.175323),
        (three(40.0 / 3f64.sqrt(), 50.0), 2710.880195),
        (three(12.0, 30.0), 1181.996392),
    ];
    for about in fixtures() {
        for (cylinders, area) in &cases {
            for tolerance in [0.05, SECTION_TOLERANCE, 0.0005] {
                let found = parallel_cylinders(&about, cylinders, tolerance);
                assert_within(found.area_mm2, *area, AREA_SHARE.max(tolerance / 50.0));
            }
        }
    }
}

/// Two-axis section, R = 30, e = 20: second moments by quadrature, tests/reference/closed_forms.md.
#[test]
fn a_two_axis_section_has_the_second_moments_of_the_closed_form() {
    for about in fixtures() {
        let found = parallel_cylinders(&about, &[(0.0, 20.0, 30.0), (0.0, -20.0, 30.0)], SECTION_TOLERANCE);
        assert_within(found.second_vertical_mm4, 14507.26376, AREA_SHARE);
        assert_within(found.second_sideways_mm4, 64851.09436, AREA_SHARE);
        assert!(found.product_mm4.abs() < 1.0, "{found:?}");
    }
}

/// A cylinder cut at an angle is an ellipse with half axes r and r / cos.
#[test]
fn a_tilted_cylinder_is_cut_in_an_ellipse() {
    for tilt in [1e-9_f64, 1e-4, 5.0, 12.5, 20.0, 60.0, 88.0] {
        let lean = tilt.to_radians();
        let axis = Axis::new(Vector::new(2.0, 1.0, 100.0), Vector::new(0.6 * lean.sin(), 0.8 * lean.sin(), lean.cos()));
        let meridian = Meridian::new(vec![Station::new(-2000.0, 4.0), Station::new(2000.0, 4.0)]).unwrap();
        let hole = Revolved { axis: axis.unwrap(), meridian, fill: Fill::Within };
        let removal = Removal { region: Region::Revolved(hole), role: Role::Inside, cut: 0 };
        let solid = Solid { stock: stock(), removals: vec![removal], plugs: vec![] };
        let whole = section(&solid.state(0), &Plane::square_to(&Axis::A, 100.0), SECTION_TOLERANCE).moments();
        let left = section(&solid.finished(), &Plane::square_to(&Axis::A, 100.0), SECTION_TOLERANCE).moments();
        assert_within(whole.area_mm2 - left.area_mm2, PI * 16.0 / lean.cos(), AREA_SHARE);
    }
}

/// The side view of a frustum about a tilted axis is its own trapezium; of a bored one, two parts.
#[test]
fn a_plane_through_a_tilted_axis_shows_the_profile() {
    let axis = Axis::new(Vector::new(0.0, 3.0, 50.0), Vector::new(0.0, 0.2, 1.0)).unwrap();
    let within = |points: Vec<(f64, f64)>| Revolved {
        axis,
        meridian: Meridian::new(points.into_iter().map(Station::from).collect()).unwrap(),
        fill: Fill::Within,
    };
    let far = |t: f64| [(t, 0.0), (t + 900.0, 0.0)];
    let shell = Revolved { fill: Fill::Beyond, ..within(vec![(10.0, 30.0), (55.0, 18.0)]) };
    let ends = [far(55.0), far(-890.0)].map(|p| Revolved { fill: Fill::Beyond, ..within(p.to_vec()) });
    let bore = within(vec![(10.0, 7.0), (55.0, 7.0)]);
    let removal = |(cut, r): (usize, Revolved)| Removal { region: Region::Revolved(r), role: Role::Outside, cut };
    let [head, tail] = ends;
    let removals = [shell, head, tail, bore].into_iter().enumerate().map(removal).collect();
    let solid = Solid { stock: stock(), removals, plugs: vec![] };
    let whole = section(&solid.state(3), &Plane::side_view(), SECTION_TOLERANCE);
    assert_eq!(whole.outlines.len(), 1);
    // Two times the half trapezium, 45 long from 30 to 18.
    assert_within(whole.moments().area_mm2, 45.0 * 48.0, 1e-6);
    let bored = section(&solid.finished(), &Plane::side_view(), SECTION_TOLERANCE);
    assert_eq!(bored.outlines.len(), 2);
    assert_within(bored.moments().area_mm2, 45.0 * 48.0 - 45.0 * 14.0, 1e-6);
}

/// The wood goes on past both ends of a pass, whatever the angle: no crack may part it there.
#[test]
fn a_neck_hangs_together() {
    for i in 0..600 {
        let lean = 0.0004 * f64::from(i) - 0.12;
        let axis = Axis::new(Vector::new(0.4, 1.0 + lean, 0.0), Vector::new(0.02, lean, 1.0)).unwrap();
        let meridian =
            Meridian::new(vec![Station::new(60.0, 12.0), Station::new(100.0, 9.0 + lean), Station::new(140.0, 11.0)])
                .unwrap();
        let pass = Revolved { axis, meridian, fill: Fill::Beyond };
        let removal = Removal { region: Region::Revolved(pass), role: Role::Outside, cut: 0 };
        let stock = Stock { section: Section::Round { radius: 40.0 }, length: 200.0 };
        let solid = Solid { stock, removals: vec![removal], plugs: vec![] };
        let face = section(&solid.finished(), &Plane::side_view(), SECTION_TOLERANCE);
        assert_eq!(face.outlines.len(), 1, "leaning {lean}");
    }
}

#[test]
fn a_hole_is_marked_as_one() {
    let meridian = Meridian::new(vec![Station::new(0.0, 5.0), Station::new(60.0, 5.0)]).unwrap();
    let bore = Revolved { axis: Axis::A, meridian, fill: Fill::WithinOpen };
    let removal = Removal { region: Region::Revolved(bore), role: Role::Inside, cut: 0 };
    let solid = Solid { stock: stock(), removals: vec![removal], plugs: vec![] };
    let face = section(&solid.finished(), &Plane::square_to(&Axis::A, 20.0), SECTION_TOLERANCE);
    let holes: Vec<bool> = face.outlines.iter().map(|o| o.hole).collect();
    assert_eq!(holes, [false, true]);
    assert!(section(&solid.finished(), &Plane::square_to(&Axis::A, 401.0), 0.005).outlines.is_empty());
    let nonsense = Plane { origin: Vector::new(f64::NAN, 0.0, 0.0), ..Plane::side_view() };
    assert!(section(&solid.finished(), &nonsense, f64::NAN).outlines.is_empty());
}

fn plane() -> impl Strategy<Value = Plane> {
    let any = (solids::point(), solids::axis(), -40.0..40.0_f64, 0.0..1.0_f64).prop_map(|(origin, axis, roll, tip)| {
        let turned = axis.along() * (1.0 - tip) + Vector::new(roll.sin(), roll.cos(), 0.1) * tip;
        let square = Axis::new(origin, turned).unwrap();
        Plane { origin, right: square.right(), up: square.up() }
    });
    let square = (-2.0..200.0_f64).prop_map(|s| Plane::square_to(&Axis::A, s));
    prop_oneof![3 => any, 1 => square, 1 => Just(Plane::side_view())]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// A point of the plane is inside the outlines just when it is wood, but for a strip along the outlines.
    #[test]
    fn outlines_enclose_what_is_wood(
        solid in solids::solid(),
        plane in plane(),
        points in proptest::collection::vec((-60.0..60.0, -220.0..220.0_f64), 60),
    ) {
        let state = solid.state(99);
        let face = section(&state, &plane, SECTION_TOLERANCE);
        for (u, v) in points {
            for [u, v] in [[u, v], [v, u], [u, v / 5.0]] {
                let near = [[0.0, 0.0], [0.01, 0.0], [-0.01, 0.0], [0.0, 0.01], [0.0, -0.01]];
                let wood = near.map(|[du, dv]| state.contains(plane.at(u + du, v + dv)));
                if wood == [wood[0]; 5] {
                    prop_assert_eq!(face.encloses([u, v]), wood[0], "at {}, {}", u, v);
                }
            }
        }
    }

    /// Areas agree with lengths of wood along many lines.
    #[test]
    fn areas_agree_with_lines(solid in solids::solid(), plane in plane()) {
        let state = solid.state(99);
        let area = section(&state, &plane, SECTION_TOLERANCE).moments().area_mm2;
        let step = 0.05;
        let lines = (-5200..5200).map(|i| {
            let ray = Ray { start: plane.at(0.0, step * (f64::from(i) + 0.5)), direction: plane.right };
            step * state.along(ray).length()
        });
        let summed: f64 = lines.sum();
        // Midpoint rule: each of a few sudden ends may be half a step off over its whole width.
        prop_assert!((area - summed).abs() < 0.001 * summed + 400.0 * step, "{} {}", area, summed);
    }
}
