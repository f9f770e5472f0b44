//! Opening a part of the list, and changing the parts.

use leptos::prelude::*;

use crate::app::browser;
use crate::app::notice::Notice;
use crate::app::state::State;
use crate::drawings::HandleId;
use crate::form::parts::{Change, PartId, changed, first_movable, leaves_pattern};

/// What is said when a design leaves its pattern.
const FREE_NOW: &str = "This is a free piece now: its parts no longer follow the choices of the whole piece.";

/// The id of a part's row on screen.
pub fn row_id(id: PartId) -> String {
    match id {
        PartId::Axis(place) => format!("part-axis-{place}"),
        PartId::Cut(place) => format!("part-cut-{place}"),
        PartId::Off(place) => format!("part-off-{place}"),
    }
}

/// Opens a part, or none, and picks it on the drawing.
pub fn show(state: State, open: RwSignal<Option<PartId>>, id: Option<PartId>) {
    open.set(id);
    let thing = id.and_then(|id| state.design.with_untracked(|design| first_movable(design, id)));
    state.picked.set(thing.map(HandleId::Part));
}

/// Changes the parts as one step; says why where it cannot be. Then `after` is open, which has the focus.
pub fn act(state: State, open: RwSignal<Option<PartId>>, change: &Change, after: Option<PartId>) {
    let design = state.design.get_untracked();
    match changed(&design, change) {
        Ok(after_change) => {
            let is_free = leaves_pattern(&design, change);
            state.picked.set(None);
            state.take(after_change, None);
            show(state, open, after);
            browser::focus_soon(&after.map_or_else(|| "add-part".to_owned(), row_id));
            if is_free {
                state.notices.say(Notice::plain(FREE_NOW).with_action("Undo", move || state.undo()));
            }
        }
        Err(problem) => state.notices.say(Notice::plain(state.told(&problem))),
    }
}
