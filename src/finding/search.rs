//! The search: which bit, which tilt, which blank.

use std::cell::Cell;

use super::answer::Answer;
use super::measure::{holding, may_hold};
use super::settle::{Obstacle, Round, Settling, Trial};
use super::wants::{TiltWanted, Wants};
use super::words::Telling;
use crate::design::pattern::{BoredEndScoop, HandleEnd, Outside};
use crate::design::units::MM_PER_INCH;
use crate::design::{LengthUnit, Shop};
use crate::figures::strength::STEEPEST_OF_TABLE;
use crate::geometry::at_once;
use crate::geometry::line::order::sort_by_number;

/// The most designs that are worked out in full before a search ends.
pub const MOST_TRIALS: usize = 240;
/// Depth over diameter of the bore that is tried first. A choice of ours, no source.
const USUAL_DEPTH: f64 = 1.1;
/// How many bits are tried before a want is given up.
const MOST_BITS: usize = 4;
/// Tilts are found in steps of this, in degrees; one that works is looked for so many steps apart, down from the steepest
/// that the grain bears.
pub(super) const TILT_STEP_DEG: f64 = 0.1;
const FAR_APART: usize = 16;
/// A tilt at which bits are put in the order in which they are tried.
const LIKELY_TILT_DEG: f64 = 7.5;
/// The widest blank that is thought of, in mm, and the steps in which blanks are asked for.
const WIDEST_BLANK_MM: f64 = 120.0;
const BLANK_STEP_MM: f64 = 1.0;
const BLANK_STEP_IN: f64 = 0.125;
/// The shortest handle that is offered, in mm, and the steps in which handles are tried.
pub(super) const SHORTEST_HANDLE_MM: f64 = 60.0;
pub(super) const HANDLE_STEP_MM: f64 = 5.0;
/// Diameters of bits that are thought of where others than the shop's own may be used: every eighth of an inch from half
/// an inch to two and a half.
const EIGHTHS: std::ops::RangeInclusive<i32> = 4..=20;
/// Wall and floor over their limits, in mm.
const OVER_LIMIT_MM: f64 = 1.0;

/// Looks for a piece that does all that is wanted; before each design that is worked out `breathe` is called with the count
/// so far, so that a screen may show it and stay free, and says whether to go on.
///
/// Bounded: see [`MOST_TRIALS`]. Deterministic. The measure is met within 0.5 percent; tilts are found to 0.1 degree,
/// blanks to 1 mm or 1/8 in, handles to 5 mm, each between a piece that works and the next step, which does not.
pub async fn find(wants: &Wants, shop: &Shop, breathe: impl AsyncFn(usize) -> bool) -> Answer {
    let search = Search { shop, breathe, trials: Cell::new(0) };
    search.answer(wants).await
}

/// The same without a pause.
#[must_use]
pub fn find_at_once(wants: &Wants, shop: &Shop) -> Answer {
    at_once(find(wants, shop, async |_| true))
}

pub(super) struct Search<'a, B> {
    pub(super) shop: &'a Shop,
    breathe: B,
    trials: Cell<usize>,
}

/// A piece that works, or what stands in the way of the likeliest.
pub(super) type Outcome = Result<Box<Trial>, Obstacle>;

/// The steps in which blanks are asked for, in mm.
pub(super) fn blank_step_mm(shop: &Shop) -> f64 {
    match shop.length_unit {
        LengthUnit::Millimetres => BLANK_STEP_MM,
        LengthUnit::Inches => BLANK_STEP_IN * MM_PER_INCH,
    }
}

impl<B: AsyncFn(usize) -> bool> Search<'_, B> {
    async fn answer(&self, wants: &Wants) -> Answer {
        let telling = Telling::of(self.shop);
        let (found, why_not, instead) = match self.solve(wants).await {
            Ok(trial) => (Some(telling.offer(telling.found(&trial), *trial, wants)), String::new(), Vec::new()),
            Err(obstacle) => {
                let (why_not, instead) = self.instead(wants, &obstacle).await;
                (None, why_not, instead)
            }
        };
        Answer { found, why_not, instead, trials: self.trials.get() }
    }

    /// A piece that does all that is wanted.
    pub(super) async fn solve(&self, wants: &Wants) -> Outcome {
        match wants.tilt {
            TiltWanted::Degrees(tilt_deg) => self.at_tilt(wants, tilt_deg).await,
            TiltWanted::AsMuchAsGoes => self.most_tilt(wants).await,
        }
    }

    /// The first bit, the likeliest first, with which all of it works.
    pub(super) async fn at_tilt(&self, wants: &Wants, tilt_deg: f64) -> Outcome {
        let mut first_obstacle = None;
        for bore in self.bores(wants, tilt_deg).await?.into_iter().take(MOST_BITS) {
            match self.settled(wants, bore).await {
                Ok(trial) => return Ok(trial),
                Err(obstacle) => first_obstacle = first_obstacle.or(Some(obstacle)),
            }
        }
        Err(first_obstacle.unwrap_or_else(|| Telling::of(self.shop).no_bit()))
    }

    /// The piece with the most tilt, over the bits.
    async fn most_tilt(&self, wants: &Wants) -> Outcome {
        let mut best: Option<Box<Trial>> = None;
        let likely = self.bores(wants, LIKELY_TILT_DEG).await?.into_iter().take(MOST_BITS);
        for diameter_mm in likely.map(|scoop| scoop.bore_diameter_mm) {
            let least = best.as_ref().map_or(0.0, |trial| trial.scoop.tilt_deg);
            best = self.more_tilt(wants, diameter_mm, least).await.or(best);
        }
        match best {
            Some(trial) => self.settled(wants, trial.scoop).await,
            None => self.at_tilt(wants, 0.0).await,
        }
    }

    /// The piece with the most tilt over `least_deg` with this bit. Not every lesser tilt works as well: where it is
    /// little, the marks lie too close.
    async fn more_tilt(&self, wants: &Wants, diameter_mm: f64, least_deg: f64) -> Option<Box<Trial>> {
        let at = async |steps: i32| {
            let base = self.base(wants, TILT_STEP_DEG * f64::from(steps));
            let scoop = holding(&base, self.shop, diameter_mm, wants).ok()?;
            // Without a blank on hand the widest is taken, and the least looked for at the end.
            let blank_side_mm = wants.blank.map_or(WIDEST_BLANK_MM, |blank| blank.side_mm);
            self.set_right(wants, BoredEndScoop { blank_side_mm, ..scoop }).await.ok()
        };
        let steepest = (STEEPEST_OF_TABLE.atan().to_degrees() / TILT_STEP_DEG) as i32;
        let least = (least_deg / TILT_STEP_DEG).round() as i32;
        let (mut works, mut high) = (None, steepest + 1);
        for steps in (least + 1..=steepest).rev().step_by(FAR_APART) {
            works = at(steps).await;
            if works.is_some() {
                break;
            }
            high = steps;
        }
        let works = works?;
        let low = (works.scoop.tilt_deg / TILT_STEP_DEG).round() as i32;
        Some(halved(works, low, high, at).await)
    }

    /// The scoop in the blank on hand, or in the least that will do.
    async fn settled(&self, wants: &Wants, scoop: BoredEndScoop) -> Outcome {
        match wants.blank {
            Some(_) => self.set_right(wants, scoop).await,
            None => self.least_blank(wants, scoop).await,
        }
    }

    /// The scoop in the least blank, in the steps in which blanks are asked for.
    async fn least_blank(&self, wants: &Wants, scoop: BoredEndScoop) -> Outcome {
        let step = blank_step_mm(self.shop);
        let steps = |mm: f64| (mm / step).ceil() as i32;
        let at = async |steps: i32| {
            self.set_right(wants, BoredEndScoop { blank_side_mm: step * f64::from(steps), ..scoop.clone() }).await
        };
        let outside = scoop.bore_diameter_mm + 2.0 * scoop.wall_mm;
        let (low, high) = (steps(outside.max(self.shop.chuck.jaw_from_mm)), steps(WIDEST_BLANK_MM));
        let works = at(high).await?;
        if let Ok(least) = at(low).await {
            return Ok(least);
        }
        Ok(halved(works, high, low, async |steps| at(steps).await.ok()).await)
    }

    /// Sets a scoop right in its blank, until every check is ok.
    async fn set_right(&self, wants: &Wants, scoop: BoredEndScoop) -> Outcome {
        let mut settling = Settling::new(wants, self.shop, scoop);
        loop {
            if !self.goes_on().await {
                return Err(Telling::of(self.shop).given_up());
            }
            self.trials.set(self.trials.get() + 1);
            match settling.round() {
                Round::Works(trial) => return Ok(trial),
                Round::Fails(obstacle) => return Err(obstacle),
                Round::Again => {}
            }
        }
    }

    /// Lets the screen breathe; whether the search goes on.
    async fn goes_on(&self) -> bool {
        if self.trials.get() < MOST_TRIALS && !(self.breathe)(self.trials.get()).await {
            self.trials.set(MOST_TRIALS);
        }
        self.trials.get() < MOST_TRIALS
    }

    /// The scoops that hold the measure at this tilt, the likeliest bit first.
    async fn bores(&self, wants: &Wants, tilt_deg: f64) -> Result<Vec<BoredEndScoop>, Obstacle> {
        let base = self.base(wants, tilt_deg);
        let (mut bores, mut nearest) = (Vec::new(), None);
        let diameters_mm = self.diameters_mm(wants);
        let widest_mm = diameters_mm.last().copied();
        for diameter_mm in diameters_mm {
            // The widest tells what comes nearest to too large a measure.
            if !may_hold(self.shop, diameter_mm, wants.holds_mm3) && Some(diameter_mm) != widest_mm {
                continue;
            }
            if !self.goes_on().await {
                break;
            }
            match holding(&base, self.shop, diameter_mm, wants) {
                Ok(scoop) => bores.push(scoop),
                Err(holds_mm3) => nearest = nearer(nearest, holds_mm3, wants.holds_mm3),
            }
        }
        if bores.is_empty() {
            return Err(Telling::of(self.shop).no_measure(wants, tilt_deg, nearest));
        }
        let off = |scoop: &BoredEndScoop| {
            let raised = (scoop.lip_share - base.lip_share).max(0.0);
            (scoop.bore_depth_mm / scoop.bore_diameter_mm / USUAL_DEPTH).ln().abs() + raised
        };
        sort_by_number(&mut bores, off);
        Ok(bores)
    }

    /// Diameters of bits, the narrowest first.
    fn diameters_mm(&self, wants: &Wants) -> Vec<f64> {
        let mut all: Vec<f64> = self.shop.bits.iter().map(|bit| bit.diameter_mm).collect();
        if !wants.own_bits_only {
            all.extend(EIGHTHS.map(|eighths| f64::from(eighths) * MM_PER_INCH / 8.0));
        }
        all.retain(|diameter| *diameter <= self.shop.lathe.largest_bit_mm);
        all.sort_unstable_by(f64::total_cmp);
        all.dedup_by(|b, a| *b - *a < 0.05);
        all
    }

    /// The scoop before it has its bore.
    fn base(&self, wants: &Wants, tilt_deg: f64) -> BoredEndScoop {
        let usual = BoredEndScoop::default();
        let limits = &self.shop.limits;
        let (wall_mm, floor_mm) = (limits.wall_mm + OVER_LIMIT_MM, limits.floor_mm + OVER_LIMIT_MM);
        let length_mm = usual.bore_depth_mm + floor_mm + wants.handle_mm;
        BoredEndScoop {
            wanted: Some(wants.wanted()),
            wall_mm,
            floor_mm,
            handle_mm: wants.handle_mm,
            tilt_deg,
            outside: if tilt_deg > 0.0 { Outside::Join } else { Outside::RoundOver },
            handle_end: if tilt_deg > 0.0 || wants.handle_end != HandleEnd::Hooked {
                wants.handle_end
            } else {
                HandleEnd::Round
            },
            crossing_mm: 0.5 * length_mm,
            blank_side_mm: wants.blank.map_or(usual.blank_side_mm, |blank| blank.side_mm),
            chuck: self.shop.chuck,
            ..usual
        }
    }
}

/// Halves between a step that works and one that does not until they lie side by side; what the one that works gives.
pub(super) async fn halved<T>(mut works: T, works_at: i32, fails_at: i32, at: impl AsyncFn(i32) -> Option<T>) -> T {
    let (mut inside, mut outside) = (works_at, fails_at);
    while (outside - inside).abs() > 1 {
        let middle = i32::midpoint(inside, outside);
        match at(middle).await {
            Some(better) => (inside, works) = (middle, better),
            None => outside = middle,
        }
    }
    works
}

/// Of two volumes that can be held, the one nearer to the one wanted.
fn nearer(known: Option<f64>, holds_mm3: f64, wanted_mm3: f64) -> Option<f64> {
    let off = |mm3: f64| (mm3 - wanted_mm3).abs();
    known.filter(|known| off(*known) <= off(holds_mm3)).or(Some(holds_mm3).filter(|mm3| *mm3 > 0.0)).or(known)
}
