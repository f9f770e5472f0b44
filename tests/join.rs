//! The join: what a first pass must leave for later axes, and the wall over the hollow.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::{AxisChoice, AxisName, Cut, Design, Hollow, HollowShape, Limits, Node, PassProfile};
use skewline::figures::wall::walls;
use skewline::geometry::region::envelope::{kept_radius, radius_clear_of};
use skewline::geometry::region::tapers::{Gate, fewest};
use skewline::geometry::{Axis, Fill, Meridian, Revolved, Section, Station, Vector};
use skewline::piece::Piece;

mod support;
use support::pieces::{pass, scoop};

/// Closed form: a cylinder of radius r about an axis tilted by tau leaves, about axis A, its offset along the plane
/// plus its long half-axis r / cos(tau) in the direction of tilt.
#[test]
fn leave_of_a_tilted_cylinder_is_its_offset_and_its_long_half_axis() {
    for tilt_deg in [0.5_f64, 5.0, 12.5, 20.0] {
        let tilt = tilt_deg.to_radians();
        let clock: f64 = 0.7;
        let along = Vector::new(tilt.sin() * clock.sin(), tilt.sin() * clock.cos(), tilt.cos());
        let axis = Axis::new(Vector::new(0.0, 0.0, 40.0), along).unwrap();
        let meridian = Meridian::new(vec![Station::new(-200.0, 9.0), Station::new(200.0, 9.0)]).unwrap();
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
    let meridian = Meridian::new(vec![Station::new(0.0, 20.5), Station::new(48.0, 20.5)]).unwrap();
    let bore = Revolved { axis: Axis::A, meridian, fill: Fill::WithinOpen };
    for (t, expected) in
        [(10.0, 23.5), (48.0, 23.5), (49.0, 20.5 + 8.0_f64.sqrt()), (50.9, 20.5 + 0.59_f64.sqrt()), (51.2, 0.0)]
    {
        let clear = radius_clear_of(&Axis::A, t, &[&bore], 3.0);
        assert!((clear - expected).abs() < 0.001, "at {t}: {clear} for {expected}");
    }
}

/// Closed form: beside a hollow bored straight across nothing has to stay once the plane is farther from its side than the
/// gap, be it by a hair; nearer than that its open mouth would have to stay without end.
#[test]
fn beside_a_hollow_across_nothing_stays_beyond_the_gap() {
    let meridian = Meridian::new(vec![Station::new(0.0, 20.0), Station::new(45.0, 20.0)]).unwrap();
    let axis = Axis::new(Vector::new(0.0, 30.0, 40.0), Vector::new(0.0, -1.0, 0.0)).unwrap();
    let hollow = Revolved { axis, meridian, fill: Fill::WithinOpen };
    for hair in [0.0002, 0.001, 0.005, 0.02, 1.0] {
        for t in [63.0 + hair, 17.0 - hair] {
            assert_eq!(radius_clear_of(&Axis::A, t, &[&hollow], 3.0), 0.0, "{hair} mm beyond the gap, at {t}");
        }
        for t in [63.0 - hair, 17.0 + hair] {
            assert!(radius_clear_of(&Axis::A, t, &[&hollow], 3.0) > 1000.0, "{hair} mm within the gap, at {t}");
        }
    }
}

proptest! {
    /// From a hollow of any profile about the same line, either way along it, the clear radius stands off by the gap and
    /// no more.
    #[test]
    fn radius_clear_of_a_hollow_is_at_the_gap_from_it(
        radii in proptest::collection::vec(0.0..30.0_f64, 2..6), t in -20.0..80.0_f64, gap in 0.5..8.0_f64,
        (open, turned) in (any::<bool>(), any::<bool>()),
    ) {
        let chain = radii.iter().enumerate().map(|(i, r)| Station::new(12.0 * i as f64, *r)).collect();
        let along = Vector::new(0.0, 0.0, if turned { -1.0 } else { 1.0 });
        let axis = Axis::new(Vector::new(0.0, 0.0, 30.0), along).unwrap();
        let fill = if open { Fill::WithinOpen } else { Fill::Within };
        let hollow = Revolved { axis, meridian: Meridian::new(chain).unwrap(), fill };
        let clear = radius_clear_of(&Axis::A, t, &[&hollow], gap);
        let distance = |radius: f64| hollow.signed_distance(Axis::A.point(t, radius, 0.0));
        if clear > 0.0 {
            prop_assert!((distance(clear) - gap).abs() < 1e-9, "{} at {clear}", distance(clear));
        }
        for i in 0..200 {
            prop_assert!(distance(clear + 0.2 * f64::from(i)) >= gap - 1e-9);
        }
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
        let piece = path.windows(2).find(|w| w[0].t <= gate.t && gate.t <= w[1].t).unwrap();
        let r = piece[0].r + (piece[1].r - piece[0].r) * (gate.t - piece[0].t) / (piece[1].t - piece[0].t);
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

/// A scoop with any reasonable bore, tilt, direction, crossing and handle.
fn any_scoop() -> impl Strategy<Value = Design> {
    let bore = (25.0..45.0, 25.0..60.0, 0.0..12.0_f64);
    let axis = (0.0..20.0, 0.0..360.0, 20.0..140.0_f64);
    (bore, axis, 8.0..24.0, 2.0..8.0_f64).prop_map(|((diameter_mm, depth_mm, rounding_mm), axis, neck, behind)| {
        let mut design = scoop();
        let (tilt_deg, toward_deg, crossing_mm) = axis;
        design.axes[0] = AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm };
        let from = depth_mm + behind;
        design.cuts[0] = Cut::Hollow(Hollow {
            axis: AxisName::A,
            mouth_mm: 0.0,
            shape: HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm },
        });
        let nodes = vec![Node::line(from, neck), Node::ogee(from + 40.0, neck + 4.0), Node::line(from + 120.0, neck)];
        design.cuts[1] = pass("bowl", AxisName::A, 0.0, from + 25.0, PassProfile::Join);
        design.cuts[2] = pass("handle", AxisName::B, from, from + 120.0, PassProfile::Drawn { nodes });
        design
    })
}

/// Whether a later pass needs any of the circle of a radius about axis A: any of it in its span and under its profile.
///
/// What it needs ends in a corner where its end plane meets its profile, and so close to the corner may be narrower than
/// any step around. So it is looked for where a point is deepest inside, or least far outside, of all that end it.
fn needs_some_of(later: &Revolved, t: f64, radius: f64) -> bool {
    const LOOKS: usize = 720;
    let step = std::f64::consts::TAU / LOOKS as f64;
    let (from, to) = later.span();
    let depth = |clock: f64| {
        let seen = later.axis.see(Axis::A.point(t, radius, clock));
        let under = later.meridian.radius_after(seen.t.clamp(from, to)) - seen.radius();
        under.min(seen.t - from).min(to - seen.t)
    };
    let needs = |clock: f64| {
        let point = Axis::A.point(t, radius, clock);
        let seen = later.axis.see(point).t;
        from <= seen && seen <= to && !later.contains(point)
    };
    let depths: Vec<f64> = (0..LOOKS).map(|i| depth(step * i as f64)).collect();
    let is_peak = |i: &usize| depths[*i] >= depths[(i + 1) % LOOKS] && depths[*i] >= depths[(i + LOOKS - 1) % LOOKS];
    (0..LOOKS).filter(is_peak).any(|i| {
        let (mut low, mut high) = (step * (i as f64 - 1.0), step * (i as f64 + 1.0));
        for _ in 0..60 {
            let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
            if depth(a) < depth(b) { low = a } else { high = b }
        }
        needs((low + high) / 2.0) || needs(step * i as f64)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// At every station the tapers stay above both bounds, found here by brute force from their definitions.
    #[test]
    fn the_join_is_never_below_either_bound(design in any_scoop(), part in 0.0..1.0_f64) {
        let limits = Limits { floor_mm: 3.0, wall_mm: 3.0, ..Limits::default() };
        let piece = Piece::resolve(&design, &limits).unwrap();
        let (hollow, bowl, handle) = (piece.revolved(0).unwrap(), piece.revolved(1).unwrap(), piece.revolved(2).unwrap());
        let t = bowl.meridian.end() * part;
        let r = bowl.meridian.radius_after(t);
        for i in 0..180 {
            let clock = std::f64::consts::TAU * f64::from(i) / 180.0;
            // What the handle keeps: any point in its span and under its profile.
            for j in 1..=40 {
                let beyond = Axis::A.point(t, r - limits.finishing_allowance_mm + 0.02 + 0.5 * f64::from(j), clock);
                let (from, to) = handle.span();
                let seen = handle.axis.see(beyond);
                let kept = from <= seen.t && seen.t <= to && !handle.contains(beyond);
                prop_assert!(!kept, "the handle keeps a point {} outside the join at {t}", 0.5 * f64::from(j));
            }
            // The wall: nothing on the join's surface is nearer to the hollow than the limit.
            let wall = hollow.signed_distance(Axis::A.point(t, r, clock));
            prop_assert!(wall >= limits.wall_mm - 0.02, "wall {wall} at {t}");
        }
    }

    /// The `walls` figure of a piece whose bowl follows the join keeps both limits, wherever the handle starts and whether
    /// a second hollow leans across the first or not.
    #[test]
    fn the_walls_over_a_join_keep_their_limits(
        design in any_scoop(),
        second in proptest::option::of((15.0..40.0, 0.5..1.2, -4.0..4.0, -6.0..6.0_f64)),
    ) {
        let mut design = design;
        if let Some((diameter_mm, share, tail_x_mm, tail_y_mm)) = second {
            let Cut::Hollow(Hollow { shape, .. }) = &design.cuts[0] else { unreachable!() };
            let HollowShape::RoundEnded { depth_mm, .. } = *shape else { unreachable!() };
            design.axes.push(AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm: 0.0, head_y_mm: 0.0 });
            let shape = HollowShape::RoundEnded { diameter_mm, depth_mm: depth_mm * share, rounding_mm: 1.0 };
            design.cuts.push(Cut::Hollow(Hollow { axis: AxisName::from_index(2).unwrap(), mouth_mm: 0.0, shape }));
        }
        let limits = Limits { finishing_allowance_mm: 0.0, wall_mm: 3.0, floor_mm: 4.0, ..Limits::default() };
        let mut piece = Piece::resolve(&design, &limits).unwrap();
        // Only what the join itself leaves: without the blank's sides and the handle.
        piece.solid.removals.retain(|removal| removal.cut != 2);
        piece.solid.stock.section = Section::Round { radius: 500.0 };
        for wall in walls(&piece, |_| None) {
            let least = wall.least.filter(|least| least.limited_by_cut == Some(1)).map_or(3.0, |least| least.wall_mm);
            prop_assert!(least >= 3.0 - 0.02, "wall {least}");
            let floor = wall.floor.filter(|floor| floor.least.limited_by_cut == Some(1));
            let floor = floor.map_or(4.0, |floor| floor.least.wall_mm);
            prop_assert!(floor >= 4.0 - 0.02, "floor {floor}");
        }
    }

    /// Turning less than the join by more than its allowance loses wood that the handle needs, or thins the wall, at
    /// that very station.
    #[test]
    fn turning_less_than_the_join_makes_the_flaw_it_predicts(design in any_scoop(), part in 0.02..0.98_f64) {
        let limits = Limits { floor_mm: 3.0, wall_mm: 3.0, ..Limits::default() };
        let piece = Piece::resolve(&design, &limits).unwrap();
        let stations = &piece.joins[0].stations;
        let station = stations[(part * (stations.len() - 1) as f64) as usize];
        prop_assume!(station.join > 2.0);
        let handle = piece.revolved(2).unwrap();
        let hollow = piece.revolved(0).unwrap();
        let less = 0.1;
        if station.leave.is_some_and(|leave| leave >= station.wall) {
            let r = station.join - limits.finishing_allowance_mm - less;
            // Where the handle's end only grazes the plane, all it needs there may lie this near to the join.
            let lost = (1..15).any(|i| needs_some_of(handle, station.t, r + less - less * 0.5_f64.powi(i)));
            prop_assert!(lost, "nothing the handle needs was lost at {}", station.t);
        } else {
            let wall = hollow.signed_distance(Axis::A.point(station.t, station.join - less, 0.0));
            prop_assert!(wall < limits.wall_mm, "the wall is still {wall} at {}", station.t);
        }
    }
}
