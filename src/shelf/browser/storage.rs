//! The browser's storage as a [`Store`].

use wasm_bindgen::JsValue;
use web_sys::Storage;

use super::words;
use crate::shelf::store::{Store, StoreError};

/// The browser's storage of this site. What fails is told as it fails; nothing is kept aside.
#[derive(Clone, Copy, Debug, Default)]
pub struct BrowserStore;

impl BrowserStore {
    /// Asked for anew each time: the user can forbid and allow it while the page is open.
    fn storage() -> Result<Storage, StoreError> {
        let window = web_sys::window().ok_or(StoreError::Absent)?;
        window.local_storage().map_err(|error| told(&error))?.ok_or(StoreError::Absent)
    }
}

impl Store for BrowserStore {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        Self::storage()?.get_item(key).map_err(|error| told(&error))
    }

    fn set(&self, key: &str, text: &str) -> Result<(), StoreError> {
        // A text that does not fit leaves the old one as it was.
        Self::storage()?.set_item(key, text).map_err(|error| told(&error))
    }

    fn remove(&self, key: &str) -> Result<(), StoreError> {
        Self::storage()?.remove_item(key).map_err(|error| told(&error))
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        let storage = Self::storage()?;
        let count = storage.length().map_err(|error| told(&error))?;
        let mut keys = Vec::new();
        for index in 0..count {
            keys.extend(storage.key(index).map_err(|error| told(&error))?);
        }
        Ok(keys)
    }
}

/// From the name of a DOMException to the error.
fn told(error: &JsValue) -> StoreError {
    let name = js_sys::Reflect::get(error, &"name".into()).ok().and_then(|name| name.as_string());
    match name.as_deref() {
        Some("QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED") => StoreError::Full,
        Some("SecurityError") => StoreError::Blocked,
        _ => StoreError::Other(words(error)),
    }
}
