//! Where along an axis something is greatest.

use crate::geometry::{Axis, Bending, Fill, Region, State, spokes, square_section};

/// Even stations that are looked at.
const STATIONS: usize = 32;
/// Halvings of the step around the worst of them.
const HALVINGS: usize = 5;

/// A quick look at a section; where it shows nothing, wood may lie beside the axis, and the section is drawn.
pub(super) fn look(state: &State<'_>, axis: &Axis, t: f64) -> Bending {
    let quick = spokes(state, axis, t);
    if quick.least_modulus_mm3() > 0.0 { quick } else { square_section(state, axis, t) }
}

/// Stations from one to another along an axis: even ones, and where passes on that axis are narrowest.
pub(super) fn stations(state: &State<'_>, axis: &Axis, from: f64, to: f64) -> Vec<f64> {
    let mut all: Vec<f64> = (0..=STATIONS).map(|i| from + (to - from) * i as f64 / STATIONS as f64).collect();
    for removal in state.removals {
        let Region::Revolved(pass) = &removal.region else { continue };
        if pass.fill != Fill::Beyond || pass.axis != *axis {
            continue;
        }
        let chain = pass.meridian.points();
        for (i, (t, radius)) in chain.iter().enumerate() {
            let narrower = |j: usize| chain.get(j).is_some_and(|p| p.1 < *radius);
            if from <= *t && *t <= to && !narrower(i + 1) && !(i > 0 && narrower(i - 1)) {
                all.push(*t);
            }
        }
    }
    all
}

/// The station where `value` is greatest, to about a sixtieth of a step between even stations; NaN counts for nothing.
pub(super) fn greatest(stations: &[f64], step: f64, value: impl Fn(f64) -> f64) -> Option<f64> {
    let mut best: Option<(f64, f64)> = None;
    let consider = |t: f64, best: &mut Option<(f64, f64)>| {
        let here = value(t);
        let better = best.is_none_or(|(_, most)| here > most) && here > 0.0;
        if better {
            *best = Some((t, here));
        }
        better
    };
    for t in stations {
        consider(*t, &mut best);
    }
    let (low, high) = stations.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |r, t| (r.0.min(*t), r.1.max(*t)));
    let mut step = step / 2.0;
    for _ in 0..HALVINGS {
        let (middle, _) = best?;
        if !consider((middle - step).max(low), &mut best) {
            consider((middle + step).min(high), &mut best);
        }
        step /= 2.0;
    }
    Some(best?.0)
}

/// The distance between even stations.
pub(super) fn step(from: f64, to: f64) -> f64 {
    (to - from) / STATIONS as f64
}
