//! Wooden jaws in the side view: what of them lies in the plane x = 0.

use super::frame::Point;
use crate::figures::Worked;
use crate::figures::jaws::Jaws;
use crate::form::moves;
use crate::geometry::Axis;

/// The rings of the jaws for a hollow, by its place in the design; `None` where none are planned.
#[must_use]
pub fn rings_of(worked: &Worked, cut: usize) -> Option<Vec<Vec<Point>>> {
    Some(rings(worked.figures.jaws_for(cut)?, &worked.piece.revolved(cut)?.axis))
}

/// The rings of jaws on an axis, in mm in the side view: the half toward the head end, and the other. The slot is drawn
/// where the handle lies in it.
#[must_use]
pub fn rings(jaws: &Jaws, axis: &Axis) -> Vec<Vec<Point>> {
    let handle = jaws.slot.map_or(0.0, |slot| slot.toward_deg.to_radians().cos());
    let half = |side: f64| {
        let in_slot = side * handle > IN_PLANE;
        let ring = jaws.half_section(in_slot);
        ring.into_iter().map(|at| moves::shown(axis, jaws.front_at_mm + at.t, side * at.r)).collect()
    };
    vec![half(1.0), half(-1.0)]
}

/// A handle lies in the plane of the drawing where the cosine of its direction is at least this.
const IN_PLANE: f64 = 0.5;
