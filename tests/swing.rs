//! The farthest wood from an axis against closed forms and brute force.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use std::f64::consts::TAU;

use proptest::prelude::*;
use skewline::design::{AxisChoice, AxisName, BlankSection, Cut, Node, PassProfile, Plug, Shop};
use skewline::figures::work_out;
use skewline::geometry::{Axis, Solid, Spin, State, Vector};

mod support;
use support::pieces::{pass, scoop};
use support::{arbitrary, solids};

/// Brute force: the farthest wood along many lines outward from the axis, then along closer and closer lines around
/// each of the farthest places that are no lower than those beside them. A lower bound.
fn most_by_lines(state: State<'_>, axis: &Axis, from: f64, to: f64) -> f64 {
    const STATIONS: usize = 140;
    const CLOCKS: usize = 180;
    let spin = Spin::new(state, axis);

    let station = |i: usize| from + (to - from) * i as f64 / STATIONS as f64;
    let clock = |k: usize| TAU * k as f64 / CLOCKS as f64;
    let row = |i: usize| {
        let around = spin.at_unlooked(station(i));
        (0..CLOCKS).map(|k| around.outward(clock(k)).last_end().unwrap_or(0.0)).collect()
    };
    let grid: Vec<Vec<f64>> = (0..=STATIONS).map(row).collect();
    let is_peak = |i: usize, k: usize| {
        let rows = i.saturating_sub(1)..=(i + 1).min(STATIONS);
        let highest = |j: usize| [k + CLOCKS - 1, k, k + 1].iter().map(|k| grid[j][k % CLOCKS]).fold(0.0, f64::max);
        rows.map(highest).fold(0.0, f64::max) <= grid[i][k]
    };
    let places = (0..=STATIONS).flat_map(|i| (0..CLOCKS).map(move |k| (i, k)));
    let mut peaks: Vec<(f64, f64, f64)> =
        places.filter(|(i, k)| is_peak(*i, *k)).map(|(i, k)| (grid[i][k], station(i), clock(k))).collect();
    peaks.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut most = peaks.first().map_or(0.0, |peak| peak.0);
    // Ridges run aslant: the best direction is sought anew at every station tried.
    let across = |t: f64, clock: f64| {
        let around = spin.at_unlooked(t);
        let (mut best, mut turn) = ((0.0, clock), 1.5 * TAU / CLOCKS as f64);
        while turn > 2e-6 {
            let middle = best.1;
            for k in -4..=4 {
                let clock = middle + turn * f64::from(k) / 4.0;
                let here = around.outward(clock).last_end().unwrap_or(0.0);
                best = if here > best.0 { (here, clock) } else { best };
            }
            turn /= 3.0;
        }
        best
    };
    for (start, t, clock) in peaks.into_iter().take(6) {
        let (mut best, mut at, mut run) = ((start, clock), t, (to - from) / STATIONS as f64);
        while run > 1e-4 {
            let middle = at;
            let tried = [-1.0, -0.5, -0.2, 0.2, 0.5, 1.0].map(|share| middle + run * share);
            let mut moved = false;
            for t in tried.into_iter().filter(|t| (from..=to).contains(t)) {
                let here = across(t, best.1);
                if here.0 > best.0 {
                    (best, at, moved) = (here, t, true);
                }
            }
            run *= if moved { 1.0 } else { 0.25 };
        }
        most = most.max(best.0);
    }
    most
}

/// Swing of every state of a solid: not below any wood, and not above the most found by brute force.
fn check(solid: &Solid, axis: &Axis) -> Result<(), TestCaseError> {
    for cuts in [0, 1, 3, 5, 99] {
        let state = solid.state(cuts);
        let spin = Spin::new(state, axis);
        let (start, end) = spin.span();
        let middle = f64::midpoint(start, end);
        for (from, to) in [(start, end), (start, middle), (middle, end)] {
            let found = spin.farthest_between(from, to).map_or(0.0, |f| f.farthest.radius);
            let most = most_by_lines(state, axis, from + 1e-6, to - 1e-6);
            prop_assert!(found >= most - 1e-4, "{cuts} cuts, {from} to {to}: {found} but {most}");
            prop_assert!(found <= most + 0.02, "{cuts} cuts, {from} to {to}: {found} for {most}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]

    #[test]
    fn the_farthest_wood_is_that_of_brute_force(solid in solids::solid(), axis in solids::axis()) {
        check(&solid, &axis)?;
    }

    #[test]
    fn the_farthest_wood_from_any_axis_is_that_of_brute_force(
        solid in solids::solid(), tilt in 0.0..1.57_f64, toward in 0.0..TAU, x in -9.0..9.0_f64, s in 0.0..200.0_f64,
    ) {
        let along = Vector::new(tilt.sin() * toward.sin(), tilt.sin() * toward.cos(), tilt.cos());
        check(&solid, &Axis::new(Vector::new(x, 3.0, s), along).unwrap())?;
    }
}

/// Brute force in the plane at one station.
fn most_at(state: State<'_>, axis: &Axis, t: f64) -> f64 {
    const CLOCKS: usize = 1440;
    let around = Spin::new(state, axis).at_unlooked(t);
    let end = |clock: f64| around.outward(clock).last_end().unwrap_or(0.0);
    let coarse: Vec<f64> = (0..CLOCKS).map(|k| end(TAU * k as f64 / CLOCKS as f64)).collect();
    let mut order: Vec<usize> = (0..CLOCKS).collect();
    order.sort_by(|a, b| coarse[*b].total_cmp(&coarse[*a]));
    let mut most = coarse[order[0]];
    for k in &order[..8] {
        let (mut best, mut turn) = (TAU * *k as f64 / CLOCKS as f64, TAU / CLOCKS as f64);
        while turn > 1e-8 {
            let middle = best;
            for i in -8..=8 {
                let clock = middle + turn * f64::from(i) / 8.0;
                if end(clock) > most {
                    (best, most) = (clock, end(clock));
                }
            }
            turn /= 6.0;
        }
    }
    most
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn the_farthest_wood_of_a_station_is_that_of_brute_force(
        solid in solids::solid(), axis in solids::axis(), lean in prop_oneof![2 => Just(0.0), 1 => -1.5..1.5_f64],
        t in 0.0..200.0_f64,
    ) {
        let axis = Axis::new(axis.point(100.0, 0.0, 0.0), axis.along() + axis.right() * lean.tan()).unwrap();
        for cuts in [0, 1, 3, 5, 99] {
            let state = solid.state(cuts);
            let found = Spin::new(state, &axis).farthest_at(t - 100.0).map_or(0.0, |f| f.radius);
            let most = most_at(state, &axis, t - 100.0);
            prop_assert!(found >= most - 1e-4, "{cuts} cuts: {found} but {most}");
            prop_assert!(found <= most + 0.02, "{cuts} cuts: {found} for {most}");
        }
    }
}

/// A round turned on A, then thinned but for a flange 12 mm long at the head end, before a pass on B. In the plane of the tilt
/// the flange's far corner, radius R and b beyond the crossing, is R cos + b sin of the tilt from the axis.
#[test]
fn a_flange_left_at_the_head_end_swings() {
    let drawn = |nodes: &[(f64, f64)]| PassProfile::Drawn {
        nodes: nodes.iter().map(|(at_mm, diameter_mm)| Node::line(*at_mm, *diameter_mm)).collect(),
    };
    let (tilt_deg, crossing_mm, length_mm, flange) = (8.0_f64, 62.0, 230.0, 30.0);
    let mut design = scoop();
    design.blank.length_mm = length_mm;
    design.axes = vec![AxisChoice::Tilt { tilt_deg, toward_deg: 30.0, crossing_mm }];
    design.cuts = vec![
        pass("round", AxisName::A, 0.0, length_mm, drawn(&[(0.0, 60.0), (length_mm, 60.0)])),
        pass("thin", AxisName::A, 0.0, 218.0, drawn(&[(0.0, 36.0), (218.0, 36.0)])),
        pass("handle", AxisName::B, 70.0, 190.0, drawn(&[(70.0, 20.0), (190.0, 16.0)])),
    ];
    let worked = work_out(&design, &Shop::default()).unwrap();
    let swing = &worked.figures.turning[2].swing;
    let (sin, cos) = tilt_deg.to_radians().sin_cos();
    let expected = flange * cos + (length_mm - crossing_mm) * sin;
    assert!((swing.radius_mm - expected).abs() < 1e-3, "{} is not {expected}", swing.radius_mm);
    let most_of_stations = swing.stations.iter().map(|s| s.radius_mm).fold(0.0, f64::max);
    assert!(most_of_stations <= expected + 1e-3);
}

/// A plug's end face, as wide as the stock, before a pass on B.
#[test]
fn a_wide_plug_swings() {
    let plug = Plug {
        disc_diameter_mm: 60.0,
        thickness_mm: 20.0,
        spigot_diameter_mm: 40.0,
        spigot_length_mm: 15.0,
        tenon: None,
    };
    let mut design = scoop();
    design.blank.section = BlankSection::Round { diameter_mm: 60.0 };
    design.blank.length_mm = 140.0;
    design.axes = vec![AxisChoice::Tilt { tilt_deg: 9.0, toward_deg: 0.0, crossing_mm: 120.0 }];
    design.cuts.insert(1, Cut::FitPlug(plug));
    design.cuts.truncate(2);
    let nodes = vec![Node::line(60.0, 20.0), Node::line(120.0, 20.0)];
    design.cuts.push(pass("handle", AxisName::B, 60.0, 120.0, PassProfile::Drawn { nodes }));
    let worked = work_out(&design, &Shop::default()).unwrap();
    let (sin, cos) = 9_f64.to_radians().sin_cos();
    let expected = 30.0 * cos + 140.0 * sin;
    let found = worked.figures.turning[1].swing.radius_mm;
    assert!((found - expected).abs() < 1e-3, "{found} is not {expected}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    /// In any design, no wood of the state before a step is farther than its swing, or than that at the cut.
    #[test]
    fn no_wood_is_farther_than_the_swing(design in arbitrary::design(), places in prop::collection::vec(prop::array::uniform3(0.0..1.0_f64), 600)) {
        let Ok(worked) = work_out(&design, &Shop::default()) else { return Ok(()) };
        let stock = &worked.piece.solid.stock;
        let half = stock.half_width().max(150.0);
        for turning in &worked.figures.turning {
            let (state, axis) = (worked.piece.solid.state(turning.cut), worked.piece.axis(turning.axis).unwrap());
            let turned = worked.piece.revolved(turning.cut).unwrap();
            for [x, y, s] in &places {
                let wide = if *s < 0.3 { half } else { stock.half_width() };
                let s = (stock.length + 120.0) * s - 120.0;
                let point = Vector::new(wide * (2.0 * x - 1.0), wide * (2.0 * y - 1.0), s);
                if !state.contains(point) {
                    continue;
                }
                let seen = axis.see(point);
                prop_assert!(seen.radius() <= turning.swing.radius_mm + 1e-4, "{}: {point:?}", turning.name);
                if turned.meridian.start() < seen.t && seen.t < turned.meridian.end() {
                    prop_assert!(seen.radius() <= turning.swing.radius_at_cut_mm + 1e-4, "{}: {point:?}", turning.name);
                }
            }
        }
    }
}
