//! Beads, coves and ogees put into a profile, one action each.

use super::edit::CurveKind;
use super::place::nodes_of_mut;
use crate::design::{Curve, Design, Node};

/// The most that a new bead, cove or ogee takes of the way between two points, and its longest, in mm.
const FEATURE_SHARE: f64 = 0.5;
const FEATURE_MM: f64 = 12.0;
/// How far a new bead swells or a new cove sinks, over its length.
const FEATURE_BULGE: f64 = 0.25;

/// Puts a bead, a cove or an ogee in the middle of the straight way from a node to the next one: an ogee goes from the one
/// diameter to the other, and straight on on both sides. Nothing after the last node.
pub fn insert_feature(design: &mut Design, cut: usize, after: usize, kind: CurveKind) {
    let Some(nodes) = design.cuts.get_mut(cut).and_then(nodes_of_mut) else { return };
    let (Some(here), Some(next)) = (nodes.get(after).copied(), nodes.get(after + 1).copied()) else { return };
    let way_mm = next.at_mm - here.at_mm;
    let half = (FEATURE_SHARE * way_mm).min(FEATURE_MM) / 2.0 / way_mm.max(f64::MIN_POSITIVE);
    let at = |share: f64| {
        Node::line(here.at_mm + way_mm * share, here.diameter_mm + (next.diameter_mm - here.diameter_mm) * share)
    };
    let (mut from, mut to) = (at(0.5 - half), at(0.5 + half));
    let bulge_mm = FEATURE_BULGE * (to.at_mm - from.at_mm);
    from.curve = match kind {
        CurveKind::Line => Curve::Line,
        CurveKind::Bead => Curve::Arc { bulge_mm },
        CurveKind::Cove => Curve::Arc { bulge_mm: -bulge_mm.min(from.diameter_mm.min(to.diameter_mm) / 4.0) },
        CurveKind::Ogee => {
            (from.diameter_mm, to.diameter_mm) = (here.diameter_mm, next.diameter_mm);
            Curve::Ogee
        }
    };
    nodes[after].curve = Curve::Line;
    nodes.splice(after + 1..after + 1, [from, to]);
}
