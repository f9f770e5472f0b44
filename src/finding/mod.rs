//! Finding a piece from what is wanted of it: the measure, the blank, the tilt and the handle go in; a design comes out in
//! which every check is ok, or what of it cannot be had together, with the nearest pieces that work.
//!
//! Bits are tried one by one; a measure is met by root-finding on the hold; the limits of tilt, blank and handle are found by
//! halving between a piece that works and one that does not. The same wants in the same shop give the same answer, after a
//! bounded number of designs worked out in full. Nothing is offered that was not worked out in full, every check of it ok.
//!
//! Cures of a check are found in the same way: each is tried on the whole design before it is offered.

mod answer;
mod asked;
mod cures;
mod instead;
mod kind;
mod measure;
mod nearest;
mod neck;
mod round_bowl;
mod search;
mod settle;
mod spreader;
mod trying;
mod value;
mod wants;
mod words;

pub use crate::design::pattern::BlankOnHand;
pub use answer::{Answer, Offer, in_place_of};
pub use asked::{Asked, CountedIn};
pub use cures::{Cure, Cures, MOST_TRIED, cures, cures_at_once};
pub use kind::{KindAsked, SpreaderAsked};
pub use round_bowl::{RoundBowl, RoundBowls, find_round_bowl, find_round_bowls};
pub use search::{MOST_TRIALS, find, find_at_once};
pub use spreader::{FoundSpreader, NoSpreader, SpreaderWants, find_spreader, find_spreaders};
pub use wants::{TiltWanted, Wants};
