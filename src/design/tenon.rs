//! Which pass turns the tenon at the head end.

use super::axes::placed_axes;
use super::axis_name::AxisName;
use super::cut::{Cut, Pass, Side};
use super::document::Design;

/// How far a tenon may stop short of the head face, in mm.
const SHORT_MM: f64 = 1.0;

/// Whether a cut turns the tenon that the chuck grips: a pass on axis A over the head end that is called so, or that lies
/// in the waste, beyond the cut that parts the piece from its head end.
#[must_use]
pub fn is_tenon(design: &Design, cut: usize) -> bool {
    let Some(Cut::Pass(pass)) = design.cuts.get(cut) else { return false };
    let at_the_head = pass.axis == AxisName::A && pass.to_mm >= design.blank.length_mm - SHORT_MM;
    at_the_head && (is_called_tenon(pass) || parted_at_mm(design).is_some_and(|end| pass.from_mm >= end))
}

/// Whether the turner calls a pass a tenon.
#[must_use]
pub fn is_called_tenon(pass: &Pass) -> bool {
    pass.name.trim().eq_ignore_ascii_case("tenon")
}

/// Station along the blank of the first cut that parts the piece from its head end, on the cut's own axis, in mm.
fn parted_at_mm(design: &Design) -> Option<f64> {
    let axes = placed_axes(design).ok()?;
    let ends = design.cuts.iter().filter_map(|cut| match cut {
        Cut::Part(plane) if plane.removes == Side::Head => {
            Some(axes.get(plane.axis.index())?.point(plane.at_mm, 0.0, 0.0).s)
        }
        _ => None,
    });
    ends.reduce(f64::min)
}
