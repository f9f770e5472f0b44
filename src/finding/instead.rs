//! What works where not all that is wanted can be had: each time one want is given up as little as possible.

use super::answer::Offer;
use super::search::{HANDLE_STEP_MM, SHORTEST_HANDLE_MM, Search, TILT_STEP_DEG, halved};
use super::settle::{Obstacle, Trial};
use super::wants::{TiltWanted, Wants};
use super::words::Telling;

/// A longer handle is tried so many steps over the one wanted.
const LONGER: [i32; 5] = [1, 2, 4, 8, 16];
/// A measure that is offered instead is this much nearer to the one wanted than the bits can just hold.
const INSIDE: f64 = 0.005;

impl<B: AsyncFn(usize) -> bool> Search<'_, B> {
    /// Why the wants cannot be had together, in a sentence, and the nearest pieces that work.
    pub(super) async fn instead(&self, wants: &Wants, obstacle: &Obstacle) -> (String, Vec<Offer>) {
        let telling = Telling::of(self.shop);
        if let Some(holds_mm3) = obstacle.holds_mm3 {
            return (obstacle.sentence.clone(), self.another_measure(wants, holds_mm3).await);
        }
        let mut offers = Vec::new();
        let wider = match wants.blank {
            Some(_) => self.solve(&Wants { blank: None, ..wants.clone() }).await.ok(),
            None => None,
        };
        let why_not = telling.why_not(wants, obstacle, wider.as_deref());
        if let Some(trial) = wider {
            offers.push(telling.offer(telling.with_blank(&trial), *trial, wants));
        }
        if let TiltWanted::Degrees(tilt_deg) = wants.tilt
            && let Some(trial) = self.another_tilt(wants, tilt_deg).await
        {
            offers.push(telling.offer(telling.with_tilt(wants, &trial), *trial, wants));
        }
        if let Some(trial) = self.another_handle(wants).await {
            offers.push(telling.offer(telling.with_handle(wants, &trial), *trial, wants));
        }
        (why_not, offers)
    }

    /// The tilt nearest to the one wanted with which the rest can be had: the most that goes, or where that is more than is
    /// wanted, the least over it.
    async fn another_tilt(&self, wants: &Wants, tilt_deg: f64) -> Option<Box<Trial>> {
        let most = self.solve(&Wants { tilt: TiltWanted::AsMuchAsGoes, ..wants.clone() }).await.ok()?;
        if most.scoop.tilt_deg <= tilt_deg {
            return Some(most);
        }
        let at = async |steps: i32| self.at_tilt(wants, TILT_STEP_DEG * f64::from(steps)).await.ok();
        let high = (most.scoop.tilt_deg / TILT_STEP_DEG).round() as i32;
        let low = (tilt_deg / TILT_STEP_DEG).floor() as i32;
        Some(halved(most, high, low, at).await)
    }

    /// The nearest measure that the shop's bits can hold, and the measure wanted with another bit.
    async fn another_measure(&self, wants: &Wants, nearest_mm3: f64) -> Vec<Offer> {
        let telling = Telling::of(self.shop);
        let mut offers = Vec::new();
        let inside = if nearest_mm3 < wants.holds_mm3 { 1.0 - INSIDE } else { 1.0 + INSIDE };
        let nearest = Wants { holds_mm3: nearest_mm3 * inside, ..wants.clone() };
        if nearest_mm3 > 0.0
            && let Ok(trial) = self.solve(&nearest).await
        {
            offers.push(telling.offer(telling.with_measure(&trial), *trial, &nearest));
        }
        let other_bits = Wants { own_bits_only: false, ..wants.clone() };
        if wants.own_bits_only
            && let Ok(trial) = self.solve(&other_bits).await
        {
            offers.push(telling.offer(telling.with_bit(&trial), *trial, wants));
        }
        offers
    }

    /// The nearest handle with which the rest can be had: the longest shorter one, or where the shortest that is offered
    /// does not do, the shortest longer one that was found.
    async fn another_handle(&self, wants: &Wants) -> Option<Box<Trial>> {
        let at = async |steps: i32| {
            let handle_mm = HANDLE_STEP_MM * f64::from(steps);
            self.solve(&Wants { handle_mm, ..wants.clone() }).await.ok()
        };
        let steps = wants.handle_mm / HANDLE_STEP_MM;
        let (below, above) = (steps.ceil() as i32, steps.floor() as i32);
        let shortest = (SHORTEST_HANDLE_MM / HANDLE_STEP_MM).ceil() as i32;
        if shortest < below
            && let Some(works) = at(shortest).await
        {
            return Some(halved(works, shortest, below, at).await);
        }
        let mut fails = above;
        for more in LONGER {
            if let Some(works) = at(above + more).await {
                return Some(halved(works, above + more, fails, at).await);
            }
            fails = above + more;
        }
        None
    }
}
