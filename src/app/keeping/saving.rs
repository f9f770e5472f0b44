//! Saving the design on the bench.

use gloo_timers::callback::Timeout;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{Keeping, Kept};
use crate::app::notice::Notice;
use crate::app::opening;
use crate::app::state::State;
use crate::design::Design;
use crate::shelf::browser::locks::alone;
use crate::shelf::browser::{BrowserStore, now_ms, random};
use crate::shelf::{SaveError, SaveOutcome, Shelf, entry_key};

/// How long after the last change of a drag or a sweep the design is saved, in milliseconds. Any other change is saved as
/// soon as the screen shows it.
const SWEEP_MS: u32 = 250;
/// How long after a save its steps back are kept, in milliseconds: they take longer to write than the design.
const STEPS_MS: u32 = 250;

impl Keeping {
    /// Saves the design and its steps back now, when there is something to save; whether nothing is left unsaved.
    pub fn flush(self, state: State) -> bool {
        let saved = self.save_now(state);
        self.keep_steps(state);
        saved
    }

    fn save_now(self, state: State) -> bool {
        self.waiting.set_value(None);
        let design = state.design.get_untracked();
        if !self.is_unsaved(&design) {
            return true;
        }
        let kept = self.kept.get_untracked();
        let outcome = self.with(|shelf| keep(shelf, kept.as_ref(), &design));
        match outcome {
            Ok(Saving::Kept(kept)) => {
                self.last.set_value(Some(design));
                self.settle(kept);
                self.steps_waiting.set_value(Some(Timeout::new(STEPS_MS, move || self.keep_steps(state))));
                // Who changes a design has it open.
                opening::end();
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

    /// Keeps the steps back of what was saved since they were last kept.
    fn keep_steps(self, state: State) {
        let due = self.steps_waiting.try_update_value(Option::take).flatten().is_some();
        let design = state.design.get_untracked();
        // While the design has changes that are not saved, its steps lead to a state that is not kept either.
        if let (true, false, Some(id)) = (due, self.is_unsaved(&design), self.open_id()) {
            state.with_history(|history| self.with(|shelf| shelf.keep_history(&id, &design, history)));
        }
    }

    pub(super) fn settle(self, kept: Kept) {
        let noted = self.with(|shelf| shelf.set_open_design(&kept.id));
        self.trouble.set(noted.err().map(|error| error.to_string()));
        self.kept.set(Some(kept));
    }

    pub(super) fn save_soon(self, state: State) {
        let wait_ms = if state.is_sweeping() { SWEEP_MS } else { 0 };
        self.waiting.set_value(Some(Timeout::new(wait_ms, move || spawn_local(self.save_alone(state)))));
    }

    /// Saves while no other tab saves the same design, from the newest state of its entry, and waits for the commit.
    async fn save_alone(self, state: State) {
        let entry = self.open_id().map(|id| entry_key(&id));
        let lock = entry.clone().unwrap_or_else(|| "skewline/new design".to_owned());
        alone(&lock, async move {
            if let Some(key) = entry {
                BrowserStore::refresh(&key).await;
            }
            self.save_now(state);
            if let Err(error) = BrowserStore::settled().await {
                self.trouble.set(Some(error.to_string()));
            }
        })
        .await;
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
