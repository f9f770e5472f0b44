//! Arcs that run parallel to the axis at one end: the beads and coves that profiles are drawn with.

use crate::design::profile::Node;
use crate::design::validation::largest_bulge_mm;

/// Which way an arc stands off its chord.
#[derive(Clone, Copy)]
pub(super) enum Bend {
    /// Away from the axis: a bead.
    Out,
    /// Toward the axis: a cove.
    In,
}

/// The node followed by an arc to the next that runs parallel to the axis where it is widest, for a bead, or narrowest,
/// for a cove.
pub(super) fn rounded(node: Node, next: &Node, bend: Bend) -> Node {
    let (along, out) = (next.at_mm - node.at_mm, (next.diameter_mm - node.diameter_mm) / 2.0);
    // The arc leaves its chord by as much as the chord leans.
    let parallel = along.hypot(out) / 2.0 * (out.abs().atan2(along) / 2.0).tan();
    let bulge = parallel.min(largest_bulge_mm(&node, next));
    Node::arc(node.at_mm, node.diameter_mm, if matches!(bend, Bend::Out) { bulge } else { -bulge })
}
