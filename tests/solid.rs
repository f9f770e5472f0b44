//! Regions and solids against brute force by their definition.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::geometry::{
    Axis, Fill, Meridian, Point, Ray, Region, Removal, Revolved, Role, Sawn, Section, Solid, Station, Stock, Vector,
};

fn axis() -> impl Strategy<Value = Axis> {
    (-9.0..9.0, -9.0..9.0, -12.0..12.0, -12.0..12.0_f64)
        .prop_map(|(a, b, c, d)| Axis::through(Vector::new(a, b, -6.0), Vector::new(c, d, 210.0)).unwrap())
}

fn meridian() -> impl Strategy<Value = Meridian> {
    (proptest::collection::vec((0.5..30.0, 0.0..35.0_f64), 2..7), -5.0..90.0_f64).prop_map(|(steps, start)| {
        let mut t = start;
        let points = steps.iter().map(|(step, r)| {
            t += step;
            Station::new(t, *r)
        });
        Meridian::new(points.collect()).unwrap()
    })
}

fn revolved() -> impl Strategy<Value = Revolved> {
    (axis(), meridian(), prop_oneof![Just(Fill::Beyond), Just(Fill::Within), Just(Fill::WithinOpen)])
        .prop_map(|(axis, meridian, fill)| Revolved { axis, meridian, fill })
}

fn point() -> impl Strategy<Value = Vector> {
    (-45.0..45.0, -45.0..45.0, -20.0..220.0_f64).prop_map(|(x, y, s)| Vector::new(x, y, s))
}

fn solid() -> impl Strategy<Value = Solid> {
    let sawn = (10.0..60.0, -10.0..10.0, -10.0..10.0_f64)
        .prop_map(|(end, a, b)| Region::Sawn(Sawn::above(&[Point::new(0.0, a), Point { x: end, y: b }]).unwrap()));
    let cut = prop_oneof![4 => revolved().prop_map(Region::Revolved), 1 => sawn];
    proptest::collection::vec(cut, 0..4).prop_map(|regions| Solid {
        stock: Stock { section: Section::Square { half_side: 29.0 }, length: 205.0 },
        removals: regions
            .into_iter()
            .enumerate()
            .map(|(cut, region)| Removal { region, role: Role::Outside, cut })
            .collect(),
        plugs: vec![],
    })
}

proptest! {
    /// Inside a stretch the middle is in the region, and between stretches it is not.
    #[test]
    fn stretches_of_a_line_agree_with_inside_and_outside(solid in solid(), start in point(), toward in point()) {
        prop_assume!((toward - start).length() > 1.0);
        let ray = Ray { start, direction: toward - start };
        for removals in 0..=solid.removals.len() {
            let state = solid.state(removals);
            let wood = state.along(ray);
            for (from, to) in wood.iter() {
                if to - from > 1e-6 {
                    prop_assert!(state.contains(ray.at((from + to) / 2.0)), "{from}..{to} is not wood");
                }
            }
            let gaps = wood.complement();
            for (from, to) in gaps.iter() {
                let (from, to) = (from.max(-3.0), to.min(3.0));
                if to - from > 1e-6 {
                    prop_assert!(!state.contains(ray.at((from + to) / 2.0)), "{from}..{to} is wood");
                }
            }
        }
    }

    /// A ball of the signed distance around a point never crosses the surface.
    #[test]
    fn signed_distance_is_the_nearest_distance(region in revolved(), p in point(), toward in point()) {
        let distance = region.signed_distance(p);
        prop_assert_eq!(distance <= 0.0, region.contains(p));
        if let Some(direction) = (toward - p).unit() {
            let inside_ball = p + direction * (distance.abs() * (1.0 - 1e-9));
            if distance.abs() > 1e-6 {
                prop_assert_eq!(region.contains(inside_ball), region.contains(p));
            }
        }
        // It changes by no more than the step taken.
        let step = (toward - p) * 0.01;
        prop_assert!((region.signed_distance(p + step) - distance).abs() <= step.length() + 1e-9);
    }

    /// A cut never adds wood.
    #[test]
    fn wood_along_a_line_never_grows_with_a_cut(solid in solid(), start in point(), toward in point()) {
        prop_assume!((toward - start).length() > 1.0);
        let ray = Ray { start, direction: toward - start };
        let mut before = f64::INFINITY;
        for cuts in 0..=solid.removals.len() {
            let length = solid.state(cuts).along(ray).length();
            prop_assert!(length <= before + 1e-9);
            before = length;
        }
    }
}
