//! The design's name, undo and redo.

use leptos::ev;
use leptos::prelude::*;

use super::state::state;
use crate::design::validation::bounds::NAME_LETTERS;

/// The slim row at the top of the design.
#[component]
pub fn TopRow() -> impl IntoView {
    let state = state();
    let name: Signal<String> = Memo::new(move |_| state.design.with(|design| design.name.clone())).into();
    let typed = RwSignal::new(None::<String>);
    state.when_changed_here(name, move || typed.set(None));
    let rename = move |event: ev::Event| {
        let named = event_target_value(&event).trim().to_owned();
        if !named.is_empty() {
            state.change(|design| design.name = named);
        }
        typed.set(None);
    };
    view! {
        <header class="top-row">
            <h1 class="unseen">"Skewline"</h1>
            <label class="unseen" for="design-name">"Name of the design"</label>
            <input
                id="design-name"
                class="design-name"
                type="text"
                maxlength=NAME_LETTERS
                autocomplete="off"
                enterkeyhint="done"
                prop:value=move || typed.get().unwrap_or_else(|| name.get())
                on:input=move |event| typed.set(Some(event_target_value(&event)))
                on:change=rename
                on:blur=move |_| typed.set(None)
            />
            <button type="button" class="icon-button" disabled=move || !state.can_undo() on:click=move |_| state.undo()>
                <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M9 5l-5 5l5 5M4 10h10a5.5 5.5 0 0 1 0 11h-3" /></svg>
                <span class="unseen">"Undo"</span>
            </button>
            <button type="button" class="icon-button" disabled=move || !state.can_redo() on:click=move |_| state.redo()>
                <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M15 5l5 5l-5 5M20 10h-10a5.5 5.5 0 0 0 0 11h3" /></svg>
                <span class="unseen">"Redo"</span>
            </button>
        </header>
    }
    .into_any()
}

/// Undo and redo by keys, except where text is being typed.
pub fn listen_for_keys() {
    let state = state();
    let handle = window_event_listener(ev::keydown, move |event| {
        let typing = event
            .target()
            .and_then(|target| wasm_bindgen::JsCast::dyn_into::<web_sys::HtmlInputElement>(target).ok())
            .is_some_and(|input| input.type_() == "text");
        if typing || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
            ("z", false) => state.undo(),
            ("z", true) | ("y", false) => state.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    on_cleanup(move || handle.remove());
}
