//! The parts that may be added, each with a beginning worked out from the piece: passes within the wood, hollows within
//! the outside. The sizes are choices of ours, no source.

mod along;
mod axes;
mod chuck;
mod ends;
mod hollows;
mod kin;
mod passes;
mod tenths;

use super::apply::changed;
use super::bodies::Bench;
use super::{Addition, Change};
use kin::All;
pub use kin::Kin;

/// A part that may be added.
#[derive(Clone, Debug, PartialEq)]
pub struct Beginning {
    /// Which kind.
    pub kin: Kin,
    /// What it is called on screen.
    pub label: String,
    /// The change that adds it, or why it makes no sense on this piece.
    pub change: Result<Change, &'static str>,
}

/// Every part that may be added, and what cannot be with the reason. Each change gives a sound design.
#[must_use]
pub fn beginnings(bench: Bench<'_>) -> Vec<Beginning> {
    let mut all: All = Vec::new();
    axes::all(bench, &mut all);
    passes::all(bench, &mut all);
    hollows::all(bench, &mut all);
    ends::all(bench, &mut all);
    let sound = |(kin, label, addition): (Kin, String, Result<Addition, &'static str>)| {
        let change = addition.map(Change::Add).and_then(|change| match changed(bench.design, &change) {
            Ok(_) => Ok(change),
            Err(_) => Err(NO_ROOM),
        });
        Beginning { kin, label, change }
    };
    all.into_iter().map(sound).collect()
}

/// Why a part cannot be added that none of the others' reasons keep out.
const NO_ROOM: &str = "The design has as many parts as it may have, or the blank no room for it.";
