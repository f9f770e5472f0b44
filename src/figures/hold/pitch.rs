//! The vertical of a pitched piece.

use crate::geometry::Vector;

/// A pitch, positive with the bowl end raised.
///
/// x, `level` (the level direction toward the handle) and `height` are a frame of their own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pitch {
    pub sin: f64,
    pub cos: f64,
}

impl Pitch {
    /// From an angle, in radians.
    pub(super) fn new(pitch: f64) -> Self {
        let (sin, cos) = pitch.sin_cos();
        Self { sin, cos }
    }

    /// Straight up, in the piece's own frame.
    pub(super) fn up(self) -> Vector {
        Vector::new(0.0, self.cos, -self.sin)
    }

    pub(super) fn height(self, p: Vector) -> f64 {
        p.y * self.cos - p.s * self.sin
    }

    pub(super) fn level(self, p: Vector) -> f64 {
        p.y * self.sin + p.s * self.cos
    }

    /// From x, level and height back to the piece's own frame.
    pub(super) fn back(self, x: f64, level: f64, height: f64) -> Vector {
        Vector::new(x, height * self.cos + level * self.sin, level * self.cos - height * self.sin)
    }
}
