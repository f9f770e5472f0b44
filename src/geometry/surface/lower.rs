//! How near the outside comes to a patch of a sheet, at least.

use super::patch::{Bend, View, Way};
use super::ring::Near;
use crate::geometry::region::Region;
use crate::geometry::revolved::{Fill, Revolved};
use crate::geometry::solid::{Role, Solid};
use crate::geometry::stock::Section;
use crate::geometry::vector::Vector;

/// `None` when no point of a patch is nearer to the outside than `enough` mm; else across which way to halve it.
///
/// Only what of the outside is in `near` is looked at. `in_stock` when only points of the patch within the stock matter.
pub(super) fn thinner_way(solid: &Solid, view: &View, enough: f64, near: Near, in_stock: bool) -> Option<Way> {
    let no_stock = !near.has_stock() || (in_stock && enough <= 0.0);
    let stock = if no_stock { None } else { of_stock(solid, view, enough) };
    let point = view.at.point;
    stock.or_else(|| {
        let outsides = solid.with_role(Role::Outside).enumerate().filter(|(place, _)| near.has(*place));
        outsides.into_iter().find_map(|(_, removal)| match &removal.region {
            Region::Revolved(pass) if pass.fill == Fill::Beyond => beyond(pass, view, enough),
            Region::HalfSpace(half) => plane(view, half.signed_distance(point), -half.into, enough),
            region => ball(view, region.signed_distance(point), enough),
        })
    })
}

/// The stock's sides and head end.
fn of_stock(solid: &Solid, view: &View, enough: f64) -> Option<Way> {
    let end = || plane(view, solid.stock.length - view.at.point.s, Vector::new(0.0, 0.0, -1.0), enough);
    sides(solid, view, enough).or_else(end)
}

/// A distance of which no more is known than that it changes no faster than the point moves.
fn ball(view: &View, distance: f64, enough: f64) -> Option<Way> {
    (distance - view.reach() < enough).then(|| view.longer())
}

/// The distance to a plane.
fn plane(view: &View, distance: f64, gradient: Vector, enough: f64) -> Option<Way> {
    tangent(view, distance, gradient, None, enough)
}

/// A distance that lies above its tangent but for the bend.
fn tangent(view: &View, distance: f64, gradient: Vector, bend: Option<&Bend>, enough: f64) -> Option<Way> {
    if distance - view.reach() >= enough {
        return None;
    }
    let (along, around) = view.fall(gradient, bend);
    (distance - along - around < enough).then_some(if along > around { Way::Along } else { Way::Around })
}

fn sides(solid: &Solid, view: &View, enough: f64) -> Option<Way> {
    let point = view.at.point;
    match solid.stock.section {
        Section::Square { half_side } => [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]
            .into_iter()
            .find_map(|(x, y)| plane(view, half_side - x * point.x - y * point.y, Vector::new(-x, -y, 0.0), enough)),
        Section::Round { radius } => {
            let off = point.radius();
            let out = Vector::new(point.x, point.y, 0.0).unit()?;
            let bend = Bend { inward: 1.0, around: Vector::new(out.y, -out.x, 0.0), radius: off };
            tangent(view, radius - off, -out, Some(&bend), enough)
        }
    }
}

/// What a pass takes lies above one straight piece of its profile or another. Of a patch outside all of it, each piece is
/// looked at by itself, because above each the region is convex in the half-plane of station and radius.
fn beyond(pass: &Revolved, view: &View, enough: f64) -> Option<Way> {
    let seen = pass.axis.see(view.at.point);
    let (t, radius) = (seen.t, seen.radius());
    let near = enough + view.reach();
    let distance = pass.signed_distance_seen_below(t, radius, near)?;
    if radius < 1e-9 {
        return ball(view, distance, enough);
    }
    let out = (pass.axis.right() * seen.right + pass.axis.up() * seen.up) * (1.0 / radius);
    let frame = Frame { along: pass.axis.along(), out, around: pass.axis.along().cross(out), radius };
    if distance <= 0.0 {
        return within(pass, view, t, distance, &frame, enough);
    }
    let chain = pass.meridian.points();
    let (first, last) = (pass.meridian.piece_at(t - near), pass.meridian.piece_at(t + near));
    let mut way = None;
    for piece in chain[first..=last + 1].windows(2) {
        let (dt, dr) = from_strip((t, radius), piece[0], piece[1]);
        let apart = dt.hypot(dr);
        if apart - view.reach() >= enough || apart <= 0.0 {
            continue;
        }
        let (along, around) = frame.fall(view, dt / apart, dr / apart);
        let low = apart - along - around;
        if low < 0.0 {
            // Inside the region pieces hide each other's depth.
            return ball(view, distance, enough);
        }
        if low < enough {
            way = Some(if along > around { Way::Along } else { Way::Around });
        }
    }
    way
}

/// A place seen from a pass's axis.
struct Frame {
    along: Vector,
    out: Vector,
    around: Vector,
    radius: f64,
}

impl Frame {
    /// How far a distance may fall over a patch that grows by these shares along the axis and away from it.
    fn fall(&self, view: &View, on_axis: f64, outward: f64) -> (f64, f64) {
        let bend = Bend { inward: (-outward).max(0.0), around: self.around, radius: self.radius };
        view.fall(self.along * on_axis + self.out * outward, Some(&bend))
    }
}

/// The step from the nearest point of the strip above one straight piece to a point below or beside it.
pub(super) fn from_strip((t, r): (f64, f64), a: (f64, f64), b: (f64, f64)) -> (f64, f64) {
    let (dt, dr) = (b.0 - a.0, b.1 - a.1);
    let low = if dt > 0.0 { (a.1, b.1) } else { (a.1.min(b.1), a.1.min(b.1)) };
    if t <= a.0 && r >= low.0 {
        return (t - a.0, 0.0);
    }
    if t >= b.0 && r >= low.1 {
        return (t - b.0, 0.0);
    }
    if dt <= 0.0 {
        return (t - a.0, r - low.0);
    }
    let part = (((t - a.0) * dt + (r - a.1) * dr) / (dt * dt + dr * dr)).clamp(0.0, 1.0);
    (t - a.0 - dt * part, r - a.1 - dr * part)
}

/// A patch whose middle the pass takes: its depth is no more than that under the straight line of the profile, or behind
/// the shoulder, that is nearest.
fn within(pass: &Revolved, view: &View, t: f64, distance: f64, frame: &Frame, enough: f64) -> Option<Way> {
    let (radius, reach, depth) = (frame.radius, view.reach(), -distance);
    let chain = pass.meridian.points();
    let ends = [(chain[0], -1.0), (chain[chain.len() - 1], 1.0)];
    let shoulder = ends.into_iter().find(|((at, edge), _)| (t - at).abs() <= depth + 1e-9 && radius - reach >= *edge);
    if let Some((_, side)) = shoulder {
        return plane(view, distance, frame.along * side, enough);
    }
    let (first, last) = (pass.meridian.piece_at(t - depth), pass.meridian.piece_at(t + depth));
    for piece in chain[first..=last + 1].windows(2) {
        let (dt, dr) = (piece[1].0 - piece[0].0, piece[1].1 - piece[0].1);
        let length = dt.hypot(dr);
        if dt <= 0.0 || length <= 2.0 * reach {
            continue;
        }
        let (dt, dr) = (dt / length, dr / length);
        let (from_t, from_r) = (t - piece[0].0, radius - piece[0].1);
        let (along, above) = (from_t * dt + from_r * dr, from_r * dt - from_t * dr);
        if (above - depth).abs() < 1e-9 && along >= reach && along <= length - reach {
            let (along, around) = frame.fall(view, dr, -dt);
            return (distance - along - around < enough).then_some(if along > around {
                Way::Along
            } else {
                Way::Around
            });
        }
    }
    ball(view, distance, enough)
}
