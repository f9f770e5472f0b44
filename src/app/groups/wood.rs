//! The species, the contents and the blank's shape.

use leptos::prelude::*;

use crate::app::state::state;
use crate::design::BlankSection;
use crate::design::edit::set_round_blank;
use crate::design::units::{Quantity, format_number};
use crate::figures::known::Known;
use crate::figures::tables::{Content, Species};

/// Species and contents.
pub fn choices() -> AnyView {
    let state = state();
    view! {
        <section class="card">
            <h2>"What of, what for"</h2>
            <Choice label="Species" names=Species::all().map(|wood| wood.name).collect()
                current=Signal::derive(move || state.design.with(|it| it.wood.species.clone()))
                chosen=Callback::new(move |name| state.change(|design| design.wood.species = name)) />
            <Choice label="It holds" names=Content::all().map(|content| content.name).collect() current=Signal::derive(move || state.design.with(|it| it.contents.clone()))
                chosen=Callback::new(move |name| state.change(|design| design.contents = name)) />
        </section>
    }
    .into_any()
}

/// A choice of one name of a list; a name that the list has not, from an older file, stays choosable.
#[component]
fn Choice(
    label: &'static str,
    names: Vec<&'static str>,
    current: Signal<String>,
    chosen: Callback<String>,
) -> impl IntoView {
    let all = move || {
        let now = current.get();
        let known = names.iter().any(|name| *name == now);
        let own = (!known).then(|| now.clone());
        names.iter().map(|name| (*name).to_owned()).chain(own).collect::<Vec<_>>()
    };
    let option = move |name: String| {
        let value = name.clone();
        let selected = name.clone();
        view! { <option value=value selected=move || current.get() == selected>{name}</option> }
    };
    view! {
        <label class="choice">
            <span class="choice-label">{label}</span>
            <select on:change=move |event| chosen.run(event_target_value(&event))>
                {move || all().into_iter().map(option).collect_view()}
            </select>
        </label>
    }
    .into_any()
}

/// What the wood comes to: the least blank, and what it weighs.
#[component]
pub fn BlankFigures() -> impl IntoView {
    let state = state();
    let length = move |value| state.units().show_with_unit(value, Quantity::Length);
    let least = move || {
        state.figure(|worked| {
            let blank = &worked.figures.blank;
            format!("{} square, or {} round", length(blank.least_square_side_mm), length(blank.least_round_diameter_mm))
        })
    };
    let grams = |value: f64| format!("{} g", format_number(value, 0));
    let weights = move || {
        state.figure(|worked| match &worked.figures.blank.weight {
            Known::Value(weight) => {
                format!("blank {}, finished {}", grams(weight.blank_g), grams(weight.finished_g))
            }
            Known::Missing { why_not } => why_not.clone(),
        })
    };
    view! {
        <dl class="facts">
            <div><dt>"Least blank that will do"</dt><dd>{least}</dd></div>
            <div><dt>"Weighs"</dt><dd>{weights}</dd></div>
        </dl>
    }
    .into_any()
}

/// Square or round.
pub fn blank_shape() -> AnyView {
    let state = state();
    let round = move || state.design.with(|design| matches!(design.blank.section, BlankSection::Round { .. }));
    let option = move |is_round: bool, name: &'static str| {
        view! {
            <button
                type="button"
                class="segment"
                aria-pressed=move || (round() == is_round).to_string()
                on:click=move |_| state.change(|design| set_round_blank(design, is_round))
            >
                {name}
            </button>
        }
    };
    view! {
        <div class="choice" role="group" aria-label="Section of the blank">
            <span class="choice-label">"Section"</span>
            <div class="segments">{option(false, "Square")} {option(true, "Round")}</div>
        </div>
        <BlankFigures />
    }
    .into_any()
}
