//! The share of a turn about an axis that is air.

use std::f64::consts::TAU;

use super::around::Around;
use super::intervals::Intervals;
use super::vector::Vector;

/// Times that the edge of air is looked for between two directions, at most.
const SECANTS: u32 = 2;
/// A surface that leans from square to the line of sight by more than this, a tangent, may be a shoulder seen edge on.
const EDGE_ON: f64 = 2.0;

impl Around<'_> {
    /// The share of a turn that is air at a radius, 0 to 1. Within 0.004, and 0.01 for each shoulder
    /// seen edge on that ends wood; what is narrower than 7.5 degrees may be missed. Exact for square stock alone.
    #[must_use]
    pub fn air_share(&self, radius: f64) -> f64 {
        if self.bar_only() && radius >= self.own.0 {
            return self.air_of_bar(radius) / TAU;
        }
        let mut air = 0.0;
        for (i, look) in self.looks.iter().enumerate() {
            let next = &self.looks[(i + 1) % self.looks.len()];
            let (from, to) = (depth(&look.wood, radius), depth(&next.wood, radius));
            air += self.air_between((look.clock, from), (self.after(i), to), radius, SECANTS);
        }
        (air / TAU).clamp(0.0, 1.0)
    }

    /// The air at a radius between two directions with the depths found in them, in radians. Where there may be an edge
    /// it is looked for along another line.
    fn air_between(&self, from: (f64, f64), to: (f64, f64), radius: f64, secants: u32) -> f64 {
        let width = to.0 - from.0;
        let (share, whole) = if (from.1 < 0.0) == (to.1 < 0.0) {
            // Between two that are both near an edge there may be a notch or a point.
            let near = from.1.abs() + to.1.abs() < radius * width / 2.0;
            (if near { 0.5 } else { 0.0 }, if from.1 < 0.0 { width } else { 0.0 })
        } else {
            // Past a shoulder the depth leaps, and tells nothing of where.
            let leaps = (from.1 - to.1).abs() > EDGE_ON * radius * width;
            let share = if leaps { 0.5 } else { from.1 / (from.1 - to.1) };
            (share, width * if from.1 < 0.0 { share } else { 1.0 - share })
        };
        if secants == 0 || !(0.02..=0.98).contains(&share) {
            return whole;
        }
        let edge = from.0 + width * share;
        let middle = (edge, depth(&self.outward(edge), radius));
        self.air_between(from, middle, radius, secants - 1) + self.air_between(middle, to, radius, secants - 1)
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
            let over = (at - out.dot(self.centre)) / (radius * lean.max(1e-12));
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
        if high - low < 1e-9 {
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

/// How far a radius is inside the wood along a line outward: negative in air.
fn depth(wood: &Intervals, radius: f64) -> f64 {
    let mut nearest = f64::NEG_INFINITY;
    for (from, to) in wood.iter() {
        // The axis itself is no surface.
        let inside = (to - radius).min(if from <= 0.0 { f64::INFINITY } else { radius - from });
        nearest = nearest.max(inside);
    }
    nearest.max(-2.0 * radius - 1.0)
}
