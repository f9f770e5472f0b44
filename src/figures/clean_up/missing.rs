//! What of a pass's circle finds no wood, and why.

use std::f64::consts::TAU;

use super::turned::Turned;
use crate::geometry::{Circle, Intervals, Region, Role};

/// The share of a pass's circle at a station that meets wood or that others of its part shape, 0 to 1.
pub(super) fn share_at(pass: &Turned<'_>, t: f64) -> f64 {
    let radius = pass.region.meridian.radius_before(t);
    if radius <= 0.0 {
        return 1.0;
    }
    Missing::of(&Circle::new(&pass.region.axis, t, radius), t, radius, pass).present()
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
    /// What other passes of the same part shape: not missing, whatever else took it.
    pub shared: Intervals,
}

impl Missing {
    pub(super) fn of(circle: &Circle, t: f64, radius: f64, pass: &Turned<'_>) -> Self {
        let stock = &pass.piece.solid.stock;
        let may_reach = |region: &Region| match region {
            Region::Revolved(other) => other.may_reach_disc(&pass.region.axis, t, radius),
            Region::Sawn(_) | Region::HalfSpace(_) => true,
        };
        let before = pass.before().filter(|r| may_reach(&r.region));
        let mates = pass.mates().filter(|mate| may_reach(&mate.region));
        let taken = mates.fold(Intervals::none(), |all, mate| all.union(&circle.in_region(&mate.region)));
        // Past the ends of the work there is nothing to clean up.
        let within = circle.between_stations(0.0, stock.length);
        let shared = within.intersection(&taken);
        let work = within.minus(&taken);
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
        Self {
            earlier: work.intersection(&earlier),
            blank: left.minus(&inside),
            hollow: inside.intersection(&hollow),
            shared,
        }
    }

    /// The share of the circle that finds wood or that others of its part shape, 0 to 1.
    pub(super) fn present(&self) -> f64 {
        1.0 - share(&self.blank) - share(&self.earlier) - share(&self.hollow)
    }
}
