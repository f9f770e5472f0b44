//! A line to type in, with its name.

use leptos::ev;
use leptos::prelude::*;

use super::typing::Typing;

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
/// `path` names it among the drafts.
pub fn kept_text(
    path: String,
    label: &'static str,
    keyboard: &'static str,
    value: Signal<String>,
    take: Callback<String, Result<(), String>>,
) -> AnyView {
    let typing = Typing::over(value).drafted(path);
    let Typing { typed, reason } = typing;
    let offer = move |event: ev::Event| match take.run(event_target_value(&event)) {
        Ok(()) => typing.put_right(),
        Err(why) => reason.set(Some(why)),
    };
    view! {
        <label class="choice">
            <span class="choice-label">{label}</span>
            <input class="words" type="text" inputmode=keyboard autocomplete="off" enterkeyhint="done"
                prop:value=move || typed.get().unwrap_or_else(|| value.get())
                aria-invalid=move || reason.with(Option::is_some).to_string()
                on:input=move |event| typed.set(Some(event_target_value(&event)))
                on:change=offer
                on:keydown=move |event| typing.on_key(&event)
                on:blur=move |_| typing.on_leave() />
        </label>
        <p class="value-reason" role="alert">{move || reason.get()}</p>
    }
    .into_any()
}
