//! The shelf's hands in the browser: storage, files, and the events that bear on keeping.
//!
//! A page uses them so:
//! - `Shelf::new(BrowserStore)` is the shelf; every call takes [`now_ms`] and [`random`] where it asks for them;
//! - [`events::on_page_hide`] runs what must not wait (save at once) when the page may be about to end;
//! - [`events::on_change_elsewhere`] tells what another tab has changed;
//! - [`files::download`] hands the user a file, [`files::read_file`] takes one in;
//! - [`keeping::status`] and [`keeping::ask`] tell whether the browser may erase the shelf by itself.
//!
//! Listeners stay on until their [`events::Listening`] is dropped.

mod database;
pub mod events;
pub mod files;
pub mod keeping;
pub mod locks;
mod storage;
mod waiting;

pub use storage::BrowserStore;
pub use waiting::{moment, pause_for};

/// The time, in milliseconds since 1970.
#[must_use]
pub fn now_ms() -> u64 {
    // The clock gives whole milliseconds; a clock set before 1970 gives 0.
    js_sys::Date::now() as u64
}

/// A number drawn at random, good enough for ids.
#[must_use]
pub fn random() -> u64 {
    let half = || (js_sys::Math::random() * 4_294_967_296.0) as u64;
    (half() << 32) | half()
}

/// What the browser said, for a message.
fn words(error: &wasm_bindgen::JsValue) -> String {
    let text = |name: &str| js_sys::Reflect::get(error, &name.into()).ok().and_then(|value| value.as_string());
    text("message").or_else(|| text("name")).unwrap_or_else(|| format!("{error:?}"))
}
