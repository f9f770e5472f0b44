//! Lengths that follow from the choices.

use super::BoredEndScoop;
use crate::design::axis_name::AxisName;
use crate::design::cut::{Pass, PassProfile};
use crate::design::pattern::handle_end::HandleEnd;
use crate::design::shop::Chuck;

/// What the cove is wider than the neck where it meets the bowl, in mm.
pub(super) const FLARE_MM: f64 = 7.0;
/// What a drawn outside leaves over what the handle needs, in mm on the radius.
pub(super) const SPARE_MM: f64 = 1.0;
/// Length of the hook, in mm.
pub(super) const HOOK_MM: f64 = 15.0;
/// How much farther from the bowl than need be the handle's shoulder stands, in mm.
const SHOULDER_SPARE_MM: f64 = 0.2;

impl BoredEndScoop {
    pub(super) fn handle_axis(&self) -> AxisName {
        if self.is_tilted() { AxisName::B } else { AxisName::A }
    }

    /// The axis on which the piece ends.
    pub(super) fn end_axis(&self) -> AxisName {
        match self.handle_end {
            HandleEnd::Hooked => AxisName::A,
            HandleEnd::Round | HandleEnd::Knob | HandleEnd::Plain => self.handle_axis(),
        }
    }

    /// Where the piece ends, along that axis.
    pub(super) fn end_mm(&self) -> f64 {
        if self.end_axis() == AxisName::A { self.length_mm() } else { self.along_handle(self.length_mm()) }
    }

    /// Tilt in radians.
    pub(super) fn tilt(&self) -> f64 {
        self.tilt_deg.to_radians()
    }

    /// Height of the handle's axis over axis A, in mm.
    pub(super) fn height(&self, station: f64) -> f64 {
        (station - self.crossing_mm) * self.tilt().tan()
    }

    /// The station along the handle's axis that lies at a station of the blank; 0 is at the bowl-end face on both.
    pub(super) fn along_handle(&self, station: f64) -> f64 {
        station / self.tilt().cos()
    }

    /// Length of the tenon, in mm.
    pub(super) fn tenon_mm(&self) -> f64 {
        Chuck::tenon_mm(self.chuck.jaw_depth_mm)
    }

    /// Side of the blank, in mm.
    pub(super) fn side_mm(&self) -> f64 {
        self.blank_side_mm.max(self.chuck.jaw_from_mm)
    }

    /// Rounding of the floor, in mm: as much as the bore takes.
    pub(super) fn rounding(&self) -> f64 {
        self.rounding_mm.min(self.bore_diameter_mm / 2.0).min(self.bore_depth_mm)
    }

    pub(super) fn outside_diameter(&self) -> f64 {
        self.bore_diameter_mm + 2.0 * self.wall_mm
    }

    /// How far a plane square to the handle leans along the blank within the corners of the blank, in mm.
    pub(super) fn lean(&self) -> f64 {
        self.side_mm() * std::f64::consts::FRAC_1_SQRT_2 * self.tilt().tan()
    }

    /// Where the handle's pass starts, in mm along its axis: its leaning shoulder keeps off the flat of the floor.
    pub(super) fn handle_from(&self) -> f64 {
        let rounding = self.rounding();
        let floor = self.floor_edge_along(self.bore_depth_mm) + self.floor_mm;
        let wall = self.floor_edge_along(self.bore_depth_mm - rounding) + rounding + self.wall_mm;
        floor.max(wall) + SHOULDER_SPARE_MM
    }

    /// The same without the floor, where the floor decides.
    pub(super) fn shoulder_without_floor_mm(&self) -> f64 {
        self.floor_edge_along(self.bore_depth_mm) + SHOULDER_SPARE_MM
    }

    /// How far along the handle's axis the edge of the floor's flat reaches at a depth, on the side the handle leans to.
    fn floor_edge_along(&self, depth: f64) -> f64 {
        let flat = (self.bore_diameter_mm / 2.0 - self.rounding()).max(0.0);
        let (sin, cos) = self.tilt().sin_cos();
        depth * cos + (flat + self.crossing_mm * sin / cos) * sin
    }

    /// Where the handle's pass ends, in mm along its axis.
    pub(super) fn handle_to(&self) -> f64 {
        let hook_mm = if self.handle_end == HandleEnd::Hooked { HOOK_MM } else { 0.0 };
        self.along_handle(self.length_mm() - hook_mm)
    }
}

/// The name of the handle, as the part that it shapes together with a hook over its end.
pub(super) const HANDLE_PART: &str = "handle";

pub(super) fn pass(name: &str, axis: AxisName, from_mm: f64, to_mm: f64, profile: PassProfile) -> Pass {
    Pass { name: name.to_owned(), axis, from_mm, to_mm, profile, shapes: None }
}
