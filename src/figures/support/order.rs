//! A piece with its cuts in the order of the work.

use crate::geometry::Solid;

/// The piece with its cuts in the order of the work, each given by its place in the design: after `n` pieces of work it
/// is as its [`state`](Solid::state) after `n` cuts.
#[must_use]
pub fn in_order(solid: &Solid, order: &[usize]) -> Solid {
    let place = |cut: usize| order.iter().position(|c| *c == cut).unwrap_or(cut);
    let mut sorted = solid.clone();
    for removal in &mut sorted.removals {
        removal.cut = place(removal.cut);
    }
    // Insertion sort: the removals are few, and it is the smallest in the program.
    for i in 1..sorted.removals.len() {
        let mut at = i;
        while at > 0 && sorted.removals[at - 1].cut > sorted.removals[at].cut {
            sorted.removals.swap(at - 1, at);
            at -= 1;
        }
    }
    let left_in = order.iter().copied().max();
    for plug in &mut sorted.plugs {
        plug.fitted = place(plug.fitted);
        plug.taken_out = plug.taken_out.or(left_in).map(place);
    }
    sorted
}
