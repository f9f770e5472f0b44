//! Where on the piece something is.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use crate::geometry::frame::tolerance::SAME_MM;
use crate::geometry::{Axis, Vector};

/// A place on the piece, as a turner finds it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Place {
    /// Station along the blank from the bowl-end face, in mm.
    pub station_mm: f64,
    /// Clock direction as held, in degrees: 0 is up, 90 is right; absent where it has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clock_deg: Option<f64>,
    /// Distance from axis A, in mm.
    pub radius_mm: f64,
}

impl Place {
    /// The place of a point.
    #[must_use]
    pub fn of(point: Vector) -> Self {
        let radius = point.radius();
        Self {
            station_mm: point.s,
            clock_deg: (radius > SAME_MM).then(|| clock_deg(point.x, point.y)),
            radius_mm: radius,
        }
    }

    /// A station on axis A.
    #[must_use]
    pub fn station(s: f64) -> Self {
        Self { station_mm: s, clock_deg: None, radius_mm: 0.0 }
    }
}

/// Clock direction of (right, up), in degrees from 0 to 360: 0 is up, 90 is right.
#[must_use]
pub fn clock_deg(right: f64, up: f64) -> f64 {
    right.atan2(up).to_degrees().rem_euclid(360.0)
}

/// The station on the blank of station `t` on an axis, in mm.
#[must_use]
pub fn blank_station(axis: &Axis, t: f64) -> f64 {
    axis.point(t, 0.0, 0.0).s
}

/// A clock direction in words: "12 o'clock", "half past 4".
#[must_use]
pub fn clock_words(clock_deg: f64) -> String {
    let halves = (clock_deg.rem_euclid(360.0) / 15.0).round() as i64 % 24;
    let hour = if halves / 2 == 0 { 12 } else { halves / 2 };
    if halves % 2 == 0 { format!("{hour} o'clock") } else { format!("half past {hour}") }
}
