//! The document: what the turner decided, in plain data, and nothing derived.
//!
//! [`document`] holds a design, [`shop`] the settings shared by all of them. Lengths carry `_mm`, angles `_deg`.

pub mod axes;
mod axis_name;
pub mod cut;
mod cut_name;
pub mod document;
pub mod ends;
pub mod entry;
pub mod following;
pub mod history;
pub mod log;
pub mod nodes;
pub mod pattern;
pub(crate) mod plug;
pub mod printers;
pub mod profile;
pub mod shop;
pub mod starters;
pub mod tenon;
pub mod text;
mod together;
pub mod units;
pub mod validation;

pub use axis_name::AxisName;
pub use cut::{
    AxisChoice, Blank, BlankSection, Cut, EndPlane, Hollow, HollowShape, OffCut, Pass, PassProfile, Plug, PlugTenon,
    SawCut, SawPath, SawPoint, Side,
};
pub use document::{Design, Duty, Green, InUse, Wood};
pub use entry::Units;
pub use log::{Making, Measured, MeasuredHold, MeasuredWhat};
pub use pattern::{Choices, Pattern, PatternPart};
pub use printers::{Printer, Printers};
pub use profile::{Curve, Node};
pub use shop::{
    Bit, BitKind, CarrierJaws, Centres, Chuck, Lathe, LengthUnit, LimitChoices, Limits, OwnSpecies, Rounding, Shop,
};
pub use validation::Problem;
