//! The passes beside a place in the wood: which of them made it what it is, and whose grain it has.

use super::grain::Grain;
use crate::geometry::{Fill, Region, Revolved, State, Vector};

/// Every pass of a state with its cut.
fn passes<'a>(state: &State<'a>) -> impl Iterator<Item = (usize, &'a Revolved)> {
    state.removals.iter().filter_map(|removal| match &removal.region {
        Region::Revolved(pass) if pass.fill == Fill::Beyond => Some((removal.cut, pass)),
        _ => None,
    })
}

/// The pass nearest to a point in the wood, by its cut; `None` where a side of the stock is nearer.
pub(super) fn limiting(state: &State<'_>, point: Vector) -> Option<usize> {
    let mut best = state.stock.depth_from_sides(point);
    let mut nearest = None;
    for (cut, pass) in passes(state) {
        if let Some(distance) = pass.signed_distance_below(point, best) {
            (best, nearest) = (distance, Some(cut));
        }
    }
    nearest
}

/// Wood this thin, in mm, has the grain of the pass nearest to it and of no other.
const THIN: f64 = 1.0;

/// The share of strength that the slope of grain leaves around a point in the wood: that of the pass nearest to it, and
/// less and less of any other as it stands off, up to twice as far. So the share changes smoothly from pass to pass.
pub(super) fn grain_share(state: &State<'_>, point: Vector) -> f64 {
    let depth = state.stock.depth_from_sides(point);
    let nearest = passes(state).fold(depth, |best, (_, pass)| pass.signed_distance_below(point, best).unwrap_or(best));
    let reach = nearest.max(THIN);
    let lost = passes(state).filter_map(|(_, pass)| {
        let off = pass.signed_distance_below(point, nearest + reach)? - nearest;
        Some((1.0 - Grain::at(pass.axis.tilt()).share()) * (1.0 - off / reach).clamp(0.0, 1.0))
    });
    1.0 - lost.fold(0.0, f64::max)
}
