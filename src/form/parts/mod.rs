//! The parts of a design, its axes and cuts: what may be added, and what may be done with each.
//!
//! A [`Change`] is plain data, and [`changed`] gives the design after it. [`beginnings`] are the parts that may be added,
//! worked out from the piece; [`offers`] is what may be done with a part, with the reason where it may not.

mod apply;
mod axes;
mod begin;
mod bodies;
mod list;
mod offer;
mod places;

pub use apply::{changed, leaves_pattern};
pub use begin::{Beginning, Kin, beginnings};
pub use bodies::Bench;
pub use list::{PartRow, first_movable, parts};
pub use offer::{Offer, Offered, offers};

use crate::design::{AxisChoice, Cut};

/// A part of a design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PartId {
    /// An axis, by its place in the list of axes after A.
    Axis(usize),
    /// A cut, by its place in the document.
    Cut(usize),
    /// A cut that is switched off, by its place among those.
    Off(usize),
}

/// Which way a part moves in its list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Toward the first.
    Earlier,
    /// Toward the last.
    Later,
}

/// What is added: an axis, cuts, or both.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Addition {
    /// One more axis, last in the list.
    pub axis: Option<AxisChoice>,
    /// Cuts, each with its place once those before it are there.
    pub cuts: Vec<(usize, Cut)>,
    /// The cut with which the first of them shapes one part, by its place once they are there.
    pub together_with: Option<usize>,
}

/// One change of the parts of a design.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// Adds.
    Add(Addition),
    /// Takes a part away: an axis with all cuts on it, a plug with its taking out.
    Remove(PartId),
    /// Puts a copy of a cut after it.
    Copy(usize),
    /// Copies a pass to axes turned about the centre of the blank by these angles, in degrees clockwise as held by the
    /// handle. All of them shape one part.
    CopyRound(usize, Vec<f64>),
    /// Moves a part by one place.
    Move(PartId, Way),
    /// Leaves a part out of the piece and keeps it: an axis with all cuts on it.
    SwitchOff(PartId),
    /// Puts a part that is switched off back: an axis with all cuts on it.
    SwitchOn(PartId),
    /// Gives a pass another name.
    Rename(usize, String),
}
