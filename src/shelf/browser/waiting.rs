//! Waiting, but not for ever.

use js_sys::{Array, Promise};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::WorkerGlobalScope;

/// What a promise brings, or nothing when it takes longer than so many milliseconds.
///
/// # Errors
///
/// What the promise is refused with.
pub(super) async fn within(promise: &Promise, milliseconds: i32) -> Result<JsValue, JsValue> {
    JsFuture::from(Promise::race(&Array::of2(promise, &pause(milliseconds)))).await
}

/// Lets the browser do what it has waiting: paint, and answer taps.
pub async fn moment() {
    // A pause is never refused.
    let _ = JsFuture::from(pause(0)).await;
}

/// Waits so many milliseconds.
pub async fn pause_for(milliseconds: i32) {
    // A pause is never refused.
    let _ = JsFuture::from(pause(milliseconds)).await;
}

/// Resolves after so many milliseconds; at once where there is nothing to wait in.
fn pause(milliseconds: i32) -> Promise {
    Promise::new(&mut |resolve, _| {
        let set = match web_sys::window() {
            Some(window) => window.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, milliseconds),
            None => js_sys::global()
                .unchecked_into::<WorkerGlobalScope>()
                .set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, milliseconds),
        };
        if set.is_err() {
            // Nothing is left to be done with an answer that nobody takes.
            let _ = resolve.call0(&JsValue::NULL);
        }
    })
}
