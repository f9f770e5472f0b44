//! The stretches of a circle that lie in a region. A circle about one axis meets a cone about another where a
//! trigonometric polynomial of degree 2 is zero, and a plane where one of degree 1 is.

use std::f64::consts::TAU;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::pace::spend;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Revolved};
use crate::geometry::region::sawn::Sawn;
use crate::geometry::region::solid::State;
use crate::geometry::region::stock::{Section, Stock};
use crate::geometry::spin::wave::Wave;

/// A circle square to an axis with its centre on it. Its points go by the clock around the axis, in radians from 0
/// to a whole turn, and sets of them by stretches of that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    centre: Vector,
    /// From the centre to clock 0, and to a quarter past it.
    up: Vector,
    right: Vector,
    axis: Axis,
    t: f64,
    radius: f64,
}

/// Stations along another axis that vary by less than this around the circle are one, in mm.
const STEADY: f64 = 1e-9;

impl Circle {
    /// The circle at station `t` of an axis with a radius in mm.
    #[must_use]
    pub fn new(axis: &Axis, t: f64, radius: f64) -> Self {
        let (up, right) = (axis.up() * radius, axis.right() * radius);
        Self { centre: axis.point(t, 0.0, 0.0), up, right, axis: *axis, t, radius }
    }

    /// Its point at a clock direction.
    #[must_use]
    pub fn at(&self, clock: f64) -> Vector {
        self.axis.point(self.t, self.radius, clock)
    }

    /// How a coordinate along a direction varies around it.
    pub(crate) fn along(&self, direction: Vector) -> Wave {
        Wave::linear(self.centre.dot(direction), self.up.dot(direction), self.right.dot(direction))
    }

    /// How the squared distance from an axis varies around it.
    pub(crate) fn distance_sq(&self, axis: &Axis) -> Wave {
        let across = |direction: Vector| self.along(direction).raised(-axis.origin().dot(direction)).squared();
        across(axis.right()).plus(across(axis.up()), 1.0)
    }

    /// The arcs where a coordinate along a direction is from `low` to `high`.
    fn between(&self, wave: Wave, low: f64, high: f64) -> Intervals {
        let mut arcs = if high < f64::INFINITY { wave.raised(-high).not_positive() } else { whole() };
        if low > f64::NEG_INFINITY {
            arcs = arcs.intersection(&Wave::default().plus(wave, -1.0).raised(low).not_positive());
        }
        arcs
    }

    /// The arcs between the sides of stock; its ends do not count.
    #[must_use]
    pub fn within_sides(&self, stock: &Stock) -> Intervals {
        match stock.section {
            Section::Square { half_side } => {
                let [x, y] = [Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0)]
                    .map(|side| self.between(self.along(side), -half_side, half_side));
                x.intersection(&y)
            }
            Section::Round { radius } => self.distance_sq(&Axis::A).raised(-radius * radius).not_positive(),
        }
    }

    /// The most by which it passes the sides of stock from one clock direction to another, in mm: negative inside them. Exact.
    #[must_use]
    pub fn most_over_sides(&self, stock: &Stock, from: f64, to: f64) -> f64 {
        match stock.section {
            Section::Square { half_side } => {
                let most = |out: Vector| self.along(out).most_between(from, to).0 - half_side;
                let (x, y) = (Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0));
                [x, -x, y, -y].map(most).into_iter().fold(f64::NEG_INFINITY, f64::max)
            }
            Section::Round { radius } => self.distance_sq(&Axis::A).most_between(from, to).0.max(0.0).sqrt() - radius,
        }
    }

    /// The arcs between two stations of the blank.
    #[must_use]
    pub fn between_stations(&self, low: f64, high: f64) -> Intervals {
        self.between(self.along(Axis::A.along()), low, high)
    }

    /// The arcs in a region. Exact to 1e-9 rad for flattened profiles.
    #[must_use]
    pub fn in_region(&self, region: &Region) -> Intervals {
        match region {
            Region::Revolved(revolved) => self.in_revolved(revolved),
            Region::Sawn(sawn) => self.above(sawn),
            Region::HalfSpace(half) => self.between(self.along(half.into), half.offset, f64::INFINITY),
        }
    }

    fn in_revolved(&self, revolved: &Revolved) -> Intervals {
        let axis = &revolved.axis;
        let station = self.along(axis.along()).raised(-axis.origin().dot(axis.along()));
        let sway = station.amplitudes().0;
        let (low, high) = (station.mean - sway, station.mean + sway);
        let (from, to) = revolved.span();
        if high < from || low > to {
            return Intervals::none();
        }
        let distance_sq = self.distance_sq(axis);
        let (first, second) = distance_sq.amplitudes();
        if sway < STEADY && first + second < STEADY {
            let inside = revolved.contains_seen(station.mean, distance_sq.mean.max(0.0).sqrt());
            return if inside { whole() } else { Intervals::none() };
        }
        let beyond = revolved.fill == Fill::Beyond;
        let side = if beyond { -1.0 } else { 1.0 };
        let under = |line: Wave| Wave::default().plus(distance_sq, side).plus(line.squared(), -side).not_positive();
        let points = revolved.meridian.points();
        let mut arcs = Intervals::none();
        if revolved.fill == Fill::WithinOpen && low <= points[0].t {
            let mouth = under(Wave::linear(points[0].r, 0.0, 0.0));
            arcs = mouth.intersection(&self.between(station, f64::NEG_INFINITY, points[0].t));
        }
        if high < points[0].t {
            return arcs;
        }
        let (first, last) = (revolved.meridian.piece_at(low), revolved.meridian.piece_at(high));
        // The roots of a polynomial of the fourth degree.
        spend(48 * (last + 1 - first));
        for pair in points[first..=last + 1].windows(2).filter(|pair| pair[1].t > pair[0].t) {
            let slope = (pair[1].r - pair[0].r) / (pair[1].t - pair[0].t);
            let line = Wave::default().plus(station, slope).raised(pair[0].r - slope * pair[0].t);
            let here = self.between(station, pair[0].t, pair[1].t);
            arcs = arcs.union(&here.intersection(&under(line)));
        }
        arcs
    }

    fn above(&self, sawn: &Sawn) -> Intervals {
        let (x, s) = (self.along(Vector::new(0.0, 1.0, 0.0)), self.along(Axis::A.along()));
        let sway = s.amplitudes().0;
        let mut arcs = Intervals::none();
        for pair in sawn.points().windows(2) {
            let (a, b) = (pair[0], pair[1]);
            if b.x < s.mean - sway || a.x > s.mean + sway {
                continue;
            }
            let slope = (b.y - a.y) / (b.x - a.x);
            let over = Wave::default().plus(s, slope).plus(x, -1.0).raised(a.y - slope * a.x).not_positive();
            arcs = arcs.union(&over.intersection(&self.between(s, a.x, b.x)));
        }
        arcs
    }

    /// The arcs that are wood. Exact to 1e-9 rad for flattened profiles.
    #[must_use]
    pub fn in_wood(&self, state: &State<'_>) -> Intervals {
        let mut wood = self.within_sides(state.stock).intersection(&self.between_stations(0.0, state.stock.length));
        for removal in state.removals {
            if wood.is_empty() {
                break;
            }
            wood = wood.minus(&self.in_region(&removal.region));
        }
        let Some(plug) = state.plug else { return wood };
        let mut plug_wood = self.in_revolved(&plug.body);
        for removal in state.cut_plug(plug) {
            if plug_wood.is_empty() {
                break;
            }
            plug_wood = plug_wood.minus(&self.in_region(&removal.region));
        }
        wood.union(&plug_wood)
    }
}

/// A whole turn.
pub(super) fn whole() -> Intervals {
    Intervals::one(0.0, TAU)
}
