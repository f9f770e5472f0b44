//! Whether the browser may erase the shelf by itself.

use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::StorageManager;

/// What the browser has promised about the site's storage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// It is kept until the user erases it.
    Kept,
    /// The browser may erase it when room is short, or when the page has not been visited for a while.
    MayBeErased,
    /// The browser does not say, as on a page without encryption.
    Unknown,
}

/// What the browser promises now; asks the user nothing.
pub async fn status() -> Keeping {
    match manager().map(|manager| manager.persisted()) {
        Some(Ok(promise)) => answer(JsFuture::from(promise).await),
        _ => Keeping::Unknown,
    }
}

/// Asks the browser to keep the storage; some browsers ask the user, so call it on a deed of the user's.
pub async fn ask() -> Keeping {
    match manager().map(|manager| manager.persist()) {
        Some(Ok(promise)) => answer(JsFuture::from(promise).await),
        _ => Keeping::Unknown,
    }
}

fn answer(answer: Result<JsValue, JsValue>) -> Keeping {
    match answer.ok().and_then(|kept| kept.as_bool()) {
        Some(true) => Keeping::Kept,
        Some(false) => Keeping::MayBeErased,
        None => Keeping::Unknown,
    }
}

fn manager() -> Option<StorageManager> {
    let manager = web_sys::window()?.navigator().storage();
    // Absent on a page without encryption.
    (!AsRef::<JsValue>::as_ref(&manager).is_undefined()).then_some(manager)
}
