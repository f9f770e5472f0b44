//! How far one number may go before a check stops: what shades the ends of a slider.

use super::checks::Verdict;
use super::work_out::work_out;
use crate::design::{Design, Shop};
use crate::form::Field;
use crate::form::edit::with_number;

/// How many places are tried when the number as it is does not pass.
const SAMPLES: u32 = 16;
/// How often the edge between passing and failing is halved.
const HALVINGS: u32 = 8;

/// A search for the range of one number in which no check stops, a step at a time, so that it can be done while
/// nothing else is going on.
///
/// The edges are found to 1/256 of the distance they were looked for in. A gap that fails between two places that
/// pass may be missed.
#[derive(Clone, Debug)]
pub struct StopFreeSearch {
    design: Design,
    shop: Shop,
    field: Field,
    from: f64,
    to: f64,
    stage: Stage,
}

#[derive(Clone, Copy, Debug)]
enum Stage {
    /// Looking for a place that passes.
    Sample(u32),
    /// Looking for the edge below: the last place that passed, and the first that failed.
    Low {
        inside: f64,
        outside: Option<f64>,
        left: u32,
        passed: f64,
    },
    /// Looking for the edge above.
    High {
        low: f64,
        inside: f64,
        outside: Option<f64>,
        left: u32,
    },
    Found(Option<(f64, f64)>),
}

impl StopFreeSearch {
    /// A search between two values of a field, in its unit.
    #[must_use]
    pub fn new(design: &Design, shop: &Shop, field: Field, from: f64, to: f64) -> Self {
        let stage = if from.is_finite() && to.is_finite() && from < to { Stage::Sample(0) } else { Stage::Found(None) };
        Self { design: design.clone(), shop: shop.clone(), field, from, to, stage }
    }

    /// One step; the cost of working the design out once. Once found, the answer: the range where no check stops, or
    /// `None` when there is no such place.
    pub fn step(&mut self) -> Option<Option<(f64, f64)>> {
        self.stage = match self.stage {
            Stage::Sample(tried) => self.sample(tried),
            Stage::Low { inside, outside, left, passed } => self.low(inside, outside, left, passed),
            Stage::High { low, inside, outside, left } => self.high(low, inside, outside, left),
            Stage::Found(_) => self.stage,
        };
        match self.stage {
            Stage::Found(range) => Some(range),
            _ => None,
        }
    }

    /// Every step at once.
    #[must_use]
    pub fn finish(mut self) -> Option<(f64, f64)> {
        // Ends: every stage has a bounded number of steps.
        loop {
            if let Some(range) = self.step() {
                return range;
            }
        }
    }

    fn passes(&self, value: f64) -> bool {
        let Ok(changed) = with_number(&self.design, self.field, value) else { return false };
        work_out(&changed, &self.shop)
            .is_ok_and(|worked| worked.checks.iter().all(|check| check.verdict != Verdict::Stop))
    }

    /// The value as it is comes first, then places spread over the range.
    fn sample(&self, tried: u32) -> Stage {
        let value = match tried {
            0 => self.field.number(&self.design).unwrap_or(self.from).clamp(self.from, self.to),
            tried if tried > SAMPLES => return Stage::Found(None),
            tried => self.from + (self.to - self.from) * (f64::from(tried) - 0.5) / f64::from(SAMPLES),
        };
        match self.passes(value) {
            true => Stage::Low { inside: value, outside: None, left: HALVINGS, passed: value },
            false => Stage::Sample(tried + 1),
        }
    }

    fn low(&self, inside: f64, outside: Option<f64>, left: u32, passed: f64) -> Stage {
        let on = |low: f64| Stage::High { low, inside: passed, outside: None, left: HALVINGS };
        let Some(fails) = outside else {
            return match self.passes(self.from) {
                true => on(self.from),
                false => Stage::Low { inside, outside: Some(self.from), left, passed },
            };
        };
        if left == 0 {
            return on(inside);
        }
        let middle = f64::midpoint(inside, fails);
        match self.passes(middle) {
            true => Stage::Low { inside: middle, outside, left: left - 1, passed },
            false => Stage::Low { inside, outside: Some(middle), left: left - 1, passed },
        }
    }

    fn high(&self, low: f64, inside: f64, outside: Option<f64>, left: u32) -> Stage {
        let Some(fails) = outside else {
            return match self.passes(self.to) {
                true => Stage::Found(Some((low, self.to))),
                false => Stage::High { low, inside, outside: Some(self.to), left },
            };
        };
        if left == 0 {
            return Stage::Found(Some((low, inside)));
        }
        let middle = f64::midpoint(inside, fails);
        match self.passes(middle) {
            true => Stage::High { low, inside: middle, outside, left: left - 1 },
            false => Stage::High { low, inside, outside: Some(middle), left: left - 1 },
        }
    }
}
