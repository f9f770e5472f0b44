//! The kept surface of hollows: one sheet and one rule of what is kept, for wall, floor, openings and contents.

mod coaxial;
mod kept;
mod sheet;

pub use kept::{Ending, HollowSurface, SAME, Taker};
pub use sheet::{Place, Sheet, SheetPoint};
