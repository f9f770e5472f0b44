//! A pass that is looked at, with what was taken before it and what others of its part take.

use crate::design::Design;
use crate::geometry::{Removal, Revolved};
use crate::piece::Piece;

/// A pass that is looked at.
pub(super) struct Turned<'a> {
    pub(super) cut: usize,
    pub(super) region: &'a Revolved,
    pub(super) piece: &'a Piece,
    /// The other passes of the same part, by their places in working order.
    pub(super) mates: Vec<usize>,
}

impl<'a> Turned<'a> {
    pub(super) fn of(cut: usize, design: &Design, piece: &'a Piece) -> Option<Self> {
        Some(Self { cut, region: piece.revolved(cut)?, piece, mates: design.shaped_with(cut) })
    }

    /// What was taken before it, but by passes of the same part.
    pub(super) fn before(&self) -> impl Iterator<Item = &'a Removal> {
        let removals = self.piece.solid.removals.iter();
        removals.filter(|removal| removal.cut < self.cut && !self.mates.contains(&removal.cut))
    }

    /// What the other passes of the same part take, before it and after.
    pub(super) fn mates(&self) -> impl Iterator<Item = &'a Removal> {
        self.piece.solid.removals.iter().filter(|removal| self.mates.contains(&removal.cut))
    }
}
