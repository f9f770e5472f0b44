//! Regions that a cut takes away.

use crate::geometry::frame::tolerance::FLAT;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::region::revolved::{Ray, Revolved};
use crate::geometry::region::sawn::Sawn;

/// What lies beyond a plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HalfSpace {
    /// Square to the plane, into the region, of length 1.
    pub into: Vector,
    /// The plane's distance from the origin along `into`, in mm.
    pub offset: f64,
}

impl HalfSpace {
    /// Distance from a point to the plane, in mm: negative inside the region.
    #[must_use]
    pub fn signed_distance(&self, point: Vector) -> f64 {
        self.offset - point.dot(self.into)
    }

    /// Whether it is the same on both sides of the upright plane x = 0.
    #[must_use]
    pub fn is_mirrored(&self) -> bool {
        self.into.x.abs() < FLAT
    }

    /// The stretches of a line inside the region.
    #[must_use]
    pub fn along(&self, ray: Ray) -> Intervals {
        let slope = ray.direction.dot(self.into);
        let depth = -self.signed_distance(ray.start);
        if slope.abs() < 1e-13 * ray.direction.length() {
            return if depth >= 0.0 { Intervals::all() } else { Intervals::none() };
        }
        let root = -depth / slope;
        if slope > 0.0 { Intervals::one(root, f64::INFINITY) } else { Intervals::one(f64::NEG_INFINITY, root) }
    }
}

/// A region that a cut takes away.
#[derive(Clone, Debug, PartialEq)]
pub enum Region {
    /// Swept around an axis.
    Revolved(Revolved),
    /// Above a line in the side view.
    Sawn(Sawn),
    /// Beyond a plane.
    HalfSpace(HalfSpace),
}

impl Region {
    /// Whether a point is in the region, its surface included.
    #[must_use]
    pub fn contains(&self, point: Vector) -> bool {
        match self {
            Self::Revolved(revolved) => revolved.contains(point),
            Self::Sawn(sawn) => sawn.contains(point),
            Self::HalfSpace(half_space) => half_space.signed_distance(point) <= 0.0,
        }
    }

    /// Distance from a point to the region's surface, in mm: negative inside the region.
    #[must_use]
    pub fn signed_distance(&self, point: Vector) -> f64 {
        match self {
            Self::Revolved(revolved) => revolved.signed_distance(point),
            Self::Sawn(sawn) => sawn.signed_distance(point),
            Self::HalfSpace(half_space) => half_space.signed_distance(point),
        }
    }

    /// Whether it is the same on both sides of the upright plane x = 0.
    #[must_use]
    pub fn is_mirrored(&self) -> bool {
        match self {
            Self::Revolved(revolved) => revolved.axis.is_in_upright_plane(),
            Self::Sawn(_) => true,
            Self::HalfSpace(half_space) => half_space.is_mirrored(),
        }
    }

    /// The stretches of a line inside the region.
    #[must_use]
    pub fn along(&self, ray: Ray) -> Intervals {
        match self {
            Self::Revolved(revolved) => revolved.along(ray),
            Self::Sawn(sawn) => sawn.along(ray),
            Self::HalfSpace(half_space) => half_space.along(ray),
        }
    }

    /// Takes the region out of stretches of a line.
    pub(crate) fn take_along(&self, ray: Ray, wood: &mut Intervals) {
        match self {
            Self::Revolved(revolved) => revolved.take_along(ray, wood),
            Self::Sawn(_) | Self::HalfSpace(_) => *wood = wood.minus(&self.along(ray)),
        }
    }
}
