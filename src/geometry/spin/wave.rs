//! Trigonometric polynomials of degree 2: how a linear or quadratic function varies around a circle.

use std::f64::consts::TAU;

use smallvec::SmallVec;

use crate::geometry::line::intervals::Intervals;

/// `mean + cos1 cos(p) + sin1 sin(p) + cos2 cos(2p) + sin2 sin(2p)`, `p` in radians.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Wave {
    pub mean: f64,
    pub cos1: f64,
    pub sin1: f64,
    pub cos2: f64,
    pub sin2: f64,
}

/// Parts of a turn in which roots are isolated first.
const PARTS: usize = 8;
/// Two roots closer than this, in radians, count as none.
const SAME: f64 = 1e-9;
/// A second harmonic below this share of the rest is rounding.
const ROUNDING: f64 = 1e-15;
/// Two angles nearer than this, in radians, are one: some ten steps between doubles at a whole turn.
const ONE_ANGLE: f64 = 1e-14;

impl Wave {
    pub fn linear(mean: f64, cos1: f64, sin1: f64) -> Self {
        Self { mean, cos1, sin1, ..Self::default() }
    }

    /// The square of a wave without second harmonic.
    pub fn squared(self) -> Self {
        let Self { mean, cos1, sin1, .. } = self;
        Self {
            mean: mean * mean + (cos1 * cos1 + sin1 * sin1) / 2.0,
            cos1: 2.0 * mean * cos1,
            sin1: 2.0 * mean * sin1,
            cos2: (cos1 * cos1 - sin1 * sin1) / 2.0,
            sin2: cos1 * sin1,
        }
    }

    /// This wave and `by` times another.
    pub fn plus(self, other: Self, by: f64) -> Self {
        Self {
            mean: self.mean + by * other.mean,
            cos1: self.cos1 + by * other.cos1,
            sin1: self.sin1 + by * other.sin1,
            cos2: self.cos2 + by * other.cos2,
            sin2: self.sin2 + by * other.sin2,
        }
    }

    pub fn raised(self, by: f64) -> Self {
        Self { mean: self.mean + by, ..self }
    }

    pub fn at(&self, angle: f64) -> f64 {
        let (sin, cos) = angle.sin_cos();
        self.mean
            + self.cos1 * cos
            + self.sin1 * sin
            + self.cos2 * (cos * cos - sin * sin)
            + self.sin2 * 2.0 * sin * cos
    }

    fn slope(&self) -> Self {
        Self { mean: 0.0, cos1: self.sin1, sin1: -self.cos1, cos2: 2.0 * self.sin2, sin2: -2.0 * self.cos2 }
    }

    /// Amplitudes of the first and the second harmonic.
    pub fn amplitudes(&self) -> (f64, f64) {
        (self.cos1.hypot(self.sin1), self.cos2.hypot(self.sin2))
    }

    /// A bound on the magnitude of the second derivative.
    pub fn bend(&self) -> f64 {
        let (first, second) = self.amplitudes();
        first + 4.0 * second
    }

    /// The arcs within [0, TAU] where the wave is not positive. Exact to 1e-9 rad; an arc or a gap narrower than that
    /// may be missed.
    pub fn not_positive(&self) -> Intervals {
        let roots = self.roots();
        let Some(&first) = roots.first() else {
            return if self.at(0.0) <= 0.0 { Intervals::one(0.0, TAU) } else { Intervals::none() };
        };
        let mut arcs = Intervals::none();
        let below = |from: f64, to: f64| self.at(f64::midpoint(from, to)) <= 0.0;
        let last = roots.last().map_or(first, |last| *last);
        let over_zero = below(last - TAU, first);
        if over_zero {
            arcs.push_rising(0.0, first);
        }
        for pair in roots.windows(2).filter(|pair| below(pair[0], pair[1])) {
            arcs.push_rising(pair[0], pair[1]);
        }
        if over_zero {
            arcs.push_rising(last, TAU);
        }
        arcs
    }

    /// The greatest value from one angle to another, and where.
    pub fn most_between(&self, from: f64, to: f64) -> (f64, f64) {
        let turns = |root: f64| {
            let first = root + ((from - root) / TAU).ceil() * TAU;
            (first <= to).then_some(first)
        };
        let tops = self.slope().roots();
        let mut best = (self.at(from), from);
        for angle in tops.iter().filter_map(|root| turns(*root)).chain([to]) {
            let value = self.at(angle);
            if value > best.0 {
                best = (value, angle);
            }
        }
        best
    }

    /// Where the wave changes sign in [0, TAU), rising.
    fn roots(&self) -> SmallVec<[f64; 4]> {
        let (first, second) = self.amplitudes();
        let mut roots = SmallVec::new();
        if self.mean.abs() > first + second {
            return roots;
        }
        if second <= ROUNDING * (self.mean.abs() + first) {
            if first > 0.0 {
                let (middle, spread) = (self.sin1.atan2(self.cos1), (-self.mean / first).clamp(-1.0, 1.0).acos());
                roots.extend([middle - spread, middle + spread].map(|angle| angle.rem_euclid(TAU)));
                roots.sort_unstable_by(f64::total_cmp);
            }
            return roots;
        }
        let search = RootSearch { wave: self, bend: self.bend() };
        let place = |i: usize| TAU * i as f64 / PARTS as f64;
        let mut from = (0.0, self.at(0.0));
        for i in 1..=PARTS {
            let to = if i == PARTS { (TAU, self.at(0.0)) } else { (place(i), self.at(place(i))) };
            search.isolate(from, to, &mut roots);
            from = to;
        }
        roots
    }
}

/// Finds sign changes. Between two places a wave leaves its chord by no more than its bend allows, so a part
/// with none is known to have none, and a part with one is known to have just one.
struct RootSearch<'a> {
    wave: &'a Wave,
    bend: f64,
}

impl RootSearch<'_> {
    fn isolate(&self, from: (f64, f64), to: (f64, f64), roots: &mut SmallVec<[f64; 4]>) {
        let width = to.0 - from.0;
        let slack = self.bend * width * width;
        let changes = (from.1 <= 0.0) != (to.1 <= 0.0);
        let is_monotone = (to.1 - from.1).abs() > slack;
        if changes && (is_monotone || width < SAME) {
            roots.push(self.solve(from, to));
            return;
        }
        let is_clear = from.1.abs().min(to.1.abs()) > slack / 8.0;
        if !changes && (is_monotone || is_clear || width < SAME) {
            return;
        }
        let middle = f64::midpoint(from.0, to.0);
        let middle = (middle, self.wave.at(middle));
        self.isolate(from, middle, roots);
        self.isolate(middle, to, roots);
    }

    /// The root between two places of opposite sign, by the Illinois method.
    fn solve(&self, from: (f64, f64), to: (f64, f64)) -> f64 {
        let (mut low, mut high) = (from, to);
        for _ in 0..60 {
            let run = high.0 - low.0;
            if run < ONE_ANGLE || low.1 == 0.0 {
                return low.0;
            }
            let share = low.1 / (low.1 - high.1);
            let angle = low.0 + run * if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.5 };
            let value = self.wave.at(angle);
            if value == 0.0 || (angle - low.0).min(high.0 - angle) < ONE_ANGLE {
                return angle;
            }
            if (value <= 0.0) == (low.1 <= 0.0) {
                (low, high.1) = ((angle, value), high.1 / 2.0);
            } else {
                (high, low.1) = ((angle, value), low.1 / 2.0);
            }
        }
        f64::midpoint(low.0, high.0)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn wave() -> impl Strategy<Value = Wave> {
        let size = || prop_oneof![3 => -10.0..10.0_f64, 1 => Just(0.0), 1 => -0.01..0.01_f64];
        (size(), size(), size(), size(), size()).prop_map(|(mean, cos1, sin1, cos2, sin2)| Wave {
            mean,
            cos1,
            sin1,
            cos2,
            sin2,
        })
    }

    proptest! {
        #[test]
        fn arcs_are_where_samples_are_not_positive(wave in wave()) {
            let arcs = wave.not_positive();
            for i in 0..3000 {
                let angle = TAU * (f64::from(i) + 0.5) / 3000.0;
                let value = wave.at(angle);
                if value.abs() > 1e-7 {
                    prop_assert_eq!(arcs.contains(angle), value <= 0.0, "{} {}", angle, value);
                }
            }
        }

        #[test]
        fn the_greatest_value_is_that_of_samples(wave in wave(), from in -7.0..7.0_f64, width in 0.0..6.3_f64) {
            let (most, at) = wave.most_between(from, from + width);
            prop_assert!((from..=from + width).contains(&at));
            let sampled = (0..=2000).map(|i| wave.at(from + width * f64::from(i) / 2000.0)).fold(f64::MIN, f64::max);
            prop_assert!(most >= sampled - 1e-9, "{} {}", most, sampled);
            prop_assert!(most <= sampled + wave.bend() * (width / 2000.0).powi(2), "{} {}", most, sampled);
        }

        #[test]
        fn a_square_is_a_square(mean in -5.0..5.0_f64, cos in -5.0..5.0_f64, sin in -5.0..5.0_f64, angle in 0.0..7.0_f64) {
            let wave = Wave::linear(mean, cos, sin);
            prop_assert!((wave.squared().at(angle) - wave.at(angle).powi(2)).abs() < 1e-9);
        }
    }
}
