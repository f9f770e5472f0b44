//! The thinnest wood between the two ends that carry the work.

use serde::Serialize;

use crate::geometry::{Fill, Region, Solid, Station};

/// The thinnest wood between the ends that carry the work, as a caliper reads it across the pass that made it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Thinnest {
    /// Its diameter, in mm; 0 where a pass comes down to nothing.
    pub diameter_mm: f64,
    /// Where its middle is along the blank, in mm.
    pub station_mm: f64,
    /// The cut that made it, by its place in the design from 0; absent for the blank's own sides.
    pub cut: Option<usize>,
}

/// The least diameter that the passes among the first `done` of a piece in working order leave from the bowl end to
/// `head`, the station of the head face, in mm. `order` gives each cut's place in the design.
///
/// Exact for the flattened profiles, each about its own axis; where passes on several axes overlap the wood can be
/// thinner still, which the strength figure judges.
pub(super) fn thinnest(solid: &Solid, done: usize, order: &[usize], head: f64) -> Thinnest {
    let stock = &solid.stock;
    let mut least = Thinnest { diameter_mm: 2.0 * stock.half_width(), station_mm: head / 2.0, cut: None };
    for removal in solid.removals.iter().filter(|removal| removal.cut < done) {
        let Region::Revolved(pass) = &removal.region else { continue };
        if pass.fill != Fill::Beyond {
            continue;
        }
        let Some((from, to)) = pass.axis.centre(0.0).zip(pass.axis.centre(head)) else { continue };
        let (from, to) = (pass.axis.see(from).t, pass.axis.see(to).t);
        let (start, end) = (pass.meridian.start().max(from), pass.meridian.end().min(to));
        if start > end {
            continue;
        }
        // A profile of straight pieces is thinnest at a corner, or where the blank's end cuts a piece.
        let corners = pass.meridian.points().iter().filter(|Station { t, .. }| (start..=end).contains(t)).copied();
        let ends =
            [(start, pass.meridian.radius_after(start)), (end, pass.meridian.radius_before(end))].map(Station::from);
        for Station { t, r: radius } in corners.chain(ends) {
            if 2.0 * radius < least.diameter_mm {
                let station_mm = pass.axis.point(t, 0.0, 0.0).s;
                least = Thinnest { diameter_mm: 2.0 * radius, station_mm, cut: order.get(removal.cut).copied() };
            }
        }
    }
    least
}
