//! What a kind of pattern has: its numbers, its lists to pick from, and the function that makes the piece.

use super::made::Made;
use crate::design::validation::bounds::Bound;

/// How a choice that is a number looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Its name in the saved document.
    pub name: &'static str,
    /// The heading that it stands under.
    pub section: &'static str,
    /// What it is called on screen.
    pub label: &'static str,
    /// What it means, where the label does not say it all.
    pub note: &'static str,
    /// What may be typed.
    pub bound: Bound,
    /// Where its slider starts and ends.
    pub slider: (f64, f64),
    /// A small length, moved in small steps.
    pub fine: bool,
    /// Whether it is the diameter of a bit, so that those of the shop can be picked.
    pub bit: bool,
    /// How soon it is tried as the cure of a check: 1 is first; `None` is never.
    pub cures: Option<i32>,
}

/// A choice that is a number, of the kind `K`.
pub struct Number<K> {
    /// How it looks.
    pub look: Look,
    /// Whether it changes anything.
    pub matters: fn(&K) -> bool,
    /// The number, to be read.
    pub read: fn(&K) -> &f64,
    /// The number, to be changed.
    pub change: fn(&mut K) -> &mut f64,
}

impl<K> Number<K> {
    /// The number with a note.
    pub const fn note(mut self, note: &'static str) -> Self {
        self.look.note = note;
        self
    }

    /// The number, moved in small steps.
    pub const fn fine(mut self) -> Self {
        self.look.fine = true;
        self
    }

    /// The number, for which a bit can be picked.
    pub const fn bit(mut self) -> Self {
        self.look.bit = true;
        self
    }

    /// The number, tried among the first or the last when a check is to be cured.
    pub const fn cures(mut self, rank: i32) -> Self {
        self.look.cures = Some(rank);
        self
    }

    /// The number, shown only where it changes something.
    pub const fn only_if(mut self, matters: fn(&K) -> bool) -> Self {
        self.matters = matters;
        self
    }
}

/// A choice from a list, of the kind `K`.
pub struct Listed<K> {
    /// The heading that it stands under.
    pub section: &'static str,
    /// What it is called on screen.
    pub label: &'static str,
    /// What may be picked, as called on screen.
    pub names: &'static [&'static str],
    /// The place in the list of what is picked.
    pub read: fn(&K) -> usize,
    /// Picks another; a place that the list has not is passed over.
    pub change: fn(&mut K, usize),
}

/// A kind of pattern.
pub trait Kind: Sized + 'static {
    /// What such a piece is called on screen.
    const TITLE: &'static str;
    /// Its numbers, in the order of the screen.
    const NUMBERS: &'static [Number<Self>];
    /// Its lists, in the order of the screen.
    const LISTS: &'static [Listed<Self>];

    /// Makes the piece. Pure, and total: choices outside their bounds may make what is no sound design.
    fn made(&self) -> Made;
}

/// A number of a kind, in its own `impl`: its place in the struct, its heading, its label, its bound and its slider.
macro_rules! number {
    ($($field:ident).+, $section:ident, $label:literal, $bound:expr, $from:literal to $to:literal) => {
        Number::<Self> {
            look: Look {
                name: stringify!($($field).+),
                section: $section,
                label: $label,
                note: "",
                bound: $bound,
                slider: ($from, $to),
                fine: false,
                bit: false,
                cures: None,
            },
            matters: |_| true,
            read: |it| &it.$($field).+,
            change: |it| &mut it.$($field).+,
        }
    };
}
pub(super) use number;
