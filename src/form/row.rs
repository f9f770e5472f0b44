//! How a number looks on screen.

use crate::design::units::Quantity;
use crate::design::validation::bounds::{Bound, MM};

/// The least room that a slider leaves beyond the range of its value, as a share of all that the value may be.
const LEAST_ROOM: f64 = 1.0 / 32.0;

/// A number on screen, whatever it is a number of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Its name.
    pub label: &'static str,
    /// A length, an angle or a plain number.
    pub quantity: Quantity,
    /// What may be typed.
    pub bound: Bound,
    /// Where its slider starts.
    pub from: f64,
    /// Where its slider ends.
    pub to: f64,
    /// A small length, moved in small steps.
    pub fine: bool,
    /// What it means, where the name does not say it all.
    pub note: &'static str,
}

impl Row {
    /// A row with no note, moved in usual steps. Its bound says whether it is a length, an angle or a plain number.
    #[must_use]
    pub fn new(label: &'static str, bound: Bound, from: f64, to: f64) -> Self {
        let quantity = match bound.unit {
            MM => Quantity::Length,
            " degrees" => Quantity::Angle,
            _ => Quantity::Number,
        };
        Self { label, quantity, bound, from, to, fine: false, note: "" }
    }

    /// The row, moved in small steps.
    #[must_use]
    pub fn fine(self) -> Self {
        Self { fine: true, ..self }
    }

    /// The row, moved in small steps where that is so.
    #[must_use]
    pub fn fine_if(self, fine: bool) -> Self {
        Self { fine, ..self }
    }

    /// The row with a note.
    #[must_use]
    pub fn note(self, note: &'static str) -> Self {
        Self { note, ..self }
    }

    /// The useful stretch of the slider where it is known how far the value may go: that, and half as much again either
    /// way, within the slider's ends.
    #[must_use]
    pub fn slider_about(&self, value: f64, low: f64, high: f64) -> (f64, f64) {
        let (from, to) = self.slider(value);
        let (low, high) = (low.min(value), high.max(value));
        let room = ((high - low) / 2.0).max((to - from) * LEAST_ROOM);
        ((low - room).max(from), (high + room).min(to))
    }

    /// The slider's ends, moved out so that the value lies between them.
    #[must_use]
    pub fn slider(&self, value: f64) -> (f64, f64) {
        (self.from.min(value), self.to.max(value))
    }
}
