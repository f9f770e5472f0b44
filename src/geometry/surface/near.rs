//! Which parts of the outside may come near.

/// Which parts of the outside may come near: the stock, and each pass and parting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Near(pub(super) u64);

impl Near {
    /// All of them.
    pub const ALL: Self = Self(u64::MAX);
    pub(super) const STOCK: u64 = 1;

    /// Whether none comes near.
    #[must_use]
    pub fn is_none(self) -> bool {
        self.0 == 0
    }

    pub(super) fn has_stock(self) -> bool {
        self.0 & Self::STOCK != 0
    }

    /// Whether the outside with this place among the outsides may come near; those past the 62nd share one mark.
    pub(super) fn has(self, place: usize) -> bool {
        self.0 & Self::of(place) != 0
    }

    pub(super) fn of(place: usize) -> u64 {
        2 << place.min(62)
    }
}
