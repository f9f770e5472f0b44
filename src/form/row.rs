//! How a number looks on screen.

use crate::design::units::Quantity;
use crate::design::validation::bounds::{Bound, MM};

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

    /// The slider's ends, moved out so that the value lies between them.
    #[must_use]
    pub fn slider(&self, value: f64) -> (f64, f64) {
        (self.from.min(value), self.to.max(value))
    }
}
