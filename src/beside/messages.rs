//! What the page and its worker say to each other, each message one text of JSON.

use serde::{Deserialize, Serialize};

use crate::design::{Design, Shop};
use crate::figures::checks::CheckName;
use crate::figures::stop_free::StopFree;
use crate::finding::Asked;
use crate::form::Field;

/// A piece of work, with all that it needs.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Work {
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

/// What comes of a work, a part at a time.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Part {
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
