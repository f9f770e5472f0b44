//! What the whole scoop sweeps as it spins in the jaws, and what it has to clear.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::bowl::Bowl;
use crate::geometry::Vector;
use crate::geometry::line::search::bisect_within;

/// What the scoop sweeps in the jaws, and what it clears.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Clear {
    /// Diameter of the circle that the end of the handle runs in, in mm.
    pub sweep_mm: f64,
    /// How far the handle stands before the opening, toward the tailstock, in mm; 0 where it does not.
    pub in_front_mm: f64,
    /// How near to the axis it does so, in mm: a tool rest before the opening reaches no farther from the axis. Absent where
    /// it does not.
    pub rest_within_mm: Option<f64>,
    /// Between the wood that lies farthest back and the end of the spindle, in mm; negative where they meet.
    pub headstock_mm: f64,
}

/// Stations between which the handle is looked for, before the opening and behind it.
const STATIONS: usize = 24;
/// What lies before the opening by less than this is the rim itself, in mm.
const RIM_MM: f64 = 0.2;
/// Room between the handle and the end of the tool rest, in mm. Common practice, no source.
const REST_ROOM_MM: f64 = 5.0;

/// What the scoop clears. `swing_mm` is the farthest wood from the axis; `toward` the direction in which it is; `spindle`
/// the station of the end of the spindle. Stations in mm along the axis.
///
/// The handle is looked for in the half-plane through its middle, in 24 steps of its sweep, and its ends to 0.01 mm.
pub(super) fn clear(bowl: &Bowl<'_>, toward: Vector, swing_mm: f64, spindle: f64) -> Clear {
    let step = swing_mm / STATIONS as f64;
    let wood = |t: f64| bowl.nearest_wood(t, toward);
    // The end of the wood past a station at which there is some, `way` being 1 or -1.
    let end = |t: f64, way: f64| bisect_within((t, t + way * step), END_MM, |t| wood(t).is_some()).0 + way * END_MM;
    let before = (0..STATIONS).map(|i| bowl.open - RIM_MM - step * i as f64);
    let in_front: Vec<(f64, f64)> = before.filter_map(|t| Some((t, wood(t)?))).collect();
    let nearest = in_front.iter().map(|(_, radius)| *radius).reduce(f64::min);
    let mut behind = (0..STATIONS).map(|i| bowl.bottom + HAIR_MM + step * i as f64);
    let back = behind.rfind(|t| wood(*t).is_some()).map_or(bowl.bottom, |t| end(t, 1.0));
    Clear {
        sweep_mm: 2.0 * swing_mm,
        in_front_mm: in_front.last().map_or(0.0, |(t, _)| bowl.open - end(*t, -1.0)),
        rest_within_mm: nearest.map(|radius| (radius - REST_ROOM_MM).max(0.0)),
        headstock_mm: spindle - back,
    }
}

/// How near the end of the wood is found, in mm; and what lies under the bowl by less is the bowl.
const END_MM: f64 = 0.01;
const HAIR_MM: f64 = 0.1;
