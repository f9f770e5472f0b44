//! The log: each time a design was made, what was measured on the finished piece and what to change next time.

use serde::{Deserialize, Serialize};

use super::axis_name::AxisName;

/// One making of a design.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Making {
    /// The day, as year-month-day: `2026-03-09`.
    #[cfg_attr(
        not(target_arch = "wasm32"),
        schemars(extend("format" = "date", "pattern" = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"))
    )]
    pub date: String,
    /// The wood it was made of, in the turner's words.
    pub wood: String,
    /// What was measured on the finished piece.
    #[serde(default)]
    pub measured: Vec<Measured>,
    /// What it holds.
    #[serde(default)]
    pub holds: Option<MeasuredHold>,
    /// What went wrong.
    #[serde(default)]
    pub went_wrong: String,
    /// What to change next time.
    #[serde(default)]
    pub change_next: String,
}

/// One length measured on a finished piece, beside what was planned when it was made.
///
/// The plan is kept with it, so that a later change of the design leaves the log as it was.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// What was measured.
    pub what: MeasuredWhat,
    /// The axis it was measured along.
    pub axis: AxisName,
    /// Where, in mm along that axis.
    pub at_mm: f64,
    /// As planned, in mm.
    pub planned_mm: f64,
    /// As measured, in mm.
    pub measured_mm: f64,
}

/// What can be measured on a finished piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum MeasuredWhat {
    /// A wall.
    Wall,
    /// The floor at the end of a bore.
    Floor,
    /// An outside diameter.
    Diameter,
    /// The depth of a hollow.
    Depth,
}

/// What a finished piece holds, beside what was planned.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MeasuredHold {
    /// As planned, in mL.
    pub planned_ml: f64,
    /// As measured, in mL.
    pub measured_ml: f64,
}

/// The year, month and day of a date written as `2026-03-09`; `None` when there is no such day.
///
/// By the Gregorian calendar, years 1 to 9999.
#[must_use]
pub fn day(date: &str) -> Option<(u32, u32, u32)> {
    let bytes = date.as_bytes();
    let shaped = bytes.len() == 10
        && bytes.iter().enumerate().all(|(i, b)| if i == 4 || i == 7 { *b == b'-' } else { b.is_ascii_digit() });
    if !shaped {
        return None;
    }
    let number = |from: usize, to: usize| bytes[from..to].iter().fold(0, |n, b| n * 10 + u32::from(b - b'0'));
    let (year, month, day) = (number(0, 4), number(5, 7), number(8, 10));
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        1..=12 => 31,
        _ => return None,
    };
    (year > 0 && (1..=days).contains(&day)).then_some((year, month, day))
}
