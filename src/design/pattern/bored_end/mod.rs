//! The bored-end scoop: bored from the end, opened by a saw, its handle on axis A or on an axis of its own.

mod frame;
mod handle;
mod read_back;
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
pub struct BoredEndScoop {
    /// What it was wanted for; absent where that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted: Option<Wanted>,
    /// Diameter of the bore, in mm.
    pub bore_diameter_mm: f64,
    /// Depth of the bore, in mm.
    pub bore_depth_mm: f64,
    /// Rounding of its floor, in mm; no more than the bore takes.
    pub rounding_mm: f64,
    /// Wall around the bore, in mm.
    pub wall_mm: f64,
    /// Floor at the end of the bore, in mm.
    pub floor_mm: f64,
    /// How the outside of the bowl is found.
    pub outside: Outside,
    /// Angle of the handle to the bowl, in degrees; 0 turns the handle on axis A.
    pub tilt_deg: f64,
    /// The clock direction in which the handle points, in degrees: 0 is up.
    pub toward_deg: f64,
    /// Where the handle's axis crosses axis A, in mm from the bowl end.
    pub crossing_mm: f64,
    /// Diameter of the neck, in mm.
    pub neck_diameter_mm: f64,
    /// Greatest diameter of the handle, in mm.
    pub handle_diameter_mm: f64,
    /// Length of the handle, from behind the floor of the bowl to its end, in mm.
    pub handle_mm: f64,
    /// How the handle ends.
    pub handle_end: HandleEnd,
    /// How the bowl is opened.
    pub opening: Opening,
    /// How high the saw cut begins at the lip, over the bore's axis, as a share of the bore's radius: -1 is its bottom,
    /// 1 its top.
    pub lip_share: f64,
    /// What the spigot of the plug is smaller than the bore, in mm: 0 is a snug fit.
    pub plug_play_mm: f64,
    /// Side of the square blank, in mm; a wider one is taken where the chuck's smallest tenon asks for it.
    pub blank_side_mm: f64,
    /// The chuck that holds it, from which the tenon follows.
    pub chuck: Chuck,
}

/// How the outside of the bowl is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Outside {
    /// The proposed join: straight tapers that follow every change.
    Join,
    /// Drawn, with a round-over to the neck.
    RoundOver,
}

/// The line of the saw cut that opens the bowl.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Opening {
    /// Straight.
    Straight,
    /// An arc that sags.
    Arc,
}

/// How high the saw cut of a scoop begins at the lip: a little below the bore's axis, as a share of the bore's radius.
pub const USUAL_LIP_SHARE: f64 = -0.3;

impl Default for BoredEndScoop {
    /// An invented coffee scoop for a small lathe.
    fn default() -> Self {
        Self {
            wanted: None,
            // 1 5/8 in.
            bore_diameter_mm: 41.275,
            bore_depth_mm: 48.0,
            rounding_mm: 12.0,
            wall_mm: 4.0,
            floor_mm: 5.0,
            outside: Outside::Join,
            tilt_deg: 7.5,
            toward_deg: 0.0,
            crossing_mm: 102.0,
            // Stout enough to bear a catch twice while it is turned.
            neck_diameter_mm: 20.0,
            handle_diameter_mm: 24.0,
            handle_mm: 151.0,
            handle_end: HandleEnd::Hooked,
            opening: Opening::Arc,
            lip_share: USUAL_LIP_SHARE,
            plug_play_mm: 0.0,
            blank_side_mm: 68.0,
            chuck: Chuck::default(),
        }
    }
}

impl BoredEndScoop {
    /// The same scoop with its handle on axis A.
    #[must_use]
    pub fn straight() -> Self {
        Self {
            outside: Outside::RoundOver,
            tilt_deg: 0.0,
            handle_end: HandleEnd::Round,
            blank_side_mm: 58.0,
            ..Self::default()
        }
    }

    /// Length of the finished scoop, in mm.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        self.bore_depth_mm + self.floor_mm + self.handle_mm
    }

    /// Whether the handle has an axis of its own.
    #[must_use]
    pub fn is_tilted(&self) -> bool {
        self.tilt_deg > 0.0
    }
}
