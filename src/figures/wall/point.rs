//! The wall at a point, and the map of all of them.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use crate::figures::place::Place;
use crate::geometry::{Limit, Vector};

/// The wall at one point.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct WallPoint {
    /// Thickness, in mm. Negative where the outside has come through: then it is the depth by which the point passes
    /// the surface it overruns most, not a distance to wood.
    pub wall_mm: f64,
    /// The point of the hollow.
    pub place: Place,
    /// The cut that limits it, by its place in working order from 0; absent where the blank's own surface does.
    pub limited_by_cut: Option<usize>,
    /// The point itself.
    #[serde(skip)]
    pub point: Vector,
}

/// The wall unrolled: rows go along the hollow's outline from its mouth, columns around its axis. What is kept outward of
/// the mouth, where the hollow goes on at its first radius, is not shown.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct WallMap {
    /// Distance of each row from the mouth along the hollow's outline, in mm.
    pub along_mm: Vec<f64>,
    /// Station of each row along the hollow's axis, in mm.
    pub station_mm: Vec<f64>,
    /// Clock direction of each column about the hollow's axis, in degrees.
    pub clock_deg: Vec<f64>,
    /// The wall, in mm; `None` where the hollow's surface is not kept.
    pub wall_mm: Vec<Vec<Option<f64>>>,
}

/// The cut behind a limit.
pub(super) fn limiting_cut(limit: Limit) -> Option<usize> {
    match limit {
        Limit::Cut(cut) => Some(cut),
        Limit::StockSide | Limit::HeadEnd => None,
    }
}
