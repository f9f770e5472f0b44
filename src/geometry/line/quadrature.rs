//! Gauss points over panels.

/// A place to take a sample and the weight it has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Sample {
    pub at: f64,
    pub weight: f64,
}

/// A Gauss-Legendre rule with a sample in the middle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum OddRule {
    Three,
    Five,
    Seven,
}

impl OddRule {
    /// Places over (-1, 1), those below 0 left out, and weights. Standard values; the tests hold them to polynomials.
    fn halves(self) -> &'static [(f64, f64)] {
        match self {
            Self::Three => &[(0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)],
            Self::Five => &[
                (0.0, 0.568_888_888_888_888_9),
                (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
                (0.906_179_845_938_664, 0.236_926_885_056_189_1),
            ],
            Self::Seven => &[
                (0.0, 0.417_959_183_673_469_4),
                (0.405_845_151_377_397_2, 0.381_830_050_505_118_9),
                (0.741_531_185_599_394_4, 0.279_705_391_489_276_7),
                (0.949_107_912_342_758_5, 0.129_484_966_168_869_7),
            ],
        }
    }
}

/// Samples of the panel from `low` to `high`, the middle first.
///
/// Gauss points in u, taken to middle + half (3 u - u^3) / 2: square-root ends, such as those of chords of a circle,
/// become smooth, and straight lines stay exact.
pub(crate) fn panel(low: f64, high: f64, rule: OddRule) -> impl Iterator<Item = Sample> {
    let (middle, half) = ((low + high) / 2.0, (high - low) / 2.0);
    let mirrored = |&(u, weight): &(f64, f64)| {
        let other = (u > 0.0).then_some((-u, weight));
        std::iter::once((u, weight)).chain(other)
    };
    rule.halves().iter().flat_map(mirrored).map(move |(u, weight)| Sample {
        at: middle + half * u * (1.5 - 0.5 * u * u),
        weight: weight * half * 1.5 * (1.0 - u * u),
    })
}

/// Nodes over [0, 1), with the weights of a Kronrod rule and of the Gauss rule within it: 7 points with 3, and 5 with 2.
const SEVEN: [(f64, f64, f64); 4] = [
    (0.0, 0.450_916_538_658_474_1, 8.0 / 9.0),
    (0.434_243_749_346_802_6, 0.401_397_414_775_962_2, 0.0),
    (0.774_596_669_241_483_4, 0.268_488_089_868_333_4, 5.0 / 9.0),
    (0.960_491_268_708_020_3, 0.104_656_226_026_467_3, 0.0),
];
const FIVE: [(f64, f64, f64); 3] = [
    (0.0, 0.622_222_222_222_222_2, 0.0),
    (0.577_350_269_189_625_8, 0.490_909_090_909_090_9, 1.0),
    (0.925_820_099_772_551_5, 0.197_979_797_979_798, 0.0),
];

/// A place to take a sample, with its weight in a fine rule and in a coarse one that checks it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct CheckedSample {
    pub at: f64,
    pub fine: f64,
    pub coarse: f64,
}

/// Samples of the panel from `low` to `high`. The fine rule is exact to the 11th power and the coarse to the 5th; for
/// a `short` panel, with five samples instead of seven, to the 7th and the 3rd.
pub(crate) fn checked_panel(low: f64, high: f64, short: bool) -> impl Iterator<Item = CheckedSample> {
    let (middle, half) = ((low + high) / 2.0, (high - low) / 2.0);
    let nodes: &[(f64, f64, f64)] = if short { &FIVE } else { &SEVEN };
    nodes.iter().flat_map(move |&(x, fine, coarse)| {
        let sample = move |x: f64| CheckedSample { at: middle + half * x, fine: fine * half, coarse: coarse * half };
        std::iter::once(sample(x)).chain((x > 0.0).then(|| sample(-x)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn chords_of_a_circle_sum_to_its_area() {
        for (rule, off) in [(OddRule::Three, 8e-3), (OddRule::Five, 1e-4), (OddRule::Seven, 2e-6)] {
            let sum: f64 = panel(-3.0, 7.0, rule).map(|p| p.weight * 2.0 * (25.0 - (p.at - 2.0).powi(2)).sqrt()).sum();
            assert!((sum / (25.0 * PI) - 1.0).abs() < off, "{rule:?}: {sum}");
        }
    }

    #[test]
    fn straight_lines_sum_to_their_areas() {
        for rule in [OddRule::Three, OddRule::Five, OddRule::Seven] {
            let sum: f64 = panel(1.0, 5.0, rule).map(|p| p.weight * (2.0 * p.at + 1.0)).sum();
            assert!((sum / 28.0 - 1.0).abs() < 1e-12, "{rule:?}: {sum}");
        }
    }

    #[test]
    fn powers_sum_exactly_under_both_rules() {
        for (short, fine_power, coarse_power) in [(false, 11, 5), (true, 7, 3)] {
            for power in 0..=fine_power {
                let exact = (5_f64.powi(power + 1) - 2_f64.powi(power + 1)) / f64::from(power + 1);
                let fine: f64 = checked_panel(2.0, 5.0, short).map(|p| p.fine * p.at.powi(power)).sum();
                assert!((fine / exact - 1.0).abs() < 1e-13, "{power}: {fine} {exact}");
                let coarse: f64 = checked_panel(2.0, 5.0, short).map(|p| p.coarse * p.at.powi(power)).sum();
                assert_eq!((coarse / exact - 1.0).abs() < 1e-13, power <= coarse_power, "{power}: {coarse} {exact}");
            }
        }
    }
}
