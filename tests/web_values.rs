//! The value row and the history, on a real page.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at once")]
#![cfg(target_arch = "wasm32")]

use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Document, Event, EventInit, HtmlElement, HtmlInputElement, KeyboardEvent, KeyboardEventInit};

wasm_bindgen_test_configure!(run_in_browser);

const TILT: &str = "#value-axes-0--tilt-deg";

fn document() -> Document {
    web_sys::window().and_then(|window| window.document()).expect("a browser has a document")
}

/// A first visit: nothing kept, the page just opened.
async fn open() {
    let storage = web_sys::window().unwrap().local_storage().unwrap().expect("the test's browser keeps things");
    storage.clear().unwrap();
    document().body().unwrap().set_inner_html("");
    skewline::app::mount();
    moment().await;
}

/// Long enough for everything on the page to follow a change.
async fn moment() {
    let wait = js_sys::Promise::new(&mut |done, _| {
        web_sys::window().unwrap().set_timeout_with_callback_and_timeout_and_arguments_0(&done, 60).unwrap();
    });
    JsFuture::from(wait).await.unwrap();
}

fn find<T: JsCast>(selector: &str) -> T {
    let found = document().query_selector(selector).unwrap();
    found.unwrap_or_else(|| panic!("there is no {selector}")).dyn_into().unwrap()
}

fn shown(selector: &str) -> String {
    find::<HtmlInputElement>(selector).value()
}

async fn type_into(selector: &str, text: &str) {
    let input: HtmlInputElement = find(selector);
    input.set_value(text);
    let bubbling = EventInit::new();
    bubbling.set_bubbles(true);
    for name in ["input", "change"] {
        input.dispatch_event(&Event::new_with_event_init_dict(name, &bubbling).unwrap()).unwrap();
    }
    moment().await;
}

async fn press(label: &str) {
    let buttons = document().query_selector_all("button").unwrap();
    let named = (0..buttons.length()).filter_map(|index| buttons.item(index)).find(|node| {
        let button: &HtmlElement = node.unchecked_ref();
        button.get_attribute("aria-label").is_some_and(|told| told.starts_with(label))
            || button.text_content().is_some_and(|text| text.trim() == label)
    });
    named.unwrap_or_else(|| panic!("there is no button {label}")).unchecked_into::<HtmlElement>().click();
    moment().await;
}

/// What is said about an input by whatever describes it.
fn described(selector: &str) -> String {
    let id = find::<HtmlElement>(selector).get_attribute("aria-describedby").unwrap();
    document().get_element_by_id(&id).and_then(|element| element.text_content()).unwrap_or_default()
}

#[wasm_bindgen_test]
async fn first_open_shows_the_finished_example() {
    open().await;
    assert_eq!(shown("#design-name"), skewline::design::starters::demo().name);
    assert!(find::<HtmlElement>(".pill").text_content().unwrap().contains("all checks"));
}

#[wasm_bindgen_test]
async fn a_typed_value_changes_the_piece_and_is_undone() {
    open().await;
    let before = shown(TILT);
    type_into(TILT, "7,5").await;
    assert_eq!(shown(TILT), "7.5");
    assert!(find::<HtmlElement>(".figures-line").text_content().unwrap().contains("7.5\u{b0}"));
    press("Undo").await;
    assert_eq!(shown(TILT), before);
    press("Redo").await;
    assert_eq!(shown(TILT), "7.5");
}

#[wasm_bindgen_test]
async fn nonsense_stays_on_screen_with_the_reason_and_leaves_the_piece_alone() {
    open().await;
    let (before, figures) = (shown(TILT), find::<HtmlElement>(".figures-line").text_content());
    for (typed, reason) in [("steep", "is not a number"), ("75", "too large"), ("", "Nothing is typed")] {
        type_into(TILT, typed).await;
        assert_eq!(shown(TILT), typed);
        assert_eq!(find::<HtmlElement>(TILT).get_attribute("aria-invalid").as_deref(), Some("true"));
        assert!(described(TILT).contains(reason), "{typed:?}: {}", described(TILT));
        assert_eq!(find::<HtmlElement>(".figures-line").text_content(), figures);
    }
    let escape = KeyboardEventInit::new();
    escape.set_key("Escape");
    escape.set_bubbles(true);
    let event = KeyboardEvent::new_with_keyboard_event_init_dict("keydown", &escape).unwrap();
    find::<HtmlElement>(TILT).dispatch_event(&event).unwrap();
    moment().await;
    assert_eq!(shown(TILT), before);
    assert_eq!(find::<HtmlElement>(TILT).get_attribute("aria-invalid").as_deref(), Some("false"));
}

#[wasm_bindgen_test]
async fn minus_and_plus_step_and_each_press_is_undone_alone() {
    open().await;
    type_into(TILT, "8").await;
    press("Tilt more").await;
    press("Tilt more").await;
    assert_eq!(shown(TILT), "9.0");
    press("Undo").await;
    assert_eq!(shown(TILT), "8.5");
    press("Tilt less").await;
    assert_eq!(shown(TILT), "8.0");
}

#[wasm_bindgen_test]
async fn a_sweep_of_the_slider_is_one_step() {
    open().await;
    type_into(TILT, "8").await;
    let slider: HtmlInputElement = find(&format!(".value-row:has({TILT}) input[type=range]"));
    for value in ["8.5", "9", "9.5", "10"] {
        slider.set_value(value);
        slider.dispatch_event(&Event::new("input").unwrap()).unwrap();
        moment().await;
    }
    slider.dispatch_event(&Event::new("change").unwrap()).unwrap();
    assert_eq!(shown(TILT), "10.0");
    press("Undo").await;
    assert_eq!(shown(TILT), "8.0");
}

#[wasm_bindgen_test]
async fn what_was_changed_is_there_after_the_page_hides() {
    open().await;
    type_into(TILT, "6").await;
    let window = web_sys::window().unwrap();
    window.dispatch_event(&Event::new("pagehide").unwrap()).unwrap();
    let storage = window.local_storage().unwrap().unwrap();
    let kept = (0..storage.length().unwrap())
        .filter_map(|index| storage.key(index).unwrap())
        .filter(|key| key.starts_with("skewline/design/"))
        .filter_map(|key| storage.get_item(&key).unwrap())
        .collect::<Vec<_>>();
    assert!(kept.iter().any(|text| text.contains("\"tilt_deg\":6.0")), "{kept:?}");
}
