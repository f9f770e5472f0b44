//! The kept surface of hollows: one sheet and one rule of what is kept, for wall, floor, openings and contents.
//!
//! - `sheet`: the whole surface of one hollow, laid out flat.
//! - `kept`: what takes parts of it, and the rim; `coaxial` for two hollows about one line.
//! - `patch`, `lower`: a patch of it, and how near the outside comes to that at least; `ring` for all the way around;
//!   `escape` for what other cuts leave of it.
//! - `thinnest`: where what is kept comes nearest to the outside, proven; `holes`: where that has come through.

mod beside;
mod coaxial;
mod escape;
mod holes;
mod kept;
mod lower;
mod near;
mod patch;
mod ring;
mod sheet;
mod thinnest;
pub mod unroll;

pub use beside::SAME;
pub use holes::{HolePart, SplitAtHoles};
pub use kept::{Ending, HollowSurface, Taker};
pub use near::Near;
pub use patch::{Patch, Way};
pub use sheet::{Sheet, SheetPoint, Spot};
pub use thinnest::{Start, Thinnest, WITHIN};
