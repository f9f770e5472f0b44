//! The nub by which waste and piece hang together until the lathe stands still, and sawing it through.

use super::bench::Bench;
use super::held::holding;
use super::step::{Step, StepKind};
use crate::design::AxisName;
use crate::figures::support::Work;

/// The nub where the strength of the wood is not known, in mm. Common practice, no source.
const USUAL_NUB_MM: f64 = 10.0;

impl Bench<'_> {
    /// The diameter that a piece of work leaves until the lathe stands still, in mm: what bears the loads of turning twice,
    /// by the strength figure. `None` where the work leaves no nub.
    pub(super) fn nub_mm(&self, place: usize) -> Option<f64> {
        let strength = &self.figures.strength;
        match self.works.get(place)? {
            Work::Part { .. } | Work::Face { .. } => {
                let nub = strength.nubs.iter().find(|nub| nub.cut == place);
                Some(nub.map_or(USUAL_NUB_MM, |nub| nub.diameter_mm))
            }
            Work::Pass { to_nothing, .. } => {
                let last = strength
                    .while_turning
                    .iter()
                    .find(|weakest| weakest.cut == place)
                    .and_then(|weakest| weakest.turned_last);
                last.map(|last| last.leave_mm).or(to_nothing.then_some(USUAL_NUB_MM))
            }
            _ => None,
        }
    }

    /// Saws every nub through, once nothing spins any more.
    pub(super) fn saw_nubs(&mut self) {
        let later = self.order[self.done..].iter().any(|cut| self.works[*cut].spins_on().is_some());
        if self.nubs.is_empty() || later {
            return;
        }
        self.sand_last();
        let nubs = std::mem::take(&mut self.nubs);
        let bearing = if self.plugged { " The live centre on the plug" } else { " The tail centre" };
        let what = format!(
            "Stop the lathe and lock the spindle. Saw the nub through by hand on the waste side of the line, the other hand \
             under the piece.{bearing} stays up until the saw is through; then draw the tailstock back and lift the piece off."
        );
        let title = "Saw the nub through".to_owned();
        let mut step = Step::new(StepKind::SawNub, "saw nub".into(), title, what);
        step.tool = "fine hand saw";
        if let Some(support) = self.done.checked_sub(1).and_then(|last| self.supports.get(last)) {
            step.held = format!("{} The lathe stands still.", holding(support));
            step.carried = *support;
        }
        for nub in nubs {
            step.length(self.words, format!("nub {}", nub.at), nub.diameter_mm);
        }
        step.until.push("The piece is off, and its end is whole: trim what is left of the nub by hand.".into());
        self.parted = true;
        self.mount = None;
        self.add(step);
    }

    /// A station along an axis as the place of a nub, in words.
    pub(super) fn nub_at(&self, axis: AxisName, station_mm: f64) -> String {
        format!("at {}", self.station(axis, station_mm))
    }
}
