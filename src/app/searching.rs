//! A search that goes on between frames: one at a time, shown as it goes, and stopped by the next or by a button.

use leptos::prelude::*;

use crate::shelf::browser::moment;

/// Where a search stands.
#[derive(Clone, Debug)]
pub enum Stage<T> {
    /// Nothing was asked yet, or the search was stopped.
    Idle,
    /// So many designs were tried.
    Searching(usize),
    /// What was found.
    Answered(T),
}

/// One search at a time: a newer one, a stop, or the end of what shows it ends the one before.
#[derive(Debug)]
pub struct Searching<T: Send + Sync + 'static> {
    stage: RwSignal<Stage<T>>,
    newest: StoredValue<u32>,
}

impl<T: Send + Sync + 'static> Clone for Searching<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: Send + Sync + 'static> Copy for Searching<T> {}

impl<T: Clone + Send + Sync + 'static> Searching<T> {
    /// Nothing is asked yet.
    pub fn new() -> Self {
        Self { stage: RwSignal::new(Stage::Idle), newest: StoredValue::new(0) }
    }

    /// Where it stands.
    pub fn stage(self) -> Stage<T> {
        self.stage.get()
    }

    /// Begins a search, and gives its number.
    pub fn begin(self) -> u32 {
        self.stop();
        self.stage.set(Stage::Searching(0));
        self.newest.get_value()
    }

    /// Ends the search that goes on.
    pub fn stop(self) {
        self.newest.update_value(|newest| *newest = newest.wrapping_add(1));
        self.stage.set(Stage::Idle);
    }

    /// Lets the browser paint and answer, shows how many were tried, and tells whether search number `mine` goes on.
    pub async fn breathe(self, mine: u32, tried: usize) -> bool {
        moment().await;
        let goes_on = self.is_newest(mine);
        if goes_on {
            self.stage.set(Stage::Searching(tried));
        }
        goes_on
    }

    /// Shows what search number `mine` found, unless it was stopped.
    pub fn answer(self, mine: u32, found: T) {
        if self.is_newest(mine) {
            self.stage.set(Stage::Answered(found));
        }
    }

    /// What is gone from the screen has no newest search.
    fn is_newest(self, mine: u32) -> bool {
        self.newest.try_get_value() == Some(mine)
    }
}
