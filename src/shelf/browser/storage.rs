//! The browser's storage as a [`Store`].

use gloo_storage::errors::StorageError;
use gloo_storage::{LocalStorage, Storage as _};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::Storage;

use super::database::Database;
use super::{now_ms, words};
use crate::shelf::double::DoubleStore;
use crate::shelf::store::{Store, StoreError};

/// The browser's storage of this site: every text in its local storage, and again in its database.
#[derive(Clone, Copy, Debug, Default)]
pub struct BrowserStore;

/// The local storage alone. Returns errors unchanged; caches nothing.
#[derive(Clone, Copy, Debug, Default)]
struct LocalTexts;

thread_local! {
    // The page lives as long as its thread, so what it holds is never freed.
    static DATABASE: &'static Database = Box::leak(Box::default());
    static BOTH: DoubleStore<LocalTexts, &'static Database> = DoubleStore::new(LocalTexts, DATABASE.with(|it| *it), now_ms);
}

fn database() -> &'static Database {
    DATABASE.with(|it| *it)
}

/// The local storage, asked for anew each time: the user can forbid and allow it while the page is open.
fn storage() -> Result<Storage, StoreError> {
    let window = web_sys::window().ok_or(StoreError::Absent)?;
    window.local_storage().map_err(|error| told(&error))?.ok_or(StoreError::Absent)
}

impl BrowserStore {
    /// Whether the local storage has a text whose name begins so. Needs nothing of the database, so that the first screen
    /// loads nothing of it.
    #[must_use]
    pub fn has_any(prefix: &str) -> bool {
        LocalTexts.keys().is_ok_and(|keys| keys.iter().any(|key| key.starts_with(prefix)))
    }

    /// Opens the database and brings back what the local storage has lost since: to be waited for before anything is
    /// read. Gives the names of the texts that have changed.
    pub async fn recover() -> Vec<String> {
        // One that opens late still gives what was lost, to whoever looks next.
        let late = || {
            spawn_local(async {
                let _changed = Self::take_in_records().await;
            });
        };
        match database().open(late).await {
            true => Self::take_in_records().await,
            false => Vec::new(),
        }
    }

    async fn take_in_records() -> Vec<String> {
        let records = database().records().await;
        BOTH.with(|both| both.recover(records))
    }

    /// Whether an earlier visit has kept something in the database, for all that the browser says. The local storage may
    /// have lost it.
    pub async fn has_database() -> bool {
        Database::exists().await
    }

    /// Takes in the newest of one text that any tab has committed.
    pub async fn refresh(key: &str) {
        if let Some(record) = database().record(key).await {
            BOTH.with(|both| both.absorb(&record));
        }
    }

    /// Waits until everything that was set is committed in the database, if there is one.
    ///
    /// # Errors
    ///
    /// [`StoreError::Other`] when the browser could not commit it.
    pub async fn settled() -> Result<(), StoreError> {
        database().settled().await.map_err(StoreError::Other)
    }

    /// The value kept under this name as JSON; none when there is none, when it is of another kind, or when the storage
    /// cannot be read. For small conveniences: a design is read by its own door, which says what is wrong.
    #[must_use]
    pub fn value<T: DeserializeOwned>(key: &str) -> Option<T> {
        // The library stops the page where there is no storage, or where it does not answer: so it is asked first.
        BrowserStore.get(key).ok()??;
        LocalStorage::get(key).ok()
    }

    /// Keeps a value under this name as JSON, in place of the one before.
    ///
    /// # Errors
    ///
    /// [`StoreError`]; the value before stays.
    pub fn set_value(key: &str, value: &impl Serialize) -> Result<(), StoreError> {
        // As above: it would stop the page where there is no storage. What a storage throws, full or not, it tells.
        storage()?;
        LocalStorage::set(key, value).map_err(|error| match error {
            StorageError::JsError(error) => named(&error.name, || error.to_string()),
            other => StoreError::Other(other.to_string()),
        })
    }
}

impl Store for BrowserStore {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        BOTH.with(|both| both.get(key))
    }

    fn set(&self, key: &str, text: &str) -> Result<(), StoreError> {
        BOTH.with(|both| both.set(key, text))
    }

    fn remove(&self, key: &str) -> Result<(), StoreError> {
        BOTH.with(|both| both.remove(key))
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        BOTH.with(Store::keys)
    }
}

impl Store for LocalTexts {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        storage()?.get_item(key).map_err(|error| told(&error))
    }

    fn set(&self, key: &str, text: &str) -> Result<(), StoreError> {
        // A text that does not fit leaves the old one as it was.
        storage()?.set_item(key, text).map_err(|error| told(&error))
    }

    fn remove(&self, key: &str) -> Result<(), StoreError> {
        storage()?.remove_item(key).map_err(|error| told(&error))
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        let storage = storage()?;
        let count = storage.length().map_err(|error| told(&error))?;
        let mut keys = Vec::new();
        for index in 0..count {
            keys.extend(storage.key(index).map_err(|error| told(&error))?);
        }
        Ok(keys)
    }
}

/// From a DOMException to the error.
fn told(error: &JsValue) -> StoreError {
    let name = js_sys::Reflect::get(error, &"name".into()).ok().and_then(|name| name.as_string());
    named(name.as_deref().unwrap_or_default(), || words(error))
}

/// From the name of a DOMException to the error; `words` are for one that has no sentence of its own.
fn named(name: &str, words: impl FnOnce() -> String) -> StoreError {
    match name {
        "QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED" => StoreError::Full,
        "SecurityError" => StoreError::Blocked,
        _ => StoreError::Other(words()),
    }
}
