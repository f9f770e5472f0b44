//! One tab at a time.

use std::cell::RefCell;
use std::future::Future;
use std::rc::Rc;

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::{Closure, JsValue};
use wasm_bindgen_futures::{JsFuture, future_to_promise};

use super::waiting::within;

/// How long a tab that holds the name is waited for, in milliseconds: it may have stopped for good.
const PATIENCE_MS: i32 = 2_000;

/// Does some work while no other tab of this site does work under the same name. A browser without locks, or that refuses
/// one, does it at once; one that hangs, after two seconds.
pub async fn alone(name: &str, work: impl Future<Output = ()> + 'static) {
    let Some((locks, request)) = lock_requests() else { return work.await };
    let work = Rc::new(RefCell::new(Some(work)));
    let waiting = Rc::clone(&work);
    let held = Closure::once_into_js(move |_lock: JsValue| -> Promise {
        let work = waiting.borrow_mut().take();
        future_to_promise(async move {
            if let Some(work) = work {
                work.await;
            }
            Ok(JsValue::UNDEFINED)
        })
    });
    let done = request.call2(&locks, &name.into(), &held).map(JsCast::unchecked_into::<Promise>);
    if let Ok(done) = &done {
        // Done, refused, or not begun yet.
        let _told = within(done, PATIENCE_MS).await;
    }
    let not_begun = work.borrow_mut().take();
    match (not_begun, done) {
        (Some(work), _) => work.await,
        (None, Ok(done)) => {
            // It answers nothing.
            let _done = JsFuture::from(done).await;
        }
        (None, Err(_)) => {}
    }
}

/// The browser's locks and how one is asked for. By name, because their bindings are not stable yet.
fn lock_requests() -> Option<(JsValue, Function)> {
    let navigator = web_sys::window()?.navigator();
    let locks = Reflect::get(&navigator, &"locks".into()).ok().filter(JsValue::is_object)?;
    let request = Reflect::get(&locks, &"request".into()).ok()?.dyn_into().ok()?;
    Some((locks, request))
}
