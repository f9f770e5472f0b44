//! Keeping the design on the bench: saved a moment after each change, and at once when the page hides.

use std::sync::Arc;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::notice::Notice;
use super::opening;
use super::remembered::Choices;
use super::state::{Place, State, state};
use crate::design::entry::Units;
use crate::design::{Design, Shop, starters};
use crate::shelf::browser::events::{Change, on_change_elsewhere, on_page_hide};
use crate::shelf::browser::files::download;
use crate::shelf::browser::locks::alone;
use crate::shelf::browser::{BrowserStore, now_ms, random};
use crate::shelf::settings::KeptShop;
use crate::shelf::{DesignId, Entry, SaveError, SaveOutcome, Shelf, StoreError, entry_key, file_name, write_design};

/// How long after a change the design is saved, in milliseconds: soon enough for a page that is killed half a second later.
const DEBOUNCE_MS: u32 = 250;

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
    shop_trouble: Option<String>,
    /// The design that was open last, when its opening did not come to an end: it is not opened by itself.
    pub unfinished: Option<Entry>,
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
        let (entry, trouble) = match last_open(&shelf, Units::from(&shop)) {
            Ok((entry, trouble)) => (entry, trouble),
            Err(error) => (None, Some(error.to_string())),
        };
        let stuck = opening::unfinished();
        let (unfinished, entry) = match entry {
            Some(entry) if Some(&entry.id) == stuck.as_ref() => (Some(entry), None),
            entry => (None, entry),
        };
        let design = entry.as_ref().map_or_else(starters::demo, |entry| entry.design.clone());
        Self { design, shop, choices: Choices::recall(), entry, trouble, shop_trouble, unfinished }
    }
}

/// The design that was open last, or else the one saved last; and what is to be said when it is not the one that was open.
fn last_open(shelf: &Shelf<BrowserStore>, units: Units) -> Result<(Option<Entry>, Option<String>), StoreError> {
    let unreadable = match shelf.open_design()?.map(|id| shelf.load(&id)) {
        Some(Ok(entry)) => return Ok((Some(entry), None)),
        Some(Err(error @ SaveError::Unreadable(_))) => Some(error.told(units)),
        Some(Err(_)) | None => None,
    };
    let other = shelf.list()?.entries.into_iter().next();
    let shown = other.as_ref().map_or("the example", |entry| entry.design.name.as_str());
    let trouble = unreadable.map(|why| {
        format!(
            "The design that was open last is not shown: {why} It stays on the Shelf as it is, where you can save it to a file. \
             Shown instead: {shown}."
        )
    });
    Ok((other, trouble))
}

impl Keeping {
    /// Starts keeping what the page started with.
    pub fn from_start(start: Start) -> Self {
        let Start { shop, entry, trouble, shop_trouble, .. } = start;
        if let Some(entry) = &entry {
            opening::begin(&entry.id);
        }
        Self {
            shelf: StoredValue::new_local(Shelf::new(BrowserStore)),
            trouble: RwSignal::new(trouble),
            shop_trouble: RwSignal::new(shop_trouble),
            held_back: RwSignal::new(None),
            last_shop: StoredValue::new(Some(shop)),
            changes: RwSignal::new(0),
            last: StoredValue::new(entry.as_ref().map(|entry| entry.design.clone())),
            kept: RwSignal::new(entry.map(|entry| Kept { id: entry.id, revision: entry.revision })),
            waiting: StoredValue::new_local(None),
        }
    }

    /// On a first visit: the design on the bench is new, whatever another tab may have kept by now.
    pub fn of_first_visit() -> Self {
        Self::from_start(Start { entry: None, ..Start::recall() })
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

    /// Saves the design now, when there is something to save; whether nothing is left unsaved.
    pub fn flush(self, state: State) -> bool {
        self.waiting.set_value(None);
        let design = state.design.get_untracked();
        if !self.is_unsaved(&design) {
            return true;
        }
        let kept = self.kept.get_untracked();
        let outcome = self.with(|shelf| keep(shelf, kept.as_ref(), &design));
        match outcome {
            Ok(Saving::Kept(kept)) => {
                state.with_history(|history| self.with(|shelf| shelf.keep_history(&kept.id, &design, history)));
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
        state.design.with_untracked(|design| !self.is_unsaved(design))
    }

    fn settle(self, kept: Kept) {
        let noted = self.with(|shelf| shelf.set_open_design(&kept.id));
        self.trouble.set(noted.err().map(|error| error.to_string()));
        self.kept.set(Some(kept));
    }

    fn save_soon(self, state: State) {
        let save = move || spawn_local(self.save_alone(state));
        self.waiting.set_value(Some(Timeout::new(DEBOUNCE_MS, save)));
    }

    /// Saves while no other tab saves the same design, from the newest state of its entry, and waits for the commit.
    async fn save_alone(self, state: State) {
        let entry = self.open_id().map(|id| entry_key(&id));
        let lock = entry.clone().unwrap_or_else(|| "skewline/new design".to_owned());
        alone(&lock, async move {
            if let Some(key) = entry {
                BrowserStore::refresh(&key).await;
            }
            self.flush(state);
            if let Err(error) = BrowserStore::settled().await {
                self.trouble.set(Some(error.to_string()));
            }
        })
        .await;
    }

    /// Does what leaves the design on the bench once that is kept. Where it cannot be kept, holds the step back until the
    /// user says what is to become of the work.
    pub fn leave(self, state: State, step: impl Fn() + Send + Sync + 'static) {
        match self.flush(state) {
            true => step(),
            false => self.held_back.set(Some(Arc::new(step))),
        }
    }

    /// Does what was held back, and lets the work that could not be kept go.
    fn go_on_without(self) {
        if let Some(step) = self.held_back.try_update(Option::take).flatten() {
            self.trouble.set(None);
            step();
        }
    }

    /// Puts a kept design on the bench.
    pub fn open(self, state: State, id: &DesignId) {
        let id = id.clone();
        self.leave(state, move || self.open_now(state, &id));
    }

    fn open_now(self, state: State, id: &DesignId) {
        opening::begin(id);
        match self.with(|shelf| shelf.load(id)) {
            Ok(entry) => {
                self.put_on_bench(state, entry);
                self.bring_history(state);
            }
            Err(error) => state.notices.say(Notice::lasting(error.told(untrack(|| state.units())))),
        }
    }

    /// Brings back the steps that are kept of the design on the bench.
    fn bring_history(self, state: State) {
        if let Some(id) = self.open_id() {
            let history = state.design.with_untracked(|design| self.with(|shelf| shelf.history(&id, design)));
            state.bring_history(history);
        }
    }

    fn put_on_bench(self, state: State, entry: Entry) {
        self.last.set_value(Some(entry.design.clone()));
        self.settle(Kept { id: entry.id, revision: entry.revision });
        state.open(entry.design);
    }

    /// Puts a new design on the bench, as an entry of its own.
    pub fn open_new(self, state: State, design: Design) {
        self.leave(state, move || {
            self.last.set_value(None);
            self.kept.set(None);
            state.open(design.clone());
            self.flush(state);
        });
    }

    /// The design that was open last did not come up: the shelf does, and says so.
    pub fn offer_unfinished(self, state: State, entry: &Entry) {
        state.place.set(Place::Shelf);
        let (id, name) = (entry.id.clone(), &entry.design.name);
        let words = format!(
            "\u{201c}{name}\u{201d} is not opened by itself, because the page did not get through opening it last time. You can \
             save it to a file from its row, or try again."
        );
        state.notices.say(Notice::lasting(words).with_action("Open it now", move || self.open(state, &id)));
    }

    /// Nothing was kept where the page looks first, and the database had it all: shows that in place of the example, unless
    /// there is work on the bench.
    pub fn show_recovered(self, state: State) {
        let Start { shop, entry, .. } = Start::recall();
        self.last_shop.set_value(Some(shop.clone()));
        state.shop.set(shop);
        if let (false, Some(entry)) = (untrack(|| state.can_undo()), entry) {
            self.put_on_bench(state, entry);
        }
        state.notices.say(Notice::lasting("The browser had lost what was kept here. It is back from the second copy."));
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
                    // What is heard is shown, and never saved again: it would undo what the other tab does meanwhile.
                    self.last_shop.set_value(Some(*shop.clone()));
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
    // Once the first screen stands: it has no need of earlier steps.
    Timeout::new(0, move || keeping.bring_history(state)).forget();
    Effect::new(move |_| {
        let unsaved = state.design.with(|design| keeping.is_unsaved(design));
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
        if !state.coming.get() {
            opening::end();
        }
    });
    let hide = move || {
        keeping.flush(state);
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
        state.place.set(Place::Shelf);
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
    let banner = move |trouble: String| {
        view! {
            <div class="banner" role="alert">
                <p>{trouble}</p>
                <button type="button" class="button" on:click=save>"Save it to a file"</button>
                {ways_on}
            </div>
        }
    };
    let of_shop = |trouble: String| view! { <div class="banner" role="alert"><p>{trouble}</p></div> };
    view! {
        {move || keeping.trouble.get().map(banner)}
        {move || keeping.shop_trouble.get().map(of_shop)}
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
