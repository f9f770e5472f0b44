//! One tab at a time.

use std::future::Future;

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::{Closure, JsValue};
use wasm_bindgen_futures::{JsFuture, future_to_promise};

/// Does some work while no other tab of this site does work under the same name. A browser without locks does it at once.
pub async fn alone(name: &str, work: impl Future<Output = ()> + 'static) {
    let Some((locks, request)) = lock_requests() else { return work.await };
    let held = Closure::once_into_js(move |_lock: JsValue| -> Promise {
        future_to_promise(async move {
            work.await;
            Ok(JsValue::UNDEFINED)
        })
    });
    if let Ok(done) = request.call2(&locks, &name.into(), &held) {
        // A browser that refuses the lock, as for a page that is being closed, drops the work with it: the page saves
        // once more when it hides.
        let _done = JsFuture::from(done.unchecked_into::<Promise>()).await;
    }
}

/// The browser's locks and how one is asked for. By name, because their bindings are not stable yet.
fn lock_requests() -> Option<(JsValue, Function)> {
    let navigator = web_sys::window()?.navigator();
    let locks = Reflect::get(&navigator, &"locks".into()).ok().filter(JsValue::is_object)?;
    let request = Reflect::get(&locks, &"request".into()).ok()?.dyn_into().ok()?;
    Some((locks, request))
}
