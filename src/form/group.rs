//! Which group shows a cut or a field.

use super::moves::Movable;
use crate::design::tenon::is_tenon;
use crate::design::{AxisName, Cut, Design, Hollow, HollowShape, Pass};

/// The groups of values, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Group {
    /// The choices of the pattern that the whole piece follows.
    Whole,
    /// Species, moisture and the blank.
    Wood,
    /// Bores, their floor, the plug, the wall wanted.
    Hollow,
    /// The first passes, on the blank's own axis.
    Outside,
    /// The other axes and their passes, and what ends the handle.
    Handle,
    /// Saw lines and facings that open the hollow.
    Opening,
}

impl Group {
    /// Every group.
    pub const ALL: [Self; 6] = [Self::Whole, Self::Wood, Self::Hollow, Self::Outside, Self::Handle, Self::Opening];

    /// The groups of parts: all but that of the whole piece, which only a design made from a pattern has.
    pub const OF_PARTS: [Self; 5] = [Self::Wood, Self::Hollow, Self::Outside, Self::Handle, Self::Opening];

    /// Its name on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Whole => "Whole piece",
            Self::Wood => "Wood",
            Self::Hollow => "Hollow",
            Self::Outside => "Outside",
            Self::Handle => "Handle",
            Self::Opening => "Opening",
        }
    }
}

/// The group that shows a cut.
#[must_use]
pub fn group_of_cut(design: &Design, cut: usize) -> Option<Group> {
    Some(match design.cuts.get(cut)? {
        Cut::Hollow(_) | Cut::FitPlug(_) | Cut::TakeOutPlug => Group::Hollow,
        Cut::Saw(_) | Cut::Face(_) => Group::Opening,
        Cut::Part(_) => Group::Handle,
        Cut::Pass(pass) if pass.axis != AxisName::A || is_handle_pass(design, cut, pass) => Group::Handle,
        Cut::Pass(_) => Group::Outside,
    })
}

/// The group that holds what is dragged on the drawing.
#[must_use]
pub fn group_of_movable(design: &Design, thing: Movable) -> Option<Group> {
    match thing {
        Movable::Crossing { .. } | Movable::Tilt { .. } | Movable::Mark { .. } => Some(Group::Handle),
        Movable::Across { .. } => Some(Group::Hollow),
        _ => group_of_cut(design, thing.cut()?),
    }
}

/// A pass on A belongs to the handle when it comes after a pass on another axis, or starts beyond every hollow and is not
/// the tenon.
fn is_handle_pass(design: &Design, cut: usize, pass: &Pass) -> bool {
    let tilted_before =
        design.cuts.iter().take(cut).any(|it| matches!(it, Cut::Pass(earlier) if earlier.axis != AxisName::A));
    let hollowed_to = design.cuts.iter().filter_map(hollow_end_mm).fold(0.0, f64::max);
    tilted_before || (hollowed_to > 0.0 && pass.from_mm > hollowed_to && !is_tenon(design, cut))
}

/// Where a hollow on axis A ends, in mm.
fn hollow_end_mm(cut: &Cut) -> Option<f64> {
    match cut {
        Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm, shape }) => Some(
            mouth_mm
                + match shape {
                    HollowShape::RoundEnded { depth_mm, .. } => *depth_mm,
                    HollowShape::Drawn { nodes } => nodes.last().map_or(0.0, |node| node.at_mm),
                },
        ),
        _ => None,
    }
}
