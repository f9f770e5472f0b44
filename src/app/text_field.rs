//! A line to type in, with its name.

use leptos::prelude::*;

/// A line to type in; `keyboard` is the kind that a phone shows.
pub fn text_field(label: impl Into<String>, typed: RwSignal<String>, keyboard: &'static str) -> AnyView {
    view! {
        <label class="choice">
            <span class="choice-label">{label.into()}</span>
            <input class="words" type="text" inputmode=keyboard autocomplete="off" prop:value=move || typed.get()
                on:input=move |event| typed.set(event_target_value(&event)) />
        </label>
    }
    .into_any()
}
