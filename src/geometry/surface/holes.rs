//! Where the outside has come through the kept surface.

use super::escape::Escapes;
use super::kept::HollowSurface;
use super::lower::Lower;
use super::near::Near;
use super::patch::{Patch, View};
use super::thinnest::{Start, Thinnest};
use crate::geometry::line::pace::Pace;

/// A patch of the sheet with a part of a hole in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HolePart {
    /// The patch.
    pub patch: Patch,
    /// A place in it that is broken through.
    pub broken: Thinnest,
}

/// Patches of a sheet, split at the holes in it.
#[derive(Clone, Debug, Default)]
pub struct SplitAtHoles {
    /// Each hole, by its parts.
    pub holes: Vec<Vec<HolePart>>,
    /// Patches without a part of a hole.
    pub rest: Vec<Start>,
}

impl HollowSurface<'_> {
    /// Even starts over a stretch of the meridian, `rows` by `columns`.
    #[must_use]
    pub fn starts(&self, stretch: (f64, f64), rows: usize, columns: usize) -> Vec<Start> {
        let (height, width) = ((stretch.1 - stretch.0) / rows as f64, std::f64::consts::TAU / columns as f64);
        let patch = |i: usize| {
            let (u, clock) = (stretch.0 + height * (i / columns) as f64, width * (i % columns) as f64);
            Patch { u: (u, u + height), clock: (clock, clock + width) }
        };
        let start = |patch: Patch| Start { place: patch.middle(), patch, distance: None, near: Near::ALL };
        (0..rows * columns).map(|i| start(patch(i))).collect()
    }

    /// Splits patches into those that are part of a hole, gathered into holes, and the rest of what may be kept.
    ///
    /// A part of a hole is no longer or wider than `size` mm. A hole shallower than half of [`WITHIN`](super::WITHIN) mm
    /// may be missed, however wide.
    pub async fn split_at_holes(&self, starts: &[Start], size: f64, pace: &Pace) -> SplitAtHoles {
        let (mut holes, mut rest) = (Vec::new(), Vec::new());
        let mut waiting = self.without_taken(starts);
        while let Some(Start { patch, place, near, .. }) = waiting.pop() {
            pace.pause().await;
            let view = View::new(&self.sheet, &patch, place);
            let whole = Start { patch, place, distance: None, near };
            if self.solid.to_outside_below(view.at.point, view.reach()).is_none() {
                rest.push(whole);
                continue;
            }
            let escapes = Escapes::new(self, &view);
            if self.takes_all(&view, &escapes) {
                continue;
            }
            let in_stock = self.sheet.is_way_out(place);
            let lower = Lower { solid: self.solid, view: &view, enough: 0.0, near, in_stock, escapes: &escapes };
            if lower.thinner_way().is_none() {
                rest.push(whole);
                continue;
            }
            if view.width() > size {
                let half = |patch: Patch| Start { patch, place: patch.middle(), distance: None, near };
                waiting.extend(patch.halves(view.longer()).map(half));
                continue;
            }
            let here = self.thinner(place, 0.0).map(|distance| Thinnest { distance, place });
            let broken = match here {
                None => self.nearer(&[whole], 0.0, pace).await,
                found => found,
            };
            match broken {
                Some(broken) => holes.push(HolePart { patch, broken }),
                None => rest.push(whole),
            }
        }
        SplitAtHoles { holes: gathered(holes), rest }
    }

    /// Whether a hole has no kept wood beside it, so that it lies in the open air: proven, by halving its parts until each
    /// is all taken or all beyond the outside. False for a hole that reaches the end of the profile's side at `mouth`, in mm
    /// along the meridian: what lies past that is not looked at.
    pub async fn is_in_open_air(&self, hole: &[HolePart], mouth: f64, pace: &Pace) -> bool {
        let is_at_mouth = |part: &HolePart| part.patch.u.0 <= mouth && mouth <= part.patch.u.1;
        if hole.iter().any(is_at_mouth) {
            return false;
        }
        let mut waiting: Vec<Patch> = hole.iter().map(|part| part.patch).collect();
        let mut looked = 0;
        while let Some(patch) = waiting.pop() {
            pace.pause().await;
            looked += 1;
            let view = View::new(&self.sheet, &patch, patch.middle());
            let is_beyond = self.solid.to_outside(view.at.point).distance <= -view.reach();
            if is_beyond || self.takes_all(&view, &Escapes::new(self, &view)) {
                continue;
            }
            if view.reach() < NARROW || looked > MOST_LOOKED {
                return false;
            }
            waiting.extend(patch.halves(view.longer()));
        }
        true
    }
}

/// Patches smaller than this, in mm, are not halved: a hole that is not proven to lie in the open air counts as one.
const NARROW: f64 = 0.02;
/// Most patches of one hole that are looked at.
const MOST_LOOKED: usize = 20_000;

/// Gathers the parts that touch each other into holes.
fn gathered(mut parts: Vec<HolePart>) -> Vec<Vec<HolePart>> {
    let mut holes = Vec::new();
    while let Some(first) = parts.pop() {
        let (mut waiting, mut hole) = (vec![first], Vec::new());
        while let Some(one) = waiting.pop() {
            hole.push(one);
            let (touching, apart) = parts.drain(..).partition(|other| touch(&one.patch, &other.patch));
            parts = apart;
            waiting.extend::<Vec<HolePart>>(touching);
        }
        holes.push(hole);
    }
    holes
}

/// Whether two patches of one sheet touch.
fn touch(a: &Patch, b: &Patch) -> bool {
    const NEAR: f64 = 1e-9;
    let turn = std::f64::consts::TAU;
    let overlap = |a: (f64, f64), b: (f64, f64)| a.0 <= b.1 + NEAR && b.0 <= a.1 + NEAR;
    let shifted = |by: f64| overlap(a.clock, (b.clock.0 + by, b.clock.1 + by));
    overlap(a.u, b.u) && [-turn, 0.0, turn].into_iter().any(shifted)
}
