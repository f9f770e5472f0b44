//! Wooden jaws cut through their axis, and whether they grip.

use super::{Jaws, Recess};
use crate::geometry::Station;

impl Jaws {
    /// Whether they close over more than half of the bowl's girth.
    #[must_use]
    pub fn grips(&self) -> bool {
        let (girth_mm, mouth_mm) = (self.girth_mm / 2.0, self.mouth_mm / 2.0);
        Recess { girth_mm, mouth_mm, past_girth_mm: self.past_girth_mm }.grips()
    }

    /// One half of the jaws in a plane through their axis, as a ring: `t` is the depth from their front, `r` the distance from
    /// the axis, in mm. `in_slot` is the half that the slot for the handle is in.
    #[must_use]
    pub fn half_section(&self, in_slot: bool) -> Vec<Station> {
        let (outside, back) = (self.block.diameter_mm / 2.0, self.block.thickness_mm);
        let from = self.slot.filter(|_| in_slot).map_or(0.0, |slot| slot.depth_mm.min(self.depth_mm));
        let mut ring: Vec<Station> = self.recess_below(from);
        ring.extend([(self.depth_mm, 0.0), (back, 0.0), (back, outside), (from, outside)].map(Station::from));
        ring
    }

    /// The recess from a depth on, in mm.
    fn recess_below(&self, from: f64) -> Vec<Station> {
        let mut below = Vec::with_capacity(self.recess.len() + 1);
        for pair in self.recess.windows(2) {
            let (here, next) = (&pair[0], &pair[1]);
            if next.depth_mm <= from {
                continue;
            }
            let share = ((from - here.depth_mm) / (next.depth_mm - here.depth_mm)).max(0.0);
            if below.is_empty() {
                let diameter = here.diameter_mm + (next.diameter_mm - here.diameter_mm) * share;
                below.push(Station::new(from.max(here.depth_mm), diameter / 2.0));
            }
            below.push(Station::new(next.depth_mm, next.diameter_mm / 2.0));
        }
        below
    }
}
