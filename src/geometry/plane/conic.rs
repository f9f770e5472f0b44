//! What a plane cuts from a piece of a cone.
//!
//! In the plane let `w` run the way the axis's station rises fastest, and `q` square to that. Then the station is
//! `t0 + sine w`, and a point lies off the axis by `m0 + m1 w` one way and by `q + q0` the other, square to it: its squared
//! distance from the axis is `(q + q0)^2 + (m0 + m1 w)^2`. A straight piece of a profile has radius `r0 + growth w` there.
//! So the plane cuts its cone in
//!
//! ```text
//! (q + q0)^2 = r^2 - m^2 = (r - m)(r + m)
//! ```
//!
//! a conic over the middle line `q = -q0`. On the cone's own side of its tip neither `m` nor `-m` is more than `r`. Both
//! factors are linear in `w`, so that holds over one stretch, found exactly; there the half height is the root of their
//! product, rounded as little as the factors are.

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::plane::Plane;
use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::quadratic::not_negative;

/// An axis seen in a plane that it leans against; see the module's head.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AxisInPlane {
    /// The direction of `w`, of length 1, in the plane's own coordinates.
    pub toward: [f64; 2],
    /// The directions of `w` and of `q`, of length 1.
    pub downhill: Vector,
    pub level: Vector,
    pub t0: f64,
    pub sine: f64,
    pub q0: f64,
    pub m0: f64,
    pub m1: f64,
}

impl AxisInPlane {
    /// For an axis square to the plane `sine` is 0, and `w` runs any way.
    pub fn new(plane: &Plane, axis: &Axis) -> Self {
        let along = axis.along();
        let from = plane.origin - axis.origin();
        let (right, up) = (along.dot(plane.right), along.dot(plane.up));
        let sine = right.hypot(up);
        let toward = if sine > 0.0 { [right / sine, up / sine] } else { [1.0, 0.0] };
        let downhill = plane.right * toward[0] + plane.up * toward[1];
        let level = plane.up * toward[0] - plane.right * toward[1];
        let m = along.cross(level);
        Self {
            toward,
            downhill,
            level,
            t0: from.dot(along),
            sine,
            q0: from.dot(level),
            m0: from.dot(m),
            m1: downhill.dot(m),
        }
    }

    /// Where in the plane a station of the axis is.
    pub fn w_at(&self, t: f64) -> f64 {
        (t - self.t0) / self.sine
    }
}

/// A number that changes evenly along `w`.
#[derive(Clone, Copy, Debug)]
struct Linear {
    /// At w = 0.
    value: f64,
    slope: f64,
}

impl Linear {
    fn at(self, w: f64) -> f64 {
        self.value + self.slope * w
    }
}

/// What a plane cuts from one straight piece of a profile: half heights over a stretch of `w`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ConicPiece {
    pub low: f64,
    pub high: f64,
    /// Whether the stretch starts, and ends, where the piece does.
    pub from_start: bool,
    pub to_end: bool,
    /// `r - m` and `r + m`.
    less: Linear,
    more: Linear,
}

impl ConicPiece {
    /// Of the piece between two points of a profile, from -reach to reach; `None` where the plane cuts nothing from it.
    pub fn new(from: Station, to: Station, seen: &AxisInPlane, reach: f64) -> Option<Self> {
        if to.t <= from.t {
            return None;
        }
        let (start, end) = (seen.w_at(from.t), seen.w_at(to.t));
        let growth = (to.r - from.r) / (end - start);
        let base = from.r - growth * start;
        let less = Linear { value: base - seen.m0, slope: growth - seen.m1 };
        let more = Linear { value: base + seen.m0, slope: growth + seen.m1 };
        let (mut low, mut high) = (start.max(-reach), end.min(reach));
        for line in [less, more] {
            (low, high) = not_negative((low, high), line.value, line.slope)?;
        }
        (low < high).then_some(Self { low, high, from_start: low <= start, to_end: high >= end, less, more })
    }

    /// The half height at a place.
    pub fn height(&self, w: f64) -> f64 {
        (self.less.at(w) * self.more.at(w)).max(0.0).sqrt()
    }

    /// Its square as `[c0, c1, c2]`: c0 + c1 w + c2 w^2.
    pub fn height_squared(&self) -> [f64; 3] {
        let (less, more) = (self.less, self.more);
        [less.value * more.value, less.value * more.slope + less.slope * more.value, less.slope * more.slope]
    }
}
