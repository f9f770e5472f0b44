//! Points and directions in the blank's frame.

use crate::geometry::frame::tolerance::FLAT;
use std::ops::{Add, Mul, Neg, Sub};

use borsh::{BorshDeserialize, BorshSerialize};

/// A point or a direction: `x` right, `y` up, `s` along the blank toward the head end. Right-handed, in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq, BorshSerialize, BorshDeserialize)]
pub struct Vector {
    /// To the right, as held by the handle.
    pub x: f64,
    /// Up, toward the opening.
    pub y: f64,
    /// Along the blank, toward the head end.
    pub s: f64,
}

impl Vector {
    /// The origin, or no displacement.
    pub const ZERO: Self = Self::new(0.0, 0.0, 0.0);

    /// From its three components.
    #[must_use]
    pub const fn new(x: f64, y: f64, s: f64) -> Self {
        Self { x, y, s }
    }

    /// Scalar product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.s * other.s
    }

    /// Vector product, right-handed in (x, y, s).
    #[must_use]
    pub fn cross(self, other: Self) -> Self {
        Self::new(
            self.y * other.s - self.s * other.y,
            self.s * other.x - self.x * other.s,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Length squared.
    #[must_use]
    pub fn length_sq(self) -> f64 {
        self.dot(self)
    }

    /// Length.
    #[must_use]
    pub fn length(self) -> f64 {
        self.length_sq().sqrt()
    }

    /// The same direction with length 1; `None` when it has no direction or is not finite.
    #[must_use]
    pub fn unit(self) -> Option<Self> {
        let length = self.length();
        (length.is_finite() && length > FLAT).then(|| self * (1.0 / length))
    }

    /// Distance from axis A.
    #[must_use]
    pub fn radius(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// Whether every component is finite.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite() && self.s.is_finite()
    }
}

impl Add for Vector {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.s + other.s)
    }
}

impl Sub for Vector {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.s - other.s)
    }
}

impl Neg for Vector {
    type Output = Self;
    fn neg(self) -> Self {
        self * -1.0
    }
}

impl Mul<f64> for Vector {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by, self.s * by)
    }
}
