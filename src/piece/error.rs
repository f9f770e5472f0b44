//! Why a document has no geometry.

use thiserror::Error;

use crate::design::axes::MisplacedAxis;
use crate::design::validation::words::{span, words};
use crate::design::{AxisName, Design, Units};
use crate::geometry::MeridianError;

/// Why a document has no geometry. Validation finds the same and more, with a cure for each.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PieceError {
    /// The blank has no size.
    #[error("the blank needs a size and a length greater than nothing")]
    Blank,
    /// An axis cannot be placed.
    #[error(transparent)]
    Axis(#[from] MisplacedAxis),
    /// A cut names an axis the design does not have.
    #[error("cut {} uses axis {axis}, which the design does not have", cut + 1)]
    NoSuchAxis {
        /// The cut, from 0.
        cut: usize,
        /// The axis.
        axis: AxisName,
    },
    /// A profile cannot be turned.
    #[error("the profile of cut {} cannot be turned: {source}", cut + 1)]
    Profile {
        /// The cut, from 0.
        cut: usize,
        /// Why.
        source: MeridianError,
    },
    /// A saw line cannot be followed.
    #[error("the saw line of cut {} needs at least two points, each farther from the bowl end than the one before", cut + 1)]
    SawLine {
        /// The cut, from 0.
        cut: usize,
    },
}

impl PieceError {
    /// Why, with the cuts by their names and lengths in these units.
    #[must_use]
    pub fn told(&self, design: &Design, units: Units) -> String {
        let name = |cut: usize| design.cut_name(cut);
        match self {
            Self::Profile { cut, source: MeridianError::NotCovered { from, to } } => {
                let start =
                    format!("the profile of {} cannot be turned: it does not cover the range from ", name(*cut));
                words!(start, span(*from, *to)).told(units)
            }
            Self::Profile { cut, source } => format!("the profile of {} cannot be turned: {source}", name(*cut)),
            Self::NoSuchAxis { cut, axis } => {
                format!("{} uses axis {axis}, which the design does not have", name(*cut))
            }
            Self::SawLine { cut } => format!(
                "the line of {} needs at least two points, each farther from the bowl end than the one before",
                name(*cut)
            ),
            Self::Blank | Self::Axis(_) => self.to_string(),
        }
    }
}
