//! Shelves in memory, and designs to put on them.

use skewline::design::Design;
use skewline::shelf::{MemoryStore, Shelf};

use super::sound_design;

/// A sound design with a name.
pub fn named(name: &str) -> Design {
    Design { name: name.to_owned(), ..sound_design() }
}

/// An empty shelf, and the store that it keeps things in.
pub fn empty() -> (MemoryStore, Shelf<MemoryStore>) {
    let store = MemoryStore::new();
    (store.clone(), Shelf::new(store))
}
