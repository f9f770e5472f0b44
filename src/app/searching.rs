//! A search that goes on beside the page: one at a time, shown as it goes, and stopped by the next or by a button.

use leptos::prelude::*;

use super::beside::{Begun, Beside, beside};
use crate::beside::{Part, Work};

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
    begun: StoredValue<Option<Begun>>,
    beside: Beside,
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
        let beside = beside();
        let it = Self { stage: RwSignal::new(Stage::Idle), begun: StoredValue::new(None), beside };
        on_cleanup(move || {
            if let Some(begun) = it.begun.try_get_value().flatten() {
                beside.drop(begun);
            }
        });
        it
    }

    /// Where it stands.
    pub fn stage(self) -> Stage<T> {
        self.stage.get()
    }

    /// Begins a search, of which `answer` finds the answer among what comes of it.
    pub fn begin(self, work: Work, answer: impl Fn(Part) -> Option<T> + 'static) {
        self.stop();
        self.stage.set(Stage::Searching(0));
        let hears = move |part: Part| match part {
            Part::Tried(tried) => self.stage.set(Stage::Searching(tried)),
            // It was given up.
            Part::Done if matches!(self.stage.get_untracked(), Stage::Searching(_)) => self.stage.set(Stage::Idle),
            part => {
                if let Some(found) = answer(part) {
                    self.stage.set(Stage::Answered(found));
                }
            }
        };
        self.begun.set_value(Some(self.beside.begin(work, hears)));
    }

    /// Ends the search that goes on.
    pub fn stop(self) {
        if let Some(begun) = self.begun.get_value() {
            self.beside.drop(begun);
        }
        self.begun.set_value(None);
        self.stage.set(Stage::Idle);
    }
}
