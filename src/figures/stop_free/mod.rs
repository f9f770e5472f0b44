//! How far one number may go while no check stops, and which check ends it: what a value row shows under its slider.
//!
//! Where a check stops already, it is how far the number may go without one more that stops, and whether the number alone
//! can take the design to where none does.

mod range;
mod steps;
mod words;

use std::collections::BTreeMap;

pub use range::{End, EndedBy, Now, StopFree};
use steps::Steps;
pub use words::StopFreeWords;

use super::checks::{Check, Verdict};
use super::work_out::{work_out, work_out_in_slices};
use crate::design::entry::Units;
use crate::design::{Design, Shop};
use crate::form::edit::with_number;
use crate::form::{Field, shop_value};
use crate::geometry::{Pace, at_once};

/// How often each check stops.
type Stops = BTreeMap<&'static str, usize>;

/// What came of one value.
enum Outcome {
    /// No check stops that does not now; whether none stops at all.
    NoWorse { is_free: bool },
    /// It goes no further.
    Ended(EndedBy),
}

/// Shares of the way to an end that are tried one after the other, close together at both its ends: a near edge is not
/// leapt over, nor is a stretch that fails just before an end that does not, as between a straight handle and a tilt whose
/// marks stand clear of each other.
const LEAPS: [f64; 8] = [1.0 / 64.0, 1.0 / 16.0, 1.0 / 4.0, 1.0 / 2.0, 3.0 / 4.0, 15.0 / 16.0, 63.0 / 64.0, 1.0];
/// A value with which no check stops is looked for at these shares of the slider's range, either way.
const FREE_AT: [f64; 7] = [1.0 / 64.0, 1.0 / 32.0, 1.0 / 16.0, 1.0 / 8.0, 1.0 / 4.0, 1.0 / 2.0, 1.0];

/// A search for the range of one number.
///
/// The number is moved in steps that the screen can show. Each end was tried, and so was the step past it. A stretch
/// that fails between two of the places tried may be missed.
#[derive(Clone, Debug)]
pub struct StopFreeSearch {
    design: Design,
    shop: Shop,
    field: Field,
    now: f64,
    from: f64,
    to: f64,
    step: f64,
}

impl StopFreeSearch {
    /// A search over the slider of a field. `None` where the design has no such number.
    #[must_use]
    pub fn new(design: &Design, shop: &Shop, field: Field) -> Option<Self> {
        // A limit that is left to the shop is tried as the design's own.
        let now = field.number(design).or_else(|| shop_value(field, &shop.limits))?;
        let row = field.row(design);
        let (from, to) = row.slider(now);
        let step = Units::from(shop).least_shown(row.quantity);
        let is_range = from.is_finite() && to.is_finite() && from < to;
        is_range.then(|| Self { design: design.clone(), shop: shop.clone(), field, now, from, to, step })
    }

    /// The range; `None` where the design has no figures.
    #[must_use]
    pub fn finish(self) -> Option<StopFree> {
        at_once(self.in_slices(&Pace::unbroken()))
    }

    /// As [`finish`](Self::finish), in slices.
    pub async fn in_slices(self, pace: &Pace) -> Option<StopFree> {
        let stops = stops(&self.checks(&self.design, pace).await?);
        let (low, high) = (self.end(self.from, &stops, pace).await, self.end(self.to, &stops, pace).await);
        let now = match stops.is_empty() {
            true => Now::NothingStops,
            false => self.free_at(&stops, pace).await.map_or(Now::FreeNowhere, Now::FreeAt),
        };
        Some(StopFree { low, high, now })
    }

    /// The steps between the number as it is and an end.
    fn steps_to(&self, end: f64) -> Steps {
        Steps::new(self.now, end, self.step)
    }

    /// How far the number may go toward an end.
    async fn end(&self, end: f64, stops: &Stops, pace: &Pace) -> End {
        let steps = self.steps_to(end);
        let (mut good, mut bad) = (0, None);
        for leap in LEAPS {
            let tried = steps.share(leap);
            if tried <= good {
                continue;
            }
            match self.outcome(steps.value(tried), stops, pace).await {
                Outcome::NoWorse { .. } => good = tried,
                Outcome::Ended(by) => {
                    bad = Some((tried, by));
                    break;
                }
            }
        }
        let Some((bad, mut ended_by)) = bad else {
            return End { value: steps.value(good), ended_by: EndedBy::Slider };
        };
        let is_good = async |step: u32| match self.outcome(steps.value(step), stops, pace).await {
            Outcome::NoWorse { .. } => true,
            Outcome::Ended(by) => {
                ended_by = by;
                false
            }
        };
        let good = last_good(good, bad, is_good).await;
        End { value: steps.value(good), ended_by }
    }

    /// The nearest value found with which no check stops.
    async fn free_at(&self, stops: &Stops, pace: &Pace) -> Option<f64> {
        let ways = [self.steps_to(self.from), self.steps_to(self.to)];
        let span = (self.to - self.from) / self.step;
        let mut before = 0;
        for share in FREE_AT {
            let reach = (span * share).ceil() as u32;
            for steps in ways.iter().filter(|steps| steps.count > before) {
                let tried = reach.min(steps.count);
                let is_free = async |step: u32| self.is_free(steps.value(step), stops, pace).await;
                if is_free(tried).await {
                    return Some(steps.value(last_good(tried, before, is_free).await));
                }
            }
            before = reach;
        }
        None
    }

    async fn is_free(&self, value: f64, stops: &Stops, pace: &Pace) -> bool {
        matches!(self.outcome(value, stops, pace).await, Outcome::NoWorse { is_free: true })
    }

    async fn outcome(&self, value: f64, before: &Stops, pace: &Pace) -> Outcome {
        let changed = match with_number(&self.design, self.field, value) {
            Ok(changed) => changed,
            Err(_) => return Outcome::Ended(EndedBy::NoSuchPiece),
        };
        let Some(checks) = self.checks(&changed, pace).await else { return Outcome::Ended(EndedBy::NoSuchPiece) };
        let now = stops(&checks);
        let is_worse = |check: &&Check| {
            let title = check.name.title();
            check.verdict == Verdict::Stop && now.get(title) > before.get(title)
        };
        match checks.iter().find(is_worse) {
            Some(check) => Outcome::Ended(EndedBy::Check(check.name)),
            None => Outcome::NoWorse { is_free: now.is_empty() },
        }
    }

    async fn checks(&self, design: &Design, pace: &Pace) -> Option<Vec<Check>> {
        let worked = match pace.is_unbroken() {
            // On two threads.
            true => work_out(design, &self.shop),
            false => work_out_in_slices(design, &self.shop, pace).await,
        };
        Some(worked.ok()?.checks)
    }
}

/// The last good step between a good one and a bad one, by halving; the step past it was tried and is bad.
async fn last_good(good: u32, bad: u32, mut is_good: impl AsyncFnMut(u32) -> bool) -> u32 {
    let (mut good, mut bad) = (good, bad);
    while good.abs_diff(bad) > 1 {
        let middle = good.midpoint(bad);
        if is_good(middle).await { good = middle } else { bad = middle }
    }
    good
}

fn stops(checks: &[Check]) -> Stops {
    let mut all = Stops::new();
    for check in checks.iter().filter(|check| check.verdict == Verdict::Stop) {
        *all.entry(check.name.title()).or_default() += 1;
    }
    all
}
