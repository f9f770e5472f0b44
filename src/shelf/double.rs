//! Two places for every text, so that either alone is enough.
//!
//! The first place answers at once, but browsers commit it late: what was written in the last seconds is gone when the
//! page is killed. The second commits within milliseconds, answers late, and has more room. Every write carries a
//! sequence number: the time of the write, or one more than the greatest number met so far, whichever is greater. So two
//! tabs that do not see each other's last writes still number them in the order of time. The first place keeps the number
//! of its own last write, so at the next start each record of the second with a greater number is one that the first has
//! lost.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

use super::history::HISTORY_PREFIX;
use super::store::{Store, StoreError};

/// The name in the first place of the number of its last write.
pub const SEQUENCE_KEY: &str = "skewline/sequence";

/// One text as the second place keeps it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Record {
    /// Its name.
    pub key: String,
    /// The number of the write.
    pub sequence: u64,
    /// The text; none when it was removed.
    pub text: Option<String>,
    /// The first place had no room for it, or did not take it.
    pub only_here: bool,
}

/// A place that takes records and commits them soon.
pub trait SecondPlace {
    /// Whether it takes records.
    fn is_open(&self) -> bool;

    /// Takes a record in place of the one before of the same key.
    fn note(&self, record: Record);
}

/// A store in two places. Reads are answered by the first, but for texts that only the second has room for.
#[derive(Debug)]
pub struct DoubleStore<S, P> {
    first: S,
    second: P,
    /// Texts that the first place did not take.
    only_second: RefCell<BTreeMap<String, String>>,
    /// The time, in milliseconds since 1970.
    clock: fn() -> u64,
    /// The greatest number given or met so far.
    last: Cell<u64>,
    /// The number of the first place's last write, as it stood before this store wrote anything.
    at_start: Cell<Option<u64>>,
    /// The number of the newest write of each key that this store has made or met.
    seen: RefCell<BTreeMap<String, u64>>,
    /// Keys that were written while the second place took nothing.
    unnoted: RefCell<BTreeSet<String>>,
}

impl<S: Store, P: SecondPlace> DoubleStore<S, P> {
    /// Over two places; nothing is read yet. `clock` gives the time in milliseconds since 1970; it may be set back.
    pub const fn new(first: S, second: P, clock: fn() -> u64) -> Self {
        Self {
            first,
            second,
            only_second: RefCell::new(BTreeMap::new()),
            clock,
            last: Cell::new(0),
            at_start: Cell::new(None),
            seen: RefCell::new(BTreeMap::new()),
            unnoted: RefCell::new(BTreeSet::new()),
        }
    }

    /// The first place.
    pub const fn first(&self) -> &S {
        &self.first
    }

    /// The second place.
    pub const fn second(&self) -> &P {
        &self.second
    }

    /// At the start, or when the second place opens later: brings back what the first place has lost, and notes in the
    /// second what was written while it was not open. Gives the keys that have changed.
    pub fn recover(&self, mut records: Vec<Record>) -> Vec<String> {
        let committed = self.committed_at_start();
        records.sort_by_key(|record| record.sequence);
        let unnoted = self.unnoted.take();
        let mut changed = Vec::new();
        for record in records {
            self.last.set(self.last.get().max(record.sequence));
            if unnoted.contains(&record.key) {
                continue;
            }
            let lost = record.only_here || record.sequence > committed;
            self.seen.borrow_mut().insert(record.key.clone(), record.sequence);
            if lost && self.take_in(&record) {
                changed.push(record.key);
            }
        }
        for key in unnoted {
            // What cannot be read is not noted, and stays where it is.
            if let Ok(text) = self.first.get(&key) {
                self.note(&key, self.next(), text.as_deref(), false);
            }
        }
        self.commit(self.last.get());
        changed
    }

    /// Takes in one record that another tab may have written; whether it changed something.
    pub fn absorb(&self, record: &Record) -> bool {
        let newer = self.seen.borrow().get(&record.key).is_none_or(|seen| record.sequence > *seen);
        newer && self.take_in(record)
    }

    fn take_in(&self, record: &Record) -> bool {
        self.last.set(self.last.get().max(record.sequence));
        self.seen.borrow_mut().insert(record.key.clone(), record.sequence);
        // What cannot be read is written again.
        if self.get(&record.key).is_ok_and(|text| text == record.text) {
            return false;
        }
        let taken = match &record.text {
            Some(text) if !record.only_here => self.first.set(&record.key, text),
            Some(_) => Err(StoreError::Full),
            None => self.first.remove(&record.key),
        };
        let mut only_second = self.only_second.borrow_mut();
        match (taken, &record.text) {
            (Err(_), Some(text)) => only_second.insert(record.key.clone(), text.clone()),
            _ => only_second.remove(&record.key),
        };
        true
    }

    /// The number of the first place's last write; 0 when it has none, or cannot be read.
    fn committed(&self) -> u64 {
        self.first.get(SEQUENCE_KEY).ok().flatten().and_then(|text| text.parse().ok()).unwrap_or(0)
    }

    /// Notes that the first place has every write up to this number. Without the note the second place's records are
    /// taken in once more at the next start, which changes nothing: so it may fail.
    fn commit(&self, sequence: u64) -> bool {
        // Always as long, so that a full storage has room for the next.
        sequence > 0 && self.first.set(SEQUENCE_KEY, &format!("{sequence:016}")).is_ok()
    }

    /// As [`committed`](Self::committed), before this store has written anything.
    fn committed_at_start(&self) -> u64 {
        self.at_start.get().unwrap_or_else(|| {
            let committed = self.committed();
            self.at_start.set(Some(committed));
            self.last.set(self.last.get().max(committed));
            committed
        })
    }

    fn next(&self) -> u64 {
        let known = self.committed_at_start().max(self.last.get()).max(self.committed());
        let next = known.saturating_add(1).max((self.clock)());
        self.last.set(next);
        next
    }

    /// Writes to the first place. Where it is full, the steps back of every design make room for anything else.
    fn set_first(&self, key: &str, text: &str) -> Result<(), StoreError> {
        let outcome = self.first.set(key, text);
        if outcome != Err(StoreError::Full) || key.starts_with(HISTORY_PREFIX) {
            return outcome;
        }
        let mut keys = self.first.keys()?;
        keys.retain(|key| key.starts_with(HISTORY_PREFIX));
        keys.iter().try_for_each(|key| self.remove(key))?;
        if keys.is_empty() { outcome } else { self.first.set(key, text) }
    }

    fn note(&self, key: &str, sequence: u64, text: Option<&str>, only_here: bool) {
        self.seen.borrow_mut().insert(key.to_owned(), sequence);
        if self.second.is_open() {
            self.second.note(Record { key: key.to_owned(), sequence, text: text.map(str::to_owned), only_here });
        } else {
            self.unnoted.borrow_mut().insert(key.to_owned());
        }
    }
}

impl<S: Store, P: SecondPlace> Store for DoubleStore<S, P> {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        if let Some(text) = self.only_second.borrow().get(key) {
            return Ok(Some(text.clone()));
        }
        match self.first.get(key) {
            Err(_) if self.second.is_open() => Ok(None),
            answer => answer,
        }
    }

    fn set(&self, key: &str, text: &str) -> Result<(), StoreError> {
        let sequence = self.next();
        match self.set_first(key, text) {
            Ok(()) => {
                self.only_second.borrow_mut().remove(key);
                self.commit(sequence);
                self.note(key, sequence, Some(text), false);
            }
            Err(error) if !self.second.is_open() => return Err(error),
            Err(_) => {
                self.only_second.borrow_mut().insert(key.to_owned(), text.to_owned());
                self.note(key, sequence, Some(text), true);
            }
        }
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), StoreError> {
        let sequence = self.next();
        let removed = self.first.remove(key);
        if removed.is_err() && !self.second.is_open() {
            return removed;
        }
        self.only_second.borrow_mut().remove(key);
        if removed.is_ok() {
            self.commit(sequence);
        }
        self.note(key, sequence, None, removed.is_err());
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        let mut keys = match self.first.keys() {
            Err(_) if self.second.is_open() => Vec::new(),
            answer => answer?,
        };
        let more: Vec<String> = self.only_second.borrow().keys().filter(|key| !keys.contains(key)).cloned().collect();
        keys.extend(more);
        keys.retain(|key| key != SEQUENCE_KEY);
        Ok(keys)
    }
}
