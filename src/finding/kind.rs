//! The kinds of piece that can be asked for, and the lines that only one of them has.

use serde::{Deserialize, Serialize};

use super::spreader::SpreaderWants;
use crate::design::Choices;
use crate::design::entry::Units;
use crate::design::pattern::HandleEnd;
use crate::design::units::Quantity;

/// A kind of piece that can be asked for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum KindAsked {
    /// A scoop bored from the end.
    #[default]
    BoredEnd,
    /// A scoop with a round bowl, hollowed across the grain.
    RoundBowl,
    /// A spreader or stirrer.
    Spreader,
}

impl KindAsked {
    /// All of them, the usual first.
    pub const ALL: [Self; 3] = [Self::BoredEnd, Self::RoundBowl, Self::Spreader];

    /// Its name on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::BoredEnd => "Scoop bored from the end",
            Self::RoundBowl => "Round-bowl scoop, in wooden jaws",
            Self::Spreader => "Spreader or stirrer",
        }
    }

    /// The one of this name; the usual where there is none.
    #[must_use]
    pub fn named(name: &str) -> Self {
        Self::ALL.into_iter().find(|it| it.name() == name).unwrap_or_default()
    }

    /// The kind of these choices; `None` where that kind is not looked for.
    #[must_use]
    pub const fn of(choices: &Choices) -> Option<Self> {
        match choices {
            Choices::BoredEndScoop(_) => Some(Self::BoredEnd),
            Choices::RoundBowlScoop(_) => Some(Self::RoundBowl),
            Choices::Spreader(_) => Some(Self::Spreader),
            Choices::SidedSpindle(_) | Choices::GroovedHead(_) => None,
            Choices::OvalBowlScoop(_) | Choices::Ladle(_) => None,
        }
    }

    /// The ends that its handle may have.
    #[must_use]
    pub const fn handle_ends(self) -> &'static [HandleEnd] {
        match self {
            Self::BoredEnd => &HandleEnd::ALL,
            Self::RoundBowl | Self::Spreader => &HandleEnd::UNHOOKED,
        }
    }
}

/// The lines that only a spreader has.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SpreaderAsked {
    /// The length of the whole piece.
    pub length: String,
    /// The length of the blade.
    pub blade: String,
    /// Its greatest width.
    pub width: String,
    /// Its thickness.
    pub thickness: String,
}

impl SpreaderAsked {
    /// As these wants are typed.
    pub(super) fn of(wants: &SpreaderWants, units: Units) -> Self {
        let length = |mm: f64| units.show(mm, Quantity::Length);
        Self {
            length: length(wants.length_mm),
            blade: length(wants.blade_mm),
            width: length(wants.width_mm),
            thickness: length(wants.thickness_mm),
        }
    }
}
