//! The mass of the work between its steps.

use borsh::{BorshDeserialize, BorshSerialize};

use crate::design::{Cut, Design};
use crate::geometry::{Mass, Pace, at_once, masses_in_slices};
use crate::piece::Piece;

/// The masses of the states before and after every pass and hollow, before every facing and parting, and of the finished
/// piece, worked out together.
#[derive(Clone, Debug, PartialEq, BorshSerialize, BorshDeserialize)]
pub struct StateMasses {
    /// After so many cuts, rising.
    after: Vec<(usize, Mass)>,
    finished: Mass,
}

impl StateMasses {
    /// Of a design, to the accuracy of [`masses`](crate::geometry::masses).
    #[must_use]
    pub fn of(design: &Design, piece: &Piece) -> Self {
        at_once(Self::in_slices(design, piece, &Pace::unbroken()))
    }

    /// As [`of`](Self::of), in slices.
    pub async fn in_slices(design: &Design, piece: &Piece, pace: &Pace) -> Self {
        let spins = |cut: usize| matches!(design.cuts.get(cut), Some(Cut::Pass(_) | Cut::Hollow(_)));
        let ends = |cut: usize| matches!(design.cuts.get(cut), Some(Cut::Face(_) | Cut::Part(_)));
        let wanted: Vec<usize> =
            (0..=design.cuts.len()).filter(|k| spins(*k) || ends(*k) || k.checked_sub(1).is_some_and(spins)).collect();
        let mut states: Vec<_> = wanted.iter().map(|cuts| piece.solid.state(*cuts)).collect();
        states.push(piece.solid.finished());
        let mut found = masses_in_slices(&states, pace).await;
        let finished = found.pop().unwrap_or_default();
        Self { after: wanted.into_iter().zip(found).collect(), finished }
    }

    /// That of the state after so many cuts; nothing where neither spins the work.
    #[must_use]
    pub fn after(&self, cuts: usize) -> Mass {
        self.after.iter().find(|known| known.0 == cuts).map_or_else(Mass::default, |known| known.1)
    }

    /// That of the finished piece.
    #[must_use]
    pub fn finished(&self) -> &Mass {
        &self.finished
    }
}
