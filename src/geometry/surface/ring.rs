//! How near the outside comes to a ring of a sheet, at least: whole rows at once where a hollow and its outside turn about
//! one line.

use super::coaxial::on_one_line;
use super::kept::HollowSurface;
use super::lower::from_strip;
use super::near::Near;
use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Revolved};
use crate::geometry::region::solid::Role;
use crate::geometry::region::stock::{Section, Stock};
use kurbo::Vec2;

/// A ring: where its meridian turns or ends, as `(t, r)` in mm, and a place in its middle.
struct Ring<'a> {
    axis: &'a Axis,
    turns: Vec<Station>,
    middle: Station,
}

/// A ring is looked at in so many narrower ones.
const PARTS: u32 = 4;

impl HollowSurface<'_> {
    /// What of the outside may be nearer than `enough` mm to a point of the sheet between two lengths along the meridian,
    /// all around: of the whole, or of its narrower parts where that says more.
    #[must_use]
    pub fn near_around(&self, from: f64, to: f64, enough: f64) -> Near {
        let whole = self.near_ring(from, to, enough);
        if whole.is_none() {
            return whole;
        }
        let at = |part: u32| from + (to - from) * f64::from(part) / f64::from(PARTS);
        Near((0..PARTS).fold(0, |near, part| near | self.near_ring(at(part), at(part + 1), enough).0))
    }

    fn near_ring(&self, from: f64, to: f64, enough: f64) -> Near {
        let sheet = &self.sheet;
        let mut turns = vec![sheet.at(from), sheet.at(to)];
        turns.extend_from_slice(sheet.corners_between(from, to));
        let ring = Ring { axis: &sheet.hollow().axis, turns, middle: sheet.at(f64::midpoint(from, to)) };
        let mut near = if ring.to_stock(&self.solid.stock) >= enough { 0 } else { Near::STOCK };
        for (place, removal) in self.solid.with_role(Role::Outside).enumerate() {
            let is_thick = match &removal.region {
                Region::Revolved(pass) if pass.fill == Fill::Beyond => ring.is_thick(pass, enough),
                Region::HalfSpace(half) => ring.plane(half.offset, -half.into) >= enough,
                _ => false,
            };
            if !is_thick {
                near |= Near::of(place);
            }
        }
        Near(near)
    }
}

impl Ring<'_> {
    /// The least of what falls evenly with the radius and the way from a line, over the corners of the meridian.
    fn least(&self, value: impl Fn(Vector, f64) -> f64) -> f64 {
        self.turns.iter().map(|Station { t, r }| value(self.axis.point(*t, 0.0, 0.0), *r)).fold(f64::INFINITY, f64::min)
    }

    /// The least of `offset` and the way along `slope`, of length 1. Exact.
    fn plane(&self, offset: f64, slope: Vector) -> f64 {
        let lean = slope.cross(self.axis.along()).length();
        self.least(|centre, r| offset + centre.dot(slope) - r * lean)
    }

    /// The least distance to the stock's sides and head end, or less.
    fn to_stock(&self, stock: &Stock) -> f64 {
        let end = self.plane(stock.length, Vector::new(0.0, 0.0, -1.0));
        let sides = match stock.section {
            Section::Square { half_side } => [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]
                .map(|(x, y)| self.plane(half_side, Vector::new(-x, -y, 0.0)))
                .into_iter()
                .fold(f64::INFINITY, f64::min),
            Section::Round { radius } => self.least(|centre, r| radius - centre.radius() - r),
        };
        end.min(sides)
    }

    /// Whether a pass stays at least `enough` mm away all around. May say no where it does.
    fn is_thick(&self, pass: &Revolved, enough: f64) -> bool {
        let Station { t, r } = self.middle;
        let centre = self.axis.point(t, 0.0, 0.0);
        let ball = self.turns.iter().map(|turn| (turn.t - t).hypot(turn.r)).fold(r, f64::max);
        if pass.signed_distance_below(centre, enough + ball).is_none() {
            return true;
        }
        if !on_one_line(self.axis, &pass.axis) {
            return false;
        }
        let forward = self.axis.along().dot(pass.axis.along()).signum();
        let t = pass.axis.see(centre).t;
        if pass.contains_seen(t, r) {
            return false;
        }
        let steps = self.turns.iter().map(|turn| ((turn.t - self.middle.t) * forward, turn.r - r));
        let reach = steps.clone().map(|step| step.0.hypot(step.1)).fold(0.0, f64::max);
        let near = (enough + reach).max(0.0);
        let (first, last) = (pass.meridian.piece_at(t - near), pass.meridian.piece_at(t + near));
        pass.meridian.points()[first..=last + 1].windows(2).all(|piece| {
            let Vec2 { x: dt, y: dr } = from_strip(Station::new(t, r), piece[0], piece[1]);
            let apart = dt.hypot(dr);
            let fall = steps.clone().map(|step| (step.0 * dt + step.1 * dr) / apart).fold(0.0, f64::min);
            apart > 0.0 && (apart >= near || apart + fall >= enough.max(0.0))
        })
    }
}
