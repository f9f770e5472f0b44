//! The convex hull of a piece as the side view shows it: what a table touches.
//!
//! Every surface is a plane or ruled by straight lines, so the hull's corners lie on the ends of stretches of such lines
//! that are wood. Patches of surface whose bounds stand out of the hull so far are halved until they do not, or until
//! they are proven gone.

mod face;
mod flat;
mod hull;
mod plain;

use self::face::{Face, Patch};
pub use self::flat::Flats;
pub use self::hull::Corner;
use self::hull::{Hull, convex_hull};
use self::plain::plain_corners;
use crate::geometry::line::pace::{Pace, at_once};
use crate::geometry::region::keep;
use crate::geometry::region::solid::State;

/// Most patches that are looked at: only absurd pieces need more.
const MOST: usize = 20_000;

/// The hull of the side view of a state, without its plug, counter-clockwise. Empty where there is no wood.
///
/// Corners lie on the wood to 1e-5 mm, and no wood stands out of the hull by more than 0.002 mm, but where an edge between
/// two curved cuts runs along the hull: there by up to 0.02 mm.
#[must_use]
pub fn shadow(state: &State<'_>) -> Vec<Corner> {
    at_once(shadow_in_slices(state, &Pace::unbroken()))
}

/// As [`shadow`], in slices.
pub async fn shadow_in_slices(state: &State<'_>, pace: &Pace) -> Vec<Corner> {
    let state = State { plug: None, ..*state };
    Surfaces::of(&state, &keep::of_stock(&state)).hull(pace).await
}

/// Moves the corners of a shadow closer together on each of its edges that `wanted` picks, where that is a chord of an edge
/// between two surfaces, until no wood stands out of it by more than 1e-7 mm.
#[must_use]
pub fn finer(state: &State<'_>, hull: Vec<Corner>, wanted: impl Fn([f64; 2], [f64; 2]) -> bool) -> Vec<Corner> {
    at_once(finer_in_slices(state, hull, wanted, &Pace::unbroken()))
}

/// As [`finer`], in slices.
pub async fn finer_in_slices(
    state: &State<'_>,
    hull: Vec<Corner>,
    wanted: impl Fn([f64; 2], [f64; 2]) -> bool,
    pace: &Pace,
) -> Vec<Corner> {
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
        pace.pause().await;
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

    async fn hull(&self, pace: &Pace) -> Vec<Corner> {
        let (state, faces) = (self.state, &self.faces);
        let mut corners = plain_corners(state);
        for face in faces {
            corners.extend(face.likely(state));
            pace.pause().await;
        }
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
                pace.pause().await;
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
