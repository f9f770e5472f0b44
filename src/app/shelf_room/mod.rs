//! The shelf: every kept design, files in and out, and where it all lives.

mod aside;
mod files;
mod row;
mod safety;

use leptos::prelude::*;

use super::browser;
use super::keeping::keeping;
use super::state::state;
use super::wanted::SayWhatYouWant;
use crate::design::starters::{STARTERS, Starter};
use crate::shelf::browser::random;
use crate::shelf::{Listing, StoreError};

/// The room of the shelf.
#[component]
pub fn ShelfRoom() -> impl IntoView {
    let keeping = keeping();
    keeping.flush(state());
    let listing: Memo<Result<Listing, StoreError>> = Memo::new(move |_| {
        keeping.changes.track();
        keeping.with(|shelf| shelf.list())
    });
    let keys = move || {
        let row = |entry: &crate::shelf::Entry| (entry.id.clone(), entry.revision);
        listing.with(|listing| {
            listing.as_ref().map(|it| it.entries.iter().map(row).collect::<Vec<_>>()).unwrap_or_default()
        })
    };
    let children = move |(id, _): (crate::shelf::DesignId, u64)| {
        let entry = listing.with_untracked(|listing| {
            listing.as_ref().ok().and_then(|it| it.entries.iter().find(|entry| entry.id == id).cloned())
        });
        entry.map(|entry| view! { <row::ShelfRow entry=entry /> })
    };
    let empty = Memo::new(move |_| listing.with(|listing| listing.as_ref().is_ok_and(|it| it.entries.is_empty())));
    let designs = move || match empty.get() {
        true => view! { <EmptyShelf /> }.into_any(),
        false => view! {
            <ul class="shelf" aria-label="Designs">
                <For each=keys key=|key: &(crate::shelf::DesignId, u64)| key.clone() children=children />
            </ul>
        }
        .into_any(),
    };
    let unreadable = move || listing.with(|listing| listing.as_ref().err().map(ToString::to_string));
    let set_aside = move || {
        let aside = listing.with(|listing| listing.as_ref().map(|it| it.set_aside.clone()).unwrap_or_default());
        (!aside.is_empty()).then(|| view! { <aside::SetAsideList texts=aside /> })
    };
    view! {
        <main class="page" id="main">
            <h1>"Shelf"</h1>
            <New is_empty=empty.get_untracked() />
            {move || unreadable().map(|why| view! { <p class="banner" role="alert">{why}</p> })}
            {designs}
            <FromExample />
            <Deleted />
            {set_aside}
            <files::Files />
            <safety::Safety />
        </main>
    }
    .into_any()
}

/// A button that opens the form for a new design.
#[component]
fn New(is_empty: bool) -> impl IntoView {
    let state = state();
    let open = RwSignal::new(is_empty || state.wants_new.get_untracked());
    state.wants_new.set(false);
    let close = move || {
        open.set(false);
        browser::focus_soon("new");
    };
    let show = move |_| {
        open.set(true);
        browser::focus_soon("wanted");
    };
    move || match open.get() {
        true => view! { <SayWhatYouWant cancel=Callback::new(move |()| close()) /> }.into_any(),
        false => view! {
            <div class="buttons">
                <button type="button" id="new" class="button" on:click=show>"New"</button>
            </div>
        }
        .into_any(),
    }
}

/// A new design from a starter.
#[component]
fn FromExample() -> impl IntoView {
    let (state, keeping) = (state(), keeping());
    let button = move |(name, start): Starter| {
        let open = move |_| keeping.open_new(state, start(state.shop.with_untracked(|shop| shop.chuck)));
        view! { <button type="button" class="button" on:click=open>{name}</button> }
    };
    view! {
        <section class="card" aria-labelledby="new-design">
            <h2 id="new-design">"Begin with an example and change it"</h2>
            <div class="buttons">{STARTERS.map(button).into_iter().collect_view()}</div>
        </section>
    }
    .into_any()
}

/// What stands where the designs would: that there are none, and how to go on.
#[component]
fn EmptyShelf() -> impl IntoView {
    let state = state();
    let on_bench = move || {
        let name = state.design.with(|design| design.name.trim().to_owned());
        format!("\u{201c}{name}\u{201d} still lies on the bench: its next change puts it back here.")
    };
    view! {
        <section class="card" aria-labelledby="no-design">
            <h2 id="no-design">"No design is on the shelf"</h2>
            <p>"Say what you want, begin with an example, or import a file."</p>
            <p>{on_bench}</p>
        </section>
    }
    .into_any()
}

/// What was deleted lately, with a way back.
#[component]
fn Deleted() -> impl IntoView {
    let (state, keeping) = (state(), keeping());
    let trash = move || {
        keeping.changes.track();
        keeping.with(|shelf| shelf.trash()).unwrap_or_default()
    };
    let one = move |trashed: crate::shelf::Trashed| {
        let name = trashed.name.clone().unwrap_or_else(|| "A text that cannot be read".to_owned());
        let back = move |_| {
            let deleted = trashed.deleted.clone();
            keeping.act(state, |shelf| Ok(shelf.undelete(&deleted, random())?));
        };
        view! {
            <li class="deleted">
                <span>{name}</span>
                <button type="button" class="button" on:click=back>"Bring back"</button>
            </li>
        }
    };
    let list = move || {
        let trash = trash();
        (!trash.is_empty()).then(|| {
            view! {
                <details class="card">
                    <summary>{format!("Recently deleted ({})", trash.len())}</summary>
                    <ul class="plain-list">{trash.into_iter().map(one).collect_view()}</ul>
                </details>
            }
        })
    };
    list.into_any()
}
