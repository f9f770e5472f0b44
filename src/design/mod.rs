//! The document: what the turner decided, in plain data, and nothing derived.
//!
//! [`document`] holds a design, [`shop`] the settings shared by all of them. Lengths carry `_mm`, angles `_deg`.

mod axis_name;
pub mod document;
pub mod ends;
pub mod entry;
pub mod history;
pub mod join;
pub mod log;
pub mod piece;
mod piece_error;
pub(crate) mod plug;
pub mod printers;
pub mod profile;
pub mod shop;
pub mod starters;
pub mod tenon;
pub mod text;
pub mod units;
pub mod validation;

pub use axis_name::AxisName;
pub use document::{
    AxisChoice, Blank, BlankSection, Cut, Design, Duty, EndPlane, Green, Hollow, HollowShape, InUse, Pass, PassProfile,
    Plug, PlugTenon, SawCut, SawPath, SawPoint, Side, Wood,
};
pub use entry::Units;
pub use log::{Making, Measured, MeasuredHold, MeasuredWhat};
pub use piece::Piece;
pub use piece_error::PieceError;
pub use printers::{Printer, Printers};
pub use profile::{Curve, Node};
pub use shop::{Bit, BitKind, Centres, Chuck, Lathe, LengthUnit, LimitChoices, Limits, OwnSpecies, Rounding, Shop};
pub use validation::Problem;
