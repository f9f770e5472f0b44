//! The handle: its axis and its angle.

use super::hold::level_pitch;
use super::marks::AxisMarks;
use crate::design::{Cut, Design};
use crate::geometry::Axis;
use crate::piece::Piece;

/// The pitch that brings the handle level, in radians.
#[must_use]
pub fn handle_level(design: &Design, piece: &Piece) -> f64 {
    level_pitch(handle_axis(design, piece))
}

/// The axis of the handle: that of the last pass on a tilted axis, else axis A.
#[must_use]
pub fn handle_axis<'a>(design: &Design, piece: &'a Piece) -> &'a Axis {
    let tilted = design.cuts.iter().rev().find_map(|cut| match cut {
        Cut::Pass(pass) => piece.axis(pass.axis).filter(|axis| axis.is_tilted()),
        _ => None,
    });
    tilted.unwrap_or(&Axis::A)
}

/// The angle of the handle to axis A, in degrees: of the last pass on a tilted axis; 0 when there is none.
#[must_use]
pub fn handle_tilt_deg(design: &Design, marks: &[AxisMarks]) -> f64 {
    let tilt = |cut: &Cut| match cut {
        Cut::Pass(pass) => marks.iter().find(|m| m.axis == pass.axis).map(|m| m.tilt_deg).filter(|tilt| *tilt > 1e-6),
        _ => None,
    };
    design.cuts.iter().rev().find_map(tilt).unwrap_or(0.0)
}
