//! Surfaces laid flat, against closed forms: the cut of a cylinder by a plane unrolls to a sine; a cone unrolls to a
//! sector.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use std::f64::consts::PI;

use proptest::prelude::*;
use skewline::geometry::{Axis, Fill, Meridian, OnSurface, Point, Revolved, Sawn, Station, Unrolled, cut_around};

fn surface(profile: &[(f64, f64)]) -> Revolved {
    Revolved {
        axis: Axis::A,
        meridian: Meridian::new(profile.iter().copied().map(Station::from).collect()).unwrap(),
        fill: Fill::Beyond,
    }
}

/// The plane y = rise + slope s, opening what is above it up to s = 200.
fn plane(rise: f64, slope: f64) -> Sawn {
    Sawn::above(&[Point::new(-5.0, rise - 5.0 * slope), Point::new(200.0, rise + 200.0 * slope)]).unwrap()
}

/// On a cylinder of radius r the plane meets the surface where r cos(u / r) = rise + slope v: the textbook sine.
#[test]
fn a_plane_cut_of_a_cylinder_unrolls_to_a_sine() {
    let (r, rise, slope) = (24.6, -7.0, 0.62);
    let cylinder = surface(&[(0.0, r), (80.0, r)]);
    let flat = Unrolled::new(&cylinder.meridian, 0.0, 80.0).unwrap();
    let places = cut_around(&cylinder, &flat, &plane(rise, slope));
    assert!(places.len() > 200);
    for OnSurface { t, clock } in &places {
        let Point { x: u, y: v } = flat.at(*t, *clock);
        assert!((v - (r * (u / r).cos() - rise) / slope).abs() < 1e-5, "{u} {v}");
    }
    // From the lip on the right, over the far end at the top, to the lip on the left.
    let (first, last) =
        (flat.at(places[0].t, places[0].clock), flat.at(places[places.len() - 1].t, places[places.len() - 1].clock));
    let lip = r * (rise / r).acos();
    assert!((first.x - lip).abs() < 1e-5 && (last.x + lip).abs() < 1e-5 && first.y.abs() < 1e-9 && last.y.abs() < 1e-9);
    let far = places.iter().fold(0.0_f64, |far, p| far.max(p.t));
    assert!((far - (r - rise) / slope).abs() < 1e-5);
    // Chords of the curve are a little shorter than it.
    assert!(flat.stretch(&places) < 1e-3, "{}", flat.stretch(&places));
}

/// A cone of half angle a unrolls to a sector: distance from its middle r / sin a, angle clock times sin a.
#[test]
fn a_cone_unrolls_to_a_sector_and_its_plane_cut_with_it() {
    for (r0, r1, length) in [(20.0, 32.0, 60.0_f64), (30.0, 14.0, 45.0), (25.0, 0.0, 40.0)] {
        let slant = length.hypot(r1 - r0);
        let sine = (r1 - r0) / slant;
        let cone = surface(&[(0.0, r0), (length, r1)]);
        let flat = Unrolled::new(&cone.meridian, 0.0, length).unwrap();
        for i in 0..=10 {
            for clock in [-PI, -1.3, -0.2, 0.0, 0.7, 2.0, PI] {
                let t = length * f64::from(i) / 10.0;
                let r = r0 + (r1 - r0) * t / length;
                let Point { x: u, y: v } = flat.at(t, clock);
                // The middle of the sector lies at v = -r0 / sine.
                let expected = ((r / sine) * (clock * sine).sin(), (r / sine) * (clock * sine).cos() - r0 / sine);
                assert!((u - expected.0).abs() < 1e-9 && (v - expected.1).abs() < 1e-9, "{u} {v} {expected:?}");
            }
        }
        let (rise, slope) = (-4.0, 0.7);
        let places = cut_around(&cone, &flat, &plane(rise, slope));
        assert!(places.len() > 100);
        assert!(flat.stretch(&places) < 1e-3, "{}", flat.stretch(&places));
        for OnSurface { t, clock } in places {
            let r = r0 + (r1 - r0) * t / length;
            assert!((r * clock.cos() - rise - slope * t).abs() < 1e-5, "{t} {clock}");
        }
    }
}

/// A cut that stops square to the axis in the wood ends along a hoop.
#[test]
fn a_cut_that_stops_in_the_wood_ends_along_a_hoop() {
    let cylinder = surface(&[(0.0, 20.0), (60.0, 20.0)]);
    let flat = Unrolled::new(&cylinder.meridian, 0.0, 60.0).unwrap();
    let sawn = Sawn::above(&[Point::new(-2.0, -4.0), Point::new(40.0, 8.0)]).unwrap();
    let places = cut_around(&cylinder, &flat, &sawn);
    let half = (8.0_f64 / 20.0).acos();
    let on_hoop: Vec<f64> = places.iter().filter(|p| (p.t - 40.0).abs() < 1e-5).map(|p| p.clock).collect();
    assert!(on_hoop.len() >= 20);
    let widest = on_hoop.iter().fold(0.0_f64, |most, clock| most.max(clock.abs()));
    assert!(widest <= half + 1e-5 && widest > 0.9 * half, "{widest} of {half}");
    assert!(on_hoop.iter().any(|clock| clock.abs() < 1e-9));
}

#[test]
fn what_cannot_be_unrolled_is_none() {
    let line = Meridian::new(vec![Station::new(0.0, 5.0), Station::new(10.0, 5.0)]).unwrap();
    for (from, to) in [(5.0, 5.0), (8.0, 2.0), (20.0, 30.0), (f64::NAN, 5.0), (2.0, f64::NAN)] {
        let unrolled = Unrolled::new(&line, from, to);
        assert!(unrolled.is_none() || from.is_nan() || to.is_nan(), "{from} {to}");
    }
    let nothing = Meridian::new(vec![Station::new(0.0, 0.0), Station::new(10.0, 0.0)]).unwrap();
    assert!(Unrolled::new(&nothing, 0.0, 10.0).is_none());
}

proptest! {
    /// Along every hoop and along the middle line lengths are true, whatever the outline.
    #[test]
    fn hoops_and_the_middle_line_keep_their_lengths(radii in prop::collection::vec(0.0..60.0_f64, 2..7), part in 0.0..1.0_f64) {
        let profile: Vec<(f64, f64)> = radii.iter().enumerate().map(|(i, r)| (9.0 * i as f64, *r)).collect();
        let meridian = Meridian::new(profile.iter().copied().map(Station::from).collect()).unwrap();
        let last = profile[profile.len() - 1].0;
        let Some(flat) = Unrolled::new(&meridian, 0.0, last) else { return Ok(()) };
        let real: f64 = profile.windows(2).map(|p| (p[1].0 - p[0].0).hypot(p[1].1 - p[0].1)).sum();
        prop_assert!((flat.along(last) - real).abs() < 1e-9);
        prop_assert!((flat.at(last, 0.0).y - real).abs() < 1e-9 && flat.at(last, 0.0).x.abs() < 1e-12);
        let t = last * part;
        let girth: f64 = (0..2000).map(|i| {
            let at = |i: i32| flat.at(t, PI * (f64::from(i) / 1000.0 - 1.0));
            let (a, b) = (at(i), at(i + 1));
            (b.x - a.x).hypot(b.y - a.y)
        }).sum();
        let expected = 2.0 * PI * flat.radius(t);
        prop_assert!((girth - expected).abs() <= 1e-4 * expected + 1e-9, "{} {}", girth, expected);
    }
}
