//! The round-bowl scoop: a ball on the end of a spindle, sawn open and hollowed across the grain about an axis square to
//! the blank through the ball's centre; its handle on axis A or on an axis of its own, which crosses A there.

mod shape;
mod tables;

use serde::{Deserialize, Serialize};

use super::handle_end::HandleEnd;
use super::wanted::Wanted;
use crate::design::shop::Chuck;

/// What the turner chooses; everything else follows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct RoundBowlScoop {
    /// What it was wanted for; absent where that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted: Option<Wanted>,
    /// Diameter of the ball, in mm.
    pub ball_diameter_mm: f64,
    /// Wall of the bowl at the height of the ball's centre, in mm.
    pub wall_mm: f64,
    /// Floor under the middle of the bowl, in mm: as thick as the wall for a round hollow, thicker for a flatter one, thinner
    /// for a deeper one.
    pub floor_mm: f64,
    /// Height of the opening over the ball's centre, as a share of the ball's radius: 0 opens half the ball.
    pub opening_share: f64,
    /// Angle of the handle to the blank, in degrees; 0 turns the handle on axis A.
    pub tilt_deg: f64,
    /// The clock direction in which the handle points, in degrees: 0 is up, toward the opening.
    pub toward_deg: f64,
    /// Diameter of the neck, in mm.
    pub neck_diameter_mm: f64,
    /// Greatest diameter of the handle, in mm.
    pub handle_diameter_mm: f64,
    /// Length of the handle, from the back of the ball to its end, in mm.
    pub handle_mm: f64,
    /// How the handle ends: not with a hook.
    pub handle_end: HandleEnd,
    /// Side of the square blank, in mm; a wider one is taken where the chuck's smallest tenon asks for it.
    pub blank_side_mm: f64,
    /// The chuck that holds it, from which the tenon follows.
    pub chuck: Chuck,
}

impl Default for RoundBowlScoop {
    /// An invented sugar scoop for a small lathe.
    fn default() -> Self {
        Self {
            wanted: None,
            ball_diameter_mm: 66.0,
            wall_mm: 5.0,
            floor_mm: 6.0,
            opening_share: 0.25,
            tilt_deg: 5.0,
            toward_deg: 0.0,
            neck_diameter_mm: 20.0,
            handle_diameter_mm: 24.0,
            handle_mm: 105.0,
            handle_end: HandleEnd::Round,
            blank_side_mm: 72.0,
            chuck: Chuck::default(),
        }
    }
}

impl RoundBowlScoop {
    /// The same scoop with its handle on axis A.
    #[must_use]
    pub fn straight() -> Self {
        Self { tilt_deg: 0.0, ..Self::default() }
    }

    /// Whether the handle has an axis of its own.
    #[must_use]
    pub fn is_tilted(&self) -> bool {
        self.tilt_deg > 0.0
    }
}
