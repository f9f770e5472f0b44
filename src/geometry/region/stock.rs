//! The wood at the start: a square or round bar about axis A, from s = 0 to its length.

use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::quadratic::not_positive;
use crate::geometry::region::revolved::Ray;

/// The bar's cross-section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Section {
    /// A square with sides parallel to x and y, by half its side, in mm.
    Square {
        /// Half the side.
        half_side: f64,
    },
    /// A round, by its radius, in mm.
    Round {
        /// The radius.
        radius: f64,
    },
}

/// The bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Cross-section.
    pub section: Section,
    /// Length, in mm.
    pub length: f64,
}

impl Stock {
    /// The farthest any wood is from axis A, in mm.
    #[must_use]
    pub fn largest_radius(&self) -> f64 {
        match self.section {
            Section::Square { half_side } => half_side * std::f64::consts::SQRT_2,
            Section::Round { radius } => radius,
        }
    }

    /// Half the height of the section, along x or y, in mm.
    #[must_use]
    pub fn half_width(&self) -> f64 {
        match self.section {
            Section::Square { half_side } => half_side,
            Section::Round { radius } => radius,
        }
    }

    /// Cross-section area, in mm2. Exact.
    #[must_use]
    pub fn area(&self) -> f64 {
        match self.section {
            Section::Square { half_side } => 4.0 * half_side * half_side,
            Section::Round { radius } => std::f64::consts::PI * radius * radius,
        }
    }

    /// Whether a point is in the bar.
    #[must_use]
    pub fn contains(&self, point: Vector) -> bool {
        (0.0..=self.length).contains(&point.s) && self.depth_from_sides(point) >= 0.0
    }

    /// How far a point lies inside the nearest side, in mm: negative outside. The ends do not count.
    ///
    /// Outside a square's corner it is the depth past the side overrun most, not the distance to wood.
    #[must_use]
    pub fn depth_from_sides(&self, point: Vector) -> f64 {
        match self.section {
            Section::Square { half_side } => half_side - point.x.abs().max(point.y.abs()),
            Section::Round { radius } => radius - point.radius(),
        }
    }

    /// The stretches of a line inside the bar. Exact.
    #[must_use]
    pub fn along(&self, ray: Ray) -> Intervals {
        let (p, d) = (ray.start, ray.direction);
        let ends = slab(p.s, d.s, 0.0, self.length);
        match self.section {
            Section::Square { half_side } => {
                let (x, y) = (slab(p.x, d.x, -half_side, half_side), slab(p.y, d.y, -half_side, half_side));
                Intervals::one(ends.0.max(x.0).max(y.0), ends.1.min(x.1).min(y.1))
            }
            Section::Round { radius } => {
                let c = p.x * p.x + p.y * p.y - radius * radius;
                let mut inside = not_positive(d.x * d.x + d.y * d.y, p.x * d.x + p.y * d.y, c);
                inside.clip(ends.0, ends.1);
                inside
            }
        }
    }
}

/// The stretch where `low <= value + slope p <= high`; from infinity to minus infinity when there is none.
fn slab(value: f64, slope: f64, low: f64, high: f64) -> (f64, f64) {
    if slope.abs() < 1e-14 {
        let inside = low <= value && value <= high;
        return if inside { (f64::NEG_INFINITY, f64::INFINITY) } else { (f64::INFINITY, f64::NEG_INFINITY) };
    }
    let (p, q) = ((low - value) / slope, (high - value) / slope);
    (p.min(q), p.max(q))
}
