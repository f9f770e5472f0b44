//! What is sanded when: on the lathe before the work is changed, and by hand at the end.

use super::bench::Bench;
use super::step::{Step, StepKind};
use crate::design::AxisName;
use crate::figures::support::Work;
use crate::figures::turning::Operation;

impl Bench<'_> {
    /// Sands what was turned, before a piece of work that is not another pass on the same axis.
    pub(super) fn sand_before(&mut self, next: Work) {
        let Some(axis) = self.unsanded.first().map(|it| it.axis) else { return };
        let same = match next {
            Work::Pass { axis: on, .. } => on == axis,
            Work::Tenon => axis == AxisName::A,
            _ => false,
        };
        if same {
            return;
        }
        self.sand_turned(axis);
    }

    /// Sands what was turned last, when no other work follows it.
    pub(super) fn sand_last(&mut self) {
        if let Some(axis) = self.unsanded.first().map(|it| it.axis) {
            self.sand_turned(axis);
        }
    }

    /// Sands what was turned on an axis while it still runs true on it.
    fn sand_turned(&mut self, axis: AxisName) {
        let turned = std::mem::take(&mut self.unsanded);
        let names: Vec<&str> = turned.iter().map(|it| it.name.as_str()).filter(|name| !name.is_empty()).collect();
        let (last, before) = names.split_last().map_or(("", &[][..]), |(last, before)| (*last, before));
        let named = match (last, before) {
            ("", _) => "what was turned".to_owned(),
            (one, []) => format!("the {one}"),
            (last, before) => format!("the {} and the {last}", before.join(", the ")),
        };
        let what = format!(
            "Take the rest out of the way. Sand {named} through the grits while it runs true on axis {axis}, before anything is \
             changed, each grit until the scratches of the last are gone. If you finish on the lathe, do it now. Wood that a \
             later axis turns away needs no sanding."
        );
        let title = format!("Sand {named}");
        let mut step = Step::new(StepKind::SandTurned, format!("sand on {axis}"), title, what);
        if let Some(last) = turned.last() {
            self.carry(&mut step, &last.support);
        }
        step.tool = "abrasive, dust extraction";
        self.on_axis(&mut step, axis);
        step.text("grits", self.grits());
        if let Some(cut) = turned.last().map(|it| it.cut) {
            self.speeds_of_cut(&mut step, cut, &[Operation::Sanding]);
        }
        step.until.push("No scratch shows along or around, with the lathe stopped.".into());
        self.add(step);
    }

    /// The shop's grits in their order, in words.
    pub(super) fn grits(&self) -> String {
        self.shop.grits.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
    }
}
