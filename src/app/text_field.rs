//! A line to type in, with its name.

use leptos::ev;
use leptos::prelude::*;

use super::state::state;

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

/// A line to type in that shows what is kept until something is typed over it.
pub fn typed_over(
    label: &'static str,
    typed: RwSignal<Option<String>>,
    kept: Signal<String>,
    keyboard: &'static str,
) -> AnyView {
    view! {
        <label class="choice">
            <span class="choice-label">{label}</span>
            <input class="words" type="text" inputmode=keyboard autocomplete="off"
                prop:value=move || typed.get().unwrap_or_else(|| kept.get())
                on:input=move |event| typed.set(Some(event_target_value(&event))) />
        </label>
    }
    .into_any()
}

/// A text that is kept somewhere: taken when the line is left. When it is refused, what was typed stays, with the reason.
pub fn kept_text(
    label: &'static str,
    keyboard: &'static str,
    value: Signal<String>,
    take: Callback<String, Result<(), String>>,
) -> AnyView {
    let typed = RwSignal::new(None::<String>);
    let reason = RwSignal::new(None::<String>);
    let put_right = move || {
        typed.set(None);
        reason.set(None);
    };
    // A value that changed by other means puts right what was typed.
    state().when_changed_here(value, put_right);
    let offer = move |event: ev::Event| match take.run(event_target_value(&event)) {
        Ok(()) => put_right(),
        Err(why) => reason.set(Some(why)),
    };
    let on_key = move |event: ev::KeyboardEvent| {
        if event.key() == "Escape" {
            put_right();
        }
    };
    // What was typed and then typed back is no change to the browser: nothing has taken it.
    let on_leave = move |_| {
        // A line that is taken away while it has the focus is left as well.
        if reason.try_with_untracked(Option::is_none) == Some(true) {
            typed.set(None);
        }
    };
    view! {
        <label class="choice">
            <span class="choice-label">{label}</span>
            <input class="words" type="text" inputmode=keyboard autocomplete="off" enterkeyhint="done"
                prop:value=move || typed.get().unwrap_or_else(|| value.get())
                aria-invalid=move || reason.with(Option::is_some).to_string()
                on:input=move |event| typed.set(Some(event_target_value(&event)))
                on:change=offer
                on:keydown=on_key
                on:blur=on_leave />
        </label>
        <p class="value-reason" role="alert">{move || reason.get()}</p>
    }
    .into_any()
}
