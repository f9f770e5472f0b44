//! Volumes, centroids and second moments against closed forms.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod support;

use std::f64::consts::PI;

use proptest::prelude::*;
use skewline::geometry::{
    Axis, Fill, HalfSpace, Mass, Meridian, Plane, Region, Removal, Revolved, Role, SECTION_TOLERANCE, Section, Segment,
    Station, Stock, Vector, mass, section,
};
use support::solids::{self, assert_within, kept_body, leaning_axes, piece, taken_body};

/// The share by which mass.rs promises a volume for cuts about this axis.
fn volume_share(axis: &Axis) -> f64 {
    if axis.tilt().to_degrees() < 1.0 { 0.0005 } else { 0.001 }
}

/// The share of the largest second moment within which mass.rs promises each.
const SECOND_SHARE: f64 = 0.004;

/// Centroids, in mm.
const CENTROID_MM: f64 = 0.02;

/// Moments of a body of revolution: volume, station of the centroid, second moments along and across its axis.
struct Expected {
    volume: f64,
    centroid: f64,
    along: f64,
    across: f64,
}

#[track_caller]
fn assert_body(found: &Mass, axis: &Axis, expected: &Expected) {
    assert_within(found.volume_mm3, expected.volume, volume_share(axis));
    let off = (found.centroid - axis.point(expected.centroid, 0.0, 0.0)).length();
    assert!(off < CENTROID_MM, "centroid off by {off}");
    let a = [axis.along().x, axis.along().y, axis.along().s];
    for i in 0..3 {
        for j in 0..3 {
            let own = if i == j { expected.across } else { 0.0 };
            let second = own + (expected.along - expected.across) * a[i] * a[j];
            let off = (found.second[i][j] - second).abs();
            assert!(off < SECOND_SHARE * expected.along.max(expected.across), "second [{i}][{j}] off by {off}");
        }
    }
}

/// Standard engineering-mechanics inertia tables; tests/reference/closed_forms.md, section 5.
#[test]
fn cylinders_and_bored_cylinders() {
    for axis in leaning_axes() {
        for (r, h, bore) in [(30.0, 120.0, 0.0), (9.0, 140.0, 0.0), (31.0, 45.0, 22.0)] {
            let mut cuts = vec![kept_body(axis, &[Station::new(-h / 2.0, r), Station::new(h / 2.0, r)], 0)];
            if bore > 0.0 {
                cuts.push(taken_body(axis, &[Station::new(-h, bore), Station::new(h, bore)], 1));
            }
            let (outer, inner) = (PI * r * r * h, PI * bore * bore * h);
            let expected = Expected {
                volume: outer - inner,
                centroid: 0.0,
                along: (outer - inner) * h * h / 12.0,
                across: (outer * r * r - inner * bore * bore) / 4.0,
            };
            assert_body(&mass(&piece(cuts).finished()), &axis, &expected);
        }
    }
}

/// MathWorld, Conical Frustum; inertia from the tables, section 5.
#[test]
fn frustums() {
    let (r1, r2, h) = (30.0_f64, 18.0_f64, 45.0);
    let volume = 83126.54161;
    let centroid = 18.82653061;
    // Disc by disc: the integral of pi r^4 / 4, and of pi r^2 (t - centroid)^2, by the trapezium rule on 1e5 discs.
    let discs = 100_000;
    let (mut along, mut across) = (0.0, 0.0);
    for i in 0..discs {
        let t = h * (f64::from(i) + 0.5) / f64::from(discs);
        let r = r1 + (r2 - r1) * t / h;
        across += PI * r.powi(4) / 4.0 * h / f64::from(discs);
        along += PI * r * r * (t - centroid).powi(2) * h / f64::from(discs);
    }
    assert_within(2.0 * across / volume, 3.0 * (r1.powi(5) - r2.powi(5)) / (10.0 * (r1.powi(3) - r2.powi(3))), 1e-6);
    for axis in leaning_axes() {
        let solid = piece(vec![kept_body(axis, &[Station::new(0.0, r1), Station::new(h, r2)], 0)]);
        assert_body(&mass(&solid.finished()), &axis, &Expected { volume, centroid, along, across });
    }
}

/// Sphere of radius 30, flattened to 0.001 mm; and the same bored through, MathWorld, Spherical Ring.
#[test]
fn spheres_and_bored_spheres() {
    let nodes = [(-30.0, 0.0, Segment::Arc { bulge: 30.0 }), (30.0, 0.0, Segment::Line)];
    let arc = skewline::geometry::Meridian::from_nodes(&nodes, 0.001).unwrap();
    for axis in leaning_axes() {
        let sphere = kept_body(axis, arc.points(), 0);
        let volume = 4.0 / 3.0 * PI * 27000.0;
        let second = volume * 900.0 / 5.0;
        let found = mass(&piece(vec![sphere.clone()]).finished());
        assert_body(&found, &axis, &Expected { volume, centroid: 0.0, along: second, across: second });
        let bored = mass(
            &piece(vec![sphere, taken_body(axis, &[Station::new(-40.0, 10.0), Station::new(40.0, 10.0)], 1)])
                .finished(),
        );
        assert_within(bored.volume_mm3, 94781.50268, volume_share(&axis));
    }
}

/// MathWorld, Cylindrical Wedge and Ungula: the hoof cut from a cylinder by planes, as an opened bore is.
#[test]
fn hoofs() {
    let r = 25.0;
    for axis in leaning_axes() {
        for (toe, rise, volume) in [(25.0, 60.0, 25000.0), (35.0, 40.0, 25943.14588), (15.0, 40.0, 8174.129491)] {
            let cylinder = kept_body(axis, &[Station::new(0.0, r), Station::new(80.0, r)], 0);
            // The plane meets the base at `up = r - toe`, and stands `rise` over it at `up = r`.
            let out = (axis.along() * toe - axis.up() * rise).unit().unwrap();
            let offset = axis.point(0.0, r - toe, 0.0).dot(out);
            let over =
                Removal { region: Region::HalfSpace(HalfSpace { into: out, offset }), role: Role::Opening, cut: 1 };
            let found = mass(&piece(vec![cylinder, over]).finished());
            assert_within(found.volume_mm3, volume, volume_share(&axis));
        }
    }
}

/// Hubbell (1965), J. Res. NBS 69C; MathWorld, Steinmetz Solid: two and three cylinders at an angle.
#[test]
fn crossing_cylinders() {
    for axis in leaning_axes() {
        let crossing = |degrees: f64, toward: Vector| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            Axis::new(axis.origin(), axis.along() * cos + toward * sin).unwrap()
        };
        let cylinder =
            |axis: Axis, r: f64, cut: usize| kept_body(axis, &[Station::new(-140.0, r), Station::new(140.0, r)], cut);
        let cases = [
            (25.0, 25.0, 90.0, 83333.33333),
            (25.0, 25.0, 60.0, 96225.04486),
            (20.0, 30.0, 90.0, 70936.10972),
            (20.0, 30.0, 60.0, 81909.96409),
        ];
        for (r1, r2, angle, volume) in cases {
            for toward in [axis.right(), axis.up()] {
                let other = crossing(angle, toward);
                let cuts = vec![cylinder(axis, r1, 0), cylinder(other, r2, 1)];
                assert_within(mass(&piece(cuts).finished()).volume_mm3, volume, volume_share(&other));
            }
        }
        let three = vec![
            cylinder(axis, 20.0, 0),
            cylinder(crossing(90.0, axis.right()), 20.0, 1),
            cylinder(crossing(90.0, axis.up()), 20.0, 2),
        ];
        assert_within(mass(&piece(three).finished()).volume_mm3, 8.0 * (2.0 - 2f64.sqrt()) * 8000.0, 0.001);
    }
}

/// A hole of radius r square across a round bar of radius R takes the integral of 4 sqrt((R^2 - x^2)(r^2 - x^2)) from -r
/// to r: MathWorld, Steinmetz Solid, cylinders of unequal radii; summed here by the rule x = r sin u.
fn taken_square_across(bar: f64, hole: f64) -> f64 {
    let steps = 2000;
    let strip = |i: i32| {
        let u = PI * (f64::from(i) + 0.5) / f64::from(steps) - PI / 2.0;
        let x = hole * u.sin();
        4.0 * (bar * bar - x * x).sqrt() * (hole * u.cos()).powi(2) * PI / f64::from(steps)
    };
    (0..steps).map(strip).sum()
}

/// A round bar of radius 30, 200 long, with a hole along an axis.
fn bar_with_hole(axis: Axis, points: Vec<(f64, f64)>, fill: Fill) -> Mass {
    let region = Region::Revolved(Revolved {
        axis,
        meridian: Meridian::new(points.into_iter().map(Station::from).collect()).unwrap(),
        fill,
    });
    let mut solid = piece(vec![Removal { region, role: Role::Inside, cut: 0 }]);
    solid.stock = Stock { section: Section::Round { radius: 30.0 }, length: 200.0 };
    mass(&solid.finished())
}

#[test]
fn a_hole_square_across_a_round_bar() {
    let expected = PI * 900.0 * 200.0 - taken_square_across(30.0, 18.0);
    for across in [Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0), Vector::new(1.0, 1.0, 0.0)] {
        for origin in [40.0, 71.3] {
            let axis = Axis::new(Vector::new(0.0, 0.0, origin), across).unwrap();
            for fill in [Fill::Within, Fill::WithinOpen] {
                let from = if fill == Fill::Within { -40.0 } else { 35.0 };
                let found = bar_with_hole(axis, vec![(from, 18.0), (60.0, 18.0), (61.0, 0.0)], fill);
                assert_within(found.volume_mm3, expected, 0.0005);
            }
        }
    }
}

/// As above, leaning by up to 20 degrees: cylinders at an angle have in common what they have when square, over its sine
/// (Hubbell 1965).
#[test]
fn a_hole_leaning_across_a_round_bar() {
    for lean in [1e-9, 0.000_33, 0.003, 0.017, 0.03, 0.055, 0.1, 0.2, 0.35_f64] {
        for clock in [0.0, 0.3, 0.8, 1.2, 1.57, 2.5_f64] {
            for hole in [8.0, 18.0] {
                let across = Vector::new(clock.sin() * lean.cos(), clock.cos() * lean.cos(), -lean.sin());
                let axis = Axis::new(Vector::new(0.0, 0.0, 71.3), across).unwrap();
                let expected = PI * 900.0 * 200.0 - taken_square_across(30.0, hole) / lean.cos();
                let found = bar_with_hole(axis, vec![(-60.0, hole), (60.0, hole)], Fill::Within);
                assert_within(found.volume_mm3, expected, 0.001);
            }
        }
    }
}

/// Prisms with lens and three-sided sections from parallel axes: MathWorld, Circle-Circle Intersection; Fewell (2006).
#[test]
fn parallel_axes() {
    for axis in leaning_axes() {
        for roll in [0.0, 0.4, 1.2] {
            let offset = |e: f64, turn: f64| {
                let clock = roll + turn * PI / 3.0;
                Axis::new(axis.point(0.0, e, clock), axis.along()).unwrap()
            };
            let prism = |r: f64, e: f64, turns: &[f64]| {
                let cuts = turns.iter().enumerate().map(|(cut, turn)| {
                    kept_body(offset(e, *turn), &[Station::new(-50.0, r), Station::new(50.0, r)], cut)
                });
                mass(&piece(cuts.collect()).finished()).volume_mm3
            };
            assert_within(prism(30.0, 20.0, &[0.0, 3.0]), 61949.64160, volume_share(&axis));
            assert_within(prism(30.0, 12.0, &[0.0, 2.0, 4.0]), 118199.6392, volume_share(&axis));
        }
    }
}

#[test]
fn inertia_is_that_of_the_tables() {
    // Cylinder, own axis and across, and about a parallel axis 10 mm away.
    let solid = piece(vec![kept_body(
        Axis::new(Vector::new(0.0, 0.0, 100.0), Axis::A.along()).unwrap(),
        &[Station::new(-100.0, 30.0), Station::new(100.0, 30.0)],
        0,
    )]);
    let found = mass(&solid.finished());
    let density = 0.5 / (PI * 0.03 * 0.03 * 0.2);
    let kg_m2 = density * 1e-15;
    assert_within(found.kilograms(density), 0.5, volume_share(&Axis::A));
    assert_within(found.inertia()[2][2] * kg_m2, 0.0002250000000, SECOND_SHARE);
    assert_within(found.inertia()[0][0] * kg_m2, 0.001779166667, SECOND_SHARE);
    let aside = found.centroid + Vector::new(6.0, 8.0, 0.0);
    assert_within(found.inertia_about(aside)[2][2] * kg_m2, 0.0002750000000, SECOND_SHARE);
}

#[test]
fn nothing_left_is_nothing() {
    let solid = piece(vec![taken_body(Axis::A, &[Station::new(-10.0, 300.0), Station::new(500.0, 300.0)], 0)]);
    assert_eq!(mass(&solid.finished()), Mass::default());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// For any solid, the volume is the sum of its sections' areas over many slices.
    #[test]
    fn volume_agrees_with_sections(solid in solids::solid()) {
        let state = solid.state(99);
        let found = mass(&state);
        let slices = 1400;
        let (from, to) = (-6.0, 205.0);
        let step = (to - from) / f64::from(slices);
        let area = |i: i32| {
            let s = from + step * (f64::from(i) + 0.5);
            section(&state, &Plane::square_to(&Axis::A, s), SECTION_TOLERANCE).moments().area_mm2
        };
        let summed: f64 = (0..slices).map(|i| area(i) * step).sum();
        // Shoulders square to A may be half a step off.
        prop_assert!((found.volume_mm3 - summed).abs() < 0.003 * summed + 3.0 * 1000.0 * step, "{} {}", found.volume_mm3, summed);
    }
}
