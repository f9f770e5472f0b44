//! The kinds of parts that may be added, and the list of them.

use crate::form::parts::Addition;

/// What kind of part is added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kin {
    /// An axis.
    Axis,
    /// A pass.
    Pass,
    /// A hollow or a plug.
    Hollow,
    /// A saw cut, a facing or a parting.
    End,
}

impl Kin {
    /// Every kind, in the order of the screen.
    pub const ALL: [Self; 4] = [Self::Axis, Self::Pass, Self::Hollow, Self::End];

    /// Its heading on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Axis => "Axes",
            Self::Pass => "Outside",
            Self::Hollow => "Hollow and plug",
            Self::End => "Ends and opening",
        }
    }
}

/// The parts so far: kind, name on screen, and what is added or why it cannot be.
pub(super) type All = Vec<(Kin, String, Result<Addition, &'static str>)>;

/// Why a part cannot be added, where several kinds have the reason in common.
pub(super) const NO_WOOD: &str = "There is no wood to spare all round here.";
pub(super) const MOVED_ALREADY: &str =
    "It comes before the passes on other axes: switch those off, or take them away, first.";
