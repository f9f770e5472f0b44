//! The woods of the turner's own.

mod adding;

use adding::button_id;

use leptos::prelude::*;

use crate::app::browser::focus_soon;
use crate::app::keeping::{Keeping, keeping};
use crate::app::notice::Notice;
use crate::app::state::{State, state};
use crate::app::text_field::kept_text;
use crate::app::value_row::{NewValue, ValueRow};
use crate::design::OwnSpecies;
use crate::design::text::same_name;
use crate::design::units::Quantity;
use crate::figures::tables::Species;
use crate::figures::wood::Timber;
use crate::form::own_woods::{
    WoodNumber, WoodUses, is_of, put_wood, rename_wood, set_wood_note, set_wood_number, take_off_wood,
};

/// The list of woods, each to open, and a form for one more.
#[component]
pub fn OwnWoods() -> impl IntoView {
    let state = state();
    let open = RwSignal::new(None::<usize>);
    let count = Memo::new(move |_| state.shop.with(|shop| shop.own_species.len()));
    // The same wood stays open as it is while the list grows.
    let shown = Memo::new(move |_| open.get().filter(|index| *index < count.get()));
    view! {
        <section class="card" aria-labelledby="own-woods">
            <h2 id="own-woods" tabindex="-1">"Your own woods"</h2>
            <p class="hint">
                "For a wood that the table has not, or that you know better. Its figures are yours, and so is where they
                come from: Skewline reckons with them as they stand. They are chosen under Species."
            </p>
            {move || unknown_species(state)}
            <ul class="nodes woods">
                <For
                    each=move || 0..count.get()
                    key=|index| *index
                    children=move |index| view! { <li>{wood_button(index, open)}</li> }
                />
            </ul>
            {move || shown.get().map(|index| wood_values(index, open))}
            {adding::form(open)}
        </section>
    }
    .into_any()
}

/// Says that the design on the bench is of a wood that nothing is known of.
fn unknown_species(state: State) -> Option<AnyView> {
    let species = state.design.with(|design| design.wood.species.clone());
    let unknown = state.shop.with(|shop| Timber::named(&species, shop).is_none());
    unknown.then(|| {
        let said = format!(
            "The design on the bench is of \u{201c}{}\u{201d}, which is neither in the table nor in this list.",
            species.trim()
        );
        view! { <p class="hint">{said}</p> }.into_any()
    })
}

fn name_of(state: State, index: usize) -> String {
    state.shop.with(|shop| shop.own_species.get(index).map(|wood| wood.name.clone())).unwrap_or_default()
}

fn wood_button(index: usize, open: RwSignal<Option<usize>>) -> AnyView {
    let state = state();
    let is_open = move || open.get() == Some(index);
    let density = move || {
        let density = state.shop.with(|shop| WoodNumber::Density.of(shop, index));
        density.map(|density| state.units().show(density, Quantity::Number))
    };
    view! {
        <button
            type="button"
            class="node"
            id=button_id(index)
            aria-expanded=move || is_open().to_string()
            on:click=move |_| open.set(if is_open() { None } else { Some(index) })
        >
            <span class="node-name">{move || name_of(state, index)}</span>
            <small>{density} " kg/m\u{b3}"</small>
        </button>
    }
    .into_any()
}

fn wood_values(index: usize, open: RwSignal<Option<usize>>) -> AnyView {
    let (state, keeping) = (state(), keeping());
    let name = Signal::derive(move || name_of(state, index));
    let note = Signal::derive(move || {
        state.shop.with(|shop| shop.own_species.get(index).map(|wood| wood.note.clone())).unwrap_or_default()
    });
    let rename = Callback::new(move |typed: String| rename(state, keeping, index, &typed));
    let set_note = Callback::new(move |typed: String| {
        let changed = set_wood_note(&state.shop.get_untracked(), index, &typed);
        state.shop.set(changed.map_err(|problem| state.told(&problem))?);
        Ok(())
    });
    let stands_before = move || {
        let in_table = Species::named(&name.get()).is_some();
        in_table.then_some("The table has a wood of this name too: yours stands before it.")
    };
    let used = move || state.design.with(|design| is_of(design, &name.get()));
    let use_it = move |_| state.change(|design| design.wood.species = name.get_untracked());
    let use_or_used = move || match used() {
        true => view! { <p class="hint">"The design on the bench is of this wood."</p> }.into_any(),
        false => view! {
            <button type="button" class="button" on:click=use_it>"Use it for the design on the bench"</button>
        }
        .into_any(),
    };
    view! {
        <div class="picked">
            {kept_text(format!("shop.own_species[{index}].name"), "Name", "text", name, rename)}
            <p class="hint">{stands_before}</p>
            {WoodNumber::ALL.map(|number| wood_number(index, number)).into_iter().collect_view()}
            {kept_text(format!("shop.own_species[{index}].note"), "Where they come from", "text", note, set_note)}
            <div class="buttons">
                {use_or_used}
                <button type="button" class="button" on:click=move |_| take_off(state, keeping, index, open)>
                    "Take it off the list"
                </button>
            </div>
        </div>
    }
    .into_any()
}

/// A number of a wood: a value row, or a line to type it in while it is not known.
fn wood_number(index: usize, number: WoodNumber) -> AnyView {
    let state = state();
    let row = number.row();
    let value = Memo::new(move |_| state.shop.with(|shop| number.of(shop, index)));
    let known = Memo::new(move |_| value.get().is_some());
    let set = move |value: Option<f64>| {
        let changed = set_wood_number(&state.shop.get_untracked(), index, number, value);
        state.shop.set(changed.map_err(|problem| state.told(&problem))?);
        Ok::<(), String>(())
    };
    let take = Callback::new(move |typed: String| match typed.trim() {
        "" => Ok(()),
        typed => set(Some(untrack(|| state.units()).read(typed, Quantity::Number, &row.bound)?)),
    });
    let forget = move |_| {
        if let Err(why) = set(None) {
            state.notices.say(Notice::plain(why));
        }
    };
    let shown = move || {
        match known.get() {
        true => view! {
            <ValueRow
                path=format!("shop.own_species[{index}].{}", row.label)
                row=Signal::stored(row)
                value=Signal::derive(move || value.get().unwrap_or_default())
                set=Callback::new(move |new: NewValue| set(Some(new.value)))
            />
            {number.may_be_unknown().then(|| view! {
                <button type="button" class="button quiet" on:click=forget>
                    "Not known"<span class="unseen">": "{row.label}</span>
                </button>
            })}
        }
        .into_any(),
        false => view! {
            {kept_text(format!("shop.own_species[{index}].{}", row.label), row.label, "decimal", Signal::stored(String::new()), take)}
            <p class="hint">{number.unknown()}</p>
        }
        .into_any(),
    }
    };
    view! { <div>{shown}</div> }.into_any()
}

/// Names a wood anew, and with it the design on the bench when it is of that wood.
fn rename(state: State, keeping: Keeping, index: usize, typed: &str) -> Result<(), String> {
    let before = untrack(|| name_of(state, index));
    let changed = rename_wood(&state.shop.get_untracked(), index, typed).map_err(|problem| state.told(&problem))?;
    let after = changed.own_species.get(index).map(|wood| wood.name.clone()).unwrap_or_default();
    if after == before {
        return Ok(());
    }
    let same_wood = same_name(&after, &before);
    let uses = if same_wood { WoodUses::default() } else { uses_of(state, keeping, &before) };
    state.shop.set(changed);
    // Also when the design on the bench is of another wood now: a step back may lead to this one.
    if !same_wood {
        state.follow_rename(&before, &after);
    }
    say_of(state, uses, uses.when_renamed(&before, &after), None);
    Ok(())
}

/// Takes a wood off the list, with a way back.
fn take_off(state: State, keeping: Keeping, index: usize, open: RwSignal<Option<usize>>) {
    let uses = uses_of(state, keeping, &untrack(|| name_of(state, index)));
    open.set(None);
    let Some(wood) = state.shop.try_update(|shop| take_off_wood(shop, index)).flatten() else { return };
    let said = uses.when_taken_off(&wood.name, Species::named(&wood.name).is_some());
    focus_soon("own-woods");
    say_of(state, uses, said, Some((index, wood)));
}

/// Says what was done; for as long as it takes, when a design is of the wood.
fn say_of(state: State, uses: WoodUses, said: String, way_back: Option<(usize, OwnSpecies)>) {
    let notice = if uses == WoodUses::default() { Notice::plain(said) } else { Notice::lasting(said) };
    state.notices.say(match way_back {
        None => notice,
        Some((index, wood)) => notice.with_action("Put it back", move || put_back(state, index, wood.clone())),
    });
}

/// Puts a wood back on the list; where another has taken its name, it waits until that one has another.
fn put_back(state: State, index: usize, wood: OwnSpecies) {
    match put_wood(&state.shop.get_untracked(), index, wood.clone()) {
        Ok(shop) => state.shop.set(shop),
        Err(problem) => {
            let again = move || put_back(state, index, wood.clone());
            state.notices.say(Notice::lasting(state.told(&problem)).with_action("Put it back", again));
        }
    }
}

/// Which designs are of the wood of this name.
fn uses_of(state: State, keeping: Keeping, name: &str) -> WoodUses {
    let bench = keeping.open_id();
    let listing = keeping.act(state, |shelf| Ok(shelf.list()?)).unwrap_or_default();
    let others = listing.entries.iter().filter(|entry| Some(&entry.id) != bench.as_ref());
    WoodUses {
        on_bench: state.design.with_untracked(|design| is_of(design, name)),
        on_shelf: others.filter(|entry| is_of(&entry.design, name)).count(),
    }
}
