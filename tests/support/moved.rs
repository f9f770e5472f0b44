//! Scoops of many sizes, and designs whose cuts stand in another order.

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;
use skewline::design::Design;
use skewline::design::starters::{BoredEndScoop, HandleEnd};

/// Scoops with a bored end, as the starter draws them: many sizes and tilts, none among them, and either handle end.
pub fn bored_end_scoops() -> impl Strategy<Value = Design> {
    (34.0..44.0, 35.0..55.0, 0.0..12.0, 80.0..130.0, any::<bool>()).prop_map(
        |(bore_diameter_mm, bore_depth_mm, tilt_deg, crossing_mm, round)| {
            let handle_end = if round { HandleEnd::Round } else { HandleEnd::Hooked };
            let tilt_deg = if tilt_deg < 1.0 { 0.0 } else { tilt_deg };
            BoredEndScoop {
                bore_diameter_mm,
                bore_depth_mm,
                tilt_deg,
                crossing_mm,
                handle_end,
                ..BoredEndScoop::default()
            }
            .design("any scoop")
        },
    )
}

/// The designs with up to `most` cuts moved elsewhere in the order; as they were where that makes no sound design.
pub fn with_cuts_moved(designs: impl Strategy<Value = Design>, most: usize) -> impl Strategy<Value = Design> {
    (designs, vec(any::<(Index, Index)>(), 0..=most)).prop_map(|(design, moves)| {
        let mut moved = design.clone();
        for (from, to) in moves {
            let count = moved.cuts.len();
            let cut = moved.cuts.remove(from.index(count));
            moved.cuts.insert(to.index(count), cut);
        }
        if moved.problems().is_empty() { moved } else { design }
    })
}
