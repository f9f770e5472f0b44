//! One more wood: its name, and what it begins with.

use leptos::prelude::*;

use crate::app::browser::focus_soon;
use crate::app::groups::wood::Choice;
use crate::app::state::{State, state};
use crate::app::text_field::text_field;
use crate::app::typing::drafted;
use crate::design::units::Quantity;
use crate::design::validation::bounds;
use crate::design::{OwnSpecies, Shop};
use crate::figures::wood::{Timber, own_copy, wood_names};
use crate::form::own_woods::add_wood;

/// What stands first in the choice of what a wood begins with.
const DENSITY_ONLY: &str = "Its density only";

/// How the names of the drafts of this form begin.
const DRAFTS: &str = "shop/new wood/";

/// A button that opens the form, and the form.
pub fn form(open: RwSignal<Option<usize>>) -> AnyView {
    let shown = RwSignal::new(state().has_drafts(DRAFTS));
    (move || match shown.get() {
        true => filled_in(open, shown),
        false => view! {
            <button type="button" class="button" on:click=move |_| shown.set(true)>"Add a wood"</button>
        }
        .into_any(),
    })
    .into_any()
}

fn filled_in(open: RwSignal<Option<usize>>, shown: RwSignal<bool>) -> AnyView {
    let state = state();
    let (name, begin) = untrack(|| proposed(state));
    let (name, begin) = (drafted(format!("{DRAFTS}name"), name), drafted(format!("{DRAFTS}begin"), begin));
    let density = drafted(format!("{DRAFTS}density"), String::new());
    let reason = RwSignal::new(None::<String>);
    let names = move || {
        let woods = state.shop.with(wood_names);
        std::iter::once(DENSITY_ONLY.to_owned()).chain(woods).collect()
    };
    let asks_density = Memo::new(move |_| state.shop.with(|shop| own_copy(&begin.get(), shop).is_none()));
    let done = move || {
        shown.set(false);
        state.forget_drafts(DRAFTS);
    };
    let add = move |_| {
        let typed = untrack(|| (name.get(), begin.get(), density.get()));
        match added(state, &typed.0, &typed.1, &typed.2) {
            Ok(shop) => {
                let new = shop.own_species.len().saturating_sub(1);
                state.shop.set(shop);
                open.set(Some(new));
                done();
                focus_soon(&button_id(new));
            }
            Err(why) => reason.set(Some(why)),
        }
    };
    view! {
        <div class="form" role="group" aria-label="A wood of your own">
            {text_field("Name of the wood", name, "text")}
            <Choice label="Begin with" names=Signal::derive(names) current=begin.into()
                chosen=Callback::new(move |chosen| begin.set(chosen)) />
            {move || match asks_density.get() {
                true => text_field("Density in kg/m\u{b3}, at 12 percent moisture", density, "decimal"),
                false => view! { <p class="hint">"A copy of its figures, yours to change."</p> }.into_any(),
            }}
            <p class="value-reason" role="alert">{move || reason.get()}</p>
            <div class="buttons">
                <button type="button" class="button" on:click=add>"Add it to the list"</button>
                <button type="button" class="button quiet" on:click=move |_| done()>"Cancel"</button>
            </div>
        </div>
    }
    .into_any()
}

/// The name and the beginning that are proposed: the wood of the design on the bench, when nothing is known of it.
fn proposed(state: State) -> (String, String) {
    let species = state.design.with(|design| design.wood.species.trim().to_owned());
    match state.shop.with(|shop| Timber::named(&species, shop).map(|wood| wood.name.to_owned())) {
        Some(known) => (String::new(), known),
        None => (species, DENSITY_ONLY.to_owned()),
    }
}

/// The shop with the wood added; `begin` names what it begins with, else it is `density` as typed.
fn added(state: State, name: &str, begin: &str, density: &str) -> Result<Shop, String> {
    let shop = state.shop.get_untracked();
    let figures = match own_copy(begin, &shop) {
        Some(copy) => copy,
        None => OwnSpecies {
            density_kg_m3: untrack(|| state.units()).read(density, Quantity::Number, &bounds::DENSITY)?,
            ..OwnSpecies::default()
        },
    };
    add_wood(&shop, name, figures).map_err(|problem| state.told(&problem))
}

/// The id of the button that opens a wood.
pub(super) fn button_id(index: usize) -> String {
    format!("own-wood-{index}")
}
