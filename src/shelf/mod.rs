//! Keeping designs: the saved document, the shelf in the browser's storage, import and export.
//!
//! [`saved`] turns a design or a whole shelf into text and back, through one door that never guesses. [`Shelf`] keeps
//! one entry a design in a [`Store`], so that a damaged entry cannot take another with it. Time and randomness come in
//! as arguments; only `browser` touches the browser.

pub mod backup;
pub mod choices;
pub mod designs;
pub mod double;
pub mod drafts;
pub mod file_name;
pub mod history;
pub mod id;
pub mod printers;
pub mod saved;
pub mod settings;
pub mod store;
pub mod taken_in;
pub mod trash;

#[cfg(target_arch = "wasm32")]
pub mod browser;

pub use backup::BackupState;
pub use designs::{Entry, Listing, SaveError, SaveOutcome, SetAside, Shelf, entry_key};
pub use file_name::file_name;
pub use id::DesignId;
pub use saved::{ImportError, Imported, read, write_design, write_entry, write_shelf};
pub use store::{MemoryStore, Store, StoreError};
pub use taken_in::TakenIn;
pub use trash::{Deleted, Trashed};
