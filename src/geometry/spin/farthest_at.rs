//! The farthest wood in the plane square to an axis at one station.

use std::f64::consts::TAU;

use crate::geometry::frame::vector::Vector;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::Fill;
use crate::geometry::spin::around::{AT_MM, Around};
use crate::geometry::spin::circle::Circle;
use crate::geometry::spin::farthest::farthest_within;
use crate::geometry::spin::turning::{Farthest, Spin};

/// Across that stretch the farthest wood changes by less than this, but for steps, in mm.
const IN_PLANE_MM: f64 = 1e-3;
/// Directions looked along beside one that was found, in radians: the point may lie just past what ends the wood there.
const BESIDE: [f64; 9] = [0.0, 1e-9, -1e-9, 1e-8, -1e-8, 1e-7, -1e-7, 1e-6, -1e-6];
/// A point is looked at this share of its distance from the axis, so that it is not on the surface itself.
const WITHIN: f64 = 1.0 - 1e-9;
/// A point of a cut's surface is moved toward that cut's axis by this share of its distance from it, into the wood.
const INWARD: f64 = 1e-7;

impl Spin<'_> {
    /// The farthest wood at station `t`, as [`Around::farthest`] has it.
    ///
    /// Mostly it is a corner of the bar, or the farthest point of what one cut keeps, and then nothing else is looked at.
    #[must_use]
    pub fn farthest_at(&self, t: f64) -> Option<Farthest> {
        let around = self.at_unlooked(t);
        around.farthest_of_one().or_else(|| {
            let found = self.farthest_between(t - AT_MM, t + AT_MM)?.farthest;
            Some(around.in_plane(found).unwrap_or(found))
        })
    }
}

impl Around<'_> {
    /// The end of the wood in this very plane at the farthest of those right beside it; `None` where it leaps at a step.
    fn in_plane(&self, found: Farthest) -> Option<Farthest> {
        let ends = BESIDE.map(|turn| (self.outward(found.clock + turn).last_end().unwrap_or(0.0), found.clock + turn));
        let (radius, clock) = ends.into_iter().max_by(|a, b| a.0.total_cmp(&b.0))?;
        let farthest = Farthest { radius, clock: clock.rem_euclid(TAU), ..found };
        (radius > found.radius - IN_PLANE_MM).then_some(farthest)
    }

    /// The farthest point of one set that all the wood here lies within, when that point is wood.
    fn farthest_of_one(&self) -> Option<Farthest> {
        if self.plug.is_some() || self.is_step {
            return None;
        }
        let (reach, t) = (self.reach, self.axis.see(self.centre).t);
        let mut farthest: Option<(Farthest, Vector)> = None;
        let mut take = |radius: f64, point: Vector, is_edge: bool| {
            if farthest.is_none_or(|known| radius < known.0.radius) {
                let seen = self.axis.see(point);
                let clock = seen.clock().rem_euclid(TAU);
                farthest = Some((Farthest { radius, clock, is_edge }, point));
            }
        };
        // A plane cuts a square bar in a polygon with its corners on the bar's edges.
        let mut corner: Option<(f64, f64)> = None;
        self.edges(&mut |right, up| {
            if corner.is_none_or(|known| right.hypot(up) > known.0.hypot(known.1)) {
                corner = Some((right, up));
            }
        });
        if let Some((right, up)) = corner {
            let point = self.centre + (self.axis.right() * right + self.axis.up() * up) * WITHIN;
            take(right.hypot(up), point, true);
        }
        if self.own.1.is_finite() {
            let wood = Circle::new(self.axis, t, self.own.1 * WITHIN).in_wood(&self.state);
            let widest = wood.iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
            if let Some((from, to)) = widest {
                take(self.own.1, self.axis.point(t, self.own.1 * WITHIN, f64::midpoint(from, to)), false);
            }
        }
        for cut in &self.cuts {
            let Region::Revolved(cut) = &cut.region else { continue };
            let station = cut.axis.see(self.centre).t;
            let lean = reach * cut.axis.along().cross(self.axis.along()).length();
            let (from, to) = (cut.meridian.start() + AT_MM, cut.meridian.end() - AT_MM);
            let covers = from <= station - lean && station + lean <= to;
            if cut.fill != Fill::Beyond || !covers {
                continue;
            }
            if let Some(found) = farthest_within(self.axis, t, cut) {
                let inward = cut.axis.point(cut.axis.see(found.inside).t, 0.0, 0.0) - found.inside;
                take(found.distance, found.inside + inward * INWARD, false);
            }
        }
        let (farthest, _) = farthest.filter(|(_, point)| self.state.contains(*point))?;
        if farthest.is_edge { Some(farthest) } else { self.in_plane(farthest) }
    }

    /// The farthest wood from the axis; `None` where there is none. Proven: none is
    /// farther by more than 0.0001 mm, but for what is thinner than that.
    #[must_use]
    pub fn farthest(&self) -> Option<Farthest> {
        let spin = Spin::new(self.state, self.axis);
        spin.farthest_at(self.axis.see(self.centre).t)
    }
}
