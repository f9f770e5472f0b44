//! The figures that matter, always in sight.

use leptos::prelude::*;

use super::checks::WorstCheck;
use super::state::state;
use crate::design::BlankSection;
use crate::design::units::Quantity;
use crate::figures::checks::Words;
use crate::figures::summary::how_filled;
use crate::figures::tables::measures::{Kitchen, MM3_PER_ML, say_in_shop};

/// Holds, thinnest wall, handle angle, the wood to cut for blank and plug, and the worst check.
#[component]
pub fn FiguresLine() -> impl IntoView {
    let state = state();
    let angle = move || match state.shape(|shape| shape.handle_deg()) {
        None => none(),
        Some(None) => "straight".to_owned(),
        Some(Some(deg)) => state.units().show_with_unit(deg, Quantity::Angle),
    };
    let wall = move || {
        let words = state.shop.with(Words::of);
        state.shape(|shape| shape.wall_in_words(words)).flatten().unwrap_or_else(none)
    };
    let blank = move || {
        state.design.with(|design| {
            let length = |value| state.units().show_short(value, Quantity::Length);
            let width = match design.blank.section {
                BlankSection::Square { side_mm } => format!("{} sq", length(side_mm)),
                BlankSection::Round { diameter_mm } => format!("\u{2300} {}", length(diameter_mm)),
            };
            format!("{width} \u{d7} {}", length(design.length_to_cut_mm()))
        })
    };
    let holds = move || {
        let holds = state.figure(|worked| worked.figures.summary.holds_ml).flatten();
        let kitchen = Kitchen::of(state.units().length);
        holds.map_or_else(none, |ml| say_in_shop(ml * MM3_PER_ML, kitchen))
    };
    let holds_name = move || match state.design.with(how_filled) {
        "level" => "Holds, level",
        _ => "Holds, struck",
    };
    view! {
        <section class="figures-line" aria-label="Figures">
            <dl>
                <Figure name=Signal::derive(holds_name) value=Signal::derive(holds) />
                <Figure name="Thinnest wall" value=Signal::derive(wall) />
                <Figure name="Handle" value=Signal::derive(angle) />
                <Figure name="Wood" value=Signal::derive(blank) />
            </dl>
            <WorstCheck />
        </section>
    }
    .into_any()
}

/// Shown where there is no figure.
fn none() -> String {
    "\u{2013}".to_owned()
}

#[component]
fn Figure(#[prop(into)] name: Signal<&'static str>, value: Signal<String>) -> impl IntoView {
    view! { <div class="figure"><dt>{name}</dt><dd>{value}</dd></div> }.into_any()
}
