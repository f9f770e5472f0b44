//! What the page and its worker say to each other: each message one text of JSON, and the numbers of figures as bytes
//! beside it.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::design::{Design, Shop};
use crate::figures::checks::CheckName;
use crate::figures::slack::Slack;
use crate::figures::stop_free::StopFree;
use crate::figures::{Shape, Slow};
use crate::finding::Asked;
use crate::form::Field;

/// A piece of work, with all that it needs.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Work {
    /// The slow figures.
    Figures {
        /// The design, as it is saved.
        design: Design,
        /// The shop.
        shop: Shop,
        /// Its shape as far as it is known: for who works in the same thread.
        #[serde(skip)]
        begun: Option<Arc<Shape>>,
    },
    /// How far off each thing may be.
    Slack {
        /// The design, as it is saved.
        design: Design,
        /// The shop.
        shop: Shop,
    },
    /// How far each of these numbers may go.
    StopFree {
        /// The design, as it is saved.
        design: Design,
        /// The shop.
        shop: Shop,
        /// The numbers, the first wanted first.
        fields: Vec<Field>,
    },
    /// What cures a check.
    Cures {
        /// The design, as it is saved.
        design: Design,
        /// The shop.
        shop: Shop,
        /// The check.
        name: CheckName,
    },
    /// A piece that does what is wanted.
    Find {
        /// What is wanted, as it was typed.
        asked: Asked,
        /// The shop.
        shop: Shop,
    },
}

impl Work {
    /// Whether the screen shows what was until this is done: it is not left waiting for a worker that is still to begin.
    #[must_use]
    pub const fn is_urgent(&self) -> bool {
        matches!(self, Self::Figures { .. })
    }
}

/// From the page to the worker.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Order {
    /// Do this work, and name it so in every report.
    Begin {
        /// Its name.
        number: u32,
        /// What is to be done.
        work: Box<Work>,
    },
    /// Leave it for now, or go on with it.
    Rest {
        /// Its name.
        number: u32,
        /// Whether it is left for now.
        is_resting: bool,
    },
    /// It is no longer wanted.
    Drop {
        /// Its name.
        number: u32,
    },
}

/// From the worker to the page.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Report {
    /// It is ready for work.
    Ready,
    /// Something came of a work.
    Of {
        /// The work's name.
        number: u32,
        /// What came of it.
        part: Part,
    },
}

impl Report {
    /// As it crosses: a text, and bytes, which most reports have none of. `None` for figures that are no numbers.
    #[must_use]
    pub fn packed(&self) -> Option<(String, Vec<u8>)> {
        let bytes = match self {
            Self::Of { part: Part::Figures(Some(slow)), .. } => borsh::to_vec(slow).ok()?,
            _ => Vec::new(),
        };
        Some((serde_json::to_string(self).ok()?, bytes))
    }

    /// From what [crossed](Self::packed). `None` for what a program of another build has packed.
    #[must_use]
    pub fn unpacked(text: &str, bytes: &[u8]) -> Option<Self> {
        let mut report = serde_json::from_str(text).ok()?;
        if let Self::Of { part: Part::Figures(slow), .. } = &mut report {
            *slow = Some(borsh::from_slice(bytes).ok()?);
        }
        Some(report)
    }
}

/// What comes of a work, a part at a time.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Part {
    /// How far the work is, where it takes long.
    Progress {
        /// How much of it is done, in percent.
        percent: u8,
        /// The work done so far, in [units](crate::geometry::Pace).
        units: u64,
    },
    /// The slow figures.
    Figures(#[serde(skip)] Option<Box<Slow>>),
    /// How far off each thing may be, as far as it is known.
    Slack {
        /// What is known.
        slack: Slack,
        /// Whether that is all.
        is_whole: bool,
    },
    /// How far a number may go; `None` where that took too long to find, or there is no such number.
    StopFree(Field, Option<StopFree>),
    /// So many designs were worked out.
    Tried(usize),
    /// What came of looking for cures.
    Cures {
        /// What cures the check, the cure that changes least first.
        found: Vec<Found>,
        /// Where nothing does: what has to be given up, in sentences.
        why_none: String,
    },
    /// What came of the search.
    Answer {
        /// A piece as wanted.
        found: Option<Box<Found>>,
        /// What of it cannot be had together; empty where it was found.
        why_not: String,
        /// The nearest pieces that work.
        instead: Vec<Found>,
    },
    /// There is no more to come.
    Done,
}

/// A design that was found and worked out in full.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Found {
    /// What it is, or what it changes, in words.
    pub words: String,
    /// The design.
    pub design: Design,
}
