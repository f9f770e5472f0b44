//! The steps back and forward of each design, kept beside it so that they survive a reload.
//!
//! One entry a design: the design as it was saved, then each earlier and undone state as the letters in which it
//! differs from its neighbour. A step of a slider takes some twenty bytes. What cannot be read is let go: it is a
//! convenience. A full storage lets go of every history before anything else is refused.

use serde::{Deserialize, Serialize};

use super::designs::Shelf;
use super::id::DesignId;
use super::saved::{Imported, read, write_entry};
use super::store::{Store, StoreError};
use crate::design::Design;
use crate::design::history::History;

/// Where the entries of histories begin.
pub const HISTORY_PREFIX: &str = "skewline/history/";
/// How many steps are kept, back and forward each.
pub const MOST_KEPT_STEPS: usize = 60;
/// How many bytes the differences back and forward may take, each.
const MOST_BYTES: usize = 24_000;
/// What a difference takes beside its letters, in bytes.
const BYTES_BESIDE: usize = 14;

/// A history as it is kept.
#[derive(Serialize, Deserialize)]
struct KeptHistory {
    /// The design that the differences begin from.
    now: String,
    /// Each state before, from the last back.
    past: Vec<Difference>,
    /// Each state to redo, from the next on.
    undone: Vec<Difference>,
}

/// From one text to its neighbour: how many bytes stay at the start and at the end, and what stands between.
#[derive(Serialize, Deserialize)]
struct Difference(usize, usize, String);

impl Difference {
    fn new(from: &str, to: &str) -> Self {
        let mut start = from.bytes().zip(to.bytes()).take_while(|(a, b)| a == b).count();
        while !(from.is_char_boundary(start) && to.is_char_boundary(start)) {
            start -= 1;
        }
        let rest = from.len().min(to.len()) - start;
        let mut end = from.bytes().rev().zip(to.bytes().rev()).take(rest).take_while(|(a, b)| a == b).count();
        while !(from.is_char_boundary(from.len() - end) && to.is_char_boundary(to.len() - end)) {
            end -= 1;
        }
        Self(start, end, to.get(start..to.len() - end).unwrap_or_default().to_owned())
    }

    fn apply(&self, from: &str) -> Option<String> {
        let (start, end) = (from.get(..self.0)?, from.get(from.len().checked_sub(self.1)?..)?);
        Some([start, &self.2, end].concat())
    }
}

/// A design without ticks and log, which no step brings back, as text.
fn text_of(design: &Design) -> Option<String> {
    write_entry(&bare(design), 0, 0).ok()
}

fn bare(design: &Design) -> Design {
    Design { done: Vec::new(), log: Vec::new(), ..design.clone() }
}

fn design_of(text: &str) -> Option<Design> {
    match read(text) {
        Ok(Imported::Design(saved)) => Some(saved.design),
        _ => None,
    }
}

/// The differences from a text through these states, as many as there is room for.
fn differences<'a>(now: &str, states: impl Iterator<Item = &'a Design>) -> Vec<Difference> {
    let (mut before, mut bytes, mut all) = (now.to_owned(), 0, Vec::new());
    for text in states.map_while(text_of) {
        if text == before {
            continue;
        }
        let difference = Difference::new(&before, &text);
        bytes += difference.2.len() + BYTES_BESIDE;
        if bytes > MOST_BYTES || all.len() == MOST_KEPT_STEPS {
            break;
        }
        all.push(difference);
        before = text;
    }
    all
}

/// The states that these differences lead through, the farthest first, with the ticks and the log of the present one.
fn states(now: &str, differences: &[Difference], present: &Design) -> Vec<Design> {
    let mut text = now.to_owned();
    let mut all = Vec::with_capacity(differences.len());
    for difference in differences.iter().take(MOST_KEPT_STEPS) {
        let Some(next) = difference.apply(&text) else { break };
        let Some(design) = design_of(&next) else { break };
        all.push(Design { done: present.done.clone(), log: present.log.clone(), ..design });
        text = next;
    }
    all.reverse();
    all
}

impl<S: Store> Shelf<S> {
    /// The kept steps of a design: none when there are none, when they cannot be read, or when they are those of
    /// another state of it, such as after another tab has saved it.
    #[must_use]
    pub fn history(&self, id: &DesignId, present: &Design) -> History<Design> {
        let raw = self.store.get(&history_key(id)).ok().flatten();
        let kept = raw.and_then(|raw| serde_json::from_str::<KeptHistory>(&raw).ok());
        let of_present = kept.filter(|kept| design_of(&kept.now).is_some_and(|now| now == bare(present)));
        of_present.map_or_else(History::default, |kept| {
            History::of(states(&kept.now, &kept.past, present), states(&kept.now, &kept.undone, present))
        })
    }

    /// Keeps the steps of a design that has just been saved. Where there is no room, the histories of other designs
    /// go, and then this one.
    pub fn keep_history(&self, id: &DesignId, present: &Design, history: &History<Design>) {
        let Some(now) = text_of(present) else { return };
        let past = differences(&now, history.past().iter().rev());
        let undone = differences(&now, history.undone().iter().rev());
        let key = history_key(id);
        let empty = past.is_empty() && undone.is_empty();
        let text = serde_json::to_string(&KeptHistory { now, past, undone });
        // A storage that fails says so when the design itself is saved. A history is worth no further word.
        let kept = text.is_ok_and(|text| !empty && self.set(&key, &text).is_ok());
        if !kept {
            let _ = self.store.remove(&key);
        }
    }

    /// Keeps a text; histories make room for it where there is none.
    pub(super) fn set(&self, key: &str, text: &str) -> Result<(), StoreError> {
        match self.store.set(key, text) {
            Err(StoreError::Full) if self.forget_histories().unwrap_or(false) => self.store.set(key, text),
            outcome => outcome,
        }
    }

    /// Lets go of every history; whether there was one.
    fn forget_histories(&self) -> Result<bool, StoreError> {
        let keys: Vec<String> = self.store.keys()?.into_iter().filter(|key| key.starts_with(HISTORY_PREFIX)).collect();
        keys.iter().try_for_each(|key| self.store.remove(key))?;
        Ok(!keys.is_empty())
    }

    /// Lets go of the history of a design that is gone.
    pub(super) fn forget_history(&self, id: &str) {
        // One that stays is let go when room is needed.
        let _ = self.store.remove(&format!("{HISTORY_PREFIX}{id}"));
    }
}

fn history_key(id: &DesignId) -> String {
    format!("{HISTORY_PREFIX}{id}")
}
