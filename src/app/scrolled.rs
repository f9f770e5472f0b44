//! Each room, and each panel of the design, is found again where it was scrolled to.

use std::collections::HashMap;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::browser;
use super::state::{Panel, Room, State};

/// What scrolls by itself: a room, and within the design a panel.
type View = (Room, Option<Panel>);

/// Remembers how far each view was scrolled while the page is open, and scrolls it there when it is shown again.
pub fn follow(state: State) {
    let view = Memo::new(move |_| {
        let room = state.room.get();
        (room, (room == Room::Design).then(|| state.panel.get()))
    });
    // It may have been scrolled before anyone listens.
    let so_far = main().map(|main| (view.get_untracked(), main.scroll_top()));
    let scrolled = StoredValue::new(so_far.into_iter().collect::<HashMap<View, i32>>());
    browser::on_scroll(move |scrolls| {
        if scrolls.id() == "main" {
            scrolled.update_value(|all| {
                all.insert(view.get_untracked(), scrolls.scroll_top());
            });
        }
    });
    Effect::new(move |before: Option<View>| {
        let now = view.get();
        if before.is_some_and(|before| before != now) {
            let to = scrolled.with_value(|all| all.get(&now).copied()).unwrap_or_default();
            request_animation_frame(move || scroll_to(to));
        }
        now
    });
}

fn scroll_to(to: i32) {
    if let Some(main) = main() {
        main.set_scroll_top(to);
    }
}

/// What scrolls.
fn main() -> Option<web_sys::Element> {
    Some(browser::document()?.get_element_by_id("main")?.unchecked_into())
}
