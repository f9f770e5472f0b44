//! What works where not all that is wanted can be had: each time one want is given up as little as possible.

use super::answer::Offer;
use super::search::{HANDLE_STEP_MM, SHORTEST_HANDLE_MM, Search, halved};
use super::settle::{Obstacle, Trial};
use super::wants::{TiltWanted, Wants};
use super::words::Telling;

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
        if wants.tilt != TiltWanted::AsMuchAsGoes
            && let Ok(trial) = self.solve(&Wants { tilt: TiltWanted::AsMuchAsGoes, ..wants.clone() }).await
        {
            offers.push(telling.offer(telling.with_tilt(wants, &trial), *trial, wants));
        }
        if let Ok((handle_mm, trial)) = self.shorter_handle(wants).await {
            offers.push(telling.offer(telling.with_handle(handle_mm, &trial), *trial, wants));
        }
        (why_not, offers)
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

    /// The longest shorter handle with which the rest can be had, in mm.
    async fn shorter_handle(&self, wants: &Wants) -> Result<(f64, Box<Trial>), Obstacle> {
        let at = async |steps: i32| {
            let handle_mm = HANDLE_STEP_MM * f64::from(steps);
            self.solve(&Wants { handle_mm, ..wants.clone() }).await.map(|trial| (handle_mm, trial))
        };
        let steps = |mm: f64| (mm / HANDLE_STEP_MM).ceil() as i32;
        let (low, high) = (steps(SHORTEST_HANDLE_MM), steps(wants.handle_mm));
        let works = at(low).await?;
        // Where the handle is no longer than that there is nothing between.
        Ok(halved(works, low, high.max(low), async |steps| at(steps).await.ok()).await)
    }
}
