//! What is seen around the axis of a pass, once for swing and for air.

use super::step::Step;
use crate::geometry::{Around, Farthest, Pace, Spin};

/// Stations of a pass.
const STATIONS: usize = 14;
/// A step in from the ends of the cut and of the work, in mm: there its surfaces begin.
pub(super) const INSIDE_MM: f64 = 1e-6;

/// What is around the axis at one station of a pass.
pub(super) struct Looked<'a> {
    /// Station along the axis, in mm.
    pub at_mm: f64,
    pub around: Around<'a>,
    /// The farthest wood there; absent where there is none.
    pub farthest: Option<Farthest>,
}

/// What is around the axis at even stations of a pass, from end to end of its wood.
pub(super) async fn look<'a>(step: &Step<'_>, spin: &Spin<'a>, pace: &Pace) -> Vec<Looked<'a>> {
    let (start, end) = spin.span();
    let (from, to) = (step.from.max(start) + INSIDE_MM, step.to.min(end) - INSIDE_MM);
    if !step.is_pass || from >= to {
        return Vec::new();
    }
    let at = |i: usize| from + (to - from) * i as f64 / STATIONS as f64;
    let mut looked = Vec::with_capacity(STATIONS + 1);
    for i in 0..=STATIONS {
        let at_mm = at(i);
        looked.push(Looked { at_mm, around: spin.at(at_mm), farthest: spin.farthest_at(at_mm) });
        pace.pause().await;
    }
    looked
}
