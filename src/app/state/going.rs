//! Where the page goes: to another design, to a value, to a station.

use leptos::prelude::*;

use super::drafts::VALUE_DRAFTS;
use super::{State, on_blank};
use crate::app::browser;
use crate::app::on_screen::{Panel, Room};
use crate::design::Design;
use crate::design::history::History;
use crate::drawings::HandleId;
use crate::form::{Field, shown, shown_in_design};

impl State {
    /// Puts another design on the bench, with nothing to undo.
    pub fn open(self, design: Design) {
        self.picked.set(None);
        self.history.set(History::default());
        self.forget_drafts(VALUE_DRAFTS);
        self.section_mm.update(|station_mm| *station_mm = on_blank(&design, *station_mm));
        self.design.set(design);
        self.room.set(Room::Design);
    }

    /// Opens the values that the rest of the design hangs on.
    pub fn show_first_values(self) {
        self.panel.set(self.design.with_untracked(Panel::first));
    }

    /// Picks a handle, and shows the values it moves.
    pub fn pick(self, handle: HandleId) {
        self.picked.set(Some(handle));
        let HandleId::Part(thing) = handle else { return };
        let field = Field::moved_by(thing);
        let row = self.design.with_untracked(|design| shown_in_design(design, &field.path(design), None));
        if let Some(row) = row
            && let Some(group) = row.group
        {
            self.panel.set(Panel::Values(group));
            browser::show_soon(&browser::input_id(&row.path));
        }
    }

    /// Moves the section to a station, kept on the blank.
    pub fn look_at_section(self, station_mm: f64) {
        self.section_mm.set(self.design.with_untracked(|design| on_blank(design, station_mm)));
    }

    /// Leads to the value that a check names as its cure; `near_mm` is the station that the check is about.
    pub fn show_field(self, path: &str, near_mm: Option<f64>) {
        let Some(row) = self.design.with_untracked(|design| shown(design, path, near_mm)) else { return };
        match row.group {
            None => self.room.set(Room::Shop),
            Some(group) => {
                self.room.set(Room::Design);
                self.panel.set(Panel::Values(group));
            }
        }
        if let Some(thing) = row.picked {
            self.picked.set(Some(HandleId::Part(thing)));
        }
        browser::focus_soon(&browser::input_id(&row.path));
    }
}
