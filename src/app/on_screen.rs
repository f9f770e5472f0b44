//! Where the page is: its rooms, what the design's panel shows, and which drawing.

use crate::design::Design;
use crate::form::Group;

/// The rooms of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Room {
    /// The design on the bench.
    Design,
    /// The work step by step.
    Steps,
    /// One step at a time, at the lathe.
    Lathe,
    /// Every kept design.
    Shelf,
    /// Units, tools, machines and limits.
    Shop,
    /// How to use it, what to mind, where things are kept.
    Help,
}

/// What the design's panel shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Panel {
    /// A group of values.
    Values(Group),
    /// Every axis and cut.
    Parts,
    /// What it holds.
    Holds,
    /// Marks, join and boring: what is carried to the lathe.
    Marks,
    /// Every check with its cure.
    Checks,
}

impl Panel {
    /// The values that a design opens with: the choices of its pattern, else those of the handle.
    pub fn first(design: &Design) -> Self {
        Self::Values(if design.pattern.is_some() { Group::Whole } else { Group::Handle })
    }

    /// Its name on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Values(group) => group.name(),
            Self::Parts => "Parts",
            Self::Holds => "Holds",
            Self::Marks => "Marks",
            Self::Checks => "Checks",
        }
    }
}

/// The drawings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tab {
    /// The side view in section.
    Side,
    /// Both end faces as seen.
    Ends,
    /// A section at a station.
    Section,
    /// The wall, unrolled.
    WallMap,
}

impl Tab {
    /// Its name on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side => "Side view",
            Self::Ends => "Ends",
            Self::Section => "Section",
            Self::WallMap => "Wall map",
        }
    }
}
