//! Whether a straight taper keeps clear of a solid between two of its stations.

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::region::envelope::{is_past, same_line};
use crate::geometry::region::revolved::{Fill, Revolved};

/// A solid, and how far to stay away from it.
#[derive(Clone, Copy, Debug)]
pub struct Clearance<'a> {
    solid: &'a Revolved,
    gap_mm: f64,
}

impl<'a> Clearance<'a> {
    /// The same gap, in mm, around each of several solids.
    pub fn all(solids: &'a [&'a Revolved], gap_mm: f64) -> impl Iterator<Item = Self> {
        solids.iter().map(move |solid| Self { solid, gap_mm: gap_mm.max(0.0) })
    }

    /// Whether the cone about an axis between two circles, `(t, radius)` in mm, keeps the gap to within `short_mm`
    /// when both circles keep it. Conservative: may return false for a cone that keeps it.
    ///
    /// About the solid's own line the distance from the taper to the outline is exact. Elsewhere: of two points at least
    /// `gap` from a third, those on the line between are at least `sqrt(gap^2 - length^2 / 4)` from it.
    #[must_use]
    pub fn keeps_along(&self, about: &Axis, from: Station, to: Station, short_mm: f64) -> bool {
        let least = self.gap_mm - short_mm;
        if least <= 0.0 {
            return true;
        }
        if same_line(about, &self.solid.axis) && self.solid.fill != Fill::Beyond {
            let seen = |it: Station| Station { t: self.solid.axis.see(about.point(it.t, 0.0, 0.0)).t, ..it };
            let (from, to) = (seen(from), seen(to));
            return if from.t < to.t { self.clears(from, to, least) } else { self.clears(to, from, least) };
        }
        let is_past = |t: f64| is_past(about, t, self.solid, self.gap_mm);
        let length = (to.t - from.t).hypot(to.r - from.r);
        (is_past(from.t) && is_past(to.t)) || length * length / 4.0 <= self.gap_mm * self.gap_mm - least * least
    }

    /// Whether every corner of the outline lies under the line or beside it, and at least so far from it. The ends of the
    /// line are far enough as they are, and so then is all of it.
    fn clears(&self, from: Station, to: Station, least: f64) -> bool {
        let meridian = &self.solid.meridian;
        let chain = meridian.points();
        let first = chain.partition_point(|corner| corner.t < from.t - self.gap_mm);
        let near = chain[first..].iter().take_while(|corner| corner.t <= to.t + self.gap_mm);
        let on_axis = [meridian.start(), meridian.end()].map(|t| Station::new(t, 0.0));
        near.chain(&on_axis).all(|corner| {
            let (dt, dr) = (to.t - from.t, to.r - from.r);
            let (t, r) = (corner.t - from.t, corner.r - from.r);
            let is_over = (0.0..=dt).contains(&t) && r * dt > t * dr;
            let part = ((t * dt + r * dr) / (dt * dt + dr * dr)).clamp(0.0, 1.0);
            !is_over && (t - dt * part).hypot(r - dr * part) >= least
        })
    }
}
