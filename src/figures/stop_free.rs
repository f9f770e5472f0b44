//! How far one number may go before a check stops: what shades the ends of a slider.

use super::checks::Verdict;
use super::work_out::{work_out, work_out_in_slices};
use crate::design::{Design, Shop};
use crate::form::Field;
use crate::form::edit::with_number;
use crate::geometry::{Pace, at_once};

/// How many places are tried when the number as it is does not pass.
const SAMPLES: u32 = 16;
/// How often the edge between passing and failing is halved.
const HALVINGS: u32 = 8;

/// A search for the range of one number in which no check stops.
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
}

impl StopFreeSearch {
    /// A search between two values of a field, in its unit.
    #[must_use]
    pub fn new(design: &Design, shop: &Shop, field: Field, from: f64, to: f64) -> Self {
        Self { design: design.clone(), shop: shop.clone(), field, from, to }
    }

    /// The range where no check stops; `None` when there is no such place.
    #[must_use]
    pub fn finish(self) -> Option<(f64, f64)> {
        at_once(self.in_slices(&Pace::unbroken()))
    }

    /// As [`finish`](Self::finish), in slices.
    pub async fn in_slices(self, pace: &Pace) -> Option<(f64, f64)> {
        let (from, to) = (self.from, self.to);
        if !(from.is_finite() && to.is_finite() && from < to) {
            return None;
        }
        let inside = self.place_that_passes(pace).await?;
        let low = self.edge(inside, from, pace).await;
        Some((low, self.edge(inside, to, pace).await))
    }

    /// The value as it is comes first, then places spread over the range.
    async fn place_that_passes(&self, pace: &Pace) -> Option<f64> {
        let now = self.field.number(&self.design).unwrap_or(self.from).clamp(self.from, self.to);
        let spread = |tried: u32| self.from + (self.to - self.from) * (f64::from(tried) + 0.5) / f64::from(SAMPLES);
        for value in std::iter::once(now).chain((0..SAMPLES).map(spread)) {
            if self.passes(value, pace).await {
                return Some(value);
            }
        }
        None
    }

    /// The last place that passes between one that does and an end.
    async fn edge(&self, mut inside: f64, end: f64, pace: &Pace) -> f64 {
        if self.passes(end, pace).await {
            return end;
        }
        let mut outside = end;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(inside, outside);
            if self.passes(middle, pace).await { inside = middle } else { outside = middle }
        }
        inside
    }

    async fn passes(&self, value: f64, pace: &Pace) -> bool {
        let Ok(changed) = with_number(&self.design, self.field, value) else { return false };
        let worked = match pace.is_unbroken() {
            // On two threads.
            true => work_out(&changed, &self.shop),
            false => work_out_in_slices(&changed, &self.shop, pace).await,
        };
        worked.is_ok_and(|worked| worked.checks.iter().all(|check| check.verdict != Verdict::Stop))
    }
}
