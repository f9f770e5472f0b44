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
    let holding = Holding::new();
    let stop = move || {
        if holding.stop() {
            end();
        }
    };
    let start = move |event: ev::PointerEvent| {
        if event.button() == 0 {
            holding.start(press);
        }
    };
    let click = move |event: ev::MouseEvent| {
        stop();
        // The press that ends a hold is not one more step. A click without a pointer comes from a key or a screen reader.
        if !holding.forget() || event.detail() == 0 {
            press(false);
        }
    };
    let cancelled = move || {
        if holding.has_repeated() {
            take_back();
        }
        stop();
        holding.forget();
    };
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

/// A press that may turn into a hold.
#[derive(Clone, Copy)]
struct Holding {
    waiting: StoredValue<Option<Timeout>, LocalStorage>,
    repeating: StoredValue<Option<Interval>, LocalStorage>,
    /// Whether it has stepped by itself since it was pressed.
    repeated: StoredValue<bool>,
}

impl Holding {
    fn new() -> Self {
        let it = Self {
            waiting: StoredValue::new_local(None),
            repeating: StoredValue::new_local(None),
            repeated: StoredValue::new(false),
        };
        on_cleanup(move || {
            it.waiting.try_update_value(|it| *it = None);
            it.repeating.try_update_value(|it| *it = None);
        });
        it
    }

    /// Begins a press: held long enough, it steps by itself.
    fn start(self, step: impl Fn(bool) + Copy + 'static) {
        self.repeated.set_value(false);
        let repeat = move || {
            self.repeated.set_value(true);
            step(true);
            self.repeating.set_value(Some(Interval::new(REPEAT_MS, move || step(true))));
        };
        self.waiting.set_value(Some(Timeout::new(HOLD_MS, repeat)));
    }

    /// Ends a press; whether it had stepped by itself.
    fn stop(self) -> bool {
        self.waiting.set_value(None);
        self.repeating.set_value(None);
        self.has_repeated()
    }

    fn has_repeated(self) -> bool {
        self.repeated.get_value()
    }

    /// Forgets the press; whether it had stepped by itself.
    fn forget(self) -> bool {
        self.repeated.try_update_value(std::mem::take).unwrap_or_default()
    }
}
