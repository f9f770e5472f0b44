//! One thing that is wrong with a document.

use serde::Serialize;

use super::words::Sentence;
use crate::design::entry::Units;

/// One thing that is wrong, and what to do about it. It holds its lengths as numbers, to be told in any unit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Problem {
    /// The field, as a path in the saved document: `cuts[2].profile.nodes[1].diameter_mm`.
    pub field: String,
    /// Where on the piece, in mm along the axis of the cut; absent when it is nowhere in particular.
    #[serde(rename = "place_mm")]
    pub place: Option<f64>,
    /// What is wrong.
    pub sentence: Sentence,
    /// What to do.
    pub cure: Sentence,
}

impl Problem {
    /// The sentence and the cure, their lengths in these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        format!("{} {}", self.sentence.told(units), self.cure.told(units))
    }
}

/// With lengths in mm.
impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {}", self.sentence, self.cure)
    }
}
