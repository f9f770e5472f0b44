//! Sides of one part that are turned on several moved axes.

use crate::design::{AxisName, Cut, Design};
use crate::piece::Piece;

/// Whether a pass turns one side of a part: on a moved axis, over some of the length that another pass of its part turns on
/// another moved axis.
#[must_use]
pub fn turns_a_side(design: &Design, piece: &Piece, cut: usize) -> bool {
    let Some((axis, from, to)) = moved(design, piece, cut) else { return false };
    let mates = design.shaped_with(cut).into_iter().filter_map(|mate| moved(design, piece, mate));
    mates.into_iter().any(|mate| mate.0 != axis && mate.1 < to && from < mate.2)
}

/// The axis of a pass on a moved one, and the stations along the blank between which its axis passes through what it turns.
fn moved(design: &Design, piece: &Piece, cut: usize) -> Option<(AxisName, f64, f64)> {
    let Cut::Pass(pass) = design.cuts.get(cut)? else { return None };
    let turned = piece.revolved(cut).filter(|_| pass.axis != AxisName::A)?;
    let (from, to) = turned.span();
    Some((pass.axis, turned.axis.point(from, 0.0, 0.0).s, turned.axis.point(to, 0.0, 0.0).s))
}
