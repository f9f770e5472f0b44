//! The oval-bowl scoop: a prolate spheroid on the end of a spindle, sawn open and hollowed across the grain about one axis or
//! several, square to the blank; its handle on axis A or on an axis of its own, which crosses A behind the bowl.

mod hollows;
mod shape;
pub(super) mod tables;

use serde::{Deserialize, Serialize};

use super::handle_end::HandleEnd;
use crate::design::shop::Chuck;

/// How many hollows across the grain make one bowl.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Hollows {
    /// One in the middle: round seen from above.
    One,
    /// Two, as far before the middle as behind it.
    Two,
    /// Three: two, and one in the middle.
    Three,
}

impl Hollows {
    /// All of them, the fewest first.
    pub const ALL: [Self; 3] = [Self::One, Self::Two, Self::Three];
    /// Their names on screen, in the order of [`ALL`](Self::ALL).
    pub const NAMES: [&str; 3] = ["One", "Two", "Three"];
}

/// What the turner chooses; everything else follows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct OvalBowlScoop {
    /// Length of the spheroid along the blank, in mm.
    pub bowl_length_mm: f64,
    /// Diameter of the spheroid at its middle, in mm.
    pub bowl_width_mm: f64,
    /// Wall at the height of the spheroid's axis, in mm.
    pub wall_mm: f64,
    /// Floor under the middle of each hollow, in mm.
    pub floor_mm: f64,
    /// Height of the opening over the spheroid's axis, as a share of half its width: 0 opens half the bowl.
    pub opening_share: f64,
    /// How many hollows make the bowl.
    pub hollows: Hollows,
    /// How far the outermost hollows stand from the middle: 0 is there, 1 where the spheroid's ends are round.
    pub spread_share: f64,
    /// Angle of the handle to the blank, in degrees; 0 turns the handle on axis A.
    pub tilt_deg: f64,
    /// The clock direction in which the handle points, in degrees: 0 is up, toward the opening.
    pub toward_deg: f64,
    /// Diameter of the neck, in mm.
    pub neck_diameter_mm: f64,
    /// Greatest diameter of the handle, in mm.
    pub handle_diameter_mm: f64,
    /// Length of the handle, from the back of the bowl to its end, in mm.
    pub handle_mm: f64,
    /// How the handle ends: not with a hook.
    pub handle_end: HandleEnd,
    /// Side of the square blank, in mm; a wider one is taken where the marks of the handle's axis or the chuck's smallest
    /// tenon ask for it.
    pub blank_side_mm: f64,
    /// The chuck that holds it, from which the tenon of a straight scoop follows.
    pub chuck: Chuck,
}

impl Default for OvalBowlScoop {
    /// An invented flour scoop for a small lathe. Its handle's end is rounded by hand: the waste behind it drives the last pass
    /// on the front of the bowl.
    fn default() -> Self {
        Self {
            bowl_length_mm: 84.0,
            bowl_width_mm: 60.0,
            wall_mm: 5.0,
            floor_mm: 6.0,
            opening_share: 0.2,
            hollows: Hollows::Two,
            spread_share: 0.6,
            tilt_deg: 5.0,
            toward_deg: 0.0,
            neck_diameter_mm: 20.0,
            handle_diameter_mm: 24.0,
            handle_mm: 90.0,
            handle_end: HandleEnd::Plain,
            blank_side_mm: 66.0,
            chuck: Chuck::default(),
        }
    }
}

impl OvalBowlScoop {
    /// The same scoop with its handle on axis A, where its end can be turned as round as wanted.
    #[must_use]
    pub fn straight() -> Self {
        Self { tilt_deg: 0.0, handle_end: HandleEnd::Round, ..Self::default() }
    }

    /// Whether the handle has an axis of its own.
    #[must_use]
    pub fn is_tilted(&self) -> bool {
        self.tilt_deg > 0.0
    }
}
