//! Roughing out and drying, before the work that finishes the piece.

use super::bench::Bench;
use super::cautions::BORING;
use super::step::{Step, StepKind};
use crate::design::{AxisName, Green};
use crate::figures::support::Support;
use crate::figures::turning::Operation;

/// What is left on a roughed diameter for the wood to move, as a share of the bore's diameter. Common practice, no source.
const LEFT_TO_MOVE: f64 = 0.1;

impl Bench<'_> {
    /// Rough the piece out of green wood and dry it, where the design says so.
    pub(super) fn rough_and_dry(&mut self) {
        let widest = self
            .figures
            .wood
            .drying
            .value()
            .and_then(|drying| drying.hollows.iter().map(|hollow| hollow.diameter_mm).reduce(f64::max));
        let Some(bore_mm) = widest.filter(|_| self.design.wood.green == Green::RoughFirst) else { return };
        let what = "Rough the tenon, the bore and the outside on axis A only, each this much short of its size. Seal the \
                    end grain and let the work dry slowly, away from sun and heat, until it has lost no weight for two \
                    weeks. Then turn the tenon true again, and go on with the steps below.";
        let mut step = Step::new(StepKind::Rough, "rough and dry".into(), "Rough out and dry".into(), what.into());
        step.held = "Between centres, then in the chuck by its roughed tenon.".into();
        step.carried = Support::BLANK;
        self.on_axis(&mut step, AxisName::A);
        step.tool = "roughing gouge, boring bits, end-grain sealer, scales";
        step.length(self.words, "left on every diameter", LEFT_TO_MOVE * bore_mm);
        step.text("dry to about", format!("{:.0} percent", self.figures.wood.moisture_in_use_percent));
        step.until.push("It weighs the same, to the gram, two weeks apart.".into());
        let diameter_mm = 2.0 * self.piece.solid.stock.largest_radius();
        self.speeds_centred(&mut step, diameter_mm, &[Operation::Roughing, Operation::Shaping]);
        BORING.iter().for_each(|it| step.caution(it));
        self.add(step);
    }
}
