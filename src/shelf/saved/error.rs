//! Why a text is not taken in.

use thiserror::Error;

use super::formats::{LARGEST_TEXT, megabytes};
use super::migration::VERSION;
use crate::design::Problem;
use crate::design::entry::Units;

/// How many problems a message tells before it only counts the rest.
const PROBLEMS_TOLD: usize = 3;
/// The longest detail from the reader that is shown, in letters: it may quote a name of any length from the file.
const DETAIL_LETTERS: usize = 200;

/// Why a text is not taken in: what is wrong, where, and what to do. The text itself is never changed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum ImportError {
    /// Nothing but spaces.
    #[error("The file is empty: choose a file that Skewline has saved.")]
    Empty,
    /// Not UTF-8.
    #[error("The file is not text: choose a file that Skewline has saved, its name ending in .json.")]
    NotText,
    /// Larger than anything Skewline saves.
    #[error(
        "The file has {}, and {} at most are read: it is not one of Skewline's, which are never larger.",
        megabytes(*.bytes), megabytes(LARGEST_TEXT)
    )]
    TooLarge {
        /// Its size.
        bytes: usize,
    },
    /// The device has no memory for it.
    #[error(
        "The file has {}, and this device has no memory free for it. Close other pages and try again, or bring it in on \
         another device.",
        megabytes(*.bytes)
    )]
    NoMemory {
        /// Its size.
        bytes: usize,
    },
    /// Not JSON.
    #[error(
        "The file is damaged, or not one of Skewline's: {detail} (line {line}, column {column}). Correct it there, or \
         take an earlier copy."
    )]
    NotJson {
        /// The line, from 1.
        line: usize,
        /// The column, from 1; 0 at the very start of a line.
        column: usize,
        /// What the reader expected.
        detail: String,
    },
    /// JSON without Skewline's envelope.
    #[error("The file is not one of Skewline's: it does not say that it holds a Skewline design, shelf or shop.")]
    NotOurs,
    /// Written by a later Skewline.
    #[error(
        "The file is of version {version}, and this Skewline reads up to version {VERSION}. It is left as it is: \
         open it after the next update."
    )]
    Newer {
        /// Its version.
        version: u64,
    },
    /// A version that never was.
    #[error("The file says it is of version {version}, and there is none: its versions are 1 to {VERSION}.")]
    NoSuchVersion {
        /// What stands there.
        version: String,
    },
    /// A field is missing, unknown, double, or of the wrong kind.
    #[error("Something in {what} does not fit: {detail} (line {line}, column {column}). Correct it there.")]
    Malformed {
        /// The design, the shelf or the shop.
        what: &'static str,
        /// What was said.
        detail: String,
        /// The line of the text, from 1.
        line: usize,
        /// The column, from 1.
        column: usize,
    },
    /// A document with problems.
    #[error("{}", invalid(.problems, Units::default()))]
    Invalid {
        /// Every problem.
        problems: Vec<Problem>,
    },
}

impl ImportError {
    /// Why, with lengths in these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        match self {
            Self::Invalid { problems } => invalid(problems, units),
            _ => self.to_string(),
        }
    }

    /// The error of a part of a text, told by the place in the whole: so many lines down, and on its first line so many
    /// columns on.
    pub(super) fn moved(mut self, (lines, columns): (usize, usize)) -> Self {
        if let Self::NotJson { line, column, .. } | Self::Malformed { line, column, .. } = &mut self {
            // An error without a place has line 0.
            *column += if *line == 1 { columns } else { 0 };
            *line += if *line == 0 { 0 } else { lines };
        }
        self
    }

    /// From the reader's error about the kind of document called `what`.
    pub(super) fn from_json(error: &serde_json::Error, what: &'static str) -> Self {
        let (line, column) = (error.line(), error.column());
        let text = error.to_string();
        let place = format!(" at line {line} column {column}");
        let detail = clipped(text.strip_suffix(&place).unwrap_or(&text));
        match error.classify() {
            serde_json::error::Category::Data => Self::Malformed { what, detail: plain(&detail), line, column },
            serde_json::error::Category::Eof => Self::NotJson { line, column, detail: "it ends too early".to_owned() },
            _ => Self::NotJson { line, column, detail: "something in it cannot be read".to_owned() },
        }
    }
}

/// What the reader says of a field, in plain words. What Skewline's own types say stays.
fn plain(detail: &str) -> String {
    let name = || detail.split('`').nth(1).unwrap_or_default();
    match detail {
        _ if detail.starts_with("unknown field") => format!("nothing is called \u{201c}{}\u{201d} there", name()),
        _ if detail.starts_with("missing field") => format!("\u{201c}{}\u{201d} is missing", name()),
        _ if detail.starts_with("duplicate field") => format!("\u{201c}{}\u{201d} is there twice", name()),
        _ if detail.starts_with("unknown variant") => format!("\u{201c}{}\u{201d} is no choice there", name()),
        _ if detail.starts_with("invalid") || detail.contains("expected") => {
            "another kind of value belongs there".to_owned()
        }
        _ => detail.to_owned(),
    }
}

fn clipped(detail: &str) -> String {
    match detail.char_indices().nth(DETAIL_LETTERS) {
        Some((end, _)) => format!("{}\u{2026}", &detail[..end]),
        None => detail.to_owned(),
    }
}

fn invalid(problems: &[Problem], units: Units) -> String {
    format!("It is one of Skewline's, but something in it is wrong. {}", told(problems, units))
}

/// The first problems in full, and how many more there are.
pub(super) fn told(problems: &[Problem], units: Units) -> String {
    let first: Vec<String> = problems.iter().take(PROBLEMS_TOLD).map(|problem| problem.told(units)).collect();
    let more = problems.len().saturating_sub(PROBLEMS_TOLD);
    match more {
        0 => first.join(" "),
        more => format!("{} There are {more} more.", first.join(" ")),
    }
}
