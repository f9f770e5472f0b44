//! Woods: averages of clear straight-grained specimens at 12 percent moisture; not design values.
//!
//! Every row names its source. Columns from memory are listed in the row.

mod hardwoods;
mod others;
mod row;
mod softwoods;

use crate::design::text::same_name;
pub use row::Species;

impl Species {
    /// Every wood, in the order of the groups: hardwoods, softwoods, others.
    pub fn all() -> impl Iterator<Item = &'static Self> {
        [hardwoods::HARDWOODS, softwoods::SOFTWOODS, others::OTHERS].into_iter().flatten()
    }

    /// The wood with this common name, capitals or not.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        Self::all().find(|wood| same_name(wood.name, name))
    }
}
