//! What any hollowed piece holds: against columns counted by the definition, and what must be so of every piece.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod columns;

use columns::count::count;
use columns::dense_rim;
use columns::pieces::{hollowed, round_ended, solid, with_twice};
use proptest::prelude::*;
use skewline::figures::hold::{RimEdge, Vessel};
use skewline::figures::wall::{holes, walls};
use skewline::geometry::surface::WITHIN;
use skewline::geometry::{Axis, Fill, HalfSpace, Meridian, Region, Revolved, Role, Solid, Station, Vector};
use skewline::piece::Piece;

fn piece(solid: &Solid) -> Piece {
    Piece { solid: solid.clone(), axes: vec![Axis::A], tail_face: 0.0, head_face: 200.0, joins: vec![] }
}

/// What is promised, as a share of the cavity.
const SHARE: f64 = 1e-3;
/// What the count of columns may be off by itself, as a share of the cavity and in mm3.
const OF_THE_COUNT: (f64, f64) = (3e-4, 1.0);

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn any_piece_holds_what_columns_count(solid in hollowed(), pitch in -1.2..1.5_f64, repose in 0.0..0.9_f64) {
        let known = holes(&walls(&piece(&solid), |_| None));
        let Ok(vessel) = Vessel::broken_at(&solid, &known) else { return Ok(()) };
        let repose = if repose < 0.2 { 0.0 } else { repose };
        let counted = count(&solid, &dense_rim(&solid), pitch, repose, 300);
        let within = (SHARE + OF_THE_COUNT.0) * counted.cavity + OF_THE_COUNT.1;
        let (heaped, struck) = (vessel.hold(pitch, repose).volume_mm3, vessel.struck(pitch, repose).volume_mm3);
        prop_assert!((vessel.cavity_mm3() - counted.cavity).abs() < within, "cavity {}, {counted:?}", vessel.cavity_mm3());
        prop_assert!((heaped - counted.heaped).abs() < within, "heaped {heaped}, {counted:?}");
        prop_assert!((struck - counted.struck).abs() < within, "struck {struck}, {counted:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn no_liquid_passes_the_cavity_and_no_strike_the_heap(solid in hollowed(), pitch in -1.2..1.5_f64) {
        let Ok(vessel) = Vessel::new(&solid) else { return Ok(()) };
        let cavity = vessel.cavity_mm3();
        let liquid = vessel.hold(pitch, 0.0).volume_mm3;
        prop_assert!(liquid <= cavity, "liquid {liquid}, cavity {cavity}");
        let mut before = liquid;
        for repose in [0.3, 0.6, 0.9] {
            let (heaped, struck) = (vessel.hold(pitch, repose).volume_mm3, vessel.struck(pitch, repose).volume_mm3);
            prop_assert!(struck <= heaped, "struck {struck}, heaped {heaped}");
            prop_assert!(struck <= cavity, "struck {struck}, cavity {cavity}");
            prop_assert!(heaped >= before - SHARE * cavity, "{heaped} after {before}");
            before = heaped;
        }
    }

    #[test]
    fn what_hardly_slopes_holds_as_a_liquid_does(solid in hollowed(), pitch in -1.2..1.5_f64) {
        let Ok(vessel) = Vessel::new(&solid) else { return Ok(()) };
        let (liquid, dry) = (vessel.hold(pitch, 0.0).volume_mm3, vessel.hold(pitch, 1e-5).volume_mm3);
        prop_assert!((liquid - dry).abs() <= 2e-4 * vessel.cavity_mm3() + 1e-3, "liquid {liquid}, dry {dry}");
    }

    #[test]
    fn a_cut_made_twice_changes_nothing(solid in hollowed(), which in any::<prop::sample::Index>(), pitch in -1.2..1.5_f64) {
        let twice = with_twice(&solid, which.index(solid.removals.len()));
        let (once, twice) = (Vessel::new(&solid), Vessel::new(&twice));
        let (Ok(once), Ok(twice)) = (&once, &twice) else {
            prop_assert_eq!(once.err(), twice.err());
            return Ok(());
        };
        let same = |a: f64, b: f64| (a - b).abs() <= 1e-9 * once.cavity_mm3() + 1e-6;
        prop_assert!(same(once.cavity_mm3(), twice.cavity_mm3()), "{} {}", once.cavity_mm3(), twice.cavity_mm3());
        for repose in [0.0, 0.6] {
            let (a, b) = (once.hold(pitch, repose).volume_mm3, twice.hold(pitch, repose).volume_mm3);
            prop_assert!(same(a, b), "held {a}, made twice {b}");
            let (a, b) = (once.struck(pitch, repose).volume_mm3, twice.struck(pitch, repose).volume_mm3);
            prop_assert!(same(a, b), "struck {a}, made twice {b}");
        }
    }
}

/// A round bowl of this radius, hollowed straight down at station 40, faced level and turned about axis A to a radius that
/// goes through its bottom by a depth; and the bottom.
fn bowl_through(radius: f64, depth: f64) -> (Solid, Vector) {
    let down = Axis::new(Vector::new(0.0, 0.0, 40.0), Vector::new(0.0, -1.0, 0.0)).unwrap();
    let meridian =
        Meridian::new(vec![Station::new(-10.0, radius - depth), Station::new(120.0, radius - depth)]).unwrap();
    let outside = Region::Revolved(Revolved { axis: Axis::A, meridian, fill: Fill::Beyond });
    let facing = Region::HalfSpace(HalfSpace { into: Vector::new(0.0, 1.0, 0.0), offset: -5.0 });
    let bowl = Region::Revolved(round_ended(down, 0.0, radius, radius, radius));
    let cuts = [(outside, Role::Outside), (bowl, Role::Inside), (facing, Role::Opening)];
    (solid(cuts), Vector::new(0.0, -radius, 40.0))
}

/// A hole in the bottom of a bowl is its lowest place: nothing of a liquid stays, however small the hole is.
#[test]
fn a_bowl_runs_out_through_the_smallest_hole_in_its_bottom() {
    for radius in [17.0, 22.3] {
        for depth in [1.0, 0.07, 1e-2, 1e-3, 1e-4, 1e-6] {
            let (solid, bottom) = bowl_through(radius, depth);
            let vessel = Vessel::broken_at(&solid, &[bottom]).unwrap();
            let rim = vessel.rim();
            assert!(
                rim.iter().any(|line| matches!(line.edge, RimEdge::Breakthrough(Some(0)))),
                "{radius} through by {depth}"
            );
            let held = vessel.hold(0.0, 0.0).volume_mm3;
            assert!(held <= 1e-6 * vessel.cavity_mm3(), "{held} mm3 stay in a bowl of {radius} through by {depth}");
            // Dry goods slope up from the hole: a funnel, and less than in a whole bowl.
            let (dry, whole) = (vessel.hold(0.0, 0.6).volume_mm3, bowl_through(radius, -3.0).0);
            assert!(dry < 0.9 * Vessel::new(&whole).unwrap().hold(0.0, 0.6).volume_mm3);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    /// Every breakthrough that the wall finds is a way out: its deepest point is not kept, and there is a rim to it. Where
    /// the rim is at a breakthrough, the wall is gone.
    #[test]
    fn contents_run_out_wherever_the_wall_is_broken_through(solid in hollowed()) {
        let piece = piece(&solid);
        let walls = walls(&piece, |_| None);
        let is_broken = |vessel: &Vessel<'_>| vessel.rim().iter().any(|line| matches!(line.edge, RimEdge::Breakthrough(_)));
        if Vessel::new(&piece.solid).is_ok_and(|vessel| is_broken(&vessel)) {
            prop_assert!(walls.iter().filter_map(|wall| wall.least).any(|least| least.wall_mm < WITHIN));
        }
        prop_assume!(walls.iter().any(|wall| !wall.breakthroughs.is_empty()));
        let Ok(vessel) = Vessel::broken_at(&piece.solid, &holes(&walls)) else { return Ok(()) };
        prop_assert!(is_broken(&vessel));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// What is said of the best pitches and of the curve.
    #[test]
    fn no_pitch_holds_more_than_the_best(solid in hollowed(), repose in 0.3..0.8_f64) {
        let Ok(vessel) = Vessel::new(&solid) else { return Ok(()) };
        let cavity = vessel.cavity_mm3();
        let best = vessel.hold(vessel.best_dry_pitch(repose), repose).volume_mm3;
        let liquid = vessel.hold(vessel.best_liquid_pitch(), 0.0).volume_mm3;
        for point in vessel.curve(repose, 4.0) {
            let pitch = point.pitch_deg.to_radians();
            prop_assert!(vessel.hold(pitch, 0.0).volume_mm3 <= liquid + SHARE * cavity, "liquid {liquid}, {point:?}");
            let held = vessel.hold(pitch, repose).volume_mm3;
            prop_assert!((point.dry_mm3 - held).abs() <= SHARE * cavity, "{held}, {point:?}, cavity {cavity}");
            prop_assert!(point.liquid_mm3 <= cavity * (1.0 + SHARE));
            if point.pitch_deg.abs() <= 30.0 {
                prop_assert!(held <= best * 1.005 + SHARE * cavity, "best {best}, {held} at {}", point.pitch_deg);
            }
        }
    }
}
