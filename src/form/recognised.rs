//! The pattern of a design from before patterns were kept, where it is exactly one.

use super::fields::Field;
use crate::design::pattern::Made;
use crate::design::{Choices, Cut, Design, Pattern};

/// How far a number may be off what the pattern makes, in mm and degrees: what rounding in the last digits comes to.
const SAME: f64 = 1e-6;

/// The pattern that makes a design's blank, axes and cuts, each number within a millionth of a mm; `None` where there is
/// none, and the design is a free piece. The design is left as it is.
#[must_use]
pub fn recognised(design: &Design) -> Option<Pattern> {
    let made = Made {
        blank: design.blank,
        thickness: design.limits.wall_mm.zip(design.limits.floor_mm),
        axes: design.axes.clone(),
        cuts: design.cuts.clone(),
    };
    Choices::read_back(&made).into_iter().find_map(|choices| {
        let mut again = design.clone().of_pattern(choices);
        let keeps_thickness = again.limits.wall_mm.is_none() || again.limits == design.limits;
        let is_it = keeps_thickness && is_same_shape(design, &mut again);
        let pattern = again.pattern.clone().filter(|_| is_it);
        // Choices out of their bounds are none that could be kept.
        pattern.filter(|_| again.problems().is_empty())
    })
}

/// Whether blank, axes and cuts are the same once numbers that hardly differ are made the same.
fn is_same_shape(design: &Design, again: &mut Design) -> bool {
    for field in Field::of_shape(again) {
        let numbers = field.number(design).zip(field.slot(again));
        if let Some((kept, slot)) = numbers.filter(|(kept, slot)| (kept - **slot).abs() <= SAME) {
            *slot = kept;
        }
    }
    // Designs from before passes could be said to shape one part are of the same shape.
    for (cut, kept) in again.cuts.iter_mut().zip(&design.cuts) {
        if let (Cut::Pass(pass), Cut::Pass(kept)) = (cut, kept) {
            pass.shapes.clone_from(&kept.shapes);
        }
    }
    again.blank == design.blank && again.axes == design.axes && again.cuts == design.cuts
}
