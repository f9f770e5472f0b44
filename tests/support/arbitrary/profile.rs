//! Arbitrary profiles.

use proptest::collection::vec;
use proptest::prelude::*;
use skewline::design::validation::{bounds, largest_bulge_mm};
use skewline::design::{Curve, Node};

/// A profile that covers the range in mm, with steps, arcs and ogees.
pub fn nodes(from_mm: f64, to_mm: f64) -> impl Strategy<Value = Vec<Node>> {
    let inner = vec((0.0..1.0_f64, any::<bool>()), 0..5);
    (inner, vec((0.0..200.0_f64, 0_u8..3, -1.0..1.0_f64), 12)).prop_map(move |(mut inner, shapes)| {
        inner.sort_by(|a, b| a.0.total_cmp(&b.0));
        inner.dedup_by(|a, b| a.0 == b.0);
        let mut stations = vec![from_mm];
        for (share, step) in inner {
            let at_mm = from_mm + (to_mm - from_mm) * share;
            if at_mm > from_mm && at_mm < to_mm {
                stations.extend(std::iter::repeat_n(at_mm, if step { 2 } else { 1 }));
            }
        }
        stations.push(to_mm);
        let mut nodes: Vec<Node> =
            stations.iter().zip(&shapes).map(|(at_mm, shape)| Node::line(*at_mm, shape.0)).collect();
        for index in 1..nodes.len() {
            let (_, kind, share) = shapes[index];
            nodes[index - 1].curve = curve(&nodes[index - 1], &nodes[index], kind, share);
        }
        nodes
    })
}

fn curve(from: &Node, to: &Node, kind: u8, share: f64) -> Curve {
    match kind {
        _ if to.at_mm == from.at_mm => Curve::Line,
        0 => Curve::Line,
        1 => Curve::Ogee,
        _ => {
            // A cove no deeper than the smaller radius cannot reach the axis.
            let smaller = from.diameter_mm.min(to.diameter_mm) / 2.0;
            let largest = largest_bulge_mm(from, to).min(bounds::BULGE.to);
            Curve::Arc { bulge_mm: share * if share < 0.0 { largest.min(smaller) } else { largest } }
        }
    }
}
