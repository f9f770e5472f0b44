//! The figures that take their time, as they are handed from where they are worked out to where they are shown: between
//! two threads that share nothing, as bytes.

use std::sync::Arc;

use borsh::{BorshDeserialize, BorshSerialize};

use super::clean_up::CleanUp;
use super::hold::Hold;
use super::jaws::JawsFor;
use super::known::Known;
use super::leave::Join;
use super::rest::Rest;
use super::shape::Shape;
use super::start::NearestStart;
use super::strength::{Neck, Strength};
use super::turning::{StateMasses, Turning};
use super::wall::Wall;

/// The slow figures of a design. All others follow from these and the shape in a moment.
#[derive(Clone, Debug, PartialEq, BorshSerialize, BorshDeserialize)]
pub struct Slow {
    pub(super) walls: Vec<Wall>,
    pub(super) passes: Passes,
    pub(super) masses: StateMasses,
    pub(super) rest: Rest,
    pub(super) hold: Known<Hold>,
    pub(super) turning: Vec<Turning>,
    pub(super) jaws: Vec<JawsFor>,
    pub(super) neck: Known<Neck>,
    pub(super) strength: Strength,
    /// The whole shape: it does not cross between threads, and is made again from the walls.
    #[borsh(skip)]
    pub(super) shape: Option<Arc<Shape>>,
}

/// Figures 2 and 3, of each pass.
#[derive(Clone, Debug, PartialEq, BorshSerialize, BorshDeserialize)]
pub(super) struct Passes {
    pub(super) joins: Vec<Join>,
    pub(super) nearest_starts: Vec<NearestStart>,
    pub(super) clean_ups: Vec<CleanUp>,
}
