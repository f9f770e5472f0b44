//! A pass of drawn nodes, and where a pass goes in working order.

use crate::design::{AxisName, Cut, Design, Node, Pass, PassProfile};
use crate::form::parts::apply::free_name;

/// A pass that its nodes cover.
pub(super) fn pass(design: &Design, name: &str, axis: AxisName, nodes: Vec<Node>) -> Cut {
    let (from_mm, to_mm) = (nodes.first().map_or(0.0, |node| node.at_mm), nodes.last().map_or(0.0, |node| node.at_mm));
    let profile = PassProfile::Drawn { nodes };
    Cut::Pass(Pass { name: free_name(design, name), axis, from_mm, to_mm, profile, shapes: None })
}

/// After the last pass on the same axis, else after the last of all; before what ends the piece.
pub(super) fn place_of_pass(design: &Design, axis: AxisName) -> usize {
    let last = |of_axis: bool| {
        design.cuts.iter().rposition(|cut| matches!(cut, Cut::Pass(pass) if !of_axis || pass.axis == axis))
    };
    last(true).or_else(|| last(false)).map_or(0, |place| place + 1)
}
