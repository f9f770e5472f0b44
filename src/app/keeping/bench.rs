//! What comes on the bench, and what has to leave it first.

use std::sync::Arc;

use leptos::prelude::*;

use super::{Keeping, Kept};
use crate::app::notice::Notice;
use crate::app::opening;
use crate::app::state::State;
use crate::design::Design;
use crate::shelf::{DesignId, Entry};

impl Keeping {
    /// Does what leaves the design on the bench once that is kept. Where it cannot be kept, holds the step back until the
    /// user says what is to become of the work.
    pub fn leave(self, state: State, step: impl Fn() + Send + Sync + 'static) {
        match self.flush(state) {
            true => step(),
            false => self.held_back.set(Some(Arc::new(step))),
        }
    }

    /// Does what was held back, and lets the work that could not be kept go.
    pub(super) fn go_on_without(self) {
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
    pub(super) fn bring_history(self, state: State) {
        if let Some(id) = self.open_id() {
            let history = state.design.with_untracked(|design| self.with(|shelf| shelf.history(&id, design)));
            state.bring_history(history);
        }
    }

    pub(super) fn put_on_bench(self, state: State, entry: Entry) {
        self.not_shown.set(None);
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
            // What is opened so is no longer the example that greets a first visitor.
            state.first_visit.set(false);
            state.show_first_values();
            self.flush(state);
        });
    }
}
