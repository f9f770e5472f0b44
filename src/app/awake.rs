//! A screen that stays awake, where the browser can do that (W3C Screen Wake Lock).

use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::browser;

/// Whether the screen is kept awake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Awake {
    /// It has been asked.
    Asked,
    /// It stays awake.
    Kept,
    /// The browser cannot, or will not now.
    Missing,
}

/// Keeps the screen awake until the component that asked goes away. The browser lets go whenever the page is hidden,
/// and is asked again when it is back.
pub fn keep_awake() -> RwSignal<Awake> {
    let awake = RwSignal::new(Awake::Asked);
    let lock = StoredValue::new_local(None::<JsValue>);
    ask(awake, lock);
    let shown = window_event_listener_untyped("visibilitychange", move |_| {
        if browser::document().is_some_and(|document| !document.hidden()) {
            ask(awake, lock);
        }
    });
    on_cleanup(move || {
        shown.remove();
        if let Some(lock) = lock.try_update_value(Option::take).flatten() {
            release(&lock);
        }
    });
    awake
}

fn ask(awake: RwSignal<Awake>, lock: StoredValue<Option<JsValue>, LocalStorage>) {
    spawn_local(async move {
        let given = request().await;
        let state = if given.is_some() { Awake::Kept } else { Awake::Missing };
        // The component may have gone meanwhile: then nobody needs the lock any more.
        if awake.try_set(state).is_some() || lock.try_set_value(given.clone()).is_some() {
            given.iter().for_each(release);
        }
    });
}

/// The lock; none where there is no such thing or the browser refuses.
async fn request() -> Option<JsValue> {
    let navigator: JsValue = browser::window()?.navigator().into();
    let wake_lock = js_sys::Reflect::get(&navigator, &"wakeLock".into()).ok().filter(JsValue::is_object)?;
    let request: js_sys::Function = js_sys::Reflect::get(&wake_lock, &"request".into()).ok()?.dyn_into().ok()?;
    let promise: js_sys::Promise = request.call1(&wake_lock, &"screen".into()).ok()?.dyn_into().ok()?;
    JsFuture::from(promise).await.ok()
}

/// Lets go of a lock; one that is already gone is no matter.
fn release(lock: &JsValue) {
    let release =
        js_sys::Reflect::get(lock, &"release".into()).ok().and_then(|it| it.dyn_into::<js_sys::Function>().ok());
    if let Some(release) = release {
        let _ = release.call0(lock);
    }
}
