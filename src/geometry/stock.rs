//! The wood at the start: a square or round bar about axis A, from s = 0 to its length.

use super::intervals::Intervals;
use super::quadratic::not_positive;
use super::revolved::Ray;
use super::vector::Vector;

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
        let ends = slab(ray.start.s, ray.direction.s, 0.0, self.length);
        let sides = match self.section {
            Section::Square { half_side } => slab(ray.start.x, ray.direction.x, -half_side, half_side)
                .intersection(&slab(ray.start.y, ray.direction.y, -half_side, half_side)),
            Section::Round { radius } => {
                let (p, d) = (ray.start, ray.direction);
                let c = p.x * p.x + p.y * p.y - radius * radius;
                not_positive(d.x * d.x + d.y * d.y, p.x * d.x + p.y * d.y, c)
            }
        };
        ends.intersection(&sides)
    }
}

/// The places where `low <= value + slope p <= high`.
fn slab(value: f64, slope: f64, low: f64, high: f64) -> Intervals {
    if slope.abs() < 1e-14 {
        return if low <= value && value <= high { Intervals::all() } else { Intervals::none() };
    }
    let (p, q) = ((low - value) / slope, (high - value) / slope);
    Intervals::one(p.min(q), p.max(q))
}
