//! What came of a search.

use crate::design::pattern::BoredEndScoop;
use crate::design::{Design, Wood};
use crate::figures::Worked;

/// What came of a search: a piece that does all that is wanted, or why there is none, and the nearest that work.
#[derive(Clone, Debug)]
pub struct Answer {
    /// A piece as wanted.
    pub found: Option<Offer>,
    /// What of it cannot be had together, in a sentence with numbers; empty where it was found.
    pub why_not: String,
    /// The nearest pieces that work, each with one want given up.
    pub instead: Vec<Offer>,
    /// How many designs were worked out in full.
    pub trials: usize,
}

/// A piece that works: every check of it is ok.
#[derive(Clone, Debug)]
pub struct Offer {
    /// What it is, in a few words with numbers.
    pub words: String,
    /// The choices it was made from.
    pub scoop: BoredEndScoop,
    /// The design.
    pub design: Design,
    /// Its figures.
    pub worked: Worked,
}

/// A design with a found piece in place of its own: its choices, its wood and its contents, and nothing made one's own.
/// Name, notes and log stay.
#[must_use]
pub fn in_place_of(found: &Design, design: &Design) -> Design {
    let wood = Wood { species: found.wood.species.clone(), ..design.wood.clone() };
    let wanted = Design { wood, contents: found.contents.clone(), ..design.clone() };
    match &found.pattern {
        Some(pattern) => wanted.of_pattern(pattern.choices.clone()),
        // A search finds pieces of a pattern only.
        None => wanted,
    }
}
