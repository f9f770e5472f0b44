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

/// Hears which element was scrolled, for the life of the page.
pub fn on_scroll(heard: impl Fn(web_sys::Element) + 'static) {
    let Some(document) = document() else { return };
    let listener = Closure::<dyn Fn(web_sys::Event)>::new(move |event: web_sys::Event| {
        if let Some(element) = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok()) {
            heard(element);
        }
    });
    // A scroll does not rise from the element to the document: it is heard on its way down.
    let added = document.add_event_listener_with_callback_and_bool("scroll", listener.as_ref().unchecked_ref(), true);
    if added.is_ok() {
        listener.forget();
    }
}

/// Listens for the life of the page.
fn listen<E: JsCast + 'static>(target: &web_sys::EventTarget, name: &str, heard: impl Fn(E) + 'static) {
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

/// How often, and how many times, an element that the page is about to draw is looked for, in milliseconds: a slow
/// phone takes its time.
const LOOK_MS: u32 = 30;
const LOOKS: u32 = 60;

/// Moves the focus to an element once the page has drawn it, and brings it into sight.
pub fn focus_soon(id: &str) {
    soon(id.to_owned(), LOOKS, |element| {
        // An element that cannot take the focus is still brought into sight.
        let _ = element.focus();
        show(element);
    });
}

/// Brings an element into sight once the page has drawn it.
pub fn show_soon(id: &str) {
    soon(id.to_owned(), LOOKS, show);
}

fn soon(id: String, looks: u32, deed: fn(&web_sys::HtmlElement)) {
    let look = move || match element(&id) {
        Some(element) => deed(&element),
        None if looks > 0 => soon(id, looks - 1, deed),
        None => {}
    };
    Timeout::new(LOOK_MS, look).forget();
}

/// What is brought into sight together with an element: its whole row.
const ROWS: &str = ".value-row, .choice";

/// Scrolls whatever scrolls, the panel or the page, until an element's row is at its top.
fn show(element: &web_sys::HtmlElement) {
    match element.closest(ROWS).ok().flatten() {
        Some(row) => row.scroll_into_view(),
        None => element.scroll_into_view(),
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

/// The id of the input that shows this field of the document.
pub fn input_id(path: &str) -> String {
    let plain = path.chars().map(|letter| if letter.is_ascii_alphanumeric() { letter } else { '-' });
    "value-".chars().chain(plain).collect()
}
