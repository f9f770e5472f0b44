//! Points of the half-plane of an axis.

use std::ops::{Add, Sub};

use kurbo::{Point, Vec2};

/// A point of the half-plane of an axis, in mm: where a point of space lies once the clock around the axis is left out.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Station {
    /// Along the axis.
    pub t: f64,
    /// Distance from the axis, not negative.
    pub r: f64,
}

impl Station {
    /// From its two coordinates, in mm.
    #[must_use]
    pub const fn new(t: f64, r: f64) -> Self {
        Self { t, r }
    }
}

impl From<(f64, f64)> for Station {
    fn from((t, r): (f64, f64)) -> Self {
        Self { t, r }
    }
}

impl From<Station> for (f64, f64) {
    fn from(station: Station) -> Self {
        (station.t, station.r)
    }
}

/// `t` is x and `r` is y, so that curves are the same in any plane.
impl From<Station> for Point {
    fn from(station: Station) -> Self {
        Self::new(station.t, station.r)
    }
}

/// x is `t` and y is `r`.
impl From<Point> for Station {
    fn from(point: Point) -> Self {
        Self { t: point.x, r: point.y }
    }
}

/// The step between two points: x along the axis, y away from it.
impl Sub for Station {
    type Output = Vec2;
    fn sub(self, other: Self) -> Vec2 {
        Vec2::new(self.t - other.t, self.r - other.r)
    }
}

impl Add<Vec2> for Station {
    type Output = Self;
    fn add(self, step: Vec2) -> Self {
        Self { t: self.t + step.x, r: self.r + step.y }
    }
}
