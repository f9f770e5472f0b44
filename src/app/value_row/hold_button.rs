//! A button that steps once when pressed, and goes on while it is held.

use gloo_timers::callback::{Interval, Timeout};
use leptos::ev;
use leptos::prelude::*;

/// How long minus or plus is held before it repeats, and how often it then does, in milliseconds.
const HOLD_MS: u32 = 450;
const REPEAT_MS: u32 = 90;

/// A button that steps once when pressed, and goes on while it is held.
#[component]
pub fn HoldButton<L, S, P, E, T>(label: L, sign: &'static str, step: S, press: P, end: E, take_back: T) -> impl IntoView
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
