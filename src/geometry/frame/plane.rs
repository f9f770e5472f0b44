//! Flat cuts through space, with two directions to draw them by.

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::vector::Vector;

/// A plane with its own coordinates: `u` along `right`, `v` along `up`, both 0 at `origin`, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Where both coordinates are 0.
    pub origin: Vector,
    /// One mm of `u`; of length 1.
    pub right: Vector,
    /// One mm of `v`; of length 1, square to `right`.
    pub up: Vector,
}

impl Plane {
    /// The plane square to an axis at its station `t`, with the axis's own right and up: as seen looking toward
    /// smaller stations.
    #[must_use]
    pub fn square_to(axis: &Axis, t: f64) -> Self {
        Self { origin: axis.point(t, 0.0, 0.0), right: axis.right(), up: axis.up() }
    }

    /// The side view: the plane x = 0, `u` is s and `v` is y, as seen from the left of the piece.
    #[must_use]
    pub fn side_view() -> Self {
        Self { origin: Vector::ZERO, right: Vector::new(0.0, 0.0, 1.0), up: Vector::new(0.0, 1.0, 0.0) }
    }

    /// The point at `(u, v)`.
    #[must_use]
    pub fn at(&self, u: f64, v: f64) -> Vector {
        self.origin + self.right * u + self.up * v
    }

    /// The coordinates of the point of the plane nearest to `point`.
    #[must_use]
    pub fn coordinates(&self, point: Vector) -> [f64; 2] {
        let from = point - self.origin;
        [from.dot(self.right), from.dot(self.up)]
    }
}
