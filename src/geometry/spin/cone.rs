//! A piece of a cone seen from another axis, and a box around some wood.

use kurbo::Vec2;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::frame::tolerance::{FLAT, ROUNDING_MM, SAME_MM};
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::keep::{Face, Keep};
use crate::geometry::region::near_half::ArcBound;
use crate::geometry::region::revolved::Ray;
use crate::geometry::region::turned::{Side, Slab};

/// A piece this close to a stretch of the axis counts as in it, in mm.
const BESIDE: f64 = 1e-7;

/// A box around the wood.
pub(crate) struct Bounds {
    half: f64,
    from: f64,
    to: f64,
}

impl Bounds {
    pub fn of(keeps: &[Keep<'_>]) -> Option<Self> {
        keeps.iter().find_map(|keep| match keep {
            Keep::Bar(stock) => Some(Self { half: stock.half_width(), from: 0.0, to: stock.length }),
            Keep::Turned(turned) => {
                let (half, from, to) = turned.body_bounds()?;
                Some(Self { half, from, to })
            }
            _ => None,
        })
    }

    /// The first station of an axis at which there may be wood.
    fn first_station(&self, axis: &Axis) -> f64 {
        let along = axis.along();
        let middle = Vector::new(0.0, 0.0, f64::midpoint(self.from, self.to));
        let reach = self.half * (along.x.abs() + along.y.abs()) + along.s.abs() * (self.to - self.from) / 2.0;
        axis.see(middle).t - reach
    }

    pub fn meets(&self, face: &Face) -> bool {
        let n = face.normal;
        let middle = n.s * f64::midpoint(self.from, self.to);
        let reach = self.half * (n.x.abs() + n.y.abs()) + n.s.abs() * (self.to - self.from) / 2.0;
        (face.offset - middle).abs() <= reach + SAME_MM
    }

    /// The part of a line in the box and a hair around it, from place 0 to 1.
    pub fn within(&self, ray: Ray) -> Option<Ray> {
        let (p, d) = (ray.start, ray.direction);
        let mut part = (f64::NEG_INFINITY, f64::INFINITY);
        for (value, slope, low, high) in
            [(p.x, d.x, -self.half, self.half), (p.y, d.y, -self.half, self.half), (p.s, d.s, self.from, self.to)]
        {
            let (low, high) = (low - SAME_MM, high + SAME_MM);
            if slope.abs() < FLAT {
                if value < low || value > high {
                    return None;
                }
                continue;
            }
            let (a, b) = ((low - value) / slope, (high - value) / slope);
            part = (part.0.max(a.min(b)), part.1.min(a.max(b)));
        }
        (part.0 < part.1 && (part.1 - part.0).is_finite())
            .then(|| Ray { start: ray.at(part.0), direction: d * (part.1 - part.0) })
    }
}

/// A piece of a cone about an axis, seen from the axis that the wood turns about.
pub(crate) struct Cone<'a> {
    pub axis: &'a Axis,
    side: Side,
    pub ends: [End; 2],
    /// Of one mm to the right of the cone's axis, and of one up from it: what shows square to the axis of the turn.
    right: Vec2,
    up: Vec2,
    /// The direction in which its farther circle is farthest, or about.
    pub first_clock: f64,
    /// Of the squared distance of a point at radius r, the second harmonic's amplitude over r^2.
    second: f64,
}

/// One of its circles.
#[derive(Clone, Copy)]
pub(crate) struct End {
    t: f64,
    radius: f64,
    /// The centre, square to the axis of the turn.
    centre: Vec2,
    /// No point of the circle has a greater squared distance.
    pub most_sq: f64,
}

impl<'a> Cone<'a> {
    /// `None` when it lies outside the stretch that is searched.
    pub fn new(axis: &'a Axis, slab: &Slab, bounds: &Bounds, about: &Axis, range: (f64, f64)) -> Option<Self> {
        let lean = axis.along().cross(about.along()).length();
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        // An open mouth goes on past the wood.
        let from = if slab.from.is_finite() { slab.from } else { bounds.first_station(axis) - 1.0 };
        let stations = [from.min(slab.to), slab.to];
        let ends = stations.map(|t| {
            let (seen, radius) = (about.see(axis.point(t, 0.0, 0.0)), slab.radius(t).max(0.0));
            (low, high) = (low.min(seen.t - radius * lean), high.max(seen.t + radius * lean));
            let most_sq = (seen.radius() + radius).powi(2);
            End { t, radius, centre: Vec2::new(seen.right, seen.up), most_sq }
        });
        if high < range.0 - BESIDE || low > range.1 + BESIDE {
            return None;
        }
        let square_to = |direction: Vector| Vec2::new(direction.dot(about.right()), direction.dot(about.up()));
        let (right, up) = (square_to(axis.right()), square_to(axis.up()));
        let uneven = (up.x * up.x + up.y * up.y - right.x * right.x - right.y * right.y) / 2.0;
        let second = uneven.hypot(up.x * right.x + up.y * right.y);
        let end = if ends[1].most_sq > ends[0].most_sq { ends[1] } else { ends[0] };
        let toward = |d: Vec2| end.centre.x * d.x + end.centre.y * d.y;
        let away = (toward(right), toward(up));
        let first_clock = if away.0.hypot(away.1) > ROUNDING_MM { away.0.atan2(away.1) } else { 0.0 };
        Some(Self { axis, side: slab.side, ends, right, up, first_clock, second })
    }

    pub fn largest_radius(&self) -> f64 {
        self.ends[0].radius.max(self.ends[1].radius)
    }

    /// Points whose hull holds all between two places along the cone and two clock directions.
    pub fn bound(&self, places: (f64, f64), clocks: (f64, f64)) -> [Vector; 6] {
        let [a, b] = &self.ends;
        let ring = |place: f64| Station::new(a.t + (b.t - a.t) * place, a.radius + (b.radius - a.radius) * place);
        let arc = ArcBound::new(clocks);
        let [p, q] = [places.0, places.1].map(|place| arc.of(self.axis, ring(place)));
        [p[0], p[1], p[2], q[0], q[1], q[2]]
    }

    /// The line up the cone in a clock direction, from place 0 to 1, moved into the wood.
    pub fn line(&self, clock: f64, into: f64) -> Ray {
        self.line_at(clock.sin_cos(), into)
    }

    /// As [`Self::line`], in a clock direction given by its sine and cosine.
    pub fn line_at(&self, clock: (f64, f64), into: f64) -> Ray {
        let into = if self.side == Side::Over { into } else { -into };
        let [start, end] = self.ends.map(|end| self.axis.point_at(end.t, (end.radius + into).max(0.0), clock));
        Ray { start, direction: end - start }
    }

    /// No squared distance is more on the arc of `width` at a place along the cone, which ends in two directions given by
    /// sine and cosine: between its ends it leaves its chord by no more than its second derivative allows.
    pub fn most_sq(&self, place: f64, sides: [(f64, f64); 2], width: f64) -> f64 {
        let [a, b] = &self.ends;
        let mix = |p: f64, q: f64| p + (q - p) * place;
        let (radius, centre) = (mix(a.radius, b.radius), (mix(a.centre.x, b.centre.x), mix(a.centre.y, b.centre.y)));
        let at = |(sin, cos): (f64, f64)| {
            let x = centre.0 + radius * (self.right.x * sin + self.up.x * cos);
            let y = centre.1 + radius * (self.right.y * sin + self.up.y * cos);
            x * x + y * y
        };
        let toward = |d: Vec2| centre.0 * d.x + centre.1 * d.y;
        let bend = 2.0 * radius * toward(self.right).hypot(toward(self.up)) + 4.0 * radius * radius * self.second;
        at(sides[0]).max(at(sides[1])) + bend * width * width / 8.0
    }
}
