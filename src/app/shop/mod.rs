//! The shop's settings: units, screen, bits, woods, lathe, chuck, centres and limits.

mod bits;
mod grits;
mod own_woods;
mod values;

use leptos::prelude::*;

use super::remembered::ThemeChoice;
use super::state::state;
use crate::design::{LengthUnit, Rounding};

/// The room of the shop's settings.
#[component]
pub fn ShopRoom() -> impl IntoView {
    view! {
        <main class="page" id="main">
            <h1>"Shop"</h1>
            <p class="hint">"Kept on this device and shared by every design."</p>
            <section class="card">
                <h2>"Screen and units"</h2>
                <UnitChoice />
                <RoundingChoice />
                <ThemeButtons />
            </section>
            <bits::Bits />
            <own_woods::OwnWoods />
            <grits::Grits />
            <values::ShopValues />
        </main>
    }
    .into_any()
}

/// One of a few choices, side by side.
#[component]
fn Segments<T>(
    label: &'static str,
    options: Vec<(T, &'static str)>,
    current: Signal<T>,
    chosen: Callback<T>,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let option = move |(value, name): (T, &'static str)| {
        view! {
            <button
                type="button"
                class="segment"
                aria-pressed=move || (current.get() == value).to_string()
                on:click=move |_| chosen.run(value)
            >
                {name}
            </button>
        }
    };
    view! {
        <div class="choice" role="group" aria-label=label>
            <span class="choice-label">{label}</span>
            <div class="segments">{options.into_iter().map(option).collect_view()}</div>
        </div>
    }
    .into_any()
}

#[component]
fn UnitChoice() -> impl IntoView {
    let state = state();
    let options = vec![(LengthUnit::Millimetres, "mm"), (LengthUnit::Inches, "inches")];
    let current = Signal::derive(move || state.shop.with(|shop| shop.length_unit));
    let chosen = Callback::new(move |unit| state.shop.update(|shop| shop.length_unit = unit));
    view! { <Segments label="Lengths in" options=options current=current chosen=chosen /> }
}

#[component]
fn RoundingChoice() -> impl IntoView {
    let state = state();
    let in_inches = move || state.shop.with(|shop| shop.length_unit == LengthUnit::Inches);
    let current = Signal::derive(move || state.shop.with(|shop| shop.rounding));
    let chosen = Callback::new(move |rounding| state.shop.update(|shop| shop.rounding = rounding));
    let options = || {
        vec![
            (Rounding::Decimal, "Decimal"),
            (Rounding::Sixteenths, "1/16"),
            (Rounding::ThirtySeconds, "1/32"),
            (Rounding::SixtyFourths, "1/64"),
        ]
    };
    view! {
        <Show when=in_inches>
            <Segments label="Inches to" options=options() current=current chosen=chosen />
        </Show>
    }
}

#[component]
fn ThemeButtons() -> impl IntoView {
    let state = state();
    let current = Signal::derive(move || state.theme.get());
    let chosen = Callback::new(move |theme| state.theme.set(theme));
    view! { <Segments label="Screen" options=ThemeChoice::ALL.to_vec() current=current chosen=chosen /> }
}
