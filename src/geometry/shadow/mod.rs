//! The convex hull of a piece as the side view shows it: what a table touches.
//!
//! Every surface is a plane or ruled by straight lines, so the hull's corners lie on the ends of stretches of such lines
//! that are wood. Patches of surface whose bounds stand out of the hull so far are halved until they do not, or until
//! they are proven gone.

mod face;
mod flat;
mod plain;

use self::face::{Face, Patch};
pub use self::flat::Flats;
use self::plain::plain_corners;
use super::keep;
use super::order::sort_by_number;
use super::solid::State;
use super::vector::Vector;

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
    edge: Option<(usize, Vector)>,
}

/// Lines are looked for this far under a surface, in mm.
const HAIR: f64 = 1e-5;
/// Stretches shorter than this are what rounding leaves between two cuts that end in one plane, in mm.
const DUST: f64 = 1e-6;
/// Stations that differ by less are one, in mm.
const ROUNDING: f64 = 1e-9;
/// Most patches that are looked at: only absurd pieces need more.
const MOST: usize = 20_000;

/// The hull of the side view of a state, without its plug, counter-clockwise. Empty where there is no wood.
///
/// Corners lie on the wood to 1e-5 mm, and no wood stands out of the hull by more than 0.002 mm, but where an edge between
/// two curved cuts runs along the hull: there by up to 0.02 mm.
#[must_use]
pub fn shadow(state: &State<'_>) -> Vec<Corner> {
    let state = State { plug: None, ..*state };
    Surfaces::of(&state, &keep::of_stock(&state)).hull()
}

/// Moves the corners of a shadow closer together on each of its edges that `wanted` picks, where that is a chord of an edge
/// between two surfaces, until no wood stands out of it by more than 1e-7 mm.
#[must_use]
pub fn finer(state: &State<'_>, hull: Vec<Corner>, wanted: impl Fn([f64; 2], [f64; 2]) -> bool) -> Vec<Corner> {
    /// Most corners that are added.
    const MOST_ADDED: usize = 500;
    let mut edges = hull.iter().zip(hull.iter().cycle().skip(1));
    if !edges.any(|(a, b)| a.edge.is_some() && b.edge.is_some() && wanted(a.at, b.at)) {
        return hull;
    }
    let state = State { plug: None, ..*state };
    let keeps = keep::of_stock(&state);
    let surfaces = Surfaces::of(&state, &keeps);
    let mut hull = hull;
    for _ in 0..MOST_ADDED {
        let pairs = || hull.iter().zip(hull.iter().cycle().skip(1));
        let added = pairs().filter(|(a, b)| wanted(a.at, b.at)).find_map(|(a, b)| surfaces.standing_out_of(a, b));
        let Some(added) = added else { break };
        hull.push(added);
        hull = convex_hull(hull);
    }
    hull
}

/// The surfaces of a state.
struct Surfaces<'a, 'k> {
    state: &'a State<'a>,
    faces: Vec<Face<'k>>,
}

impl<'a, 'k> Surfaces<'a, 'k> {
    fn of(state: &'a State<'a>, keeps: &'k [keep::Keep<'k>]) -> Self {
        Self { state, faces: Face::all(state, keeps) }
    }

    /// The wood that stands out farthest between two corners on an edge between surfaces, midway between them around the
    /// axis of one of those.
    fn standing_out_of(&self, a: &Corner, b: &Corner) -> Option<Corner> {
        /// What stands out by less is none, in mm.
        const LEAST: f64 = 1e-7;
        let ((face, from), (other, to)) = (a.edge?, b.edge?);
        let (ds, dy) = (b.at[0] - a.at[0], b.at[1] - a.at[1]);
        let out = |corner: &Corner| ((corner.at[0] - a.at[0]) * dy - (corner.at[1] - a.at[1]) * ds) / ds.hypot(dy);
        let between = [face, other].into_iter().flat_map(|face| self.faces[face].between(from, to, self.state));
        between.filter(|corner| out(corner) > LEAST).max_by(|p, q| out(p).total_cmp(&out(q)))
    }

    fn hull(&self) -> Vec<Corner> {
        let (state, faces) = (self.state, &self.faces);
        let mut corners = plain_corners(state);
        corners.extend(faces.iter().flat_map(|face| face.likely(state)));
        let mut hull = convex_hull(corners);
        let mut patches: Vec<Patch> = faces.iter().enumerate().flat_map(|(i, face)| face.patches(i)).collect();
        let mut looked = 0;
        while !patches.is_empty() && looked < MOST {
            looked += patches.len();
            let (mut found, mut next) = (Vec::new(), Vec::new());
            let reached = Hull::of(&hull);
            for patch in patches {
                let face = &faces[patch.face];
                if let Some(patch) = face.standing_out(&patch, state, &reached) {
                    found.extend(face.ends(&patch, state));
                    next.extend(face.halves(&patch));
                }
            }
            if !found.is_empty() {
                found.extend(hull);
                hull = convex_hull(found);
            }
            patches = next;
        }
        hull
    }
}

/// The hull as half-planes: what stands out of one of them stands out of the hull.
struct Hull {
    /// Square to an edge, outward, of length 1; and the edge's distance from the origin along it.
    edges: Vec<([f64; 2], f64)>,
}

impl Hull {
    fn of(corners: &[Corner]) -> Self {
        let pairs = corners.iter().zip(corners.iter().cycle().skip(1));
        let edge = |(a, b): (&Corner, &Corner)| {
            let (ds, dy) = (b.at[0] - a.at[0], b.at[1] - a.at[1]);
            let length = ds.hypot(dy);
            let normal = [dy / length, -ds / length];
            (normal, normal[0] * a.at[0] + normal[1] * a.at[1])
        };
        Self { edges: if corners.len() < 3 { Vec::new() } else { pairs.map(edge).collect() } }
    }

    /// How far a point stands out, in mm: at least the distance to the hull where that is small.
    fn outside(&self, point: [f64; 2]) -> f64 {
        if self.edges.is_empty() {
            return f64::INFINITY;
        }
        let over = self.edges.iter().map(|(normal, offset)| normal[0] * point[0] + normal[1] * point[1] - offset);
        over.fold(f64::NEG_INFINITY, f64::max)
    }
}

/// The convex hull, counter-clockwise (Andrew's monotone chain).
fn convex_hull(mut corners: Vec<Corner>) -> Vec<Corner> {
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
