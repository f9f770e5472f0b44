//! What any hollowed piece holds: against columns counted by the definition, and what must be so of every piece.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod columns;

use columns::count::count;
use columns::dense_rim;
use columns::pieces::{hollowed, with_twice};
use proptest::prelude::*;
use skewline::figures::hold::Vessel;

/// What is promised, as a share of the cavity.
const SHARE: f64 = 1e-3;
/// What the count of columns may be off by itself, as a share of the cavity and in mm3.
const OF_THE_COUNT: (f64, f64) = (3e-4, 1.0);

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn any_piece_holds_what_columns_count(solid in hollowed(), pitch in -1.2..1.5_f64, repose in 0.0..0.9_f64) {
        let Ok(vessel) = Vessel::new(&solid) else { return Ok(()) };
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
