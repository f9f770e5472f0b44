//! One value: its name, the number to type, minus and plus, and a slider.

use gloo_timers::callback::{Interval, Timeout};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::browser::input_id;
use super::state::{VALUE_DRAFTS, state};
use super::stop_free::StopFree;
use super::typing::Typing;
use crate::design::entry::{share, snapped, stepped};
use crate::drawings::slide::{Slide, Track};
use crate::form::Row;

/// How long minus or plus is held before it repeats, and how often it then does, in milliseconds.
const HOLD_MS: u32 = 450;
const REPEAT_MS: u32 = 90;

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
    let state = state();
    let typing = Typing::over(value).drafted(draft_name(&path));
    let Typing { typed, reason } = typing;
    let id = input_id(&path);
    let (note_id, reason_id, stop_free_id) = (format!("{id}-note"), format!("{id}-reason"), format!("{id}-stop-free"));

    let shown = move || state.units().show(value.get(), row.with(|row| row.quantity));
    let spoken = move || state.units().show_with_unit(value.get(), row.with(|row| row.quantity));
    let unit = move || state.units().name(row.with(|row| row.quantity));
    let step = move || row.with(|row| state.units().step(row.quantity, row.fine));
    let label = move || row.with(|row| row.label);

    let offer = move |value: f64, sweeping: bool| match set.run(NewValue { value, sweeping }) {
        Ok(()) => {
            typing.put_right();
            true
        }
        Err(why) => {
            reason.set(Some(why));
            false
        }
    };
    let take_typed = move |_| {
        let Some(text) = typed.get_untracked() else { return };
        let row = row.get_untracked();
        match untrack(|| state.units()).read(&text, row.quantity, &row.bound) {
            Ok(value) => {
                offer(value, false);
            }
            Err(why) => reason.set(Some(why)),
        }
    };
    let held_from = StoredValue::new(None::<f64>);
    let move_by = move |steps: f64, sweeping: bool| {
        if sweeping {
            held_from.update_value(|held| *held = held.or(Some(value.get_untracked())));
        }
        let row = row.get_untracked();
        let step = untrack(|| state.units()).step(row.quantity, row.fine);
        offer(stepped(value.get_untracked(), steps, step, &row.bound), sweeping);
    };
    let end = move || {
        held_from.set_value(None);
        state.end_gesture();
    };
    // The finger that held a button has begun to scroll: it meant no step.
    let take_back = move || {
        if let Some(before) = held_from.get_value() {
            offer(before, true);
        }
    };
    let keyboard = move || {
        if row.with(|row| state.units().needs_full_keyboard(row.quantity, &row.bound)) { "text" } else { "decimal" }
    };
    let describe = {
        let (note_id, reason_id) = (note_id.clone(), reason_id.clone());
        move || if reason.with(Option::is_some) { reason_id.clone() } else { note_id.clone() }
    };

    let stop_free_words = move || {
        let told = |value| state.units().show_with_unit(value, row.with(|row| row.quantity));
        stop_free.get().map(|range| match range {
            Some((low, high)) => format!("No check stops from {} to {}.", told(low), told(high)),
            None => "Some check stops wherever it stands.".to_owned(),
        })
    };
    let step_shown = move || row.with(|row| state.units().show(step(), row.quantity));

    view! {
        <div class="value-row" class:refused=move || reason.with(Option::is_some)>
            <label class="value-label" for=id.clone()>
                {label} <span class="unseen">{move || state.units().read_out(row.with(|row| row.quantity))}</span>
            </label>
            <span class="value-number">
                <input
                    id=id
                    type="text"
                    inputmode=keyboard
                    autocomplete="off"
                    spellcheck="false"
                    enterkeyhint="done"
                    prop:value=move || typed.get().unwrap_or_else(shown)
                    aria-invalid=move || reason.with(Option::is_some).to_string()
                    aria-describedby=describe
                    on:input=move |event| typed.set(Some(event_target_value(&event)))
                    on:change=take_typed
                    on:keydown=move |event| typing.on_key(&event)
                    on:blur=move |_| typing.on_leave()
                />
                <span class="value-unit" aria-hidden="true">{unit}</span>
            </span>
            <div class="value-moves">
                <HoldButton label=move || format!("{} less by {}", label(), step_shown()) sign="\u{2212}" step=step_shown press=move |held| move_by(-1.0, held) end=end take_back=take_back />
                <Slider row=row value=value step=Signal::derive(step) spoken=Signal::derive(spoken) stop_free=stop_free describe=stop_free_id.clone()
                    offer=Callback::new(move |value| offer(value, true)) end=Callback::new(move |()| end()) />
                <HoldButton label=move || format!("{} more by {}", label(), step_shown()) sign="+" step=step_shown press=move |held| move_by(1.0, held) end=end take_back=take_back />
            </div>
            <p class="unseen" id=stop_free_id>{stop_free_words}</p>
            <p class="value-note" id=note_id>{move || row.with(|row| row.note)}</p>
            <p class="value-reason" id=reason_id role="alert">{move || reason.get()}</p>
        </div>
    }
    .into_any()
}

/// The slider of a value row.
#[component]
fn Slider(
    row: Signal<Row>,
    value: Signal<f64>,
    step: Signal<f64>,
    spoken: Signal<String>,
    stop_free: Signal<Option<StopFree>>,
    /// The id of the words that say where no check stops.
    describe: String,
    offer: Callback<f64, bool>,
    end: Callback<()>,
) -> impl IntoView {
    let slider = NodeRef::<html::Input>::new();
    let range = move || row.with(|row| row.slider(value.get()));
    let on_input = move |event: ev::Event| {
        let Ok(wanted) = event_target_value(&event).parse::<f64>() else { return };
        let bound = row.with_untracked(|row| row.bound);
        let wanted = snapped(wanted, step.get_untracked()).clamp(bound.from, bound.to);
        if !offer.run(wanted)
            && let Some(slider) = slider.get_untracked()
        {
            slider.set_value(&value.get_untracked().to_string());
        }
    };
    // In this order: a slider keeps its value inside the ends it has at the time.
    Effect::new(move |_| {
        if let Some(slider) = slider.get() {
            let (from, to) = range();
            slider.set_min(&from.to_string());
            slider.set_max(&to.to_string());
            slider.set_step(&step.get().to_string());
            slider.set_value(&value.get().to_string());
        }
    });
    let slide = StoredValue::new(None::<Slide>);
    let place = move |event: &ev::PointerEvent, slider: &web_sys::Element| {
        let corner = slider.get_bounding_client_rect();
        (f64::from(event.client_x()) - corner.left(), f64::from(event.client_y()) - corner.top())
    };
    let slide_to = move |wanted: f64| {
        let bound = row.with_untracked(|row| row.bound);
        offer.run(snapped(wanted, step.get_untracked()).clamp(bound.from, bound.to));
    };
    let down = move |event: ev::PointerEvent| {
        let Some(slider) = slider.get_untracked().filter(|_| event.button() == 0 && event.is_primary()) else { return };
        let (from, to) = untrack(range);
        let track = Track { from, to, width_px: slider.get_bounding_client_rect().width() };
        let (value, place) = (value.get_untracked(), place(&event, &slider));
        if event.pointer_type() != "mouse" {
            return slide.set_value(Some(Slide::by_finger(track, value, place)));
        }
        let (begun, at_once) = Slide::by_mouse(track, value, place);
        slide.set_value(Some(begun));
        capture(&event);
        // The press goes to what lies around the slider: the slider takes the focus as if it had been pressed itself.
        let _ = slider.focus();
        at_once.into_iter().for_each(slide_to);
    };
    let moved = move |event: ev::PointerEvent| {
        let Some(slider) = slider.get_untracked() else { return };
        let place = place(&event, &slider);
        let wanted = slide.try_update_value(|slide| slide.as_mut()?.moved(place)).flatten();
        wanted.into_iter().for_each(slide_to);
    };
    let up = move || {
        let dragged = slide.try_update_value(Option::take).flatten().filter(Slide::is_dragging);
        if dragged.is_some() {
            end.run(());
        }
        dragged
    };
    // The browser scrolls or zooms after all.
    let cancelled = move |_| {
        if let Some(before) = slide.get_value().filter(Slide::is_dragging).map(|slide| slide.before()) {
            offer.run(before);
        }
        up();
    };
    let percent = |part: f64| format!("{:.2}%", part * 100.0);
    let part = move || match stop_free.get() {
        None => (0.0, 1.0),
        Some(None) => (1.0, 1.0),
        Some(Some((low, high))) => (share(low, range().0, range().1), share(high, range().0, range().1)),
    };
    view! {
        <span
            class="value-slide"
            on:pointerdown=down
            on:mousedown=move |event: ev::MouseEvent| event.prevent_default()
            on:pointermove=moved
            on:pointerup=move |_| { up(); }
            on:pointercancel=cancelled
        >
            <input
                class="value-slider"
                node_ref=slider
                type="range"
                aria-label=move || row.with(|row| format!("{}, slider", row.label))
                aria-valuetext=spoken
                aria-describedby=describe
                style=("--stop-free-from", move || percent(part().0))
                style=("--stop-free-past", move || percent(1.0 - part().1))
                on:input=on_input
                on:change=move |_| end.run(())
            />
        </span>
    }
    .into_any()
}

/// Follows a pointer that leaves what it pressed.
fn capture(event: &ev::PointerEvent) {
    let pressed =
        event.current_target().and_then(|target| wasm_bindgen::JsCast::dyn_into::<web_sys::Element>(target).ok());
    if let Some(pressed) = pressed {
        // A pointer that is gone already cannot be followed, and needs not be.
        let _ = pressed.set_pointer_capture(event.pointer_id());
    }
}

/// A button that steps once when pressed, and goes on while it is held.
#[component]
fn HoldButton<L, S, P, E, T>(label: L, sign: &'static str, step: S, press: P, end: E, take_back: T) -> impl IntoView
where
    L: Fn() -> String + Send + 'static,
    S: Fn() -> String + Copy + Send + 'static,
    P: Fn(bool) + Copy + Send + Sync + 'static,
    E: Fn() + Copy + Send + Sync + 'static,
    T: Fn() + Copy + Send + Sync + 'static,
{
    let waiting = StoredValue::new_local(None::<Timeout>);
    let repeating = StoredValue::new_local(None::<Interval>);
    // The press that ends a hold is not one more step.
    let held = StoredValue::new(false);
    let stop = move || {
        waiting.set_value(None);
        repeating.set_value(None);
        if held.get_value() {
            end();
        }
    };
    let start = move |event: ev::PointerEvent| {
        if event.button() != 0 {
            return;
        }
        held.set_value(false);
        let repeat = move || {
            held.set_value(true);
            press(true);
            repeating.set_value(Some(Interval::new(REPEAT_MS, move || press(true))));
        };
        waiting.set_value(Some(Timeout::new(HOLD_MS, repeat)));
    };
    let click = move |event: ev::MouseEvent| {
        stop();
        // A click without a pointer comes from a key or a screen reader.
        if !held.get_value() || event.detail() == 0 {
            press(false);
        }
        held.set_value(false);
    };
    let cancelled = move || {
        if held.get_value() {
            take_back();
        }
        stop();
        held.set_value(false);
    };
    on_cleanup(move || {
        waiting.try_update_value(|it| *it = None);
        repeating.try_update_value(|it| *it = None);
    });
    view! {
        <button
            type="button"
            class="step-button"
            aria-label=label
            on:pointerdown=start
            on:pointerup=move |_| stop()
            on:pointerleave=move |_| stop()
            on:pointercancel=move |_| cancelled()
            on:contextmenu=move |event: ev::MouseEvent| event.prevent_default()
            on:click=click
        >
            <span class="step-sign">{sign}</span>
            <small>{step}</small>
        </button>
    }
    .into_any()
}
