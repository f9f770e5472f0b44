//! The slot in which the handle lies free, and how far it stands before the jaws.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::bowl::Bowl;
use crate::figures::place::clock_deg;
use crate::geometry::Vector;
use crate::geometry::line::search::bisect;

/// The slot for the handle: open to the front, straight-sided, in the saw cut between two jaws.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Slot {
    /// Its direction around the axis of the hollow, in degrees.
    pub toward_deg: f64,
    /// Its width, in mm: the handle's greatest within the jaws, and room on either side.
    pub width_mm: f64,
    /// Its depth from the front of the jaws, in mm: down to the handle's underside, and room below.
    pub depth_mm: f64,
}

/// Room between the handle and its slot, in mm on each side. A choice of ours, no source.
pub const SLOT_ROOM_MM: f64 = 2.0;
/// Stations of the handle that are looked at, and halvings between them.
const STATIONS: usize = 12;
const HALVINGS: u32 = 12;
/// Handles are looked for in so much of the depth: nearer to the bottom a hair of depth is much of radius.
const NEAR_BOTTOM: f64 = 0.9;
/// What stands off the recess by less than this is the bowl itself, in mm.
const OFF_BOWL_MM: f64 = 0.3;

/// The slot for what stands out of the bowl in the direction `toward`, from the front of the jaws on; `None` where
/// nothing does.
///
/// The width is within 0.01 mm of the greatest at 12 stations, the depth within 0.01 mm; both have room to spare.
pub(super) fn slot(bowl: &Bowl<'_>, toward: Vector, front: f64, outside_mm: f64) -> Option<Slot> {
    let sideways = bowl.axis.along().cross(toward);
    let stands_out = |t: f64, radius: f64, aside: f64| {
        let from = (radius * radius - aside * aside).max(0.0).sqrt() + OFF_BOWL_MM;
        bowl.has_wood(t, (toward, sideways), aside, (from, outside_mm))
    };
    let step = NEAR_BOTTOM * (bowl.bottom - front) / STATIONS as f64;
    let at = |i: usize| front + step * (i as f64).max(0.01);
    let outside_at = |t: f64| bowl.around(t).map_or(0.0, |around| around.middle);
    let mut half = 0.0_f64;
    let mut last = None;
    for (t, radius) in (0..=STATIONS).map(at).map(|t| (t, outside_at(t))) {
        if !stands_out(t, radius, 0.0) {
            continue;
        }
        let most = bowl.bottom - bowl.open + outside_mm;
        for side in [1.0, -1.0] {
            let (edge, _) = bisect((0.0, most), HALVINGS, |aside| stands_out(t, radius, side * aside));
            half = half.max(edge + most * 0.5_f64.powi(HALVINGS as i32));
        }
        last = Some(t);
    }
    let last = last?;
    let (underside, _) = bisect((last, last + step), HALVINGS, |t| stands_out(t, outside_at(t), 0.0));
    let toward_deg = clock_deg(toward.dot(bowl.axis.right()), toward.dot(bowl.axis.up()));
    Some(Slot { toward_deg, width_mm: 2.0 * (half + SLOT_ROOM_MM), depth_mm: underside - front + SLOT_ROOM_MM })
}
