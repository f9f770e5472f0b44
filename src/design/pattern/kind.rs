//! What a kind of pattern has: its numbers, its lists to pick from, and the function that makes the piece.

use super::made::Made;
use crate::design::validation::bounds::{Bound, MM};

/// Sections of the screen that every kind of scoop has.
pub(super) const BOWL: &str = "Bowl";
pub(super) const HANDLE: &str = "Handle";
pub(super) const BLANK: &str = "Blank and chuck";
/// The length of a handle.
pub(super) const HANDLE_LENGTH: Bound = Bound { from: 20.0, to: 1500.0, unit: MM };

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

/// A number that every kind of scoop has, in its own `impl`. Where the handle points matters only if it `is_tilted`.
macro_rules! usual {
    (tilt) => {
        number!(tilt_deg, HANDLE, "Tilt", bounds::TILT_DEG, 0.0 to 15.0)
            .note("At 0 the handle is turned on the blank's own axis.")
            .cures(1)
    };
    (toward) => {
        number!(toward_deg, HANDLE, "Handle points", bounds::CLOCK_DEG, 0.0 to 360.0)
            .note("As held: 0\u{b0} is up, 90\u{b0} right, 180\u{b0} down.")
            .only_if(Self::is_tilted)
    };
    (neck) => {
        number!(neck_diameter_mm, HANDLE, "Neck", bounds::DIAMETER, 8.0 to 40.0).cures(2)
    };
    (thickest) => {
        number!(handle_diameter_mm, HANDLE, "Thickest", bounds::DIAMETER, 10.0 to 50.0).cures(2)
    };
    (jaws_from) => {
        number!(chuck.jaw_from_mm, BLANK, "Jaws grip from", bounds::MACHINE, 20.0 to 100.0)
    };
    (jaws_to) => {
        number!(chuck.jaw_to_mm, BLANK, "Jaws grip to", bounds::MACHINE, 20.0 to 150.0)
    };
    (jaws_deep) => {
        number!(chuck.jaw_depth_mm, BLANK, "Jaws are deep", bounds::MACHINE, 3.0 to 30.0)
            .note("The tenon follows from the jaws.")
    };
}
pub(super) use usual;

/// The list of a handle's ends but a hook, in the kind's own `impl`: the place of its end in the struct.
macro_rules! ends {
    ($($end:ident).+) => {
        Listed {
            section: HANDLE,
            label: "It ends in",
            names: &HandleEnd::UNHOOKED_NAMES,
            read: |it| HandleEnd::UNHOOKED.iter().position(|end| *end == it.$($end).+).unwrap_or(0),
            change: |it, which| it.$($end).+ = HandleEnd::UNHOOKED.get(which).copied().unwrap_or(it.$($end).+),
        }
    };
}
pub(super) use ends;
