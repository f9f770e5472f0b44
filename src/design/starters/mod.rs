//! Starters: a whole design from a few choices. What they fill in stays fully editable.

mod bored_end;
mod demo;

pub use bored_end::{BoredEndScoop, HandleEnd, Opening, Outside, USUAL_LIP_SHARE};
pub use demo::demo;

use super::document::Design;
use super::shop::Chuck;

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

/// A starter: its name on screen, and the design for the chuck that will hold it.
pub type Starter = (&'static str, fn(Chuck) -> Design);

/// Every starter.
pub const STARTERS: [Starter; 3] = [
    ("Bored-end scoop", |chuck| BoredEndScoop { chuck, ..BoredEndScoop::default() }.design("Bored-end scoop")),
    ("Straight-handled scoop", |chuck| {
        BoredEndScoop { chuck, ..BoredEndScoop::straight() }.design("Straight bored-end scoop")
    }),
    ("The example", demo::demo_for),
];
