//! The ladle: a ball on the end of a spindle, sawn open and hollowed across the grain, with a long handle on a steep axis of
//! its own. It is an oval-bowl scoop as wide as it is long, with one hollow, whose handle rises from under the rim.

mod tables;

use serde::{Deserialize, Serialize};

use super::handle_end::HandleEnd;
use super::made::Made;
use super::oval_bowl::{Hollows, OvalBowlScoop};

/// What the turner chooses; everything else follows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Ladle {
    /// Diameter of the ball, in mm.
    pub ball_diameter_mm: f64,
    /// Wall of the bowl at the height of the ball's centre, in mm.
    pub wall_mm: f64,
    /// Floor under the middle of the bowl, in mm.
    pub floor_mm: f64,
    /// Height of the opening over the ball's centre, as a share of the ball's radius: 0 opens half the ball.
    pub opening_share: f64,
    /// Angle of the handle to the opening, in degrees.
    pub tilt_deg: f64,
    /// Diameter of the neck, in mm.
    pub neck_diameter_mm: f64,
    /// Greatest diameter of the handle, in mm.
    pub handle_diameter_mm: f64,
    /// Length of the handle, from the back of the ball to its end, in mm.
    pub handle_mm: f64,
    /// How the handle ends: not with a hook.
    pub handle_end: HandleEnd,
    /// Side of the square blank, in mm; a wider one is taken where the marks of the handle's axis ask for it.
    pub blank_side_mm: f64,
}

impl Default for Ladle {
    /// An invented soup ladle for a small lathe. Its handle's end is rounded by hand, as an oval-bowl scoop's.
    fn default() -> Self {
        Self {
            ball_diameter_mm: 66.0,
            wall_mm: 5.0,
            floor_mm: 6.0,
            opening_share: 0.25,
            tilt_deg: 11.0,
            neck_diameter_mm: 20.0,
            handle_diameter_mm: 24.0,
            handle_mm: 112.0,
            handle_end: HandleEnd::Plain,
            blank_side_mm: 72.0,
        }
    }
}

impl Ladle {
    /// The same piece as an oval-bowl scoop.
    fn as_oval(&self) -> OvalBowlScoop {
        OvalBowlScoop {
            bowl_length_mm: self.ball_diameter_mm,
            bowl_width_mm: self.ball_diameter_mm,
            wall_mm: self.wall_mm,
            floor_mm: self.floor_mm,
            opening_share: self.opening_share,
            hollows: Hollows::One,
            tilt_deg: self.tilt_deg,
            toward_deg: 0.0,
            neck_diameter_mm: self.neck_diameter_mm,
            handle_diameter_mm: self.handle_diameter_mm,
            handle_mm: self.handle_mm,
            handle_end: self.handle_end,
            blank_side_mm: self.blank_side_mm,
            ..OvalBowlScoop::default()
        }
    }

    fn make(&self) -> Made {
        self.as_oval().make()
    }
}
