//! The species, the contents and the blank's shape.

use leptos::prelude::*;

use crate::app::browser::input_id;
use crate::app::fact::fact;
use crate::app::state::state;
use crate::design::text::same_name;
use crate::design::units::{Quantity, format_number};
use crate::design::{BlankSection, Design, Duty, Green, InUse};
use crate::figures::known::Known;
use crate::figures::tables::Content;
use crate::figures::wood::moisture::in_use_percent;
use crate::figures::wood::wood_names;
use crate::form::edit::{give_use_air, give_use_moisture, set_round_blank};

/// Species and contents.
pub fn choices() -> AnyView {
    let state = state();
    let duty_name = move || {
        let duty = state.design.with(|design| design.duty);
        DUTIES.iter().find(|(other, _)| *other == duty).map_or("", |(_, name)| name).to_owned()
    };
    let green_name = move || {
        let green = state.design.with(|design| design.wood.green);
        GREENS.iter().find(|(other, _)| *other == green).map_or("", |(_, name)| name).to_owned()
    };
    let set_green = move |name: String| {
        if let Some((green, _)) = GREENS.iter().find(|(_, other)| *other == name) {
            state.change(|design| design.wood.green = *green);
        }
    };
    let cautions = move || {
        state.figure(|worked| worked.figures.wood.cautions.iter().map(|it| view! { <li>{*it}</li> }).collect_view())
    };
    view! {
        <section class="card">
            <h2>"Wood and use"</h2>
            <Choice id=input_id("wood.species") label="Species" names=Signal::derive(move || state.shop.with(wood_names))
                current=Signal::derive(move || state.design.with(|it| it.wood.species.clone()))
                chosen=Callback::new(move |name| state.change(|design| design.wood.species = name)) />
            <Choice id=input_id("contents") label="It holds" names=Signal::stored(Content::all().map(|content| content.name.to_owned()).collect()) current=Signal::derive(move || state.design.with(|it| it.contents.clone()))
                chosen=Callback::new(move |name| state.change(|design| design.contents = name)) />
            <Choice id=input_id("duty") label="Used for" names=Signal::stored(DUTIES.map(|(_, name)| name.to_owned()).to_vec()) current=Signal::derive(duty_name)
                chosen=Callback::new(move |name: String| state.change(|design| set_duty(design, &name))) />
            <Choice label="As it dries" names=Signal::stored(GREENS.map(|(_, name)| name.to_owned()).to_vec()) current=Signal::derive(green_name)
                chosen=Callback::new(set_green) />
            <ul class="bullets hint">{cautions}</ul>
        </section>
    }
    .into_any()
}

/// How wood is worked that goes out of round as it dries, as it is called on screen.
const GREENS: [(Green, &str); 3] = [
    (Green::Unsaid, "Not planned"),
    (Green::RoughFirst, "Rough it out, dry it, then finish it"),
    (Green::LeftOval, "Finish it now; it may go oval"),
];

/// How hard it is used, as it is called on screen.
const DUTIES: [(Duty, &str); 3] = [
    (Duty::Light, "Light: dry goods, thin liquids"),
    (Duty::Ordinary, "Ordinary: stirring, serving"),
    (Duty::Heavy, "Heavy: dough, frozen food"),
];

fn set_duty(design: &mut Design, name: &str) {
    if let Some((duty, _)) = DUTIES.iter().find(|(_, other)| *other == name) {
        design.duty = *duty;
    }
}

/// A choice of one name of a list, capitals or not; a name that the list has not, from an older file, stays choosable.
#[component]
pub fn Choice(
    /// The id of the list, by which it is found.
    #[prop(optional)]
    id: Option<String>,
    /// What is chosen.
    label: &'static str,
    /// The list.
    names: Signal<Vec<String>>,
    /// The name as it is.
    current: Signal<String>,
    /// Takes another.
    chosen: Callback<String>,
) -> impl IntoView {
    let all = move || {
        let now = current.get();
        let mut names = names.get();
        if !names.iter().any(|name| same_name(name, &now)) {
            names.push(now);
        }
        names
    };
    let option = move |name: String| {
        let value = name.clone();
        let selected = name.clone();
        view! { <option value=value selected=move || same_name(&current.get(), &selected)>{name}</option> }
    };
    view! {
        <label class="choice">
            <span class="choice-label">{label}</span>
            <select id=id on:change=move |event| chosen.run(event_target_value(&event))>
                {move || all().into_iter().map(option).collect_view()}
            </select>
        </label>
    }
    .into_any()
}

/// What the wood comes to: the least blank, and what it weighs.
#[component]
fn BlankFigures() -> impl IntoView {
    let state = state();
    let length = move |value| state.units().show_with_unit(value, Quantity::Length);
    let least = move || {
        state.figure(|worked| {
            let blank = &worked.figures.blank;
            format!("{} square, or {} round", length(blank.least_square_side_mm), length(blank.least_round_diameter_mm))
        })
    };
    let to_cut = move || {
        state.design.with(|design| {
            let all = design.length_to_cut_mm();
            let plug = all - design.blank.length_mm;
            if plug > 0.0 { format!("{} long, {} of it for the plug", length(all), length(plug)) } else { length(all) }
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
    let drying = move || {
        state.figure(|worked| {
            let wood = &worked.figures.wood;
            let percent = |value: f64| format!("{} %", format_number(value, 1));
            let mut facts = vec![(
                "Moisture, now and in use",
                format!("{}, {}", percent(wood.moisture_percent), percent(wood.moisture_in_use_percent)),
            )];
            match &wood.drying {
                Known::Value(drying) => {
                    let oval = drying.hollows.iter().map(|hollow| hollow.oval_mm).fold(0.0, f64::max);
                    facts.push(("Bore goes oval by", length(oval)));
                    facts.push((
                        "Holds, once dry",
                        format!("{} %", format_number(100.0 * (1.0 + drying.capacity_share), 1)),
                    ));
                }
                Known::Missing { why_not } => facts.push(("Drying", why_not.clone())),
            }
            facts.into_iter().map(|(what, value)| fact(what, value)).collect_view()
        })
    };
    view! {
        <dl class="facts">
            <div><dt>"Wood to cut"</dt><dd>{to_cut}</dd></div>
            <div><dt>"Least blank that will do"</dt><dd>{least}</dd></div>
            <div><dt>"Weighs"</dt><dd>{weights}</dd></div>
            {drying}
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

/// Whether the moisture in use is given itself, or by the air.
pub fn use_choice() -> AnyView {
    let state = state();
    let by_air = move || state.design.with(|design| matches!(design.wood.in_use, InUse::Air { .. }));
    let reckoned = move || state.design.with_untracked(|design| in_use_percent(&design.wood.in_use));
    let option = move |is_air: bool, name: &'static str| {
        let choose = move |_| match (is_air, untrack(by_air)) {
            (true, false) => state.change(give_use_air),
            (false, true) => state.change(|design| give_use_moisture(design, reckoned())),
            _ => {}
        };
        view! {
            <button type="button" class="segment" aria-pressed=move || (by_air() == is_air).to_string() on:click=choose>
                {name}
            </button>
        }
    };
    let comes_to = move || {
        let percent = state.design.with(|design| in_use_percent(&design.wood.in_use));
        by_air().then(|| format!("The wood comes to rest at {} percent.", format_number(percent, 1)))
    };
    view! {
        <div class="choice" role="group" aria-label="Given by">
            <span class="choice-label">"Given by"</span>
            <div class="segments">{option(true, "The air")} {option(false, "Moisture")}</div>
        </div>
        <p class="hint">{comes_to}</p>
    }
    .into_any()
}
