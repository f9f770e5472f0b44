//! Keeping what is typed and not taken yet.

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::Keeping;
use crate::app::state::State;
use crate::shelf::drafts::Drafts;

/// How long after a letter the drafts are kept, in milliseconds.
const PAUSE_MS: u32 = 250;

impl Keeping {
    /// Brings back the drafts of an earlier visit.
    pub fn bring_drafts(self, state: State) {
        let drafts = self.with(|shelf| shelf.drafts());
        if drafts != Drafts::default() {
            state.drafts.set(drafts);
        }
    }

    /// Keeps the drafts a moment after each change.
    pub(super) fn follow_drafts(self, state: State) {
        Effect::new(move |before: Option<()>| {
            state.drafts.track();
            if before.is_some() {
                self.drafts_waiting.set_value(Some(Timeout::new(PAUSE_MS, move || self.keep_drafts(state))));
            }
        });
    }

    /// Keeps the drafts that have changed since they were last kept.
    pub(super) fn keep_drafts(self, state: State) {
        if self.drafts_waiting.try_update_value(Option::take).flatten().is_some() {
            state.drafts.with_untracked(|drafts| self.with(|shelf| shelf.keep_drafts(drafts)));
        }
    }
}
