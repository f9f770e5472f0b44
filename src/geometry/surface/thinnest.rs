//! Where the kept surface comes nearest to the outside, proven.

use std::f64::consts::TAU;
use std::sync::LazyLock;

use smallvec::{SmallVec, smallvec};

use super::beside::SAME;
use super::escape::Escapes;
use super::kept::{HollowSurface, Shape};
use super::lower::Lower;
use super::near::Near;
use super::patch::{Patch, View};
use super::sheet::{SheetPoint, Spot};
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::pace::Pace;

/// The least wall is found to this, in mm.
pub const WITHIN: f64 = 0.01;
/// Patches smaller than this, in mm, are not looked into: what is kept of them counts as found, beside them.
const SMALLEST: f64 = 0.001;
/// How much nearer may be than what is found beside it, in mm.
const BESIDE: f64 = 2.0 * SMALLEST;
/// What a hollow about the same line leaves of a patch counts for nothing where it is narrower than this, in mm: rounding.
const SLIVER: f64 = 10.0 * SAME;
/// After so many patches the search gives up, and the least so far stands. Random pieces, broken through or not, take 7,000
/// at most; those with two hollows that coincide but for hundredths of a mm took 120,000.
const MOST_PATCHES: usize = 200_000;

/// The nearest place found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thinnest {
    /// Distance to the outside, in mm; negative where the outside has come through.
    pub distance: f64,
    /// Where on the sheet.
    pub place: Spot,
}

/// A patch to search, seen from a place in it; what is known of that place is not worked out again.
#[derive(Clone, Copy, Debug)]
pub struct Start {
    /// The patch.
    pub patch: Patch,
    /// The place.
    pub place: Spot,
    /// The distance there to the outside, in mm, where the place is kept by all but the outside.
    pub distance: Option<f64>,
    /// What of the outside may come nearer to the patch than is looked for.
    pub near: Near,
}

impl Start {
    /// Its parts outside some stretches of the meridian.
    fn without(&self, taken: &Intervals) -> SmallVec<[Self; 2]> {
        let (from, to) = self.patch.u;
        let left = Intervals::one(from, to).minus(taken);
        if from >= to || left == Intervals::one(from, to) {
            return smallvec![*self];
        }
        let part = |u: (f64, f64)| {
            let patch = Patch { u, ..self.patch };
            Self { patch, place: patch.middle(), distance: None, near: self.near }
        };
        left.iter().filter(|(from, to)| to - from > SLIVER).map(part).collect()
    }
}

impl HollowSurface<'_> {
    /// The point of some patches nearest to the outside, of those that all but the outside keep; of equals that which is
    /// known already. Within [`WITHIN`] mm: no point of the patches that is kept is nearer by more.
    ///
    /// A patch is given up once a bound of the distance over it says that it holds nothing nearer; else it is halved.
    pub async fn thinnest(&self, starts: &[Start], known: Option<Thinnest>, pace: &Pace) -> Option<Thinnest> {
        let mut search = Search { surface: self, best: known, within: WITHIN - BESIDE, patches: 0 };
        search.run(starts, None, pace).await;
        search.best
    }

    /// A point of some patches, kept by all but the outside, that is nearer to the outside than a limit in mm; `None` where
    /// none is nearer by [`WITHIN`] / 2.
    pub async fn nearer(&self, starts: &[Start], limit: f64, pace: &Pace) -> Option<Thinnest> {
        let at_limit = Thinnest { distance: limit, place: Spot::new(0.0, 0.0) };
        let mut search = Search { surface: self, best: Some(at_limit), within: WITHIN / 2.0 - BESIDE, patches: 0 };
        search.run(starts, Some(limit), pace).await;
        search.best.filter(|best| best.distance < limit)
    }

    /// Walks downhill from a place within a stretch of the meridian, in ever smaller steps from `step` mm, along the rim
    /// where it has to: a place where the wall is least nearby.
    pub async fn descend(&self, from: Thinnest, stretch: (f64, f64), step: f64, pace: &Pace) -> Thinnest {
        let mut best = from;
        let mut step = step;
        for _ in 0..MOST_STEPS {
            if step <= FINEST {
                break;
            }
            pace.pause().await;
            let around = 1.0 / self.sheet.at(best.place.u).r.max(0.5);
            let mut limit = best.distance - LEAST_GAIN * step;
            let mut found = None;
            for (i, (sin, cos)) in DIRECTIONS.iter().enumerate() {
                // Every other direction first; those between where none of them leads down.
                if i == DIRECTIONS.len() / 2 && found.is_some() {
                    break;
                }
                // Off the stretch the nearest edge of it is tried.
                let place = Spot::new(
                    (best.place.u + step * sin).clamp(stretch.0, stretch.1),
                    best.place.clock + step * cos * around,
                );
                if let Some(distance) = self.thinner(place, limit) {
                    limit = distance;
                    found = Some(Thinnest { distance, place });
                }
            }
            match found {
                Some(better) => best = better,
                None => step /= 2.0,
            }
        }
        best
    }

    /// The starts less what hollows about the same line take of them.
    pub(super) fn without_taken(&self, starts: &[Start]) -> Vec<Start> {
        let mut left = starts.to_vec();
        for ending in self.endings() {
            let Shape::Coaxial(_, taken) = &ending.shape else { continue };
            left = left.iter().flat_map(|start| start.without(taken)).collect();
        }
        left
    }

    /// Whether all of a patch is taken by one thing besides the outside.
    pub(super) fn takes_all(&self, view: &View, escapes: &Escapes<'_, '_>) -> bool {
        self.clearance_nearly(&view.at) <= -view.way() || escapes.are_none()
    }

    /// The distance to the outside at a place, in mm, where it is below a limit and all but the outside keep the place.
    #[must_use]
    pub fn thinner(&self, place: Spot, limit: f64) -> Option<f64> {
        let at = self.sheet.see(place);
        let distance = self.solid.to_outside_below(at.point, limit)?.distance;
        self.keeps_within(&at).then_some(distance)
    }
}

/// Directions tried in each step downhill, as sine and cosine, every other first: enough to slide along the rim.
static DIRECTIONS: LazyLock<[(f64, f64); 16]> = LazyLock::new(|| {
    std::array::from_fn(|i| (TAU * (i as f64 / 8.0 + if i < 8 { 0.0 } else { 1.0 / 16.0 })).sin_cos())
});
/// The walk ends at this step, in mm.
const FINEST: f64 = 0.003;
/// A step that gains less than this share of itself gains nothing: on a level ridge rounding alone would lead it round and
/// round.
const LEAST_GAIN: f64 = 2e-4;
/// Most steps of one walk; a tenth of them is usual.
const MOST_STEPS: usize = 1000;

struct Search<'a, 'b> {
    surface: &'b HollowSurface<'a>,
    best: Option<Thinnest>,
    /// What is nearer than the best by less than this, in mm, is not looked for.
    within: f64,
    patches: usize,
}

impl Search<'_, '_> {
    /// Looks at patch after patch, the halves of each before the next, until one is found below a limit in mm.
    async fn run(&mut self, starts: &[Start], limit: Option<f64>, pace: &Pace) {
        let is_done = |best: Option<Thinnest>| limit.is_some_and(|limit| best.is_some_and(|it| it.distance < limit));
        let mut waiting: Vec<Patch> = Vec::new();
        for start in &self.surface.without_taken(starts) {
            pace.pause().await;
            waiting.extend(self.look(&start.patch, start.place, start.distance, start.near).into_iter().flatten());
            while let Some(patch) = waiting.pop() {
                if is_done(self.best) {
                    return;
                }
                pace.pause().await;
                waiting.extend(self.look(&patch, patch.middle(), None, start.near).into_iter().flatten());
            }
        }
    }

    /// Below this the distance is worth looking for, in mm.
    fn enough(&self) -> f64 {
        self.best.map_or(f64::INFINITY, |best| best.distance - self.within)
    }

    /// Looks at a patch; its halves where it may hold something nearer.
    fn look(&mut self, patch: &Patch, place: Spot, known: Option<f64>, near: Near) -> Option<[Patch; 2]> {
        if self.patches > MOST_PATCHES {
            return None;
        }
        let surface = self.surface;
        let view = View::new(&surface.sheet, patch, place);
        if known.is_some_and(|distance| distance - view.reach() >= self.enough()) {
            return None;
        }
        self.patches += 1;
        let escapes = Escapes::new(surface, &view);
        let mut taken = false;
        if known.is_none() {
            // Farther than this its patch holds nothing nearer.
            let below = self.enough() + view.reach();
            let distance = surface.solid.to_outside_below(view.at.point, below)?.distance;
            let clearance = surface.clearance_nearly(&view.at);
            if clearance <= 0.0 && surface.takes_all(&view, &escapes) {
                return None;
            }
            if clearance > 0.0 {
                self.offer(distance, place);
            } else {
                taken = true;
            }
        }
        let lower = Lower {
            solid: surface.solid,
            view: &view,
            enough: self.enough(),
            near,
            in_stock: surface.sheet.is_way_out(place),
            escapes: &escapes,
        };
        let way = lower.thinner_way()?;
        if view.reach() < SMALLEST {
            return None;
        }
        if taken {
            self.look_at_rim(patch);
        }
        // Of a patch whose middle is taken nothing is known but where it lies.
        Some(patch.halves(if taken { view.longer() } else { view.sound(way) }))
    }

    fn offer(&mut self, distance: f64, place: Spot) {
        if self.best.is_none_or(|best| distance < best.distance) {
            self.best = Some(Thinnest { distance, place });
        }
    }

    fn clearance(&self, place: Spot) -> f64 {
        self.surface.clearance_nearly(&self.surface.sheet.see(place))
    }

    /// Where the rim runs between the corners of a patch whose middle is taken, tries a point of it: what is thinnest often
    /// lies there.
    fn look_at_rim(&mut self, patch: &Patch) {
        let within = |at: &SheetPoint| self.surface.clearance_nearly(at);
        let corners = patch.corners();
        let Some(kept) = corners.into_iter().find(|place| self.clearance(*place) > 0.0) else { return };
        let rim = self.surface.rim_between(kept, patch.middle(), within);
        if let Some(distance) = self.surface.thinner(rim, self.enough() + self.within) {
            self.offer(distance, rim);
        }
    }
}
