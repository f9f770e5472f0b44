//! Keeping the design on the bench: saved as each change settles, and when the page hides.

mod bench;
mod drafts;
mod elsewhere;
mod saving;
mod start;

use std::sync::Arc;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::notice::Notice;
use super::opening;
use super::state::{Effort, Room, State, state};
use crate::design::entry::Units;
use crate::design::{Design, Shop};
use crate::shelf::browser::events::{on_change_elsewhere, on_page_hide};
use crate::shelf::browser::files::download;
use crate::shelf::browser::{BrowserStore, now_ms};
use crate::shelf::{DesignId, SaveError, Shelf, file_name, write_design};

pub use start::Start;

/// A step that would leave the design on the bench, to be done once that may be.
type Leaving = Arc<dyn Fn() + Send + Sync>;

/// Which entry the design on the bench is kept in.
#[derive(Clone, Debug, PartialEq)]
struct Kept {
    id: DesignId,
    revision: u64,
}

/// The shelf, and what keeping has come to.
#[derive(Clone, Copy)]
pub struct Keeping {
    shelf: StoredValue<Shelf<BrowserStore>, LocalStorage>,
    /// Why the design on the bench is not kept; none when all is well.
    trouble: RwSignal<Option<String>>,
    /// Why the design that was open last is not on the bench; none once another is opened.
    not_shown: RwSignal<Option<String>>,
    /// Why the shop's settings are not kept.
    shop_trouble: RwSignal<Option<String>>,
    /// What was held back because the design on the bench could not be kept.
    held_back: RwSignal<Option<Leaving>>,
    /// The shop as it was last kept or heard of.
    last_shop: StoredValue<Option<Shop>>,
    /// Counts up whenever the shelf may look different.
    pub changes: RwSignal<u32>,
    kept: RwSignal<Option<Kept>>,
    /// The design as it was last kept or loaded.
    last: StoredValue<Option<Design>>,
    waiting: StoredValue<Option<Timeout>, LocalStorage>,
    /// Keeps the steps back of what was saved.
    steps_waiting: StoredValue<Option<Timeout>, LocalStorage>,
    /// Keeps what is typed and not taken yet.
    drafts_waiting: StoredValue<Option<Timeout>, LocalStorage>,
}

impl Keeping {
    /// Something from the shelf.
    pub fn with<T>(self, read: impl FnOnce(&Shelf<BrowserStore>) -> T) -> T {
        self.shelf.with_value(read)
    }

    /// The id of the design on the bench, once it is kept.
    pub fn open_id(self) -> Option<DesignId> {
        self.kept.with_untracked(|kept| kept.as_ref().map(|kept| kept.id.clone()))
    }

    /// Whether the design on the bench has changes that are not kept yet.
    fn is_unsaved(self, design: &Design) -> bool {
        self.last.with_value(|last| last.as_ref() != Some(design))
    }

    /// Does something to the shelf; what goes wrong is said.
    pub fn act<T>(self, state: State, act: impl FnOnce(&Shelf<BrowserStore>) -> Result<T, SaveError>) -> Option<T> {
        let done = self.with(act);
        self.changes.update(|changes| *changes = changes.wrapping_add(1));
        done.map_err(|error| state.notices.say(Notice::lasting(error.told(untrack(|| state.units()))))).ok()
    }
}

/// Saves after changes, when the page hides, and listens to other tabs.
pub fn start(keeping: Keeping, state: State) {
    // Once the first screen stands: it has no need of earlier steps.
    Timeout::new(0, move || keeping.bring_history(state)).forget();
    keeping.follow_drafts(state);
    let sweeping = Memo::new(move |_| state.is_sweeping());
    Effect::new(move |_| {
        let unsaved = state.design.with(|design| keeping.is_unsaved(design));
        // Watched too: what a sweep has come to is saved when it ends.
        sweeping.track();
        if unsaved {
            keeping.save_soon(state);
        }
    });
    Effect::new(move |_| {
        let shop = state.shop.get();
        if keeping.last_shop.with_value(|last| last.as_ref() != Some(&shop)) {
            let kept = keeping.with(|shelf| shelf.save_shop(&shop, now_ms()));
            keeping.shop_trouble.set(kept.err().map(|error| error.told(Units::from(&shop))));
            keeping.last_shop.set_value(Some(shop));
        }
    });
    Effect::new(move |_| {
        // What takes long leaves the page free all the same.
        if !state.coming.get() || state.effort.get() != Effort::Brief {
            opening::end();
        }
    });
    let hide = move || {
        keeping.flush(state);
        keeping.keep_drafts(state);
        opening::end();
    };
    let hiding = StoredValue::new_local(on_page_hide(hide));
    let elsewhere = StoredValue::new_local(on_change_elsewhere(move |change| keeping.heard(state, &change)));
    on_cleanup(move || {
        hiding.dispose();
        elsewhere.dispose();
    });
}

/// The shelf, from any component.
pub fn keeping() -> Keeping {
    expect_context()
}

/// Says what was not kept, and offers the work as a file; when that holds a step back, the ways to go on as well.
#[component]
pub fn TroubleBanner() -> impl IntoView {
    let (state, keeping) = (state(), keeping());
    let save = move |_| save_design_file(state, &state.design.get_untracked());
    let make_room = move |_| {
        keeping.held_back.set(None);
        state.room.set(Room::Shelf);
    };
    let ways_on = move || {
        keeping.held_back.with(Option::is_some).then(|| {
            view! {
                <p>"If you go on now, your last changes to this design are lost."</p>
                <button type="button" class="button" on:click=make_room>"Make room on the Shelf"</button>
                <button type="button" class="button" on:click=move |_| keeping.go_on_without()>"Go on without saving"</button>
                <button type="button" class="button quiet" on:click=move |_| keeping.held_back.set(None)>"Stay"</button>
            }
        })
    };
    let folded = RwSignal::new(false);
    let whole = move |trouble: String| {
        view! {
            <p>{trouble}</p>
            <button type="button" class="button" on:click=save>"Save it to a file"</button>
            {ways_on}
            <button type="button" class="button quiet" on:click=move |_| folded.set(true)>"Fold away"</button>
        }
        .into_any()
    };
    let strip = move || {
        view! { <button type="button" class="button quiet" on:click=move |_| folded.set(false)>"Not kept: show why"</button> }
            .into_any()
    };
    let banner = move |trouble: String| {
        // A step that is held back asks for an answer.
        let strip_only = move || folded.get() && keeping.held_back.with(Option::is_none);
        view! {
            <div class="banner" role="alert">{move || if strip_only() { strip() } else { whole(trouble.clone()) }}</div>
        }
    };
    let plain = |trouble: String| view! { <div class="banner" role="alert"><p>{trouble}</p></div> };
    view! {
        {move || keeping.trouble.get().map(banner)}
        {move || keeping.not_shown.get().map(plain)}
        {move || keeping.shop_trouble.get().map(plain)}
    }
    .into_any()
}

/// Saves one design as a file.
pub fn save_design_file(state: State, design: &Design) {
    let saved = write_design(design).map_err(|error| error.told(untrack(|| state.units())));
    let name = file_name(&design.name, "json");
    let said = saved.and_then(|text| download(&name, &text, "application/json").map_err(|error| error.to_string()));
    if let Err(why) = said {
        state.notices.say(Notice::lasting(why));
    }
}
