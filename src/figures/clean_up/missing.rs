//! What of a pass's circle finds no wood, and why.

use std::f64::consts::TAU;

use crate::geometry::{Axis, Circle, Intervals, Region, Revolved, Role};
use crate::piece::Piece;

/// The share of a pass's circle at a station that meets wood, 0 to 1.
pub(super) fn share_at(cut: usize, t: f64, turned: &Revolved, piece: &Piece) -> f64 {
    let radius = turned.meridian.radius_before(t);
    if radius <= 0.0 {
        return 1.0;
    }
    Missing::of(&Circle::new(&turned.axis, t, radius), &turned.axis, t, radius, cut, piece).present()
}

/// The share of a turn, 0 to 1.
pub(super) fn share(arcs: &Intervals) -> f64 {
    arcs.length() / TAU
}

/// The arcs of a pass's circle that find no wood, by what took it.
pub(super) struct Missing {
    pub earlier: Intervals,
    pub blank: Intervals,
    pub hollow: Intervals,
}

impl Missing {
    pub(super) fn of(circle: &Circle, axis: &Axis, t: f64, radius: f64, cut: usize, piece: &Piece) -> Self {
        let stock = &piece.solid.stock;
        let may_reach = |region: &Region| match region {
            Region::Revolved(other) => other.may_reach_disc(axis, t, radius),
            Region::Sawn(_) | Region::HalfSpace(_) => true,
        };
        let before = piece.solid.removals.iter().filter(|r| r.cut < cut && may_reach(&r.region));
        // Past the ends of the work there is nothing to clean up.
        let work = circle.between_stations(0.0, stock.length);
        let (mut earlier, mut hollow) = (Intervals::none(), Intervals::none());
        for removal in before {
            match removal.role {
                Role::Outside => earlier = earlier.union(&circle.in_region(&removal.region)),
                Role::Inside => hollow = hollow.union(&circle.in_region(&removal.region)),
                Role::Opening => {}
            }
        }
        let left = work.minus(&earlier);
        let inside = left.intersection(&circle.within_sides(stock));
        Self { earlier: work.intersection(&earlier), blank: left.minus(&inside), hollow: inside.intersection(&hollow) }
    }

    /// The share of the circle that finds wood, 0 to 1.
    pub(super) fn present(&self) -> f64 {
        1.0 - share(&self.blank) - share(&self.earlier) - share(&self.hollow)
    }
}
