//! Profiles as nodes: that of a hollow, and any as geometry takes it.

use super::cut::HollowShape;
use super::profile::{Curve, Node};
use crate::geometry::Segment;

/// The profile of a hollow as nodes, stations counted from its mouth.
#[must_use]
pub fn hollow_nodes(shape: &HollowShape) -> Vec<Node> {
    match shape {
        HollowShape::Drawn { nodes } => nodes.clone(),
        HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm } => {
            // A quarter round stands off its chord by r (1 - cos 45 deg).
            let rounding = rounding_mm.clamp(0.0, (diameter_mm / 2.0).min(*depth_mm).max(0.0));
            let bulge = rounding * (1.0 - std::f64::consts::FRAC_1_SQRT_2);
            vec![
                Node::line(0.0, *diameter_mm),
                Node::arc((depth_mm - rounding).max(0.0), *diameter_mm, bulge),
                Node::line(*depth_mm, (diameter_mm - 2.0 * rounding).max(0.0)),
            ]
        }
    }
}

/// The nodes as geometry takes them, moved along the axis by `shift`, in mm: station, radius, and the curve that follows.
pub(crate) fn geometry_nodes(nodes: &[Node], shift: f64) -> Vec<(f64, f64, Segment)> {
    let segment = |curve: Curve| match curve {
        Curve::Line => Segment::Line,
        Curve::Arc { bulge_mm } => Segment::Arc { bulge: bulge_mm },
        Curve::Ogee => Segment::Ogee,
    };
    nodes.iter().map(|n| (n.at_mm + shift, n.diameter_mm / 2.0, segment(n.curve))).collect()
}
