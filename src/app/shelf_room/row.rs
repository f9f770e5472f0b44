//! One design on the shelf: its picture, its name, and what can be done with it.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use crate::app::keeping::{keeping, save_design_file};
use crate::app::notice::Notice;
use crate::app::picture::picture_address;
use crate::app::state::{Room, state};
use crate::design::validation::bounds::NAME_LETTERS;
use crate::drawings::Theme;
use crate::shelf::Entry;
use crate::shelf::browser::{now_ms, random};

/// A design on the shelf.
#[component]
pub fn ShelfRow(
    /// The entry; the row is made anew when it changes.
    entry: Entry,
) -> impl IntoView {
    let (state, keeping) = (state(), keeping());
    let renaming = RwSignal::new(false);
    let input = NodeRef::<html::Input>::new();
    Effect::new(move |_| {
        if let Some(input) = input.get() {
            input.select();
        }
    });
    let entry = StoredValue::new(entry);
    let name = entry.with_value(|entry| entry.design.name.clone());
    let id = move || entry.with_value(|entry| entry.id.clone());
    let is_open = untrack(|| keeping.open_id() == Some(id()));
    let theme = if untrack(|| state.dark()) { Theme::DARK } else { Theme::LIGHT };
    let picture = entry.with_value(|entry| picture_address(&entry.design, &state.shop.get_untracked(), &theme));
    let saved = entry.with_value(|entry| crate::app::browser::day(entry.saved_at_ms));

    let open = move |_| match untrack(|| keeping.open_id() == Some(id())) {
        true => state.room.set(Room::Design),
        false => keeping.open(state, &id()),
    };
    let rename = move |event: ev::Event| {
        let typed = event_target_value(&event).trim().to_owned();
        renaming.set(false);
        if typed.is_empty() {
            return;
        }
        match untrack(|| keeping.open_id() == Some(id())) {
            true => {
                state.change(|design| design.name = typed);
                keeping.flush(state);
            }
            false => {
                keeping.act(state, |shelf| shelf.rename(&id(), &typed, random(), now_ms()));
            }
        }
    };
    let duplicate = move |_| {
        keeping.act(state, |shelf| shelf.duplicate(&id(), random(), now_ms()));
    };
    let export = move |_| entry.with_value(|entry| save_design_file(state, &entry.design));
    let remove = move |_| {
        let (id, name) = entry.with_value(|entry| (entry.id.clone(), entry.design.name.clone()));
        delete(&id, &name);
    };
    let named = move |what: &str| format!("{what} {}", entry.with_value(|entry| entry.design.name.clone()));
    let title = {
        let name = name.clone();
        move || match renaming.get() {
            false => view! { <h2 class="shelf-name">{name.clone()}</h2> }.into_any(),
            true => view! {
                <input
                    class="rename"
                    type="text"
                    maxlength=NAME_LETTERS
                    aria-label="New name"
                    node_ref=input
                    prop:value=name.clone()
                    on:change=rename
                    on:keydown=move |event: ev::KeyboardEvent| if event.key() == "Escape" { renaming.set(false) }
                />
            }
            .into_any(),
        }
    };
    view! {
        <li class="card shelf-row" class:on-bench=is_open>
            <button type="button" class="shelf-picture" aria-label=named("Open") on:click=open>
                {picture.map(|address| view! { <img src=address alt="" width="160" height="72" /> })}
            </button>
            <div class="shelf-words">
                {title}
                <p class="hint">{if is_open { "On the bench. " } else { "" }} {saved}</p>
            </div>
            <div class="buttons">
                <button type="button" class="button" on:click=open>"Open"</button>
                <button type="button" class="button quiet" aria-label=named("Rename") on:click=move |_| renaming.set(true)>"Rename"</button>
                <button type="button" class="button quiet" aria-label=named("Duplicate") on:click=duplicate>"Duplicate"</button>
                <button type="button" class="button quiet" aria-label=named("Save to a file:") on:click=export>"Save to a file"</button>
                <button type="button" class="button quiet" aria-label=named("Delete") on:click=remove>"Delete"</button>
            </div>
        </li>
    }
    .into_any()
}

/// Deletes a design, with a way back.
fn delete(id: &crate::shelf::DesignId, name: &str) {
    let (state, keeping) = (state(), keeping());
    let deleted = keeping.act(state, |shelf| Ok(shelf.delete(id, now_ms())?)).flatten();
    if let Some(deleted) = deleted {
        let back = move || {
            keeping.act(state, |shelf| Ok(shelf.undelete(&deleted, random())?));
        };
        state.notices.say(Notice::plain(format!("\u{201c}{name}\u{201d} is deleted.")).with_action("Undo", back));
    }
}
