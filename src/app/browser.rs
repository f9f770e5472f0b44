//! The few things the page asks of the browser.

use gloo_timers::callback::Timeout;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;

/// The window; the app runs nowhere else.
pub fn window() -> Option<web_sys::Window> {
    web_sys::window()
}

/// The document.
pub fn document() -> Option<web_sys::Document> {
    window()?.document()
}

/// Whether a media query holds, and a way to hear when that changes. The listener stays for the life of the page.
pub fn watch_media(query: &str, changed: impl Fn(bool) + 'static) -> bool {
    let Some(list) = window().and_then(|window| window.match_media(query).ok().flatten()) else { return false };
    let now = list.matches();
    let watched = list.clone();
    listen(&list, "change", move |_: web_sys::Event| changed(watched.matches()));
    now
}

/// Listens for the life of the page.
pub fn listen<E: JsCast + 'static>(target: &web_sys::EventTarget, name: &str, heard: impl Fn(E) + 'static) {
    let listener = Closure::<dyn Fn(web_sys::Event)>::new(move |event: web_sys::Event| {
        if let Ok(event) = event.dyn_into::<E>() {
            heard(event);
        }
    });
    // A browser refuses a listener only when the target is gone, and then there is nothing to hear.
    if target.add_event_listener_with_callback(name, listener.as_ref().unchecked_ref()).is_ok() {
        listener.forget();
    }
}

/// How long the page takes to draw what has just been asked for, in milliseconds.
const DRAWN_MS: u32 = 60;
/// Room left above what is brought into sight, in pixels.
const ABOVE_PX: i32 = 12;

/// Moves the focus to an element once the page has drawn it, and brings it into sight.
pub fn focus_soon(id: &str) {
    let id = id.to_owned();
    Timeout::new(DRAWN_MS, move || {
        if let Some(element) = element(&id) {
            // An element that cannot take the focus is still brought into sight.
            let _ = element.focus();
            show(&element);
        }
    })
    .forget();
}

/// Scrolls the panel until an element is at its top, once the page has drawn it.
pub fn show_soon(id: &str) {
    let id = id.to_owned();
    Timeout::new(DRAWN_MS, move || {
        if let Some(element) = element(&id) {
            show(&element);
        }
    })
    .forget();
}

fn show(element: &web_sys::HtmlElement) {
    let panel = document().and_then(|document| document.query_selector("#main").ok().flatten());
    if let Some(panel) = panel.filter(|panel| panel.contains(Some(element))) {
        let down = element.get_bounding_client_rect().top() - panel.get_bounding_client_rect().top();
        panel.set_scroll_top(panel.scroll_top() + down as i32 - ABOVE_PX);
    }
}

fn element(id: &str) -> Option<web_sys::HtmlElement> {
    document()?.get_element_by_id(id)?.dyn_into().ok()
}

/// A day and a time, as people of this browser's language write them.
pub fn day(ms: u64) -> String {
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(ms as f64));
    String::from(date.to_locale_string("default", &wasm_bindgen::JsValue::UNDEFINED))
}

/// A day as `2025-06-30`, for the name of a file.
pub fn day_for_file(ms: u64) -> String {
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(ms as f64));
    String::from(date.to_iso_string()).chars().take(10).collect()
}
