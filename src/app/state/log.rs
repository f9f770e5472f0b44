//! The log of makings, which is no step to undo.

use leptos::prelude::*;

use super::State;
use crate::app::notice::Notice;
use crate::design::Making;

impl State {
    /// Adds a making to the log.
    ///
    /// # Errors
    ///
    /// The sentence that says why not; the log stays as it was.
    pub fn add_making(self, making: Making) -> Result<(), String> {
        self.noted(|design| design.log.push(making))
    }

    /// Takes a making out of the log, with a way back.
    pub fn remove_making(self, number: usize) {
        let Some(making) = self.design.with_untracked(|design| design.log.get(number).cloned()) else { return };
        self.note(|design| {
            design.log.remove(number);
        });
        let bring_back = move || {
            let making = making.clone();
            self.note(|design| design.log.insert(number.min(design.log.len()), making));
        };
        self.notices.say(Notice::plain("The making is taken out of the log.").with_action("Undo", bring_back));
    }

    /// Takes what the log offers as the shop's usual error.
    pub fn take_usual_error(self, usual_error_mm: f64) {
        self.shop.update(|shop| shop.limits.usual_error_mm = usual_error_mm);
        self.notices.say(Notice::plain("It is the shop's usual error now."));
    }
}
