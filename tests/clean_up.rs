//! Clean-up against closed forms and counts of points around the circle.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;
use skewline::design::{AxisChoice, AxisName, BlankSection, Cut, Design, Node, PassProfile, Shop};
use skewline::figures::clean_up::{CleanUp, clean_ups};
use skewline::geometry::{Axis, Circle, Intervals, Region, Role, Section, Stock, Swept, Vector};
use skewline::piece::Piece;

mod support;
use support::pieces::{pass, scoop};
use support::{arbitrary, solids};

fn resolved(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

fn straight(name: &str, axis: AxisName, from_mm: f64, to_mm: f64, diameter_mm: f64) -> Cut {
    let nodes = vec![Node::line(from_mm, diameter_mm), Node::line(to_mm, diameter_mm)];
    pass(name, axis, from_mm, to_mm, PassProfile::Drawn { nodes })
}

/// Plane geometry: a side h from the axis leaves the circle of radius r over an arc of 2 acos(h / r), a flat
/// 2 sqrt(r^2 - h^2) wide and r - h deep.
#[test]
fn four_flats_of_a_square_blank() {
    let (side_mm, diameter_mm) = (50.0_f64, 53.0_f64);
    let mut design = scoop();
    design.blank.section = BlankSection::Square { side_mm };
    design.cuts = vec![straight("round", AxisName::A, 10.0, 180.0, diameter_mm)];
    let found = &clean_ups(&design, &resolved(&design))[0];
    let (h, r) = (side_mm / 2.0, diameter_mm / 2.0);
    let expected = 1.0 - 4.0 * (h / r).acos() / PI;
    assert!((found.least_share - expected).abs() < 1e-6, "{} is not {expected}", found.least_share);
    let flat = found.flat.unwrap();
    assert!((flat.width_mm - 2.0 * (r * r - h * h).sqrt()).abs() < 1e-4, "{flat:?}");
    assert!((flat.depth_mm - (r - h)).abs() < 1e-4, "{flat:?}");
    assert!((flat.cured_by_mm - diameter_mm).abs() < 1e-4, "{flat:?}");
}

/// Two circles, radii R and r, the middle of the second e from the first: it is outside the first where the cosine of the
/// clock, counted from that side, is over (R^2 - r^2 - e^2) / (2 r e).
#[test]
fn one_flat_of_a_round_blank_and_what_an_earlier_pass_took() {
    let (blank, e, r) = (30.0_f64, 7.0_f64, 25.0_f64);
    let arc = |radius: f64| 2.0 * ((radius * radius - r * r - e * e) / (2.0 * r * e)).acos();
    let mut design = scoop();
    design.blank.section = BlankSection::Round { diameter_mm: 2.0 * blank };
    design.axes = vec![AxisChoice::Marks { tail_x_mm: e, tail_y_mm: 0.0, head_x_mm: e, head_y_mm: 0.0 }];
    design.cuts = vec![straight("aside", AxisName::B, 10.0, 180.0, 2.0 * r)];
    let found = &clean_ups(&design, &resolved(&design))[0];
    assert!((found.least_share - (1.0 - arc(blank) / TAU)).abs() < 1e-6, "{found:?}");
    let flat = found.flat.unwrap();
    assert!((flat.width_mm - 2.0 * r * (arc(blank) / 2.0).sin()).abs() < 1e-4, "{flat:?}");
    assert!((flat.depth_mm - (e + r - blank)).abs() < 1e-4, "{flat:?}");
    design.cuts.insert(0, straight("round", AxisName::A, 0.0, 200.0, 52.0));
    let found = &clean_ups(&design, &resolved(&design))[1];
    assert!((found.share_cut_earlier - arc(26.0) / TAU).abs() < 1e-6, "{found:?}");
    assert!(found.flat.is_none(), "{found:?}");
}

proptest! {
    /// What a circle has in a region, in the stock and in the wood is what points around it have.
    #[test]
    fn arcs_are_those_of_many_points(
        solid in solids::solid(), axis in solids::axis(), lean in prop_oneof![Just(0.0), -1.4..1.4_f64],
        t in -5.0..205.0_f64, radius in 1.0..45.0_f64,
    ) {
        const POINTS: usize = 4000;
        let along = axis.along() + axis.up() * lean.tan();
        let axis = Axis::new(axis.point(100.0, 0.0, 0.0), along).unwrap();
        let (state, circle) = (solid.state(99), Circle::new(&axis, t - 100.0, radius));
        let wood = circle.in_wood(&state);
        let clock = |i: usize| TAU * (i as f64 + 0.5) / POINTS as f64;
        let ends: Vec<f64> = wood.iter().flat_map(|(from, to)| [from, to]).collect();
        let clear = |clock: f64| ends.iter().all(|end| (end - clock).abs() > 1e-5);
        for i in (0..POINTS).filter(|i| clear(clock(*i))) {
            prop_assert_eq!(wood.contains(clock(i)), state.contains(circle.at(clock(i))), "{}", clock(i));
        }
    }
}

proptest! {
    /// What a circle meets anywhere on its way is in what it is said to meet at most.
    #[test]
    fn a_moving_circle_meets_no_more_than_is_said(
        cut in solids::revolved(), axis in solids::axis(), from in (0.0..150.0, 0.5..45.0_f64),
        step in (0.001..20.0, -20.0..20.0_f64), part in 0.0..=1.0_f64,
    ) {
        let to = (from.0 + step.0, (from.1 + step.1).max(0.0));
        let (swept, region) = (Swept::new(&axis, from.into(), to.into()), Region::Revolved(cut));
        let circle = Circle::new(&axis, from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part);
        let more = circle.in_region(&region).minus(&swept.in_region(&region));
        prop_assert!(more.length() < 1e-6, "{:?}", more);
        for section in [Section::Square { half_side: 25.0 }, Section::Round { radius: 25.0 }] {
            let stock = Stock { section, length: 120.0 };
            let beyond = Intervals::one(0.0, TAU).minus(&circle.within_sides(&stock));
            prop_assert!(beyond.minus(&swept.beyond_sides(&stock)).length() < 1e-6);
            let along = circle.between_stations(0.0, stock.length);
            prop_assert!(along.minus(&swept.between_stations(0.0, stock.length)).length() < 1e-6);
        }
    }
}

/// Why a point of a pass's circle finds no wood, as section 5 of the design has it.
fn reason(point: Vector, piece: &Piece, cut: usize, mates: &[usize]) -> Option<usize> {
    let stock = &piece.solid.stock;
    let taken = |role: Role| {
        let mut before =
            piece.solid.removals.iter().filter(|r| r.cut < cut && !mates.contains(&r.cut) && r.role == role);
        before.any(|r| r.region.contains(point))
    };
    let mut shaping = piece.solid.removals.iter().filter(|r| mates.contains(&r.cut));
    match point {
        p if shaping.any(|r| r.region.contains(p)) => None,
        p if p.s < 0.0 || p.s > stock.length => None,
        p if taken(Role::Outside) => Some(1).filter(|_| p.is_finite()),
        p if stock.depth_from_sides(p) < 0.0 => Some(0),
        _ => taken(Role::Inside).then_some(2),
    }
}

/// Shares missing for the blank, for earlier passes and for hollows, by a count; and how often the reason changes.
fn counted(piece: &Piece, found: &CleanUp, mates: &[usize], t: f64) -> ([f64; 3], usize) {
    const POINTS: usize = 1440;
    let turned = piece.revolved(found.cut).unwrap();
    let radius = turned.meridian.radius_before(t);
    let at = |i: usize| turned.axis.point(t, radius, TAU * (i as f64 + 0.5) / POINTS as f64);
    let reasons: Vec<_> = (0..POINTS).map(|i| reason(at(i), piece, found.cut, mates)).collect();
    let share = |what: usize| reasons.iter().filter(|r| **r == Some(what)).count() as f64 / POINTS as f64;
    let changes = (0..POINTS).filter(|i| reasons[*i] != reasons[(i + 1) % POINTS]).count();
    ([0, 1, 2].map(share), changes)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, ..ProptestConfig::default() })]

    /// The least share is that of a count at its station, and no even station has less, or more cut earlier or hollow.
    #[test]
    fn shares_are_those_of_a_count(design in arbitrary::design()) {
        let Ok(piece) = Piece::resolve(&design, &design.limits.over(&Shop::default().limits)) else { return Ok(()) };
        for found in clean_ups(&design, &piece) {
            let turned = piece.revolved(found.cut).unwrap();
            let (from, to) = (turned.meridian.start(), turned.meridian.end());
            for i in 1..28 {
                let t = from + (to - from) * f64::from(i) / 28.0;
                if turned.meridian.radius_before(t) <= 0.0 {
                    continue;
                }
                let (missing, changes) = counted(&piece, &found, &design.shaped_with(found.cut), t);
                // A count is off by one point for each change.
                let off = (changes as f64 + 1.0) / 1440.0;
                let present = 1.0 - missing.iter().sum::<f64>();
                prop_assert!(found.least_share <= present + off, "{found:?} at {t}: {present}");
                prop_assert!(found.share_cut_earlier >= missing[1] - off, "{found:?} at {t}: {missing:?}");
                prop_assert!(found.share_in_hollow >= missing[2] - off, "{found:?} at {t}: {missing:?}");
            }
        }
    }

    /// No dense station has less of a circle in wood than the least that is reported, by more than 0.001 of a turn.
    #[test]
    fn no_dense_station_has_less(design in arbitrary::design()) {
        let Ok(piece) = Piece::resolve(&design, &design.limits.over(&Shop::default().limits)) else { return Ok(()) };
        for found in clean_ups(&design, &piece) {
            let turned = piece.revolved(found.cut).unwrap();
            let (from, to) = (turned.meridian.start(), turned.meridian.end());
            for i in 0..400 {
                let t = from + (to - from) * (f64::from(i) + 0.5) / 400.0;
                let radius = turned.meridian.radius_before(t);
                if radius <= 0.0 {
                    continue;
                }
                let circle = Circle::new(&turned.axis, t, radius);
                let mates = design.shaped_with(found.cut);
                let (shaping, others): (Vec<_>, Vec<_>) =
                    piece.solid.removals.iter().partition(|removal| mates.contains(&removal.cut));
                let mut work = circle.between_stations(0.0, piece.solid.stock.length);
                for removal in shaping {
                    work = work.minus(&circle.in_region(&removal.region));
                }
                let mut wood = work.intersection(&circle.within_sides(&piece.solid.stock));
                for removal in others.into_iter().filter(|r| r.cut < found.cut && r.role != Role::Opening) {
                    wood = wood.minus(&circle.in_region(&removal.region));
                }
                let present = 1.0 - (work.length() - wood.length()) / TAU;
                prop_assert!(found.least_share <= present + 0.001, "{found:?} at {t} of {from} to {to}: {present}");
            }
        }
    }
}
