//! What is typed, stepped and slid becomes a new value, or says why not.

use leptos::prelude::*;

use crate::app::state::State;
use crate::app::typing::Typing;
use crate::design::Units;
use crate::design::entry::stepped;
use crate::form::Row;

/// A new value, and whether more of the same sweep will follow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NewValue {
    /// The value, in mm or degrees.
    pub value: f64,
    /// Part of a sweep of the slider or of a held button.
    pub sweeping: bool,
}

/// The handling of one value: what is typed, stepped and slid becomes a new value, or says why not.
#[derive(Clone, Copy)]
pub(super) struct Handling {
    pub state: State,
    pub row: Signal<Row>,
    pub value: Signal<f64>,
    pub set: Callback<NewValue, Result<(), String>>,
    pub typing: Typing,
    /// The value when a button was first held.
    pub held_from: StoredValue<Option<f64>>,
}

impl Handling {
    pub fn units(self) -> Units {
        self.state.units()
    }

    pub fn step(self) -> f64 {
        self.row.with(|row| self.units().step(row.quantity, row.fine))
    }

    pub fn step_shown(self) -> String {
        self.row.with(|row| self.units().show(self.step(), row.quantity))
    }

    pub fn shown(self) -> String {
        self.units().show(self.value.get(), self.row.with(|row| row.quantity))
    }

    pub fn with_unit(self, value: f64) -> String {
        self.units().show_with_unit(value, self.row.with(|row| row.quantity))
    }

    pub fn keyboard(self) -> &'static str {
        let needs_all = self.row.with(|row| self.units().needs_full_keyboard(row.quantity, &row.bound));
        if needs_all { "text" } else { "decimal" }
    }

    /// Whether the value is taken.
    pub fn offer(self, value: f64, sweeping: bool) -> bool {
        match self.set.run(NewValue { value, sweeping }) {
            Ok(()) => {
                self.typing.put_right();
                true
            }
            Err(why) => {
                self.typing.reason.set(Some(why));
                false
            }
        }
    }

    pub fn take_typed(self) {
        let Some(text) = self.typing.typed.get_untracked() else { return };
        let row = self.row.get_untracked();
        match untrack(|| self.units()).read(&text, row.quantity, &row.bound) {
            Ok(value) => {
                self.offer(value, false);
            }
            Err(why) => self.typing.reason.set(Some(why)),
        }
    }

    pub fn move_by(self, steps: f64, sweeping: bool) {
        let value = self.value.get_untracked();
        if sweeping {
            self.held_from.update_value(|held| *held = held.or(Some(value)));
        }
        let row = self.row.get_untracked();
        let step = untrack(|| self.units()).step(row.quantity, row.fine);
        self.offer(stepped(value, steps, step, &row.bound), sweeping);
    }

    pub fn end(self) {
        self.held_from.set_value(None);
        self.state.end_gesture();
    }

    /// The finger that held a button has begun to scroll: it meant no step.
    pub fn take_back(self) {
        if let Some(before) = self.held_from.get_value() {
            self.offer(before, true);
        }
    }
}
