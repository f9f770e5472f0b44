//! What another tab has changed.

use leptos::prelude::*;

use super::Keeping;
use crate::app::notice::Notice;
use crate::app::state::State;
use crate::shelf::browser::events::Change;
use crate::shelf::settings::KeptShop;

impl Keeping {
    /// Another tab has changed something.
    pub(super) fn heard(self, state: State, change: &Change) {
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
            let (room, picked) = (state.room.get_untracked(), state.picked.get_untracked());
            state.hear_of_elsewhere();
            self.put_on_bench(state, entry);
            state.room.set(room);
            state.picked.set(picked);
            state.notices.say(Notice::plain("Another tab changed this design: it is shown as it is now."));
        }
    }
}
