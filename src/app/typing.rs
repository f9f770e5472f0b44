//! What is typed into a line and not taken yet, and why it was refused.

use leptos::ev;
use leptos::prelude::*;

use super::state::state;

/// The typing in one line that shows a value kept somewhere.
#[derive(Clone, Copy)]
pub struct Typing {
    /// What was typed; `None` while the line shows the value as it is.
    pub typed: RwSignal<Option<String>>,
    /// Why it is not taken.
    pub reason: RwSignal<Option<String>>,
}

impl Typing {
    /// In a line that shows this value: one that changed by other means puts right what was typed.
    pub fn over<T: Clone + PartialEq + Send + Sync + 'static>(value: Signal<T>) -> Self {
        let typing = Self { typed: RwSignal::new(None), reason: RwSignal::new(None) };
        state().when_changed_here(value, move || typing.put_right());
        typing
    }

    /// What is typed is kept under this name until it is taken, also while the line is not on the screen.
    pub fn drafted(self, name: String) -> Self {
        let state = state();
        if let Some(draft) = state.draft(&name) {
            self.typed.set(Some(draft));
        }
        Effect::new(move |_| self.typed.with(|typed| state.set_draft(&name, typed.as_deref())));
        self
    }

    /// The line shows the value as it is again. News only where there was something: most lines have nothing typed and no
    /// reason, at every step of a sweep.
    pub fn put_right(self) {
        for said in [self.typed, self.reason] {
            // A line may go with the very value that it sets.
            if said.try_with_untracked(Option::is_some) == Some(true) {
                said.set(None);
            }
        }
    }

    /// Escape puts it right.
    pub fn on_key(self, event: &ev::KeyboardEvent) {
        if event.key() == "Escape" {
            self.put_right();
        }
    }

    /// The line is left. What was typed and then typed back is no change to the browser: nothing has taken it.
    pub fn on_leave(self) {
        // A line that is taken away while it has the focus is left as well.
        if self.reason.try_with_untracked(Option::is_none) == Some(true) {
            self.typed.set(None);
        }
    }
}

/// What is typed in a line of a form, kept under this name until the form is done with: as it was left, or as proposed.
pub fn drafted(name: String, proposed: String) -> RwSignal<String> {
    let state = state();
    let typed = RwSignal::new(state.draft(&name).unwrap_or_else(|| proposed.clone()));
    Effect::new(move |_| {
        typed.with(|text| state.set_draft(&name, (*text != proposed).then_some(text.as_str())));
    });
    typed
}
