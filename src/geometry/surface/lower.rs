//! How near the outside comes to a patch of a sheet, at least.

use kurbo::Vec2;
use smallvec::SmallVec;

use super::escape::{Escapes, line_under};
use super::near::Near;
use super::patch::{Bend, Tangent, View, Way};
use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Revolved};
use crate::geometry::region::solid::{Role, Solid};
use crate::geometry::region::stock::Section;

/// A patch, and what of the outside may be nearer to it than `enough` mm.
pub(super) struct Lower<'a, 'b> {
    pub solid: &'a Solid,
    pub view: &'b View,
    /// What is not nearer than this, in mm, does not matter.
    pub enough: f64,
    /// Only these parts of the outside are looked at.
    pub near: Near,
    /// Whether only points of the patch within the stock matter.
    pub in_stock: bool,
    /// What of the patch matters at all.
    pub escapes: &'b Escapes<'a, 'b>,
}

impl Lower<'_, '_> {
    /// `None` when no point of the patch that is left is nearer to the outside than `enough`; else across which way to halve
    /// it.
    pub(super) fn thinner_way(&self) -> Option<Way> {
        let no_stock = !self.near.has_stock() || (self.in_stock && self.enough <= 0.0);
        let stock = if no_stock { None } else { self.of_stock() };
        let point = self.view.at.point;
        stock.or_else(|| {
            let outsides = self.solid.with_role(Role::Outside).enumerate().filter(|(place, _)| self.near.has(*place));
            outsides.into_iter().find_map(|(_, removal)| match &removal.region {
                Region::Revolved(pass) if pass.fill == Fill::Beyond => self.beyond(pass),
                Region::HalfSpace(half) => self.plane(half.signed_distance(point), -half.into),
                region => self.ball(region.signed_distance(point)),
            })
        })
    }

    /// The stock's sides and head end.
    fn of_stock(&self) -> Option<Way> {
        let end = || self.plane(self.solid.stock.length - self.view.at.point.s, Vector::new(0.0, 0.0, -1.0));
        self.sides().or_else(end)
    }

    fn sides(&self) -> Option<Way> {
        let point = self.view.at.point;
        match self.solid.stock.section {
            Section::Square { half_side } => [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]
                .into_iter()
                .find_map(|(x, y)| self.plane(half_side - x * point.x - y * point.y, Vector::new(-x, -y, 0.0))),
            Section::Round { radius } => {
                let off = point.radius();
                let out = Vector::new(point.x, point.y, 0.0).unit()?;
                let bend = Bend { inward: 1.0, out, around: Vector::new(out.y, -out.x, 0.0), radius: off };
                self.over(radius - off, || Tangent::bent(radius - off, -out, bend))
            }
        }
    }

    /// A distance of which no more is known than that it changes no faster than the point moves.
    fn ball(&self, distance: f64) -> Option<Way> {
        (distance - self.view.reach() < self.enough).then(|| self.view.longer())
    }

    /// The distance to a plane.
    fn plane(&self, distance: f64, gradient: Vector) -> Option<Way> {
        self.over(distance, || Tangent::plane(distance, gradient))
    }

    /// A distance that lies above its tangent.
    fn over(&self, distance: f64, tangent: impl FnOnce() -> Tangent) -> Option<Way> {
        if distance - self.view.reach() >= self.enough {
            return None;
        }
        let tangent = tangent();
        let (low, way) = self.view.least(&tangent);
        (low < self.enough && !self.is_left_above(&tangent, self.enough)).then_some(way)
    }

    /// Whether all that is left of the patch is at least so far, in mm.
    fn is_left_above(&self, tangent: &Tangent, enough: f64) -> bool {
        self.escapes.any(|escape| {
            let least = |ways: &SmallVec<[Tangent; 3]>| {
                ways.iter().all(|depth| least_left(self.view, tangent, depth).is_some_and(|least| least >= enough))
            };
            least(escape)
        })
    }

    /// What a pass takes lies above one straight piece of its profile or another. Of a patch outside all of it, each piece is
    /// looked at by itself, because above each the region is convex in the half-plane of station and radius.
    fn beyond(&self, pass: &Revolved) -> Option<Way> {
        let (view, enough) = (self.view, self.enough);
        let seen = pass.axis.see(view.at.point);
        let (t, radius) = (seen.t, seen.radius());
        let near = enough + view.reach();
        let distance = pass.signed_distance_seen_below(t, radius, near)?;
        if radius < 1e-9 {
            return self.ball(distance);
        }
        let out = (pass.axis.right() * seen.right + pass.axis.up() * seen.up) * (1.0 / radius);
        let frame = Frame { along: pass.axis.along(), out, around: pass.axis.along().cross(out), t, radius };
        if distance <= 0.0 {
            return self.within(pass, distance, &frame);
        }
        let chain = pass.meridian.points();
        let (first, last) = (pass.meridian.piece_at(t - near), pass.meridian.piece_at(t + near));
        let mut found = None;
        for piece in chain[first..=last + 1].windows(2) {
            let Vec2 { x: dt, y: dr } = from_strip(Station::new(t, radius), piece[0], piece[1]);
            let apart = dt.hypot(dr);
            if apart - view.reach() >= enough || apart <= 0.0 {
                continue;
            }
            let tangent = frame.tangent(apart, dt / apart, dr / apart);
            let (low, way) = view.least(&tangent);
            if low >= enough.max(0.0) || self.is_left_above(&tangent, enough.max(0.0)) {
                continue;
            }
            if low < 0.0 {
                // Inside the region pieces hide each other's depth.
                return self.under_line(pass, distance, &frame);
            }
            if low < enough {
                found = Some(way);
            }
        }
        found
    }

    /// A patch whose middle the pass takes: its depth is no more than that under the straight line of the profile, or
    /// behind the shoulder, that is nearest.
    fn within(&self, pass: &Revolved, distance: f64, frame: &Frame) -> Option<Way> {
        let (radius, t, reach, depth) = (frame.radius, frame.t, self.view.reach(), -distance);
        let chain = pass.meridian.points();
        let ends = [(chain[0], -1.0), (chain[chain.len() - 1], 1.0)];
        let shoulder = ends
            .into_iter()
            .find(|(Station { t: at, r: edge }, _)| (t - at).abs() <= depth + 1e-9 && radius - reach >= *edge);
        if let Some((_, side)) = shoulder {
            return self.plane(distance, frame.along * side);
        }
        if depth - reach < self.enough {
            // Past the line the depth counts from its other side.
            return self.under_line(pass, distance, frame);
        }
        let (first, last) = (pass.meridian.piece_at(t - depth), pass.meridian.piece_at(t + depth));
        for piece in chain[first..=last + 1].windows(2) {
            let (dt, dr) = (piece[1].t - piece[0].t, piece[1].r - piece[0].r);
            let length = dt.hypot(dr);
            if length <= 2.0 * reach {
                continue;
            }
            let (dt, dr) = (dt / length, dr / length);
            let (from_t, from_r) = (t - piece[0].t, radius - piece[0].r);
            let (along, above) = (from_t * dt + from_r * dr, from_r * dt - from_t * dr);
            if (above - depth).abs() < 1e-9 && along >= reach && along <= length - reach {
                return self.over(distance, || frame.tangent(distance, dr, -dt));
            }
        }
        self.under_line(pass, distance, frame)
    }

    /// A patch that a pass may take: what lies under a line that the profile nowhere falls below is not taken, and what lies
    /// over it no deeper than that.
    fn under_line(&self, pass: &Revolved, distance: f64, frame: &Frame) -> Option<Way> {
        let (t, reach) = (frame.t, self.view.reach());
        let ball = self.ball(distance)?;
        // From the patch to the line it is no farther than this.
        let far = reach - self.enough;
        let (low, high) = (t - reach - far, t + reach + far);
        if self.enough > 0.0 || low >= pass.meridian.end() || high <= pass.meridian.start() {
            return Some(ball);
        }
        let pieces = &pass.meridian.points()[pass.meridian.piece_at(low)..=pass.meridian.piece_at(high) + 1];
        let (line, slope) = line_under(pieces, t, (low, high));
        let scale = 1.0 / slope.hypot(1.0);
        let value = (line - frame.radius) * scale;
        self.over(value, || frame.tangent(value, slope * scale, -scale)).map(|_| ball)
    }
}

/// The least of one distance over the points of a patch where another is negative, in mm, or less; `None` where nothing
/// can be said.
///
/// There the sum of the first and any multiple of the second is less than the first. The multiples tried are those of which
/// the sum does not change along the meridian or around the axis: the least of linear distances over a rectangle is met at
/// one of them.
fn least_left(view: &View, tangent: &Tangent, depth: &Tangent) -> Option<f64> {
    let multiple = |way: Vector| -tangent.gradient.dot(way) / depth.gradient.dot(way);
    let multiples = view.directions().map(multiple).into_iter().filter(|by| by.is_finite() && *by > 0.0);
    multiples.filter_map(|by| view.least_of_sum(&tangent.plus(depth, by))).reduce(f64::max)
}

/// A place seen from a pass's axis.
struct Frame {
    along: Vector,
    out: Vector,
    around: Vector,
    t: f64,
    radius: f64,
}

impl Frame {
    /// A distance that grows by these shares along the axis and away from it.
    fn tangent(&self, distance: f64, on_axis: f64, outward: f64) -> Tangent {
        let bend = Bend { inward: (-outward).max(0.0), out: self.out, around: self.around, radius: self.radius };
        Tangent::bent(distance, self.along * on_axis + self.out * outward, bend)
    }
}

/// The step from the nearest point of the strip above one straight piece to a point below or beside it.
pub(super) fn from_strip(Station { t, r }: Station, a: Station, b: Station) -> Vec2 {
    let (dt, dr) = (b.t - a.t, b.r - a.r);
    let low = if dt > 0.0 { (a.r, b.r) } else { (a.r.min(b.r), a.r.min(b.r)) };
    if t <= a.t && r >= low.0 {
        return Vec2::new(t - a.t, 0.0);
    }
    if t >= b.t && r >= low.1 {
        return Vec2::new(t - b.t, 0.0);
    }
    if dt <= 0.0 {
        return Vec2::new(t - a.t, r - low.0);
    }
    let part = (((t - a.t) * dt + (r - a.r) * dr) / (dt * dt + dr * dr)).clamp(0.0, 1.0);
    Vec2::new(t - a.t - dt * part, r - a.r - dr * part)
}
