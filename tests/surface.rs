//! The kept surface of hollows, against membership in the hollows themselves.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;
use skewline::geometry::surface::Spot;
use skewline::geometry::surface::{HollowSurface, SheetPoint, Taker};
use skewline::geometry::{Axis, Fill, HalfSpace, Meridian, Region, Removal, Revolved, Role, Solid, Station, Vector};

mod support;
use support::solids::{large_stock, piece};

fn hollow(axis: Axis, points: &[(f64, f64)], cut: usize) -> Removal {
    let meridian = Meridian::new(points.iter().copied().map(Station::from).collect()).unwrap();
    let region = Region::Revolved(Revolved { axis, meridian, fill: Fill::WithinOpen });
    Removal { region, role: Role::Inside, cut }
}

/// The area kept of each hollow, in mm2, by even small patches.
fn areas(solid: &Solid) -> Vec<f64> {
    const ROWS: usize = 400;
    const COLUMNS: usize = 180;
    let area = |surface: &HollowSurface<'_>| {
        let step = surface.sheet.length() / ROWS as f64;
        let places = (0..ROWS * COLUMNS).map(|i| {
            Spot::new((i / COLUMNS) as f64 * step + step / 2.0, TAU * ((i % COLUMNS) as f64 + 0.5) / COLUMNS as f64)
        });
        let seen = places.map(|place| surface.sheet.see(place)).filter(|at| surface.keeps(at));
        seen.map(|at| at.radius * TAU / COLUMNS as f64 * step).sum()
    };
    HollowSurface::all(solid).iter().map(area).collect()
}

fn near(value: f64, expected: f64, share: f64) {
    assert!((value - expected).abs() <= share * expected.abs().max(1.0), "{value} is not {expected}");
}

/// A bore of radius 20 and depth 50: its side 2 pi r h and its end disc pi r^2.
#[test]
fn of_two_hollows_with_one_surface_the_first_keeps_it() {
    let bore = [(0.0, 20.0), (50.0, 20.0)];
    let alone = TAU * 20.0 * 50.0 + PI * 400.0;
    near(areas(&piece(vec![hollow(Axis::A, &bore, 0)]))[0], alone, 0.01);
    let twice = areas(&piece(vec![hollow(Axis::A, &bore, 0), hollow(Axis::A, &bore, 1)]));
    near(twice[0], alone, 0.01);
    assert_eq!(twice[1], 0.0);
    // A shallower bore of the same radius, before and after: the deeper keeps its floor and what is past the other's.
    let shallow = [(0.0, 20.0), (30.0, 20.0)];
    for (first, second) in [(&bore, &shallow), (&shallow, &bore)] {
        let both = areas(&piece(vec![hollow(Axis::A, first, 0), hollow(Axis::A, second, 1)]));
        near(both.iter().sum(), alone, 0.01);
    }
    // The same about an axis that does not lie on the same line: side by side, with one floor in common.
    let beside = Axis::new(Vector::new(15.0, 0.0, 0.0), Vector::new(0.0, 0.0, 1.0)).unwrap();
    let both = areas(&piece(vec![hollow(Axis::A, &bore, 0), hollow(beside, &bore, 1)]));
    // Circles of radius r at a distance d share a lens of r^2 (2 a - sin 2 a), cos a = d / 2 r (closed form).
    let half: f64 = (15.0_f64 / 40.0).acos();
    let lens = 400.0 * (2.0 * half - (2.0 * half).sin());
    near(both.iter().sum(), 2.0 * (PI - half) * 2.0 * 20.0 * 50.0 + 2.0 * PI * 400.0 - lens, 0.01);
}

/// Two bores from both sides that meet in the middle: no membrane is left where their floors touch.
#[test]
fn hollows_that_touch_back_to_back_keep_nothing_between() {
    let from = |x: f64| Axis::new(Vector::new(60.0 * x, 0.0, 150.0), Vector::new(-x, 0.0, 0.0)).unwrap();
    let bore = [(0.0, 12.0), (60.0, 12.0)];
    for axes in [[from(1.0), from(-1.0)], [from(-1.0), from(1.0)]] {
        let solid = piece(vec![hollow(axes[0], &bore, 0), hollow(axes[1], &bore, 1)]);
        for surface in HollowSurface::all(&solid) {
            let disc = surface.sheet.length() - 5.0;
            assert!(!surface.keeps(&surface.sheet.see(Spot::new(disc, 0.4))));
        }
    }
}

/// A facing at s = 10 cuts a coaxial bore in a circle, and a plane across it: the rim is found on the sheet.
#[test]
fn the_rim_is_found_where_the_surface_ends() {
    let mut cuts = vec![hollow(Axis::A, &[(0.0, 20.0), (50.0, 20.0)], 0)];
    let half = HalfSpace { into: Vector::new(0.0, 0.6, -0.8), offset: -8.0 };
    cuts.push(Removal { region: Region::HalfSpace(half), role: Role::Opening, cut: 1 });
    let solid = piece(cuts);
    let surface = &HollowSurface::all(&solid)[0];
    let least = |at: &SheetPoint| surface.clearance_within(at);
    for i in 0..40 {
        let clock = TAU * f64::from(i) / 40.0;
        let rim = surface.rim_between(Spot::new(49.0, clock), Spot::new(0.0, clock), least);
        // On the plane 0.6 y - 0.8 s = -8 and on the bore: y = 20 cos(clock).
        let expected = (8.0 + 12.0 * clock.cos()) / 0.8;
        near(surface.sheet.point(rim).s.max(0.0), expected.max(0.0), 1e-6);
    }
    let takers: Vec<Taker> = surface.endings().iter().map(|ending| ending.taker).collect();
    assert_eq!((takers[0], takers[3]), (Taker::Face, Taker::Opening(1)));
}

fn any_hollow() -> impl Strategy<Value = (f64, f64, f64, f64, f64, bool)> {
    (5.0..25.0, 20.0..60.0, 0.0..14.0, 0.0..12.0, 0.0..TAU, any::<bool>())
}

fn made((radius, depth, end, off, toward, leans): (f64, f64, f64, f64, f64, bool), cut: usize) -> Removal {
    let origin = Vector::new(off * toward.sin(), off * toward.cos(), 0.0);
    let along = if leans { Vector::new(0.1, -0.05, 1.0) } else { Vector::new(0.0, 0.0, 1.0) };
    let points = [(2.0, radius), (depth - end.min(depth / 2.0), radius), (depth, radius * 0.5)];
    hollow(Axis::new(origin, along).unwrap(), &points, cut)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// A kept point borders on wood: just into the wood no hollow reaches, and just out of it the hollow is open. A point
    /// that is not kept for another hollow has a hollow on both sides, or is kept by a hollow before it.
    #[test]
    fn kept_is_what_borders_on_wood(
        first in any_hollow(), second in any_hollow(), repeated in any::<bool>(), spots in proptest::collection::vec((0.0..1.0, 0.0..TAU), 40),
    ) {
        let mut cuts = vec![made(first, 0), made(second, 1)];
        if repeated {
            cuts.push(made(first, 2));
        }
        let solid = Solid { stock: large_stock(), removals: cuts, plugs: vec![] };
        let inside = |point: Vector| solid.removals.iter().any(|cut| cut.region.contains(point));
        for surface in HollowSurface::all(&solid) {
            for (part, clock) in &spots {
                let at = surface.sheet.see(Spot::new(surface.sheet.length() * part, *clock));
                let (wood, open) = (at.point + at.into_wood * 1e-5, at.point - at.into_wood * 1e-5);
                if at.radius < 1e-3 || at.point.s.abs() < 1e-3 {
                    continue;
                }
                prop_assert!(inside(open));
                let kept = surface.keeps(&at);
                if at.point.s < 0.0 {
                    prop_assert!(!kept);
                } else if surface.cut == 2 {
                    // All of it is the first hollow's too.
                    prop_assert!(!kept);
                } else {
                    prop_assert_eq!(kept, !inside(wood), "{:?} of {}", at, surface.cut);
                }
            }
        }
    }
}
