//! Swing, air and speed against closed forms and brute force.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;
use skewline::design::{AxisChoice, AxisName, BlankSection, Design, LengthUnit, Node, PassProfile, Shop};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::turning::{LimitedBy, Turning};
use skewline::figures::{Worked, work_out};
use skewline::geometry::{Axis, Section, Solid, Spin, Station, Stock, Vector, mass, masses};

mod support;
use support::pieces::{pass, scoop};
use support::solids::{self, near, offset, taken_body};

fn bar(section: Section) -> Solid {
    Solid { stock: Stock { section, length: 200.0 }, removals: vec![], plugs: vec![] }
}

/// Swing of a square blank, tests/reference/closed_forms.md section 7: side 50, axis moved by 10.
#[test]
fn swing_of_a_square_blank_on_a_moved_axis() {
    let solid = bar(Section::Square { half_side: 25.0 });
    let toward_corner = 10.0 / 2.0_f64.sqrt();
    for (x, y, expected) in
        [(10.0, 0.0, 43.01162634), (0.0, -10.0, 43.01162634), (toward_corner, toward_corner, 45.35533906)]
    {
        let axis = offset(x, y);
        let spin = Spin::new(solid.state(0), &axis);
        let farthest = spin.at(100.0).farthest().unwrap();
        near(farthest.radius, expected, 1e-7);
        assert!(farthest.is_edge);
    }
}

/// Plane geometry: a side h from the axis leaves the circle of radius r over 2 acos(h / r).
#[test]
fn air_cut_of_a_square_bar() {
    let solid = bar(Section::Square { half_side: 25.0 });
    for turned_deg in [0.0_f64, 9.0] {
        // A leaning axis through the middle sees a rectangle: 25 / cos(lean) one way.
        let axis =
            Axis::new(Vector::new(0.0, 0.0, 100.0), Vector::new(0.0, turned_deg.to_radians().tan(), 1.0)).unwrap();
        let tall = 25.0 / turned_deg.to_radians().cos();
        let around = Spin::new(solid.state(0), &axis).at(0.0);
        let touch = 25.0_f64.hypot(tall);
        near(around.farthest().unwrap().radius, touch, 1e-9);
        near(around.wholly_wood(5.0).unwrap(), 25.0, 1e-6);
        assert_eq!(around.wholly_wood(26.0), None);
        let share = |r: f64| {
            let over = |h: f64| if r > h { (h / r).acos() } else { 0.0 };
            2.0 * (over(25.0) + over(tall)) / PI
        };
        for r in [24.0, 25.1, 26.0, 28.0, 30.0, 33.0, 35.0, 36.0] {
            near(around.air_share(r), share(r).min(1.0), 1e-6);
        }
        let steps = 20_000;
        let radii = (0..steps).map(|i| 25.0 + (touch - 25.0) * (f64::from(i) + 0.5) / f64::from(steps));
        let mean = radii.map(|r| share(r).min(1.0)).sum::<f64>() / f64::from(steps);
        near(around.mean_air_share(25.0, touch), mean, 0.002);
    }
}

/// Two circles: a point at r from an axis e off the middle of a round of radius R is wood while
/// cos(clock) <= (R^2 - r^2 - e^2) / (2 r e), the clock counted from the far side.
#[test]
fn air_cut_of_an_off_centre_round() {
    let solid = bar(Section::Round { radius: 30.0 });
    for e in [1.0_f64, 6.0, 14.0] {
        let axis = offset(e * 0.6, e * 0.8);
        let around = Spin::new(solid.state(0), &axis).at(77.0);
        near(around.farthest().unwrap().radius, 30.0 + e, 1e-4);
        near(around.wholly_wood(5.0).unwrap(), 30.0 - e, 1e-4);
        for part in [-0.95, -0.6, -0.2, 0.0, 0.3, 0.7, 0.9] {
            let r = 30.0 + e * part;
            let air = ((900.0 - r * r - e * e) / (2.0 * r * e)).acos() / PI;
            near(around.air_share(r), air, 1e-6);
        }
        // The mean over r of the share is the mean over the clock of how far the round falls short.
        let reach = |clock: f64| -e * clock.cos() + (900.0 - (e * clock.sin()).powi(2)).sqrt();
        let mean = (0..3600).map(|i| 30.0 + e - reach(TAU * f64::from(i) / 3600.0)).sum::<f64>() / 3600.0;
        near(around.mean_air_share(30.0 - e, 30.0 + e), mean / (2.0 * e), 1e-3);
    }
}

/// A hollow under the circle is air: a bore of radius 10 about the blank's axis seen from 6 mm away.
#[test]
fn a_bore_beside_the_axis_is_air() {
    let mut solid = bar(Section::Round { radius: 30.0 });
    solid.removals.push(taken_body(Axis::A, &[Station::new(-5.0, 10.0), Station::new(250.0, 10.0)], 0));
    let axis = offset(6.0, 0.0);
    let around = Spin::new(solid.state(1), &axis).at(50.0);
    near(around.wholly_wood(2.0).unwrap(), 24.0, 1e-4);
    let bored = |r: f64| 1.0 - ((100.0 - r * r - 36.0) / (12.0 * r)).acos() / PI;
    for r in [5.0, 8.0, 12.0, 15.0] {
        near(around.air_share(r), bored(r), 1e-6);
    }
    near(around.air_share(20.0), 0.0, 1e-12);
    near(around.air_share(3.0), 1.0, 1e-12);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    /// The farthest wood is as far as any found along many lines, and is the edge of wood.
    #[test]
    fn farthest_wood_is_that_of_many_lines(solid in solids::solid(), axis in solids::axis(), t in 0.0..200.0_f64) {
        let spin = Spin::new(solid.state(99), &axis);
        let around = spin.at(t);
        let found = around.farthest().map_or(0.0, |f| f.radius);
        for i in 0..1440 {
            let end = around.outward(TAU * f64::from(i) / 1440.0).last_end().unwrap_or(0.0);
            prop_assert!(end <= found + 1e-4, "{end} at {i} is farther than {found}");
        }
        prop_assert!(found <= spin.reach() + 1e-9);
        if let Some(farthest) = around.farthest() {
            near(around.outward(farthest.clock).last_end().unwrap_or(0.0), farthest.radius, 1e-6);
        }
    }

    /// Lines outward agree with inside and outside.
    #[test]
    fn wood_outward_is_wood(
        solid in solids::solid(), axis in solids::axis(), t in 0.0..200.0_f64, clock in 0.0..TAU, r in 0.1..50.0_f64,
    ) {
        let state = solid.state(99);
        let wood = Spin::new(state, &axis).at(t).outward(clock);
        let clear = wood.iter().all(|(a, b)| (r - a).abs() > 1e-6 && (r - b).abs() > 1e-6);
        prop_assume!(clear);
        prop_assert_eq!(wood.contains(r), state.contains(axis.point(t, r, clock)));
    }

    /// The share of a turn in air is that of many points, and none where the circle is wholly in wood.
    #[test]
    fn air_share_is_that_of_many_points(
        solid in solids::solid(), axis in solids::axis(), t in 0.0..200.0_f64, r in 3.0..45.0_f64,
    ) {
        let around = Spin::new(solid.state(99), &axis).at(t);
        let air: Vec<bool> = (0..1440).map(|i| !around.outward(TAU * (f64::from(i) + 0.5) / 1440.0).contains(r)).collect();
        let changes = (0..1440).filter(|i| air[*i] != air[(i + 1) % 1440]).count();
        let share = air.iter().filter(|air| **air).count() as f64 / 1440.0;
        // A count is off by one point for each change.
        near(around.air_share(r), share, (changes as f64 + 1.0) / 1440.0);
        if let Some(full) = around.wholly_wood(1.0) {
            let air = (0..1440).filter(|i| {
                let wood = around.outward(TAU * f64::from(*i) / 1440.0);
                !wood.contains(full) && !wood.contains(full - 0.02)
            });
            prop_assert!(air.count() == 0, "air at {full}");
        }
    }

    /// States worked out together are as worked out alone.
    #[test]
    fn masses_of_states_are_those_of_each(solid in solids::solid()) {
        let states: Vec<_> = (0..8).map(|cuts| solid.state(cuts)).collect();
        for (state, together) in states.iter().zip(masses(&states)) {
            let alone = mass(state);
            // Both come from lines of their own, each within 0.1 %.
            let allowed = 0.002 * alone.volume_mm3 + 20.0;
            let off = (alone.volume_mm3 - together.volume_mm3).abs();
            prop_assert!(off < allowed, "{} alone, {} together", alone.volume_mm3, together.volume_mm3);
            let apart = alone.centroid * alone.volume_mm3 - together.centroid * together.volume_mm3;
            prop_assert!(apart.length() < allowed * 200.0);
        }
    }
}

fn worked(design: &Design, shop: &Shop) -> Worked {
    work_out(design, shop).unwrap()
}

fn turning<'a>(worked: &'a Worked, name: &str) -> &'a Turning {
    worked.figures.turning.iter().find(|t| t.name == name).unwrap()
}

fn verdict(worked: &Worked, name: CheckName) -> Verdict {
    worked.checks.iter().find(|c| c.name == name).unwrap().verdict
}

/// D x rpm from 6000 to 9000 in inches, tests/reference/lathe_speed.csv; D is the diagonal of the square.
#[test]
fn speed_of_a_square_blank_is_that_of_its_diagonal() {
    let shop = Shop::default();
    let worked = worked(&scoop(), &shop);
    let bowl = turning(&worked, "bowl");
    let across = 64.0 * 2.0_f64.sqrt();
    near(2.0 * bowl.swing.radius_mm, across, 1e-6);
    assert!(bowl.swing.is_corner);
    let usual = bowl.speed.usual.unwrap();
    near(usual.from_rpm, 6000.0 * 25.4 / across, 1e-6);
    near(usual.to_rpm, 9000.0 * 25.4 / across, 1e-6);
    assert_eq!(bowl.speed.start_rpm, shop.lathe.lowest_rpm);
    let range = bowl.speed.range.value().unwrap();
    assert_eq!(range.limited_by, LimitedBy::Usual);
    near(range.to_rpm, usual.to_rpm, 1e-9);
    // A rest 5 mm clear of the corners.
    near(bowl.swing.rest.unwrap().parallel_mm, across / 2.0 + 5.0, 1e-6);
    near(bowl.swing.over_bed_mm, shop.lathe.swing_over_bed_mm / 2.0 - across / 2.0, 1e-6);
    // Every station but those at the ends swings its corners, and cuts into air down to the flats.
    let air = bowl.air.as_ref().unwrap();
    let worst = air.worst.unwrap();
    near(worst.broken_mm, across / 2.0 - 32.0, 0.02);
}

/// A parallel offset of 22 mm, the speed it leaves, and each cure in turn.
#[test]
fn a_bad_offset_is_slowed_and_cured() {
    let shop = Shop::default();
    let mut design = scoop();
    design.blank.section = BlankSection::Square { side_mm: 90.0 };
    design.blank.length_mm = 300.0;
    let offset = |y: f64| AxisChoice::Marks { tail_x_mm: 0.0, tail_y_mm: y, head_x_mm: 0.0, head_y_mm: y };
    design.axes = vec![offset(26.0)];
    let profile = PassProfile::Drawn { nodes: vec![Node::line(0.0, 30.0), Node::line(300.0, 30.0)] };
    design.cuts = vec![pass("side", AxisName::B, 0.0, 300.0, profile)];
    let mut rough_shop = shop.clone();
    rough_shop.lathe.lowest_rpm = 800.0;
    let bad = worked(&design, &rough_shop);
    let side = turning(&bad, "side");
    assert!(side.speed.range.value().is_none());
    assert!(side.speed.range.why_not().unwrap().starts_with("No speed is safe"), "{:?}", side.speed.range);
    assert_eq!(verdict(&bad, CheckName::Speed), Verdict::Stop);
    assert_eq!(verdict(&bad, CheckName::OutOfBalance), Verdict::Stop);
    let cures = side.speed.cures.join(" ");
    for cure in ["round first", "smaller offset", "counterweight", "shorter blank"] {
        assert!(cures.contains(cure), "{cure} is not in {cures}");
    }
    // In a shop that measures in inches both sentences do.
    rough_shop.length_unit = LengthUnit::Inches;
    let bad_in_inches = worked(&design, &rough_shop);
    let cures = turning(&bad_in_inches, "side").speed.cures.join(" ");
    assert!(cures.contains(" in from the axis") && !cures.contains(" mm"), "{cures}");
    rough_shop.lathe.force_limit_n = 10_000.0;
    rough_shop.lathe.lowest_rpm = 3900.0;
    rough_shop.lathe.highest_rpm = 4000.0;
    let fast = worked(&design, &rough_shop);
    let why = turning(&fast, "side").speed.range.why_not().unwrap();
    assert!(why.contains(" in across") && !why.contains(" mm"), "{why}");
    // On a slower lathe there is a speed, held down by the force.
    let slow = worked(&design, &shop);
    let range = *turning(&slow, "side").speed.range.value().unwrap();
    assert_eq!(range.limited_by, LimitedBy::Force);
    near(turning(&slow, "side").balance.value().unwrap().worst_n(range.to_rpm), shop.lathe.force_limit_n, 1e-6);
    // Less offset, and the limit is the usual one.
    design.axes = vec![offset(1.0)];
    let cured = worked(&design, &shop);
    assert_eq!(turning(&cured, "side").speed.range.value().unwrap().limited_by, LimitedBy::Usual);
    assert!(turning(&cured, "side").speed.range.value().unwrap().to_rpm > range.to_rpm);
    assert_eq!(verdict(&cured, CheckName::Speed), Verdict::Ok);
    assert_eq!(verdict(&cured, CheckName::OutOfBalance), Verdict::Ok);
}

/// The whole swing of a step is as far as any wood of its state.
#[test]
fn the_swing_of_every_step_holds_all_its_wood() {
    let worked = worked(&scoop(), &Shop::default());
    for turning in &worked.figures.turning {
        let axis = worked.piece.axis(turning.axis).unwrap();
        let state = worked.piece.solid.state(turning.cut);
        let spin = Spin::new(state, axis);
        let (from, to) = spin.span();
        let mut most: f64 = 0.0;
        for i in 0..=1500 {
            let t = from + (to - from) * f64::from(i) / 1500.0;
            let around = spin.at(t);
            most = (0..180).filter_map(|c| around.outward(TAU * f64::from(c) / 180.0).last_end()).fold(most, f64::max);
        }
        let found = turning.swing.radius_mm;
        assert!(found >= most - 0.02, "{}: {found} but {most}", turning.name);
        let place = turning.swing.place.unwrap();
        let clock = place.clock_deg.unwrap().to_radians();
        let at = Vector::new(place.radius_mm * clock.sin(), place.radius_mm * clock.cos(), place.station_mm);
        near(axis.see(at).radius(), found, 1e-6);
    }
}
