//! Patterns: the turner's choices for one kind of piece, and a pure function from them to blank, axes and cuts.
//!
//! A kind is a file of its own: a struct of choices that implements [`Kind`], and one more variant of [`Choices`]. The
//! screen is made from the kind's own tables. How a design follows its pattern is for
//! [`following`](crate::design::following) to say.

mod across;
mod arcs;
mod between;
mod bored_end;
mod handle_end;
mod kind;
mod ladle;
mod made;
mod oval_bowl;
mod round_bowl;
mod wanted;

use serde::{Deserialize, Serialize};

pub use between::{GroovedHead, Handle, Section, SidedSpindle, Spreader};
pub use bored_end::{BoredEndScoop, Opening, Outside, USUAL_LIP_SHARE};
pub use handle_end::HandleEnd;
pub use kind::{Kind, Look};
pub use ladle::Ladle;
pub use made::{Made, PatternPart, parts_of};
pub use oval_bowl::{Hollows, OvalBowlScoop};
pub use round_bowl::RoundBowlScoop;
pub use wanted::{BlankOnHand, Wanted};

/// The pattern of a design: what the turner chose, and what of the piece does not follow it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Pattern {
    /// The kind of piece, with the choices.
    pub choices: Choices,
    /// The parts that the turner made their own by changing them by hand: they stand as they are, whatever is chosen.
    #[serde(default)]
    pub own: Vec<PatternPart>,
}

/// A kind of piece, with the turner's choices for it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Choices {
    /// A scoop bored from the end.
    BoredEndScoop(BoredEndScoop),
    /// A scoop with a round bowl that is hollowed across the grain.
    RoundBowlScoop(RoundBowlScoop),
    /// A spreader or stirrer.
    Spreader(Spreader),
    /// A spindle with sides.
    SidedSpindle(SidedSpindle),
    /// A head with grooves on a handle.
    GroovedHead(GroovedHead),
    /// A scoop with an oval bowl that is hollowed across the grain.
    OvalBowlScoop(OvalBowlScoop),
    /// A ladle.
    Ladle(Ladle),
}

/// The same question to whichever kind it is.
macro_rules! of_kind {
    ($choices:expr, $it:ident, $K:ident => $answer:expr) => {
        match $choices {
            Choices::BoredEndScoop($it) => {
                type $K = BoredEndScoop;
                $answer
            }
            Choices::RoundBowlScoop($it) => {
                type $K = RoundBowlScoop;
                $answer
            }
            Choices::Spreader($it) => {
                type $K = Spreader;
                $answer
            }
            Choices::SidedSpindle($it) => {
                type $K = SidedSpindle;
                $answer
            }
            Choices::GroovedHead($it) => {
                type $K = GroovedHead;
                $answer
            }
            Choices::OvalBowlScoop($it) => {
                type $K = OvalBowlScoop;
                $answer
            }
            Choices::Ladle($it) => {
                type $K = Ladle;
                $answer
            }
        }
    };
}

impl Choices {
    /// Choices of any kind that may make this piece: which of them do is for the caller to see.
    #[must_use]
    pub fn read_back(made: &Made) -> Vec<Self> {
        BoredEndScoop::read_back(made).into_iter().map(Self::BoredEndScoop).collect()
    }

    /// What such a piece is called on screen.
    #[must_use]
    pub const fn title(&self) -> &'static str {
        of_kind!(self, _it, K => K::TITLE)
    }

    /// Blank, axes and cuts.
    #[must_use]
    pub fn made(&self) -> Made {
        of_kind!(self, it, K => K::made(it))
    }

    /// How many numbers the kind has.
    #[must_use]
    pub const fn count(&self) -> usize {
        of_kind!(self, _it, K => K::NUMBERS.len())
    }

    /// How the number at this place looks.
    #[must_use]
    pub fn look(&self, place: usize) -> Option<&'static Look> {
        of_kind!(self, _it, K => K::NUMBERS.get(place).map(|number| &number.look))
    }

    /// The number at this place.
    #[must_use]
    pub fn number(&self, place: usize) -> Option<&f64> {
        of_kind!(self, it, K => K::NUMBERS.get(place).map(|number| (number.read)(it)))
    }

    /// Whether the number at this place changes anything, as the others are.
    #[must_use]
    pub fn matters(&self, place: usize) -> bool {
        of_kind!(self, it, K => K::NUMBERS.get(place).is_some_and(|number| (number.matters)(it)))
    }

    /// The number at this place, to be changed.
    pub fn number_mut(&mut self, place: usize) -> Option<&mut f64> {
        of_kind!(self, it, K => K::NUMBERS.get(place).map(|number| (number.change)(it)))
    }

    /// The lists under this heading: the place of each, its label and its names.
    #[must_use]
    pub fn lists(&self, section: &str) -> Vec<(usize, &'static str, &'static [&'static str])> {
        of_kind!(self, _it, K => {
            let under = K::LISTS.iter().enumerate().filter(|(_, list)| list.section == section);
            under.map(|(place, list)| (place, list.label, list.names)).collect()
        })
    }

    /// The places of the numbers under this heading for which a bit can be picked.
    #[must_use]
    pub fn bits(&self, section: &str) -> Vec<usize> {
        let is_bit = |look: &Look| look.bit && look.section == section;
        (0..self.count()).filter(|place| self.look(*place).is_some_and(is_bit)).collect()
    }

    /// What is picked from the list at this place.
    #[must_use]
    pub fn picked(&self, place: usize) -> Option<usize> {
        of_kind!(self, it, K => K::LISTS.get(place).map(|list| (list.read)(it)))
    }

    /// Picks from the list at this place.
    pub fn pick(&mut self, place: usize, which: usize) {
        of_kind!(self, it, K => {
            if let Some(list) = K::LISTS.get(place) {
                (list.change)(it, which);
            }
        });
    }

    /// What the piece was wanted for; `None` where that was not said.
    #[must_use]
    pub const fn wanted(&self) -> Option<&Wanted> {
        match self {
            Self::BoredEndScoop(scoop) => scoop.wanted.as_ref(),
            Self::RoundBowlScoop(scoop) => scoop.wanted.as_ref(),
            Self::Spreader(_) | Self::SidedSpindle(_) | Self::GroovedHead(_) => None,
            Self::OvalBowlScoop(_) | Self::Ladle(_) => None,
        }
    }
}
