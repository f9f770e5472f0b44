//! Where the outside has come through the kept surface.

use super::escape::Escapes;
use super::kept::HollowSurface;
use super::lower::Lower;
use super::near::Near;
use super::patch::{Patch, View};
use super::thinnest::{Start, Thinnest};
use crate::geometry::pace::Pace;

/// A patch of the sheet with a part of a hole in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hole {
    /// The patch.
    pub patch: Patch,
    /// A place in it that is broken through.
    pub broken: Thinnest,
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

    /// The patches, none longer or wider than `size` mm, of which a part is broken through: kept by all but the outside,
    /// and not within that. A hole shallower than half of [`WITHIN`](super::WITHIN) mm may be missed, however wide.
    pub async fn holes(&self, starts: &[Start], size: f64, pace: &Pace) -> Vec<Hole> {
        let mut holes = Vec::new();
        let mut waiting = self.without_taken(starts);
        while let Some(Start { patch, place, near, .. }) = waiting.pop() {
            pace.pause().await;
            let view = View::new(&self.sheet, &patch, place);
            let below = self.solid.to_outside_below(view.at.point, view.reach());
            let escapes = Escapes::new(self, &view);
            if below.is_none() || self.takes_all(&view, &escapes) {
                continue;
            }
            let in_stock = self.sheet.is_way_out(place);
            let lower = Lower { solid: self.solid, view: &view, enough: 0.0, near, in_stock, escapes: &escapes };
            if lower.thinner_way().is_none() {
                continue;
            }
            if view.width() > size {
                let half = |patch: Patch| Start { patch, place: patch.middle(), distance: None, near };
                waiting.extend(patch.halves(view.longer()).map(half));
                continue;
            }
            let here = self.thinner(place, 0.0).map(|distance| Thinnest { distance, place });
            let broken = match here {
                None => self.nearer(&[Start { patch, place, distance: None, near }], 0.0, pace).await,
                found => found,
            };
            holes.extend(broken.map(|broken| Hole { patch, broken }));
        }
        holes
    }
}
