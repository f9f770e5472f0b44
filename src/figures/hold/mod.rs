//! Figure 6, hold: what the piece holds in any pose, of a liquid or of dry goods.
//!
//! The kept surface of the hollow is laid out flat and followed once ([`Vessel::new`]); the rim falls out of it, and
//! every pose is then one pass over the same few thousand elements.

mod bound;
mod cavity;
mod coaxial;
mod elements;
mod envelope;
mod fill;
mod pitch;
mod pools;
mod report;
mod rim;
mod search;
mod sheet;
mod strike;
mod support;
mod trace;
mod vessel;

pub use bound::RimEdge;
pub use fill::Contents;
pub use report::{Asked, CurvePoint, Dry, Filled, Hold, STEEPEST_CARRIED_DEG, level_pitch};
pub use rim::RimLine;
pub use vessel::{HoldError, Vessel};
