//! Recalls and keeps the small choices of the screen.

use crate::shelf::Store;
use crate::shelf::browser::BrowserStore;
use crate::shelf::choices::CHOICES_KEY;
pub use crate::shelf::choices::{Choices, ThemeChoice};

/// What was remembered.
pub fn recall() -> Choices {
    BrowserStore.get(CHOICES_KEY).ok().flatten().map_or_else(Choices::default, |text| Choices::read(&text))
}

/// Remembers, where the browser allows it.
pub fn keep(choices: Choices) {
    // The banner of the shelf already says it when this browser keeps nothing.
    let _ = BrowserStore::set_value(CHOICES_KEY, &choices);
}
