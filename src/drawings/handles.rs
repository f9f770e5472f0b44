//! What can be dragged on the side view, where it is, and which one is meant.

use super::frame::{Point, Viewport};
use super::line::distance;
use crate::design::{AxisName, Cut, Design, Side};
use crate::form::moves::{self, Movable};
use crate::piece::Piece;

/// What a handle moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum HandleId {
    /// Part of the design.
    Part(Movable),
    /// The station of the section that is looked at; no part of the design.
    Station,
}

/// How a handle is drawn, so that kinds can be told apart without colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandleShape {
    /// A node of a profile.
    Round,
    /// A saw line or an end plane.
    Square,
    /// An axis.
    Diamond,
}

/// Something that can be dragged.
#[derive(Clone, Debug, PartialEq)]
pub struct Handle {
    /// What it moves.
    pub id: HandleId,
    /// Where it stands in the side view (s, y), in mm.
    pub at_mm: Point,
    /// What it is, in words.
    pub label: String,
    /// How it is drawn.
    pub shape: HandleShape,
}

/// Every handle of a design in the side view, in working order. `piece` is the design resolved.
#[must_use]
pub fn handles(design: &Design, piece: &Piece) -> Vec<Handle> {
    let handle = |thing: Movable| {
        let at_mm = moves::place(design, piece, thing)?;
        Some(Handle { id: HandleId::Part(thing), at_mm, label: label(design, thing), shape: shape(thing) })
    };
    moves::movables(design).into_iter().filter_map(handle).collect()
}

/// The handle nearest to a place on the sheet, if one is within reach (CSS pixels). Of two as near, the later one,
/// which is drawn on top.
#[must_use]
pub fn nearest<'a>(handles: &'a [Handle], viewport: &Viewport, px: Point, reach_px: f64) -> Option<&'a Handle> {
    let far = |handle: &Handle| distance(viewport.to_pixel(handle.at_mm), px);
    let near = handles.iter().filter(|h| far(h) <= reach_px);
    near.rev().min_by(|a, b| far(a).total_cmp(&far(b)))
}

fn shape(thing: Movable) -> HandleShape {
    match thing {
        Movable::PassNode { .. }
        | Movable::PassEnd { .. }
        | Movable::HollowNode { .. }
        | Movable::BoreFloor { .. }
        | Movable::BoreSide { .. } => HandleShape::Round,
        Movable::SawPoint { .. } | Movable::SawBulge { .. } | Movable::EndPlane { .. } => HandleShape::Square,
        Movable::Crossing { .. } | Movable::Tilt { .. } | Movable::Mark { .. } | Movable::Across { .. } => {
            HandleShape::Diamond
        }
    }
}

fn label(design: &Design, thing: Movable) -> String {
    let pass = |cut: usize| match design.cuts.get(cut) {
        Some(Cut::Pass(pass)) if !pass.name.trim().is_empty() => format!("Pass \u{201c}{}\u{201d}", pass.name.trim()),
        _ => "Pass without a name".to_owned(),
    };
    let axis = |axis: usize| AxisName::from_index(axis + 1).map_or('?', AxisName::letter);
    match thing {
        Movable::PassNode { cut, node } => format!("{}, point {}", pass(cut), node + 1),
        Movable::PassEnd { cut, end: Side::Tail } => format!("{}, start", pass(cut)),
        Movable::PassEnd { cut, end: Side::Head } => format!("{}, end", pass(cut)),
        Movable::HollowNode { node, .. } => format!("Hollow, point {}", node + 1),
        Movable::BoreFloor { .. } => "Floor of the bore".to_owned(),
        Movable::BoreSide { .. } => "Side of the bore".to_owned(),
        Movable::SawPoint { point, .. } => format!("Saw line, point {}", point + 1),
        Movable::SawBulge { .. } => "Bow of the saw line".to_owned(),
        Movable::EndPlane { cut } => match design.cuts.get(cut) {
            Some(Cut::Face(_)) => "Facing cut".to_owned(),
            _ => "Parting cut".to_owned(),
        },
        Movable::Crossing { axis: i } => format!("Axis {} crosses A", axis(i)),
        Movable::Tilt { axis: i } => format!("Tilt of axis {}", axis(i)),
        Movable::Mark { axis: i, face: Side::Tail } => format!("Mark {} on the bowl end", axis(i)),
        Movable::Mark { axis: i, face: Side::Head } => format!("Mark {} on the head end", axis(i)),
        Movable::Across { axis: i } => format!("Place of axis {} along the blank", axis(i)),
    }
}
