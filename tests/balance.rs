//! Balance against worked examples, closed forms and the lever rule.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use std::f64::consts::PI;

use proptest::prelude::*;
use skewline::figures::turning::{Balance, Held, Unbalance, radians_per_second};
use skewline::geometry::{Axis, Mass, Section, Solid, Station, Stock, Vector, mass};

mod support;
use support::solids::{assert_within, kept_body, near, offset, piece, taken_body};

/// A mass that is all of one cubic millimetre at each of some points of as many kg, for a density of 1e9 kg/m3.
fn points(weights: &[(f64, Vector)]) -> Mass {
    let volume_mm3: f64 = weights.iter().map(|w| w.0).sum();
    let centroid = weights.iter().fold(Vector::ZERO, |sum, (m, p)| sum + *p * (m / volume_mm3));
    let mut second = [[0.0; 3]; 3];
    for (m, p) in weights {
        let d = *p - centroid;
        let d = [d.x, d.y, d.s];
        for (i, row) in second.iter_mut().enumerate() {
            row.iter_mut().enumerate().for_each(|(j, value)| *value += m * d[i] * d[j]);
        }
    }
    Mass { volume_mm3, centroid, second }
}

/// kg/m3 at which a mm3 weighs a kilogram.
const KILOGRAM_PER_MM3: f64 = 1e9;

fn between(tail: f64, head: f64) -> Held {
    Held::Centres(Vector::new(0.0, 0.0, tail), Vector::new(0.0, 0.0, head))
}

/// tests/reference/balance.csv: a 0.5 kg blank 5 or 10 mm off centre at 500 and 1000 rpm.
#[test]
fn a_blank_off_centre_pulls_as_in_the_worked_examples() {
    for (e, rpm, velocity, force) in
        [(5.0, 500.0, 261.7994, 6.8539), (10.0, 500.0, 523.5988, 13.7078), (10.0, 1000.0, 1047.1976, 54.8311)]
    {
        let blank = Stock { section: Section::Round { radius: 25.0 }, length: 200.0 };
        let solid = Solid { stock: blank, removals: vec![], plugs: vec![] };
        let axis = offset(0.0, -e);
        let density = 0.5e9 / (blank.area() * blank.length);
        let held = Held::Centres(axis.point(0.0, 0.0, 0.0), axis.point(200.0, 0.0, 0.0));
        let found = Unbalance::of(&mass(&solid.finished()), density, &axis, held);
        assert_within(found.mass_g, 500.0, 0.0005);
        near(found.eccentricity_mm, e, 0.001);
        near(found.heavy_clock_deg.unwrap().to_radians().cos(), 1.0, 1e-6);
        assert_within(found.unbalance_g_mm, 500.0 * e, 0.0005);
        let shaking = found.shaking(rpm);
        assert_within(shaking.speed_of_centre_mm_s, velocity, 0.0005);
        assert_within(shaking.static_n, force, 0.0005);
        // Half on each centre, by symmetry.
        assert_within(shaking.tail_n.unwrap(), force / 2.0, 0.0005);
        assert_within(shaking.head_n.unwrap(), force / 2.0, 0.0005);
        near(shaking.couple_nm, 0.0, 1e-3);
        assert_eq!(shaking.grade, Some(if velocity < 630.0 { "G 630" } else { "G 1600" }));
    }
    near(radians_per_second(1000.0), 104.719755, 1e-6);
}

/// Two known masses on a light bar: static and couple, and the lever rule for each centre.
#[test]
fn a_dumbbell_loads_its_centres_by_the_lever_rule() {
    let omega_sq = radians_per_second(600.0).powi(2);
    let (length, density) = (200.0, KILOGRAM_PER_MM3);
    // Masses in kg at (x, y, s) in mm.
    for weights in [
        vec![(0.1, Vector::new(0.0, 20.0, 40.0)), (0.1, Vector::new(0.0, -20.0, 160.0))],
        vec![(0.1, Vector::new(0.0, 20.0, 40.0)), (0.1, Vector::new(0.0, 20.0, 160.0))],
        vec![(0.25, Vector::new(12.0, 5.0, 30.0)), (0.08, Vector::new(-7.0, 31.0, 185.0))],
    ] {
        let found = Unbalance::of(&points(&weights), density, &Axis::A, between(0.0, length)).shaking(600.0);
        let mut loads = [Vector::ZERO; 2];
        for (m, p) in &weights {
            let pull = Vector { s: 0.0, ..*p } * (m * omega_sq * 1e-3);
            loads[0] = loads[0] + pull * (1.0 - p.s / length);
            loads[1] = loads[1] + pull * (p.s / length);
        }
        near(found.tail_n.unwrap(), loads[0].length(), 1e-9);
        near(found.head_n.unwrap(), loads[1].length(), 1e-9);
        near(found.static_n, (loads[0] + loads[1]).length(), 1e-9);
        near(found.couple_nm, ((loads[1] - loads[0]) * (length / 2.0)).length() * 1e-3, 1e-9);
    }
    let opposed = vec![(0.1, Vector::new(0.0, 20.0, 40.0)), (0.1, Vector::new(0.0, -20.0, 160.0))];
    let found = Unbalance::of(&points(&opposed), density, &Axis::A, between(0.0, length)).shaking(600.0);
    near(found.static_n, 0.0, 1e-12);
    near(found.couple_nm, 2.0 * 0.1 * 20.0 * 60.0 * omega_sq * 1e-6, 1e-12);
}

/// Inertia tables, tests/reference/closed_forms.md section 5, turned to an axis that leans by d through the middle: the
/// product is (second moment along - second moment across) sin d cos d. Cylinder, cone, frustum and sphere.
#[test]
fn a_leaning_body_rocks_by_its_product_of_inertia() {
    let (r1, r2, h) = (30.0_f64, 18.0_f64, 90.0);
    let sphere: Vec<(f64, f64)> = (0..=400)
        .map(|i| -30.0 * (PI * f64::from(i) / 400.0).cos())
        .map(|t| (t, (900.0 - t * t).max(0.0).sqrt()))
        .collect();
    let bodies: [Vec<(f64, f64)>; 4] =
        [vec![(0.0, r1), (h, r1)], vec![(0.0, r1), (h, 0.0)], vec![(0.0, r1), (h, r2)], sphere];
    // Volume, station of the centroid, second moments along and across by the tables.
    let cone_volume = PI * r1 * r1 * h / 3.0;
    let frustum_volume = PI * h * (r1 * r1 + r1 * r2 + r2 * r2) / 3.0;
    let frustum_own = 0.3 * frustum_volume * (r1.powi(5) - r2.powi(5)) / (r1.powi(3) - r2.powi(3));
    let frustum_at = h * (r1 * r1 + 2.0 * r1 * r2 + 3.0 * r2 * r2) / (4.0 * (r1 * r1 + r1 * r2 + r2 * r2));
    // A frustum is a cone less its tip; second moments of a cone about its apex: 3/5 V h^2 along.
    let (whole, tip) = (h * r1 / (r1 - r2), h * r2 / (r1 - r2));
    let apex_along = 0.2 * PI * (r1 * r1 * whole.powi(3) - r2 * r2 * tip.powi(3));
    let frustum_along = apex_along - frustum_volume * (whole - frustum_at).powi(2);
    let sphere_volume = 4.0 * PI * 27_000.0 / 3.0;
    let expected = [
        (PI * r1 * r1 * h, h / 2.0, h * h / 12.0 * PI * r1 * r1 * h, r1 * r1 / 4.0 * PI * r1 * r1 * h),
        (cone_volume, h / 4.0, 3.0 / 80.0 * h * h * cone_volume, 3.0 / 20.0 * r1 * r1 * cone_volume),
        (frustum_volume, frustum_at, frustum_along, frustum_own / 2.0),
        (sphere_volume, 0.0, sphere_volume * 180.0, sphere_volume * 180.0),
    ];
    let (lean, body_axis) = (6.0_f64.to_radians(), offset(0.0, 0.0));
    for (profile, (volume, at, along, across)) in bodies.iter().zip(expected) {
        let own = Axis::new(Vector::new(0.0, 0.0, 150.0), body_axis.along()).unwrap();
        let solid = piece(vec![kept_body(own, &profile.iter().copied().map(Station::from).collect::<Vec<_>>(), 0)]);
        let centre = own.point(at, 0.0, 0.0);
        let spin = Axis::new(centre, Vector::new(0.0, lean.tan(), 1.0)).unwrap();
        let held = Held::Centres(spin.point(-100.0, 0.0, 0.0), spin.point(100.0, 0.0, 0.0));
        let found = Unbalance::of(&mass(&solid.finished()), KILOGRAM_PER_MM3, &spin, held);
        assert_within(found.mass_g, volume * 1000.0, 0.001);
        near(found.eccentricity_mm, 0.0, 0.02);
        let product = (along - across) * lean.sin() * lean.cos();
        // The product is at right angles to the lean; up leans back.
        near(found.product_up_kg_mm2, -product, 0.004 * along.max(across) * lean.sin());
        near(found.product_right_kg_mm2, 0.0, 0.004 * along.max(across) * lean.sin());
    }
}

/// A bore e off centre throws the balance the other way by V_bore e / (V - V_bore).
#[test]
fn an_off_centre_bore_throws_the_balance() {
    let (r, bore, e, h) = (30.0_f64, 11.0_f64, 7.0, 120.0);
    let own = offset(0.0, 0.0);
    let solid = piece(vec![
        kept_body(own, &[Station::new(40.0, r), Station::new(40.0 + h, r)], 0),
        taken_body(offset(e, 0.0), &[Station::new(0.0, bore), Station::new(300.0, bore)], 1),
    ]);
    let before = Unbalance::of(&mass(&solid.state(1)), 700.0, &own, between(40.0, 160.0));
    near(before.eccentricity_mm, 0.0, 1e-6);
    assert_eq!(before.heavy_clock_deg, None);
    let after = Unbalance::of(&mass(&solid.state(2)), 700.0, &own, between(40.0, 160.0));
    near(after.eccentricity_mm, bore * bore * e / (r * r - bore * bore), 0.002);
    near(after.heavy_clock_deg.unwrap(), 270.0, 0.01);
    // The parallel-axis theorem about the blank's own axis.
    let inertia = mass(&solid.state(2)).inertia_about(Vector::new(0.0, 0.0, 100.0))[2][2];
    let (whole, taken) = (PI * r * r * h, PI * bore * bore * h);
    assert_within(inertia, whole * r * r / 2.0 - taken * (bore * bore / 2.0 + e * e), 0.001);
}

proptest! {
    /// Force grows with the square of speed, and the speed for a force is the one that gives it.
    #[test]
    fn force_goes_with_the_square_of_speed(
        masses in proptest::collection::vec((0.01..0.5_f64, -30.0..30.0_f64, -30.0..30.0_f64, 0.0..200.0_f64), 1..6),
        rpm in 50.0..3000.0_f64, force in 0.5..300.0_f64,
    ) {
        let weights: Vec<_> = masses.iter().map(|(m, x, y, s)| (*m, Vector::new(*x, *y, *s))).collect();
        let before = Unbalance::of(&points(&weights), KILOGRAM_PER_MM3, &Axis::A, between(0.0, 200.0));
        let after = Unbalance::of(&points(&weights[..1]), KILOGRAM_PER_MM3, &Axis::A, between(0.0, 200.0));
        let balance = Balance { before, after };
        assert_within(balance.worst_n(2.0 * rpm), 4.0 * balance.worst_n(rpm), 1e-12);
        assert_within(balance.worst_n(balance.rpm_at(force)), force, 1e-9);
        prop_assert!(balance.worst_n(rpm) >= before.worst_n(rpm) && balance.worst_n(rpm) >= after.worst_n(rpm));
    }
}
