//! Saving while the later part is not here: what is changed on a first visit becomes an entry of the shelf all the same,
//! and the later part goes on with that entry.

use web_sys::Storage;

use crate::app::browser::window;
use crate::design::Design;
use crate::shelf::browser::{now_ms, random};
use crate::shelf::settings::OPEN_KEY;
use crate::shelf::{DesignId, entry_key, write_entry};

/// What has been saved without the later part.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Meanwhile {
    /// Nothing: nothing was changed.
    #[default]
    Unchanged,
    /// Everything, in this entry.
    Kept {
        /// Its id.
        id: DesignId,
        /// How often it has been saved.
        revision: u64,
    },
    /// Nothing: the browser's storage does not take it.
    NotKept,
}

/// Saves a design, straight to the local storage: the first screen loads nothing of the database.
pub fn saved(design: &Design, before: Meanwhile) -> Meanwhile {
    let (id, revision) = match before {
        Meanwhile::Kept { id, revision } => (id, revision + 1),
        Meanwhile::Unchanged | Meanwhile::NotKept => (DesignId::from_random(random()), 1),
    };
    let storage = window().and_then(|window| window.local_storage().ok().flatten());
    let keep = |storage: Storage| {
        let text = write_entry(design, revision, now_ms()).ok()?;
        storage.set_item(&entry_key(&id), &text).ok()?;
        storage.set_item(OPEN_KEY, id.as_str()).ok()
    };
    match storage.and_then(keep) {
        Some(()) => Meanwhile::Kept { id, revision },
        None => Meanwhile::NotKept,
    }
}

/// The address of a design as a file: needs no storage and nothing of the later part.
pub fn address(design: &Design) -> Option<String> {
    let text = write_entry(design, 1, now_ms()).ok()?;
    let encoded = String::from(js_sys::encode_uri_component(&text));
    Some(format!("data:application/json;charset=utf-8,{encoded}"))
}
