//! How far a number may go, and what ends it.

use serde::{Deserialize, Serialize};

use crate::figures::checks::CheckName;

/// How far one number may go either way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StopFree {
    /// The least it may be.
    pub low: End,
    /// The most it may be.
    pub high: End,
    /// Whether checks stop with the number as it is.
    pub now: Now,
}

/// One end of the range.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct End {
    /// The last value that may be had, in mm or degrees: one that the screen shows in full, and was tried.
    pub value: f64,
    /// What is wrong one step further.
    pub ended_by: EndedBy,
}

/// What ends a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum EndedBy {
    /// Nothing: it is as far as the slider goes.
    Slider,
    /// A check that stops.
    Check(CheckName),
    /// There is no such piece: the cuts contradict each other.
    NoSuchPiece,
}

/// Whether checks stop with the number as it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Now {
    /// None does.
    NothingStops,
    /// Some do; with the number at this value, none would.
    FreeAt(f64),
    /// Some do, and no value of this number was found with which none would.
    FreeNowhere,
}
