//! The paper, and what a printer makes of it.

use thiserror::Error;

use crate::design::entry::Units;
use crate::design::validation::bounds::CHECK_LINE;
use crate::design::validation::words::{Sentence, length, words};

/// A size of paper, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4: 210 by 297 mm.
    #[default]
    A4,
    /// US Letter: 8.5 by 11 in.
    Letter,
}

impl Paper {
    /// Width and height, in mm.
    #[must_use]
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// Width and height of the picture that a browser lays on it, in mm: as many whole CSS pixels as it has, 96 to the inch.
    /// Browsers snap a picture to whole pixels, and would stretch one of any other size.
    #[must_use]
    pub const fn picture_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (793.0 * PIXEL_MM, 1122.0 * PIXEL_MM),
            Self::Letter => (816.0 * PIXEL_MM, 1056.0 * PIXEL_MM),
        }
    }
}

/// A CSS pixel, in mm.
const PIXEL_MM: f64 = 25.4 / 96.0;

/// What the check lines measured on paper, so that the next print comes out true.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrintScale {
    across: f64,
    along: f64,
}

/// The true length of a check line, in mm.
pub const CHECK_MM: f64 = 100.0;

/// Why a measured check line is not taken.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
#[error("{}", self.words())]
pub struct PrintScaleError {
    way: &'static str,
    measured_mm: f64,
}

impl PrintScaleError {
    /// Why, with lengths in these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        self.words().told(units)
    }

    fn words(&self) -> Sentence {
        // The line is called by what stands beside it on the paper, in any unit.
        let line = format!("The 100 mm line {} the paper is said to measure ", self.way);
        words!(line, length(self.measured_mm), ": measure it again, it lies within ", CHECK_LINE, ".")
    }
}

impl Default for PrintScale {
    /// A printer that keeps its scale.
    fn default() -> Self {
        Self { across: 1.0, along: 1.0 }
    }
}

impl PrintScale {
    /// From what the 100 mm lines across and along the paper measured when printed without a correction, in mm.
    ///
    /// # Errors
    /// [`PrintScaleError`], as a sentence, for a length outside [`CHECK_LINE`].
    pub fn measured(across_mm: f64, along_mm: f64) -> Result<Self, PrintScaleError> {
        for (way, measured_mm) in [("across", across_mm), ("along", along_mm)] {
            if !CHECK_LINE.holds(measured_mm) {
                return Err(PrintScaleError { way, measured_mm });
            }
        }
        Ok(Self { across: CHECK_MM / across_mm, along: CHECK_MM / along_mm })
    }

    /// What a length across the paper has to be multiplied by.
    #[must_use]
    pub fn across(self) -> f64 {
        self.across
    }

    /// What a length along the paper has to be multiplied by.
    #[must_use]
    pub fn along(self) -> f64 {
        self.along
    }
}
