//! The convex hull of points in the side view.

use crate::geometry::frame::vector::Vector;
use crate::geometry::line::order::sort_by_number;
use crate::geometry::line::pace::spend;

/// Stations that differ by less are one, in mm.
const ROUNDING: f64 = 1e-9;
/// Lines are looked for this far under a surface, in mm.
pub(super) const HAIR: f64 = 1e-5;
/// Stretches shorter than this are what rounding leaves between two cuts that end in one plane, in mm.
pub(super) const DUST: f64 = 1e-6;

/// A corner of the hull.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// `[s, y]`, in mm.
    pub at: [f64; 2],
    /// The surface it lies on, by the place of its removal, and its station on that surface's axis; absent on edges
    /// between surfaces.
    pub ring: Option<(usize, f64)>,
    /// Where it lies in space, and on which of the shadow's surfaces of revolution, when a line up that one ends here: on
    /// edges between surfaces.
    pub(super) edge: Option<(usize, Vector)>,
}

/// The hull as half-planes: what stands out of one of them stands out of the hull.
pub(super) struct Hull {
    /// Square to an edge, outward, of length 1; and the edge's distance from the origin along it.
    edges: Vec<([f64; 2], f64)>,
}

impl Hull {
    pub(super) fn of(corners: &[Corner]) -> Self {
        let pairs = corners.iter().zip(corners.iter().cycle().skip(1));
        let edge = |(a, b): (&Corner, &Corner)| {
            let (ds, dy) = (b.at[0] - a.at[0], b.at[1] - a.at[1]);
            let length = ds.hypot(dy);
            let normal = [dy / length, -ds / length];
            (normal, normal[0] * a.at[0] + normal[1] * a.at[1])
        };
        Self { edges: if corners.len() < 3 { Vec::new() } else { pairs.map(edge).collect() } }
    }

    /// Whether a point stands out by no more than `out` mm.
    pub(super) fn holds(&self, point: [f64; 2], out: f64) -> bool {
        let stands_out =
            |(normal, offset): &([f64; 2], f64)| normal[0] * point[0] + normal[1] * point[1] - offset > out;
        let first = self.edges.iter().position(stands_out);
        spend(first.map_or(self.edges.len(), |first| first + 1));
        !self.edges.is_empty() && first.is_none()
    }
}

/// The convex hull, counter-clockwise (Andrew's monotone chain).
pub(super) fn convex_hull(mut corners: Vec<Corner>) -> Vec<Corner> {
    corners.retain(|corner| corner.at[0].is_finite() && corner.at[1].is_finite());
    sort_by_number(&mut corners, |corner| corner.at[0]);
    // Rounding sets corners of one upright face a little apart: they would stand in any order.
    let mut upright = f64::NEG_INFINITY;
    for corner in &mut corners {
        if corner.at[0] - upright > ROUNDING {
            upright = corner.at[0];
        }
        corner.at[0] = upright;
    }
    for level in corners.chunk_by_mut(|a, b| a.at[0] == b.at[0]).filter(|level| level.len() > 1) {
        sort_by_number(level, |corner| corner.at[1]);
    }
    let turns_left =
        |a: [f64; 2], b: [f64; 2], c: [f64; 2]| (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 1e-10;
    let half = |all: &mut dyn Iterator<Item = Corner>| {
        let mut chain: Vec<Corner> = Vec::new();
        for corner in all {
            while chain.len() >= 2 && !turns_left(chain[chain.len() - 2].at, chain[chain.len() - 1].at, corner.at) {
                chain.pop();
            }
            chain.push(corner);
        }
        chain.pop();
        chain
    };
    let mut outline = half(&mut corners.iter().copied());
    outline.extend(half(&mut corners.iter().rev().copied()));
    outline
}
