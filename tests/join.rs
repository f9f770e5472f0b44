//! The join: what a first pass must leave for later axes, and the wall over the hollow.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use skewline::design::{Limits, Piece};
use skewline::geometry::envelope::{kept_radius, radius_clear_of};
use skewline::geometry::tapers::{Gate, fewest};
use skewline::geometry::{Axis, Fill, Meridian, Revolved, Vector};

#[path = "support/pieces.rs"]
mod pieces;
use pieces::scoop;

/// Closed form: a cylinder of radius r about an axis tilted by tau leaves, about axis A, its offset along the plane
/// plus its long half-axis r / cos(tau) in the direction of tilt.
#[test]
fn leave_of_a_tilted_cylinder_is_its_offset_and_its_long_half_axis() {
    for tilt_deg in [0.5_f64, 5.0, 12.5, 20.0] {
        let tilt = tilt_deg.to_radians();
        let clock: f64 = 0.7;
        let along = Vector::new(tilt.sin() * clock.sin(), tilt.sin() * clock.cos(), tilt.cos());
        let axis = Axis::new(Vector::new(0.0, 0.0, 40.0), along).unwrap();
        let meridian = Meridian::new(vec![(-200.0, 9.0), (200.0, 9.0)]).unwrap();
        let region = Revolved { axis, meridian, fill: Fill::Beyond };
        for s in [25.0, 40.0, 71.0, 120.0] {
            let leave = kept_radius(&Axis::A, s, &[&region]).unwrap();
            let expected = (s - 40.0_f64).abs() * tilt.tan() + 9.0 / tilt.cos();
            assert!((leave - expected).abs() < 0.01, "tilt {tilt_deg} at {s}: {leave} for {expected}");
        }
    }
}

/// Closed form: beside a straight bore the clear radius is its radius and the gap; around its square end the gap's
/// quarter circle.
#[test]
fn radius_clear_of_a_bore_is_the_offset_of_its_outline() {
    let meridian = Meridian::new(vec![(0.0, 20.5), (48.0, 20.5)]).unwrap();
    let bore = Revolved { axis: Axis::A, meridian, fill: Fill::WithinOpen };
    for (t, expected) in
        [(10.0, 23.5), (48.0, 23.5), (49.0, 20.5 + 8.0_f64.sqrt()), (50.9, 20.5 + 0.59_f64.sqrt()), (51.2, 0.0)]
    {
        let clear = radius_clear_of(&Axis::A, t, &[&bore], 3.0);
        assert!((clear - expected).abs() < 0.001, "at {t}: {clear} for {expected}");
    }
}

#[test]
fn tapers_never_leave_their_gates_and_are_the_fewest() {
    let gates: Vec<_> = [(0.0, 10.0), (10.0, 10.0), (20.0, 15.0), (30.0, 20.0), (40.0, 20.0)]
        .map(|(t, low)| Gate { t, low, high: low + 0.4 })
        .to_vec();
    let path = fewest(&gates);
    assert_eq!(path.len(), 4, "three pieces: flat, taper, flat: {path:?}");
    for gate in &gates {
        let piece = path.windows(2).find(|w| w[0].0 <= gate.t && gate.t <= w[1].0).unwrap();
        let r = piece[0].1 + (piece[1].1 - piece[0].1) * (gate.t - piece[0].0) / (piece[1].0 - piece[0].0);
        assert!(gate.low - 1e-6 <= r && r <= gate.high + 1e-6, "at {}: {r}", gate.t);
    }
}

#[test]
fn the_join_profile_keeps_the_wall_and_the_handle() {
    let limits = Limits::default();
    let piece = Piece::resolve(&scoop(), &limits).unwrap();
    let bowl = piece.revolved(1).unwrap();
    let handle = piece.revolved(2).unwrap();
    for i in 0..=660 {
        let t = 0.1 * i as f64;
        let r = bowl.meridian.radius_after(t);
        let wall = radius_clear_of(&Axis::A, t, &[piece.revolved(0).unwrap()], limits.wall_mm);
        let leave = kept_radius(&Axis::A, t, &[handle]).map_or(0.0, |r| r + limits.finishing_allowance_mm);
        assert!(r >= wall - 1e-3 && r >= leave - 0.01, "at {t}: {r} for wall {wall}, leave {leave}");
    }
}
