//! Random axes, profiles, regions and solids shared by the tests.

use proptest::prelude::*;
use skewline::geometry::{
    Axis, Fill, FittedPlug, HalfSpace, Meridian, Point, Region, Removal, Revolved, Role, Sawn, Section, Solid, Station,
    Stock, Vector,
};

/// An axis near A, tilted by up to 7 degrees any way.
pub fn axis() -> impl Strategy<Value = Axis> {
    (-9.0..9.0, -9.0..9.0, -14.0..14.0, -14.0..14.0_f64)
        .prop_map(|(a, b, c, d)| Axis::through(Vector::new(a, b, -6.0), Vector::new(c, d, 210.0)).unwrap())
}

/// A profile of two to six nodes.
pub fn meridian() -> impl Strategy<Value = Meridian> {
    (proptest::collection::vec((0.5..30.0, 0.0..35.0_f64), 2..7), -5.0..90.0_f64).prop_map(|(steps, start)| {
        let mut t = start;
        let points = steps.iter().map(|(step, r)| {
            t += step;
            Station::new(t, *r)
        });
        Meridian::new(points.collect()).unwrap()
    })
}

/// A region about an axis near A, or about one square to it.
pub fn revolved() -> impl Strategy<Value = Revolved> {
    let across = (-8.0..8.0, -40.0..-5.0, 20.0..120.0, -0.3..0.3_f64).prop_map(|(x, y, s, lean)| {
        let origin = Vector::new(x, y, s);
        Axis::new(origin, Vector::new(lean, 1.0, -lean)).unwrap()
    });
    let axis = prop_oneof![3 => axis(), 1 => across];
    (axis, meridian(), prop_oneof![Just(Fill::Beyond), Just(Fill::Within), Just(Fill::WithinOpen)])
        .prop_map(|(axis, meridian, fill)| Revolved { axis, meridian, fill })
}

/// A point in or around the stock.
pub fn point() -> impl Strategy<Value = Vector> {
    (-45.0..45.0, -45.0..45.0, -20.0..220.0_f64).prop_map(|(x, y, s)| Vector::new(x, y, s))
}

/// Up to four cuts in a square or round bar, perhaps with a plug fitted before the last of them.
pub fn solid() -> impl Strategy<Value = Solid> {
    let sawn = (10.0..60.0, -10.0..10.0, -10.0..10.0, -10.0..10.0_f64).prop_map(|(end, a, b, c)| {
        Region::Sawn(Sawn::above(&[Point::new(0.0, a), Point { x: end, y: b }, Point::new(end + 15.0, c)]).unwrap())
    });
    let cut = prop_oneof![4 => revolved().prop_map(Region::Revolved), 1 => sawn];
    let section = prop_oneof![Just(Section::Square { half_side: 29.0 }), Just(Section::Round { radius: 33.0 }),];
    (proptest::collection::vec(cut, 0..4), section, any::<bool>()).prop_map(|(regions, section, plugged)| {
        let meridian = Meridian::new(vec![
            Station::new(-6.0, 20.0),
            Station::new(0.0, 20.0),
            Station::new(0.0, 12.0),
            Station::new(15.0, 12.0),
        ])
        .unwrap();
        let plug = FittedPlug {
            body: Revolved { axis: Axis::A, meridian, fill: Fill::Within },
            fitted: regions.len().saturating_sub(1),
            taken_out: None,
        };
        let outside = |region: &Region| match region {
            Region::Revolved(r) if r.fill != Fill::Beyond => Role::Inside,
            Region::Sawn(_) => Role::Opening,
            _ => Role::Outside,
        };
        Solid {
            stock: Stock { section, length: 205.0 },
            removals: regions
                .into_iter()
                .enumerate()
                .map(|(cut, region)| Removal { role: outside(&region), region, cut: 2 * cut })
                .collect(),
            plugs: if plugged { vec![plug] } else { Vec::new() },
        }
    })
}

/// A cylinder kept by a pass that runs the whole length of an axis.
pub fn kept_cylinder(axis: Axis, radius: f64, cut: usize) -> Removal {
    let meridian = Meridian::new(vec![Station::new(-400.0, radius), Station::new(600.0, radius)]).unwrap();
    let region = Region::Revolved(Revolved { axis, meridian, fill: Fill::Beyond });
    Removal { region, role: Role::Outside, cut }
}

/// Asserts that two numbers differ by no more than a share of the second.
#[track_caller]
pub fn assert_within(found: f64, expected: f64, share: f64) {
    let off = (found - expected).abs();
    assert!(off <= share * expected.abs(), "{found} is not {expected} within {share}: off by {off}");
}

/// Stock that is far larger than the pieces in it.
pub fn large_stock() -> Stock {
    Stock { section: Section::Square { half_side: 150.0 }, length: 400.0 }
}

/// The cut that keeps only the body of revolution with this profile.
pub fn kept_body(axis: Axis, profile: &[Station], cut: usize) -> Removal {
    let (first, last) = (profile[0].t, profile[profile.len() - 1].t);
    let mut points = vec![Station::new(-900.0, 0.0), Station::new(first, 0.0)];
    points.extend_from_slice(profile);
    points.extend([Station::new(last, 0.0), Station::new(1200.0, 0.0)]);
    let region = Region::Revolved(Revolved { axis, meridian: Meridian::new(points).unwrap(), fill: Fill::Beyond });
    Removal { region, role: Role::Outside, cut }
}

/// The cut that takes the body of revolution with this profile.
pub fn taken_body(axis: Axis, profile: &[Station], cut: usize) -> Removal {
    let meridian = Meridian::new(profile.to_vec()).unwrap();
    Removal { region: Region::Revolved(Revolved { axis, meridian, fill: Fill::Within }), role: Role::Inside, cut }
}

/// A piece of some cuts in large stock.
pub fn piece(removals: Vec<Removal>) -> Solid {
    Solid { stock: large_stock(), removals, plugs: vec![] }
}

/// Axes from near A to far from it, all through the middle of the large stock.
pub fn leaning_axes() -> Vec<Axis> {
    let middle = Vector::new(4.0, -9.0, 170.0);
    let leans: [(f64, f64); 7] =
        [(0.0, 0.0), (0.0, 5.0), (0.0, -12.5), (20.0, 0.0), (9.0, 14.0), (-40.0, 25.0), (3.0, 80.0)];
    let tangent = |degrees: f64| degrees.to_radians().tan();
    leans.iter().map(|(x, y)| Axis::new(middle, Vector::new(tangent(*x), tangent(*y), 1.0)).unwrap()).collect()
}

/// A hollow along the blank, leaning, or across it, its mouth proud, flush or sunken.
fn any_hollow() -> impl Strategy<Value = Revolved> {
    let along = (-3.0..3.0, -3.0..3.0, -5.0..5.0, -5.0..5.0_f64)
        .prop_map(|(a, b, c, d)| Axis::through(Vector::new(a, b, 0.0), Vector::new(c, d, 60.0)).unwrap());
    let across = (15.0..45.0, -0.2..0.2, -4.0..4.0_f64)
        .prop_map(|(s, lean, x)| Axis::new(Vector::new(x, 0.0, s), Vector::new(lean, -1.0, lean)).unwrap());
    let shape = (6.0..20.0, 10.0..45.0, 0.1..1.0, 0.0..1.0, -4.0..8.0_f64);
    prop_oneof![3 => Just(Axis::A).boxed(), 2 => along.boxed(), 1 => across.boxed()].prop_flat_map(move |axis| {
        shape.clone().prop_map(move |(radius, depth, round, end, mouth)| {
            let square = axis.along().s.abs() < 0.7;
            // Across the blank the mouth lies above axis A, and the floor short of the far side.
            let (from, to) = if square { (mouth - 10.0, 5.0 + depth * 0.2) } else { (mouth, mouth.max(0.0) + depth) };
            let bend = from + (to - from) * round;
            let points = vec![Station::new(from, radius), Station::new(bend, radius), Station::new(to, radius * end)];
            Revolved { axis, meridian: Meridian::new(points).unwrap(), fill: Fill::WithinOpen }
        })
    })
}

/// A piece with one or two hollows, sometimes alike, one to three passes on axes of their own, a saw line and a facing.
pub fn hollowed() -> impl Strategy<Value = Solid> {
    let section = prop_oneof![Just(Section::Square { half_side: 27.0 }), Just(Section::Round { radius: 31.0 })];
    let bowl = (prop_oneof![Just(Axis::A).boxed(), axis().boxed()], 18.0..30.0, -3.0..4.0, -6.0..3.0, 6.0..24.0_f64);
    let handle = (axis(), 30.0..60.0, 5.0..20.0, -6.0..8.0_f64);
    let saw = (5.0..40.0, -14.0..10.0, -14.0..10.0, -5.0..20.0_f64);
    let facing = (0.0..12.0, -0.3..0.3, -0.3..0.3_f64);
    let cuts = (bowl, proptest::option::of(handle), proptest::option::of(saw), proptest::option::of(facing));
    let hollows = (any_hollow(), proptest::option::of(any_hollow()), 0..4_u8);
    (section, hollows, cuts).prop_map(|(section, (first, second, alike), (bowl, handle, saw, facing))| {
        let mut taken = vec![(Region::Revolved(first.clone()), Role::Inside)];
        if alike == 0 {
            taken.push((Region::Revolved(first), Role::Inside));
        }
        taken.extend(second.map(|second| (Region::Revolved(second), Role::Inside)));
        let pass = |axis, points| {
            (
                Region::Revolved(Revolved { axis, meridian: Meridian::new(points).unwrap(), fill: Fill::Beyond }),
                Role::Outside,
            )
        };
        let (axis, wide, swell, taper, end) = bowl;
        taken.push(pass(
            axis,
            vec![
                Station::new(-20.0, wide + taper),
                Station::new(15.0, wide + swell),
                Station::new(45.0, wide),
                Station::new(70.0, end),
            ],
        ));
        taken.extend(handle.map(|(axis, from, r, swell)| {
            pass(
                axis,
                vec![
                    Station { t: from, r },
                    Station::new(from + 25.0, (r + swell).max(2.0)),
                    Station::new(from + 130.0, r),
                ],
            )
        }));
        taken.extend(saw.map(|(end, a, b, c)| {
            (
                Region::Sawn(
                    Sawn::above(&[Point::new(-3.0, a), Point { x: end, y: b }, Point::new(end + 15.0, b + c)]).unwrap(),
                ),
                Role::Opening,
            )
        }));
        taken.extend(facing.map(|(at, x, y)| {
            let into = Vector::new(x, y, -1.0).unit().unwrap();
            (Region::HalfSpace(HalfSpace { into, offset: into.s * at }), Role::Opening)
        }));
        let removals = taken.into_iter().enumerate().map(|(cut, (region, role))| Removal { region, role, cut });
        Solid { stock: Stock { section, length: 205.0 }, removals: removals.collect(), plugs: vec![] }
    })
}

/// Asserts that a value is as expected, within a tolerance in its own unit.
#[track_caller]
pub fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected} within {tolerance}");
}

/// An axis along the blank, off its own by x and y.
pub fn offset(x: f64, y: f64) -> Axis {
    Axis::new(Vector::new(x, y, 0.0), Vector::new(0.0, 0.0, 1.0)).unwrap()
}
