//! One value: its name, the number to type, minus and plus, and a slider.

mod hold_button;
mod slider;

use leptos::prelude::*;

use super::browser::input_id;
use super::state::{State, VALUE_DRAFTS, state};
use super::stop_free::StopFree;
use super::typing::Typing;
use crate::design::Units;
use crate::design::entry::stepped;
use crate::form::Row;
use hold_button::HoldButton;
use slider::Slider;

/// A new value, and whether more of the same sweep will follow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NewValue {
    /// The value, in mm or degrees.
    pub value: f64,
    /// Part of a sweep of the slider or of a held button.
    pub sweeping: bool,
}

/// The shop's values stay when another design comes on the bench.
fn draft_name(path: &str) -> String {
    if path.starts_with("shop") { path.to_owned() } else { format!("{VALUE_DRAFTS}{path}") }
}

/// The handling of one value: what is typed, stepped and slid becomes a new value, or says why not.
#[derive(Clone, Copy)]
struct Handling {
    state: State,
    row: Signal<Row>,
    value: Signal<f64>,
    set: Callback<NewValue, Result<(), String>>,
    typing: Typing,
    /// The value when a button was first held.
    held_from: StoredValue<Option<f64>>,
}

impl Handling {
    fn units(self) -> Units {
        self.state.units()
    }

    fn step(self) -> f64 {
        self.row.with(|row| self.units().step(row.quantity, row.fine))
    }

    fn step_shown(self) -> String {
        self.row.with(|row| self.units().show(self.step(), row.quantity))
    }

    fn shown(self) -> String {
        self.units().show(self.value.get(), self.row.with(|row| row.quantity))
    }

    fn with_unit(self, value: f64) -> String {
        self.units().show_with_unit(value, self.row.with(|row| row.quantity))
    }

    fn keyboard(self) -> &'static str {
        let needs_all = self.row.with(|row| self.units().needs_full_keyboard(row.quantity, &row.bound));
        if needs_all { "text" } else { "decimal" }
    }

    /// Whether the value is taken.
    fn offer(self, value: f64, sweeping: bool) -> bool {
        match self.set.run(NewValue { value, sweeping }) {
            Ok(()) => {
                self.typing.put_right();
                true
            }
            Err(why) => {
                self.typing.reason.set(Some(why));
                false
            }
        }
    }

    fn take_typed(self) {
        let Some(text) = self.typing.typed.get_untracked() else { return };
        let row = self.row.get_untracked();
        match untrack(|| self.units()).read(&text, row.quantity, &row.bound) {
            Ok(value) => {
                self.offer(value, false);
            }
            Err(why) => self.typing.reason.set(Some(why)),
        }
    }

    fn move_by(self, steps: f64, sweeping: bool) {
        let value = self.value.get_untracked();
        if sweeping {
            self.held_from.update_value(|held| *held = held.or(Some(value)));
        }
        let row = self.row.get_untracked();
        let step = untrack(|| self.units()).step(row.quantity, row.fine);
        self.offer(stepped(value, steps, step, &row.bound), sweeping);
    }

    fn end(self) {
        self.held_from.set_value(None);
        self.state.end_gesture();
    }

    /// The finger that held a button has begun to scroll: it meant no step.
    fn take_back(self) {
        if let Some(before) = self.held_from.get_value() {
            self.offer(before, true);
        }
    }

    /// Where no check stops, in words.
    fn stop_free_words(self, range: StopFree) -> String {
        match range {
            Some((low, high)) => format!("No check stops from {} to {}.", self.with_unit(low), self.with_unit(high)),
            None => "Some check stops wherever it stands.".to_owned(),
        }
    }
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
    /// The part of the slider where no check stops, once it is known; none of it when there is no such part.
    #[prop(optional, into)]
    stop_free: Signal<Option<StopFree>>,
) -> impl IntoView {
    let typing = Typing::over(value).drafted(draft_name(&path));
    let reason = typing.reason;
    let it = Handling { state: state(), row, value, set, typing, held_from: StoredValue::new(None) };
    let id = input_id(&path);
    let (note_id, reason_id, stop_free_id) = (format!("{id}-note"), format!("{id}-reason"), format!("{id}-stop-free"));
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
            <div class="value-moves">
                {button("\u{2212}", "less", -1.0)}
                <Slider row=row value=value step=Signal::derive(move || it.step())
                    spoken=Signal::derive(move || it.with_unit(value.get())) stop_free=stop_free
                    describe=stop_free_id.clone() offer=Callback::new(move |value| it.offer(value, true))
                    end=Callback::new(move |()| it.end()) />
                {button("+", "more", 1.0)}
            </div>
            <p class="unseen" id=stop_free_id>{move || stop_free.get().map(|range| it.stop_free_words(range))}</p>
            <p class="value-note" id=note_id>{move || row.with(|row| row.note)}</p>
            <p class="value-reason" id=reason_id role="alert">{move || reason.get()}</p>
        </div>
    }
    .into_any()
}

/// The line in which the number is typed. It is described by the note or, once it is refused, by the reason.
fn number_input(it: Handling, id: String, (note_id, reason_id): (String, String)) -> AnyView {
    let Typing { typed, reason } = it.typing;
    let describe = move || if reason.with(Option::is_some) { reason_id.clone() } else { note_id.clone() };
    view! {
        <span class="value-number">
            <input
                id=id
                type="text"
                inputmode=move || it.keyboard()
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
