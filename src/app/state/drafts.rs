//! What was typed and not taken yet, by the name of its line.

use leptos::prelude::*;

use super::State;

/// How the names of the drafts of a design's values begin: they go with the design.
pub const VALUE_DRAFTS: &str = "value/";

impl State {
    /// What was typed in a line and not taken.
    pub fn draft(self, name: &str) -> Option<String> {
        self.drafts.with_untracked(|drafts| drafts.get(name).map(str::to_owned))
    }

    /// Whether something was typed and not taken in a line whose name begins so.
    pub fn has_drafts(self, prefix: &str) -> bool {
        self.drafts.with_untracked(|drafts| drafts.has_any(prefix))
    }

    /// Notes what is typed in a line, or that it is not any more.
    pub fn set_draft(self, name: &str, text: Option<&str>) {
        if self.drafts.with_untracked(|drafts| drafts.get(name) != text) {
            self.drafts.update(|drafts| drafts.set(name, text));
        }
    }

    /// What was typed in the lines whose names begin so is taken, or let go.
    pub fn forget_drafts(self, prefix: &str) {
        if self.has_drafts(prefix) {
            self.drafts.update(|drafts| drafts.forget(prefix));
        }
    }
}
