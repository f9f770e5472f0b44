//! The species, the contents and the blank's shape.

use leptos::prelude::*;

use crate::app::state::state;
use crate::design::BlankSection;
use crate::design::edit::set_round_blank;
use crate::design::validation::bounds::NAME_LETTERS;
use crate::figures::tables::Content;

/// Species and contents.
pub fn choices() -> AnyView {
    let state = state();
    view! {
        <section class="card">
            <h2>"What of, what for"</h2>
            <Species />
            <Choice label="It holds" names=Content::all().map(|content| content.name).collect() current=Signal::derive(move || state.design.with(|it| it.contents.clone()))
                chosen=Callback::new(move |name| state.change(|design| design.contents = name)) />
        </section>
    }
    .into_any()
}

/// The wood's name.
#[component]
fn Species() -> impl IntoView {
    let state = state();
    let rename = move |event| {
        let typed = event_target_value(&event).trim().to_owned();
        state.change(|design| design.wood.species = typed);
    };
    view! {
        <label class="choice">
            <span class="choice-label">"Species"</span>
            <input
                class="words"
                type="text"
                maxlength=NAME_LETTERS
                autocomplete="off"
                prop:value=move || state.design.with(|design| design.wood.species.clone())
                on:change=rename
            />
        </label>
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
    }
    .into_any()
}
