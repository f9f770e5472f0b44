//! One value: its name, the number to type, minus and plus, and a slider.

mod handling;
mod hold_button;
mod range_line;
mod slider;

use leptos::prelude::*;

use super::browser::input_id;
use super::state::{VALUE_DRAFTS, state};
use super::stop_free::Range;
use super::typing::Typing;
use crate::form::Row;
use handling::Handling;
pub use handling::NewValue;
use hold_button::HoldButton;
use range_line::range_line;
use slider::Slider;

/// The shop's values stay when another design comes on the bench.
fn draft_name(path: &str) -> String {
    if path.starts_with("shop") { path.to_owned() } else { format!("{VALUE_DRAFTS}{path}") }
}

/// A value row. `path` names the field; `set` takes a value or says why not.
#[component]
pub fn ValueRow(
    /// Where the value stands in the document.
    path: String,
    /// Name, bound and range.
    row: Signal<Row>,
    /// The value as it is.
    value: Signal<f64>,
    /// Takes a new value.
    set: Callback<NewValue, Result<(), String>>,
    /// How far it may go; nothing for a value that no check depends on.
    #[prop(optional, into)]
    range: Option<Signal<Range>>,
) -> impl IntoView {
    let typing = Typing::over(value).drafted(draft_name(&path));
    let reason = typing.reason;
    let it = Handling { state: state(), row, value, set, typing, held_from: StoredValue::new(None) };
    let id = input_id(&path);
    let (note_id, reason_id, range_id) = (format!("{id}-note"), format!("{id}-reason"), format!("{id}-range"));
    let describe = (note_id.clone(), reason_id.clone());
    let button = move |sign: &'static str, way: &'static str, steps: f64| {
        let label = move || row.with(|row| format!("{} {way} by {}", row.label, it.step_shown()));
        view! {
            <HoldButton label=label sign=sign step=move || it.step_shown()
                press=move |held| it.move_by(steps, held) end=move || it.end() take_back=move || it.take_back() />
        }
    };
    view! {
        <div class="value-row" class:refused=move || reason.with(Option::is_some)>
            <label class="value-label" for=id.clone()>
                {move || row.with(|row| row.label)} " " <span class="unseen">{move || it.units().read_out(row.with(|row| row.quantity))}</span>
            </label>
            {number_input(it, id, describe)}
            {button("\u{2212}", "less", -1.0)}
            {button("+", "more", 1.0)}
            <Slider row=row value=value step=Signal::derive(move || it.step())
                spoken=Signal::derive(move || it.with_unit(value.get())) range=range
                describe=range_id.clone() offer=Callback::new(move |value| it.offer(value, true))
                end=Callback::new(move |()| it.end()) />
            {range.map(|range| range_line(it, range, range_id))}
            <p class="value-note" id=note_id>{move || row.with(|row| row.note)}</p>
            <p class="value-reason" id=reason_id role="alert">{move || reason.get()}</p>
        </div>
    }
    .into_any()
}

/// A number of so many letters, as 102.0 is, is shown in smaller type, and a longer one, as inches are, in smaller still.
const FULL: usize = 5;

/// The line in which the number is typed. It is described by the note or, once it is refused, by the reason.
fn number_input(it: Handling, id: String, (note_id, reason_id): (String, String)) -> AnyView {
    let Typing { typed, reason } = it.typing;
    let letters = Memo::new(move |_| typed.with(|typed| typed.as_ref().map_or_else(|| it.shown().len(), String::len)));
    let describe = move || if reason.with(Option::is_some) { reason_id.clone() } else { note_id.clone() };
    view! {
        <span class="value-number">
            <input
                id=id
                type="text"
                inputmode=move || it.keyboard()
                class:full=move || letters.get() == FULL
                class:long=move || { letters.get() > FULL }
                autocomplete="off"
                spellcheck="false"
                enterkeyhint="done"
                prop:value=move || typed.get().unwrap_or_else(|| it.shown())
                aria-invalid=move || reason.with(Option::is_some).to_string()
                aria-describedby=describe
                on:input=move |event| typed.set(Some(event_target_value(&event)))
                on:change=move |_| it.take_typed()
                on:keydown=move |event| it.typing.on_key(&event)
                on:blur=move |_| it.typing.on_leave()
            />
            <span class="value-unit" aria-hidden="true">{move || it.units().name(it.row.with(|row| row.quantity))}</span>
        </span>
    }
    .into_any()
}
