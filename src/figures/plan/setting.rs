//! What the lathe is set by in a step: marks, how wide the work swings, where the rest stands.

use super::bench::Bench;
use super::blank::mark_in_words;
use super::step::{Number, Step};
use crate::design::AxisName;
use crate::figures::support::{HeadEnd, TailEnd};
use crate::figures::turning::Turning;

/// A straight rest set along the work is worth a word from this difference between its ends, in mm.
const ALONG_MM: f64 = 2.0;

impl Bench<'_> {
    /// Sets the axis of a step that spins the work, and whether the work is off centre on it.
    pub(super) fn on_axis(&self, step: &mut Step, axis: AxisName) {
        step.axis = Some(axis);
        step.off_centre = axis != AxisName::A || self.turned_off_centre;
    }

    /// Lists the marks of an axis that centres bear on.
    pub(super) fn set_marks(&self, step: &mut Step, axis: AxisName) {
        let Some(marks) = self.figures.marks.iter().find(|marks| marks.axis == axis) else { return };
        let support = self.support();
        let tail = match support.tail {
            TailEnd::LiveCentreOnPlug => Some(("plug", &marks.tail)),
            TailEnd::LiveCentreOnWood => Some(("bowl end", &marks.tail)),
            TailEnd::Cone | TailEnd::Steady | TailEnd::Nothing => None,
        };
        let head = (support.head == HeadEnd::DriveCentre).then_some(("head end", &marks.head));
        for (end, mark) in tail.into_iter().chain(head) {
            let value = mark_in_words(self.words, mark);
            step.setting.push(Number { what: format!("mark {axis} on the {end}"), value, mm: None });
        }
    }

    /// Lists how wide the work of a cut swings, what it clears, and where the rest stands.
    pub(super) fn set_swing(&self, step: &mut Step, cut: usize) {
        let Some(turning) = self.figures.turning.iter().find(|it| it.cut == cut) else { return };
        for (what, mm) in clearances(turning) {
            step.set_length(self.words, what, mm);
        }
    }
}

/// How wide the work of a cut swings, what it clears and where the rest stands: each by its name, in mm.
fn clearances(turning: &Turning) -> Vec<(String, f64)> {
    let (swing, axis) = (&turning.swing, turning.axis);
    let mut all = vec![
        ("swing over the bed, diameter".to_owned(), 2.0 * swing.radius_mm),
        ("clears the bed by".to_owned(), swing.over_bed_mm),
    ];
    if let Some(over_rest_mm) = swing.over_rest_mm {
        all.push(("swing over the rest, diameter".to_owned(), 2.0 * swing.radius_at_cut_mm));
        all.push(("clears the rest's base by".to_owned(), over_rest_mm));
    }
    if let Some(rest) = &swing.rest {
        all.push((format!("tool rest from axis {axis}, set parallel"), rest.parallel_mm));
        if (rest.along_from_mm - rest.along_to_mm).abs() >= ALONG_MM {
            all.push((format!("or set along the work: from axis {axis} at its bowl end"), rest.along_from_mm));
            all.push((format!("and from axis {axis} at its head end"), rest.along_to_mm));
        }
    }
    all
}
