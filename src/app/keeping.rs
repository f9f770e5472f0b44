//! Keeping the design on the bench: saved a moment after each change, and at once when the page hides.

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::notice::Notice;
use super::remembered::Choices;
use super::state::{State, state};
use crate::design::entry::Units;
use crate::design::{Design, Shop, starters};
use crate::shelf::browser::events::{Change, on_change_elsewhere, on_page_hide};
use crate::shelf::browser::files::download;
use crate::shelf::browser::{BrowserStore, now_ms, random};
use crate::shelf::settings::KeptShop;
use crate::shelf::{DesignId, Entry, SaveError, SaveOutcome, Shelf, StoreError, file_name, write_design};

/// How long after a change the design is saved, in milliseconds.
const DEBOUNCE_MS: u32 = 800;

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
    /// Why the last thing was not kept; none when all is well.
    pub trouble: RwSignal<Option<String>>,
    /// Counts up whenever the shelf may look different.
    pub changes: RwSignal<u32>,
    kept: RwSignal<Option<Kept>>,
    /// The design as it was last kept or loaded.
    last: StoredValue<Option<Design>>,
    waiting: StoredValue<Option<Timeout>, LocalStorage>,
}

/// What the page starts with.
pub struct Start {
    /// The design on the bench.
    pub design: Design,
    /// The shop.
    pub shop: Shop,
    /// The choices of the screen.
    pub choices: Choices,
    entry: Option<Entry>,
    trouble: Option<String>,
}

impl Start {
    /// What was open last, or the finished demo design at first open.
    pub fn recall() -> Self {
        let shelf = Shelf::new(BrowserStore);
        let (shop, shop_trouble) = match shelf.shop() {
            Ok(KeptShop::Shop(shop)) => (*shop, None),
            Ok(KeptShop::None) => (Shop::default(), None),
            Ok(KeptShop::Unreadable(aside)) => (
                Shop::default(),
                Some(format!(
                    "The settings of your shop cannot be read, and the usual ones are used. {}",
                    aside.reason
                )),
            ),
            Err(error) => (Shop::default(), Some(error.to_string())),
        };
        let (entry, trouble) = match last_open(&shelf) {
            Ok(entry) => (entry, shop_trouble),
            Err(error) => (None, Some(error.to_string())),
        };
        let design = entry.as_ref().map_or_else(starters::demo, |entry| entry.design.clone());
        Self { design, shop, choices: Choices::recall(), entry, trouble }
    }
}

fn last_open(shelf: &Shelf<BrowserStore>) -> Result<Option<Entry>, StoreError> {
    if let Some(id) = shelf.open_design()?
        && let Ok(entry) = shelf.load(&id)
    {
        return Ok(Some(entry));
    }
    Ok(shelf.list()?.entries.into_iter().next())
}

impl Keeping {
    /// Starts keeping what the page started with.
    pub fn new(start: Option<Entry>, trouble: Option<String>) -> Self {
        Self {
            shelf: StoredValue::new_local(Shelf::new(BrowserStore)),
            trouble: RwSignal::new(trouble),
            changes: RwSignal::new(0),
            last: StoredValue::new(start.as_ref().map(|entry| entry.design.clone())),
            kept: RwSignal::new(start.map(|entry| Kept { id: entry.id, revision: entry.revision })),
            waiting: StoredValue::new_local(None),
        }
    }

    /// On a first visit: the design on the bench is new, whatever another tab may have kept by now.
    pub fn of_first_visit() -> Self {
        Self::new(None, Start::recall().trouble)
    }

    /// As [`new`](Self::new), from what was recalled.
    pub fn from_start(start: Start) -> Self {
        Self::new(start.entry, start.trouble)
    }

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

    /// Saves the design now, when there is something to save.
    pub fn flush(self, state: State) {
        self.waiting.set_value(None);
        let design = state.design.get_untracked();
        if !self.is_unsaved(&design) {
            return;
        }
        let kept = self.kept.get_untracked();
        let outcome = self.with(|shelf| keep(shelf, kept.as_ref(), &design));
        match outcome {
            Ok(Saving::Kept(kept)) => {
                self.last.set_value(Some(design));
                self.settle(kept);
            }
            Ok(Saving::Beside(kept, name)) => {
                self.last.set_value(Some(Design { name: name.clone(), ..design }));
                self.settle(kept);
                state.design.update(|design| design.name.clone_from(&name));
                state.notices.say(Notice::lasting(format!(
                    "This design was also changed in another tab. Both are kept: yours is now \u{201c}{name}\u{201d}."
                )));
            }
            Err(error) => self.trouble.set(Some(error.told(untrack(|| state.units())))),
        }
        self.changes.update(|changes| *changes = changes.wrapping_add(1));
    }

    fn settle(self, kept: Kept) {
        let noted = self.with(|shelf| shelf.set_open_design(&kept.id));
        self.trouble.set(noted.err().map(|error| error.to_string()));
        self.kept.set(Some(kept));
    }

    fn save_soon(self, state: State) {
        self.waiting.set_value(Some(Timeout::new(DEBOUNCE_MS, move || self.flush(state))));
    }

    /// Puts a kept design on the bench.
    pub fn open(self, state: State, id: &DesignId) {
        self.flush(state);
        match self.with(|shelf| shelf.load(id)) {
            Ok(entry) => self.put_on_bench(state, entry),
            Err(error) => state.notices.say(Notice::lasting(error.told(untrack(|| state.units())))),
        }
    }

    fn put_on_bench(self, state: State, entry: Entry) {
        self.last.set_value(Some(entry.design.clone()));
        self.settle(Kept { id: entry.id, revision: entry.revision });
        state.open(entry.design);
    }

    /// Puts a new design on the bench, as an entry of its own.
    pub fn open_new(self, state: State, design: Design) {
        self.flush(state);
        self.last.set_value(None);
        self.kept.set(None);
        state.open(design);
        self.flush(state);
    }

    /// Does something to the shelf; what goes wrong is said.
    pub fn act<T>(self, state: State, act: impl FnOnce(&Shelf<BrowserStore>) -> Result<T, SaveError>) -> Option<T> {
        let done = self.with(act);
        self.changes.update(|changes| *changes = changes.wrapping_add(1));
        done.map_err(|error| state.notices.say(Notice::lasting(error.told(untrack(|| state.units()))))).ok()
    }

    /// Another tab has changed something.
    fn heard(self, state: State, change: &Change) {
        self.changes.update(|changes| *changes = changes.wrapping_add(1));
        match change {
            Change::Design(id) if self.open_id().as_ref() == Some(id) => self.show_other_tabs_change(state),
            Change::Shop => {
                if let Ok(KeptShop::Shop(shop)) = self.with(|shelf| shelf.shop()) {
                    state.hear_of_elsewhere();
                    state.shop.set(*shop);
                }
            }
            Change::Design(_) | Change::Printers | Change::Other => {}
        }
    }

    /// Shows the design as the other tab has saved it, unless there is work here that is not kept yet: then the next
    /// save keeps both.
    fn show_other_tabs_change(self, state: State) {
        let design = state.design.get_untracked();
        let Some(kept) = self.kept.get_untracked() else { return };
        if let Ok(entry) = self.with(|shelf| shelf.load(&kept.id))
            && entry.design != design
            && !self.is_unsaved(&design)
        {
            let (place, picked) = (state.place.get_untracked(), state.picked.get_untracked());
            state.hear_of_elsewhere();
            self.put_on_bench(state, entry);
            state.place.set(place);
            state.picked.set(picked);
            state.notices.say(Notice::plain("Another tab changed this design: it is shown as it is now."));
        }
    }
}

enum Saving {
    Kept(Kept),
    Beside(Kept, String),
}

fn keep(shelf: &Shelf<BrowserStore>, kept: Option<&Kept>, design: &Design) -> Result<Saving, SaveError> {
    let (random, now_ms) = (random(), now_ms());
    let Some(Kept { id, revision }) = kept else {
        let entry = shelf.add(design, random, now_ms)?;
        return Ok(Saving::Kept(Kept { id: entry.id, revision: entry.revision }));
    };
    Ok(match shelf.save(id, design, *revision, random, now_ms)? {
        SaveOutcome::Saved { revision } => Saving::Kept(Kept { id: id.clone(), revision }),
        SaveOutcome::Conflict { saved_as, name, revision } => Saving::Beside(Kept { id: saved_as, revision }, name),
    })
}

/// Saves after changes, when the page hides, and listens to other tabs.
pub fn start(keeping: Keeping, state: State) {
    Effect::new(move |_| {
        let unsaved = state.design.with(|design| keeping.is_unsaved(design));
        if unsaved {
            keeping.save_soon(state);
        }
    });
    Effect::new(move |first: Option<()>| {
        let shop = state.shop.get();
        if first.is_some() {
            let kept = keeping.with(|shelf| shelf.save_shop(&shop, now_ms()));
            keeping.trouble.set(kept.err().map(|error| error.told(Units::from(&shop))));
        }
    });
    let hiding = StoredValue::new_local(on_page_hide(move || keeping.flush(state)));
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

/// Says what was not kept, and offers the work as a file.
#[component]
pub fn TroubleBanner() -> impl IntoView {
    let (state, keeping) = (state(), keeping());
    let save = move |_| save_design_file(state, &state.design.get_untracked());
    let banner = move |trouble: String| {
        view! {
            <div class="banner" role="alert">
                <p>{trouble}</p>
                <button type="button" class="button" on:click=save>"Save it to a file"</button>
            </div>
        }
    };
    (move || keeping.trouble.get().map(banner)).into_any()
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
