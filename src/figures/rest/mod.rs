//! Figure 7: how the finished piece lies on a table.

mod pose;
mod poses;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

pub use pose::Pose;

use crate::geometry::line::order::sort_by_number;
use crate::geometry::{Mass, Pace, at_once, shadow_in_slices};
use crate::piece::Piece;

/// How the finished piece lies on a table, without roll.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Rest {
    /// Every pose it stays in, the least pitch first.
    pub poses: Vec<Pose>,
    /// The pose with the opening up and the least pitch, by its place in `poses`; absent when it does not lie so.
    pub opening_up: Option<usize>,
    /// The hull of its side view, corners `[s, y]` in mm, counter-clockwise.
    #[serde(skip)]
    pub outline: Vec<[f64; 2]>,
}

/// How the finished piece lies, given its centre of mass. Pitches within 0.01 degree and margins within 0.02 mm of those of
/// 62 meshes, and what those are off themselves.
///
/// The side view's hull has the piece's own corners, ends and sawn edges; curves of profiles and saw lines are taken as they
/// are drawn, not as chords. On a plane the piece rests as far as there is wood, down to a feather a hundred-thousandth of a
/// mm thick. Rolling to the side is not looked at.
#[must_use]
pub fn rest(piece: &Piece, finished: &Mass) -> Rest {
    at_once(rest_in_slices(piece, finished, &Pace::unbroken()))
}

/// As [`rest`], in slices.
pub async fn rest_in_slices(piece: &Piece, finished: &Mass, pace: &Pace) -> Rest {
    let state = piece.solid.finished();
    let hull = shadow_in_slices(&state, pace).await;
    let mut poses = poses::poses(&state, &hull, [finished.centroid.s, finished.centroid.y], pace).await;
    sort_by_number(&mut poses, |pose| pose.pitch_deg.abs());
    let opening_up = poses.first().filter(|p| p.pitch_deg.abs() < 90.0).map(|_| 0);
    Rest { poses, opening_up, outline: hull.iter().map(|corner| corner.at).collect() }
}
