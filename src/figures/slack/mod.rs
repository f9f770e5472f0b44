//! Figure 5: how far each mark, depth and diameter may be off before the wall is too thin.

mod error;
mod march;

use serde::{Deserialize, Serialize};

pub use error::{Fallible, What};
pub use march::REACH_MM;

use super::known::Known;
use super::wall::{least_wall_mm_in_slices, wall_samples_in_slices};
use crate::design::{Design, Shop};
use crate::geometry::{Pace, Solid, at_once};
use crate::piece::Piece;
use march::March;

/// How much may be off.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Slack {
    /// The least wall as designed, in mm.
    pub wall_mm: f64,
    /// The wall's limit, in mm.
    pub limit_mm: f64,
    /// How far was looked, in mm.
    pub reach_mm: f64,
    /// Everything that can be off, each alone.
    pub alone: Vec<Alone>,
    /// All of it off at once, once that is worked out.
    pub together: Option<Together>,
}

/// How far one thing may be off while all else is true.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Alone {
    /// What is off.
    #[serde(flatten)]
    pub of: Fallible,
    /// Off to less: to the left, down, toward the tail, smaller, shallower.
    pub less: Room,
    /// Off to more: to the right, up, toward the head, larger, deeper.
    pub more: Room,
}

/// How far off, in mm, without sign; absent where it is farther than was looked. 0 where the wall is too thin as designed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Room {
    /// Before the wall comes to its limit.
    pub to_limit_mm: Option<f64>,
    /// Before the outside meets the hollow.
    pub to_zero_mm: Option<f64>,
}

/// Everything off at once by the turner's usual error, each the way that is worst for one place of the wall.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Together {
    /// By how much each is off, in mm.
    pub off_mm: f64,
    /// The wall that is left, in mm; below 0 where something comes through.
    pub wall_mm: f64,
}

/// The slack of a design, one wall at a time, so that it can be worked out between frames.
///
/// Every wall is the exact one of a piece made with the error, not a linear guess. At the room found the wall keeps its
/// target within 0.02 mm, and 0.02 mm farther it does not, within 0.02 mm.
#[derive(Clone, Debug)]
pub struct SlackSearch {
    set_out: Design,
    fallible: Vec<Fallible>,
    usual_mm: f64,
    slack: Slack,
    stage: Stage,
    worst: WorstPlaces,
}

#[derive(Clone, Debug)]
enum Stage {
    /// One thing, in one direction.
    Alone {
        of: usize,
        more: bool,
        march: March,
    },
    /// What the usual error of one thing does to every place.
    Places {
        of: usize,
    },
    /// Everything at once, the worst way for the place with this rank.
    Together {
        rank: usize,
    },
    Done,
}

/// Places of the wall, the ones that errors bring lowest first, that are tried with everything off.
const PLACES: usize = 4;

impl SlackSearch {
    /// A search for a design worked out as `piece`; `None` when there is no wall.
    #[must_use]
    pub fn new(design: &Design, shop: &Shop, piece: &Piece) -> Option<Self> {
        at_once(Self::in_slices(design, shop, piece, &Pace::unbroken()))
    }

    /// As [`new`](Self::new), in slices.
    pub async fn in_slices(design: &Design, shop: &Shop, piece: &Piece, pace: &Pace) -> Option<Self> {
        let wall_mm = least_wall_mm_in_slices(&piece.solid, pace).await?;
        let limits = design.limits.over(&shop.limits);
        let slack = Slack { wall_mm, limit_mm: limits.wall_mm, reach_mm: REACH_MM, alone: Vec::new(), together: None };
        let mut search = Self {
            set_out: error::set_out(design, piece),
            fallible: error::all(design),
            usual_mm: limits.usual_error_mm,
            slack,
            stage: Stage::Done,
            worst: WorstPlaces::new(wall_samples_in_slices(&piece.solid, pace).await),
        };
        search.stage = search.alone(0, false);
        Some(search)
    }

    /// What is known so far.
    #[must_use]
    pub fn so_far(&self) -> &Slack {
        &self.slack
    }

    /// Whether there is nothing more to find.
    #[must_use]
    pub fn is_done(&self) -> bool {
        matches!(self.stage, Stage::Done)
    }

    /// One step: the cost of one or two walls. Whether there is more to do.
    pub fn step(&mut self) -> bool {
        at_once(self.step_in_slices(&Pace::unbroken()))
    }

    /// As [`step`](Self::step), in slices.
    pub async fn step_in_slices(&mut self, pace: &Pace) -> bool {
        self.stage = match std::mem::replace(&mut self.stage, Stage::Done) {
            Stage::Alone { of, more, march } => self.step_alone(of, more, march, pace).await,
            Stage::Places { of } => self.step_places(of, pace).await,
            Stage::Together { rank } => self.step_together(rank, pace).await,
            Stage::Done => Stage::Done,
        };
        !matches!(self.stage, Stage::Done)
    }

    /// Every step at once.
    #[must_use]
    pub fn finish(mut self) -> Slack {
        // Ends: every march steps outward by a least step, over a bounded reach.
        while self.step() {}
        self.slack
    }

    fn alone(&self, of: usize, more: bool) -> Stage {
        if of >= self.fallible.len() {
            return Stage::Places { of: 0 };
        }
        Stage::Alone { of, more, march: March::new(self.slack.wall_mm, [self.slack.limit_mm, 0.0]) }
    }

    async fn step_alone(&mut self, of: usize, more: bool, mut march: March, pace: &Pace) -> Stage {
        if let Some(off) = march.asks() {
            let signed = if more { off } else { -off };
            let wall_mm = match self.made(&[(self.fallible[of], signed)]) {
                Some(solid) => least_wall_mm_in_slices(&solid, pace).await,
                None => None,
            };
            march.learns(wall_mm);
            return Stage::Alone { of, more, march };
        }
        let [to_limit_mm, to_zero_mm] = march.found();
        let room = Room { to_limit_mm, to_zero_mm };
        if !more {
            self.slack.alone.push(Alone { of: self.fallible[of], less: room, more: Room::default() });
            return self.alone(of, true);
        }
        if let Some(last) = self.slack.alone.last_mut() {
            last.more = room;
        }
        self.alone(of + 1, false)
    }

    async fn step_places(&mut self, of: usize, pace: &Pace) -> Stage {
        let Some(fallible) = self.fallible.get(of).copied() else { return Stage::Together { rank: 0 } };
        let mut sampled = [Vec::new(), Vec::new()];
        for (walls, off) in sampled.iter_mut().zip([-self.usual_mm, self.usual_mm]) {
            if let Some(solid) = self.made(&[(fallible, off)]) {
                *walls = wall_samples_in_slices(&solid, pace).await;
            }
        }
        self.worst.add(&sampled);
        Stage::Places { of: of + 1 }
    }

    async fn step_together(&mut self, rank: usize, pace: &Pace) -> Stage {
        let Some(ways) = (rank < PLACES).then(|| self.worst.ways(rank)).flatten() else { return Stage::Done };
        let errors: Vec<(Fallible, f64)> =
            self.fallible.iter().zip(ways).map(|(of, way)| (*of, self.usual_mm * f64::from(way))).collect();
        let wall_mm = match self.made(&errors) {
            Some(solid) => least_wall_mm_in_slices(&solid, pace).await,
            None => None,
        };
        if let Some(wall_mm) = wall_mm {
            let wall_mm = self.slack.together.map_or(wall_mm, |before| before.wall_mm.min(wall_mm));
            self.slack.together = Some(Together { off_mm: self.usual_mm, wall_mm });
        }
        Stage::Together { rank: rank + 1 }
    }

    /// The piece made with these errors; `None` when it cannot be made.
    fn made(&self, errors: &[(Fallible, f64)]) -> Option<Solid> {
        let mut design = self.set_out.clone();
        for (of, off) in errors {
            of.put_into(&mut design, *off);
        }
        Piece::resolve_drawn(&design).ok().map(|piece| piece.solid)
    }
}

/// The slack of a design worked out as `piece`, every step at once. It takes hundreds of walls.
#[must_use]
pub fn slack(design: &Design, shop: &Shop, piece: &Piece) -> Known<Slack> {
    match SlackSearch::new(design, shop, piece) {
        Some(search) => Known::Value(search.finish()),
        None => Known::missing("There is no hollow, and so no wall that could be too thin."),
    }
}

/// For every place of the wall, which way each error is worse for it, and how low all of them bring it.
#[derive(Clone, Debug)]
struct WorstPlaces {
    designed: Vec<Option<f64>>,
    lowest: Vec<f64>,
    /// For each error, the worse way at each place: -1 or 1.
    ways: Vec<Vec<i8>>,
}

impl WorstPlaces {
    fn new(designed: Vec<Option<f64>>) -> Self {
        let lowest = designed.iter().map(|wall| wall.unwrap_or(f64::INFINITY)).collect();
        Self { designed, lowest, ways: Vec::new() }
    }

    /// Takes the walls with one error to less and to more.
    fn add(&mut self, [less, more]: &[Vec<Option<f64>>; 2]) {
        let mut ways = vec![1; self.designed.len()];
        for (place, designed) in self.designed.iter().enumerate() {
            let Some(designed) = designed else { continue };
            let change =
                |walls: &[Option<f64>]| walls.get(place).copied().flatten().map_or(0.0, |wall| wall - designed);
            let (less, more) = (change(less), change(more));
            if less < more {
                ways[place] = -1;
            }
            self.lowest[place] += less.min(more).min(0.0);
        }
        self.ways.push(ways);
    }

    /// The ways of all errors that bring one of the lowest places lowest; places with the same ways count once.
    fn ways(&self, rank: usize) -> Option<Vec<i8>> {
        let mut seen: Vec<Vec<i8>> = Vec::new();
        let mut left: Vec<usize> = (0..self.lowest.len()).filter(|place| self.lowest[*place].is_finite()).collect();
        while seen.len() <= rank {
            let at = (0..left.len()).min_by(|a, b| self.lowest[left[*a]].total_cmp(&self.lowest[left[*b]]))?;
            let place = left.swap_remove(at);
            let ways: Vec<i8> = self.ways.iter().map(|ways| ways[place]).collect();
            if !seen.contains(&ways) {
                seen.push(ways);
            }
        }
        seen.pop()
    }
}
