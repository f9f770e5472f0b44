//! A line to type in, with its name.

use leptos::ev;
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
    Effect::new(move |before: Option<String>| {
        let now = value.get();
        if before.is_some_and(|before| before != now) {
            put_right();
        }
        now
    });
    let offer = move |event: ev::Event| match take.run(event_target_value(&event)) {
        Ok(()) => put_right(),
        Err(why) => reason.set(Some(why)),
    };
    let on_key = move |event: ev::KeyboardEvent| {
        if event.key() == "Escape" {
            put_right();
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
                on:keydown=on_key />
        </label>
        <p class="value-reason" role="alert">{move || reason.get()}</p>
    }
    .into_any()
}
