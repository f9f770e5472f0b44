//! What the page starts with: what was open last, and what came back from the second copy.

use leptos::prelude::*;

use super::{Keeping, Kept};
use crate::app::notice::{BACK_FROM_SECOND_COPY, Notice};
use crate::app::opening;
use crate::app::remembered::{self, Choices};
use crate::app::state::{Room, State};
use crate::design::entry::Units;
use crate::design::{Design, Shop, starters};
use crate::shelf::browser::BrowserStore;
use crate::shelf::settings::KeptShop;
use crate::shelf::{DesignId, Entry, SaveError, Shelf, StoreError};

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
    not_shown: Option<String>,
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
        let (entry, not_shown, trouble) = match last_open(&shelf, Units::from(&shop)) {
            Ok((entry, not_shown)) => (entry, not_shown, None),
            Err(error) => (None, None, Some(error.to_string())),
        };
        let stuck = opening::unfinished();
        let (unfinished, entry) = match entry {
            Some(entry) if Some(&entry.id) == stuck.as_ref() => (Some(entry), None),
            entry => (None, entry),
        };
        let design = entry.as_ref().map_or_else(starters::demo, |entry| entry.design.clone());
        Self { design, shop, choices: remembered::recall(), entry, trouble, not_shown, shop_trouble, unfinished }
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
        let Start { shop, entry, trouble, not_shown, shop_trouble, .. } = start;
        if let Some(entry) = &entry {
            opening::begin(&entry.id);
        }
        Self {
            shelf: StoredValue::new_local(Shelf::new(BrowserStore)),
            trouble: RwSignal::new(trouble),
            not_shown: RwSignal::new(not_shown),
            shop_trouble: RwSignal::new(shop_trouble),
            held_back: RwSignal::new(None),
            last_shop: StoredValue::new(Some(shop)),
            changes: RwSignal::new(0),
            last: StoredValue::new(entry.as_ref().map(|entry| entry.design.clone())),
            kept: RwSignal::new(entry.map(|entry| Kept { id: entry.id, revision: entry.revision })),
            waiting: StoredValue::new_local(None),
            steps_waiting: StoredValue::new_local(None),
            drafts_waiting: StoredValue::new_local(None),
        }
    }

    /// On a first visit: the design on the bench is new, whatever another tab may have kept by now, or stands in the entry
    /// in which it was kept before this part of the program was here.
    pub fn of_first_visit(kept: Option<DesignId>) -> Self {
        let start = Start::recall();
        let entry = kept.and_then(|id| Shelf::new(BrowserStore).load(&id).ok());
        Self::from_start(Start { entry, ..start })
    }

    /// The design that was open last did not come up: the shelf does, and says so.
    pub fn offer_unfinished(self, state: State, entry: &Entry) {
        state.room.set(Room::Shelf);
        let (id, name) = (entry.id.clone(), &entry.design.name);
        let words = format!(
            "\u{201c}{name}\u{201d} is not opened by itself, because the page did not get through opening it last time. You can \
             save it to a file from its row, or try again."
        );
        state.notices.say(Notice::lasting(words).with_action("Open now", move || self.open(state, &id)));
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
        state.notices.say(Notice::lasting(BACK_FROM_SECOND_COPY));
    }
}
