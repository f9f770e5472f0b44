//! Starters: a whole design from a few choices. What they fill in stays fully editable.

mod bored_end;
mod demo;

pub use bored_end::{BoredEndScoop, HandleEnd, Opening, Outside};
pub use demo::demo;

use super::document::Design;

/// A bored-end scoop with its handle on an axis of its own; its first pass follows the proposed join, so that it stays
/// right while other things are changed.
#[must_use]
pub fn bored_end_scoop() -> Design {
    BoredEndScoop::default().design("Bored-end scoop")
}

/// A bored-end scoop with its handle on axis A.
#[must_use]
pub fn bored_end_scoop_straight() -> Design {
    BoredEndScoop::straight().design("Straight bored-end scoop")
}
