//! The share of a turn about an axis that is air.

use std::f64::consts::TAU;

use crate::geometry::frame::tolerance::{FLAT, ROUNDING_MM};
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::spin::around::Around;
use crate::geometry::spin::circle::Circle;

impl Around<'_> {
    /// The share of a turn that is air at a radius, 0 to 1. Exact to 1e-6 for flattened profiles.
    #[must_use]
    pub fn air_share(&self, radius: f64) -> f64 {
        if self.bar_only() && radius >= self.own.0 {
            return self.air_of_bar(radius) / TAU;
        }
        let t = self.axis.see(self.centre).t;
        (1.0 - Circle::new(self.axis, t, radius).in_wood(&self.state).length() / TAU).clamp(0.0, 1.0)
    }

    /// The air at a radius where there is square stock only, in radians: arcs beyond its sides and ends. Exact.
    fn air_of_bar(&self, radius: f64) -> f64 {
        let (half, length) = (self.state.stock.half_width(), self.state.stock.length);
        let mut wood = Intervals::one(0.0, TAU);
        let (x, y, s) = (Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0), Vector::new(0.0, 0.0, 1.0));
        for (out, at) in [(x, half), (-x, half), (y, half), (-y, half), (s, length), (-s, 0.0)] {
            let (right, up) = (out.dot(self.axis.right()), out.dot(self.axis.up()));
            let lean = right.hypot(up);
            // How far the side is along the turn's own plane; a side square to the axis takes all or nothing.
            let over = (at - out.dot(self.centre)) / (radius * lean.max(FLAT));
            if over <= -1.0 {
                return TAU;
            }
            if over < 1.0 {
                let (middle, reach) = (right.atan2(up).rem_euclid(TAU), over.acos());
                let (from, to) = (middle - reach, middle + reach);
                // An arc over 12 o'clock counts at both ends of the turn.
                [0.0, TAU, -TAU].iter().for_each(|turn| wood.cut_out(from + turn, to + turn));
            }
        }
        TAU - wood.length()
    }

    /// The mean share of a turn that is air over radii from `low` to `high`, 0 to 1: that met at constant infeed.
    #[must_use]
    pub fn mean_air_share(&self, low: f64, high: f64) -> f64 {
        if high - low < ROUNDING_MM {
            return self.air_share(high);
        }
        let air = |look: usize| {
            let within = |(from, to): (f64, f64)| (to.min(high) - from.max(low)).max(0.0);
            (high - low) - self.looks[look].wood.iter().map(within).sum::<f64>()
        };
        // Simpson's rule.
        let sum = self.panels(|a, b, c, width| width * (air(a) + 4.0 * air(b) + air(c)) / 6.0);
        (sum / (TAU * (high - low))).clamp(0.0, 1.0)
    }

    /// Sums over stretches of directions: the looks at the start, in the middle and at the end of each, and its width.
    fn panels(&self, part: impl Fn(usize, usize, usize, f64) -> f64) -> f64 {
        let count = self.looks.len();
        let panel = |i: usize| {
            let next = (i + 2) % count;
            part(i, i + 1, next, (self.looks[next].clock - self.looks[i].clock).rem_euclid(TAU))
        };
        (0..count).step_by(2).map(panel).sum()
    }
}
