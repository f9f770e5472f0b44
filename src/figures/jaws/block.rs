//! The wood that jaws are made of: its size, its quarters, and the screws that hold it to the carrier jaws.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::recess::Recess;
use crate::design::Shop;

/// How many jaws there are: flat jaws come in fours. Common practice, no source.
pub const SEGMENTS: u32 = 4;
/// The gap between two jaws while the recess is turned, and while it holds the bowl it was turned for, in mm. A choice of
/// ours, no source.
pub const GAP_MM: f64 = 4.0;
/// What of the gap has to be left when the jaws grip their smallest bowl, in mm: closed jaws grip nothing.
pub(super) const GAP_LEFT_MM: f64 = 1.0;
/// Wood around the recess, and around the screws, in mm. Common practice, no source.
const WOOD_AROUND_MM: f64 = 15.0;
/// Wood under the recess, in mm. Common practice, no source.
const WOOD_UNDER_MM: f64 = 20.0;
/// Wood between the point of a screw and the recess, in mm; and the most that a screw reaches into the wood. Common practice,
/// no source.
const OVER_SCREW_MM: f64 = 6.0;
const LONGEST_BITE_MM: f64 = 25.0;
/// Screws in each jaw: two keep it from turning on one. Common practice, no source.
const SCREWS_EACH: u32 = 2;

/// The block of wood, sawn into quarters.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Block {
    /// How many jaws it is sawn into.
    pub segments: u32,
    /// The gap between two jaws while the recess is turned, in mm.
    pub gap_mm: f64,
    /// Diameter over the jaws with their gaps, in mm.
    pub diameter_mm: f64,
    /// Side of the square of wood to saw them from, in mm: four quarters, and the kerf.
    pub square_mm: f64,
    /// Thickness, in mm.
    pub thickness_mm: f64,
    /// Diameter of the circle of the screws, in mm.
    pub screw_circle_mm: f64,
    /// Screws in each jaw.
    pub screws_each: u32,
    /// How far the screws reach into the wood at most, in mm.
    pub screw_bite_mm: f64,
}

impl Block {
    /// The block around a recess of this depth in mm. `depth_at` gives the depth of the recess at a distance from the axis.
    pub(super) fn around(recess: &Recess, depth_mm: f64, shop: &Shop, depth_at: impl Fn(f64) -> f64) -> Self {
        let carrier = &shop.carrier;
        // Wood covers the metal jaws, whose edges would strike a hand before it is seen.
        let covers = (carrier.screw_circle_mm + 2.0 * WOOD_AROUND_MM).max(carrier.diameter_mm);
        let diameter_mm = (2.0 * (recess.girth_mm + WOOD_AROUND_MM)).max(covers) + GAP_MM;
        let thickness_mm = depth_mm + WOOD_UNDER_MM;
        let over_screws = thickness_mm - depth_at(carrier.screw_circle_mm / 2.0);
        Self {
            segments: SEGMENTS,
            gap_mm: GAP_MM,
            diameter_mm,
            square_mm: diameter_mm - GAP_MM + carrier.saw_kerf_mm,
            thickness_mm,
            screw_circle_mm: carrier.screw_circle_mm,
            screws_each: SCREWS_EACH,
            screw_bite_mm: (over_screws - OVER_SCREW_MM).clamp(0.0, LONGEST_BITE_MM),
        }
    }
}
