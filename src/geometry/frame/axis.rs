//! Axes of turning: lines with a station along them and a clock around them.

use thiserror::Error;

use crate::geometry::frame::tolerance::{FLAT, PARALLEL, ROUNDING_MM};
use crate::geometry::frame::vector::Vector;

/// A line to turn or hollow about, with its own station `t` and two directions square to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    origin: Vector,
    along: Vector,
    right: Vector,
    up: Vector,
}

/// A point as seen from an axis: `t` along it, `right` and `up` square to it, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Station along the axis.
    pub t: f64,
    /// To the right; x for an axis that is not tilted sideways.
    pub right: f64,
    /// Up; y for an axis that is not tilted up or down.
    pub up: f64,
}

impl Seen {
    /// Clock direction, in radians from -pi to pi.
    #[must_use]
    pub fn clock(&self) -> f64 {
        self.right.atan2(self.up)
    }

    /// Distance from the axis, in mm.
    #[must_use]
    pub fn radius(self) -> f64 {
        (self.right * self.right + self.up * self.up).sqrt()
    }
}

/// Why a line cannot be an axis.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum AxisError {
    /// Its two points coincide, or are not finite.
    #[error("the axis has no direction: its two points coincide or are not finite")]
    NoDirection,
}

impl Axis {
    /// Axis A: along `s` through the origin.
    pub const A: Self = Self {
        origin: Vector::ZERO,
        along: Vector::new(0.0, 0.0, 1.0),
        right: Vector::new(1.0, 0.0, 0.0),
        up: Vector::new(0.0, 1.0, 0.0),
    };

    /// The axis through `origin` (where `t` is 0) in the direction `along`.
    ///
    /// `up` is the direction square to it that is nearest to y (or to -s for an axis along y), so that the clock
    /// around it reads as held.
    ///
    /// # Errors
    /// [`AxisError::NoDirection`] when `along` has no length or anything is not finite.
    pub fn new(origin: Vector, along: Vector) -> Result<Self, AxisError> {
        let along = along.unit().ok_or(AxisError::NoDirection)?;
        if !origin.is_finite() {
            return Err(AxisError::NoDirection);
        }
        let y = Vector::new(0.0, 1.0, 0.0);
        let reference = if along.dot(y).abs() < 0.9 { y } else { Vector::new(0.0, 0.0, -along.y.signum()) };
        let up = (reference - along * along.dot(reference)).unit().ok_or(AxisError::NoDirection)?;
        Ok(Self { origin, along, right: up.cross(along), up })
    }

    /// The axis through two marks that lie on faces at different stations; `t` is 0 where it pierces s = 0.
    ///
    /// # Errors
    /// [`AxisError::NoDirection`] when both marks have the same station.
    pub fn through(tail: Vector, head: Vector) -> Result<Self, AxisError> {
        let run = head - tail;
        if run.s.is_nan() || run.s.abs() < ROUNDING_MM {
            return Err(AxisError::NoDirection);
        }
        Self::new(tail - run * (tail.s / run.s), run * run.s.signum())
    }

    /// The point where `t` is 0.
    #[must_use]
    pub fn origin(&self) -> Vector {
        self.origin
    }

    /// Its direction, of length 1.
    #[must_use]
    pub fn along(&self) -> Vector {
        self.along
    }

    /// The direction to the right of it, of length 1.
    #[must_use]
    pub fn right(&self) -> Vector {
        self.right
    }

    /// The direction up from it, of length 1.
    #[must_use]
    pub fn up(&self) -> Vector {
        self.up
    }

    /// Angle to axis A, in radians, 0 to pi/2. Exact.
    #[must_use]
    pub fn tilt(&self) -> f64 {
        self.along.x.hypot(self.along.y).atan2(self.along.s.abs())
    }

    /// Whether it leans from axis A at all.
    #[must_use]
    pub fn is_tilted(&self) -> bool {
        self.tilt() > PARALLEL
    }

    /// Whether it runs nearer along the bar than across it: at less than 45 degrees to axis A.
    #[must_use]
    pub fn is_lengthwise(&self) -> bool {
        self.along.s.abs() > std::f64::consts::FRAC_1_SQRT_2
    }

    /// Whether it stands square to the bar, and so pierces neither of its end faces.
    #[must_use]
    pub fn is_square(&self) -> bool {
        self.centre(0.0).is_none()
    }

    /// Whether it lies in the upright plane x = 0, so that whatever turns about it is the same on both sides.
    #[must_use]
    pub fn is_in_upright_plane(&self) -> bool {
        self.along.x.abs() < FLAT && self.origin.x.abs() < ROUNDING_MM
    }

    /// The point on the axis at blank station `s`; `None` for an axis square to the blank.
    #[must_use]
    pub fn centre(&self, s: f64) -> Option<Vector> {
        (self.along.s.abs() > PARALLEL).then(|| self.origin + self.along * ((s - self.origin.s) / self.along.s))
    }

    /// A point as seen from the axis.
    #[must_use]
    pub fn see(&self, point: Vector) -> Seen {
        let from = point - self.origin;
        Seen { t: from.dot(self.along), right: from.dot(self.right), up: from.dot(self.up) }
    }

    /// The point at station `t`, at `radius` in the clock direction `clock` (radians: 0 is up, pi/2 is right).
    #[must_use]
    pub fn point(&self, t: f64, radius: f64, clock: f64) -> Vector {
        self.point_at(t, radius, clock.sin_cos())
    }

    /// As [`Self::point`], in a clock direction given by its sine and cosine.
    pub(crate) fn point_at(&self, t: f64, radius: f64, (sin, cos): (f64, f64)) -> Vector {
        self.origin + self.along * t + self.right * (radius * sin) + self.up * (radius * cos)
    }

    /// `count` even directions around the axis, of length 1, the first at clock 0: for points by the hundred.
    #[must_use]
    pub fn directions(&self, count: usize) -> Vec<Vector> {
        let around = (0..count).map(|i| (std::f64::consts::TAU * i as f64 / count as f64).sin_cos());
        around.map(|(sin, cos)| self.right * sin + self.up * cos).collect()
    }

    /// The point at station `t`, at `radius` in a direction square to the axis.
    #[must_use]
    pub fn point_toward(&self, t: f64, radius: f64, direction: Vector) -> Vector {
        self.origin + self.along * t + direction * radius
    }

    /// Where this axis and another come nearest: the point on each, and the gap between them, in mm.
    ///
    /// For parallel axes every station is as near as any other: the points at this axis's origin are given.
    #[must_use]
    pub fn nearest(&self, other: &Self) -> NearestPoints {
        let apart = self.origin - other.origin;
        let b = self.along.dot(other.along);
        let (d, e) = (self.along.dot(apart), other.along.dot(apart));
        let sine_sq = self.along.cross(other.along).length_sq();
        // A tenth of what counts as parallel elsewhere: the nearest points of axes that hardly lean still have a place.
        let parallel = sine_sq < (0.1 * PARALLEL).powi(2);
        let (t_here, t_there) = if parallel { (0.0, e) } else { ((b * e - d) / sine_sq, (e - b * d) / sine_sq) };
        let here = self.origin + self.along * t_here;
        let there = other.origin + other.along * t_there;
        NearestPoints { here, there, gap: (here - there).length(), parallel }
    }
}

/// The nearest points of two axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearestPoints {
    /// On the first axis.
    pub here: Vector,
    /// On the other.
    pub there: Vector,
    /// Distance between them, in mm.
    pub gap: f64,
    /// Whether the axes are parallel, so that every station is as near as any other.
    pub parallel: bool,
}
