//! Where the stations of an axis are measured from at the lathe.

use crate::design::AxisName;
use crate::geometry::Axis;
use crate::piece::Piece;

/// The station along an axis from which a story stick and a rule measure, in mm: on axis A the bowl-end face, 0; on a
/// moved axis its mark on the tail face, which is on the plug where one is fitted. Where a moved axis pierces the bowl-end
/// face there is only air, and the rim lies askew to it by the tilt.
#[must_use]
pub fn datum_mm(piece: &Piece, axis: AxisName) -> f64 {
    let moved = piece.axis(axis).filter(|axis| **axis != Axis::A);
    moved.and_then(|axis| Some(axis.see(axis.centre(piece.tail_face)?).t)).unwrap_or(0.0)
}
