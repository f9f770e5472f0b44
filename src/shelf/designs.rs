//! The designs of the shelf: one entry each, listed, saved, renamed, duplicated.
//!
//! An entry carries a revision that grows with every save. Who saves says which revision the work began from: when
//! another tab has saved since, both are kept. A browser's storage has no lock, so two tabs that save within the same
//! few microseconds can still miss each other; every other order is safe.

use thiserror::Error;

use super::id::DesignId;
use super::saved::{ImportError, Imported, SavedDesign, WriteError, read, write_entry};
use super::store::{Store, StoreError};
use crate::design::Design;
use crate::design::entry::Units;
use crate::design::validation::bounds::NAME_LETTERS;
use crate::geometry::line::order::sort_by_number_falling;

/// Where the entries of designs begin.
pub(super) const DESIGN_PREFIX: &str = "skewline/design/";
/// Where texts that could not be read, and are in nobody's way any more, begin.
pub(super) const ASIDE_PREFIX: &str = "skewline/aside/";

/// The designs kept in a store.
#[derive(Clone, Debug)]
pub struct Shelf<S> {
    pub(super) store: S,
}

/// A design on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its id.
    pub id: DesignId,
    /// When it was last saved, in milliseconds since 1970.
    pub saved_at_ms: u64,
    /// How often it has been saved.
    pub revision: u64,
    /// The design; its name is the entry's.
    pub design: Design,
}

/// A text of the shelf that cannot be read. It stays where it is until it is deleted by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct SetAside {
    /// Its name in the store.
    pub key: String,
    /// The text as it stands.
    pub raw: String,
    /// Why it cannot be read.
    pub reason: ImportError,
}

/// Everything on the shelf.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Listing {
    /// The designs, the last saved first.
    pub entries: Vec<Entry>,
    /// Texts that cannot be read.
    pub set_aside: Vec<SetAside>,
}

/// How a design was saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SaveOutcome {
    /// In its own entry.
    Saved {
        /// Its revision now: the one to save from next time.
        revision: u64,
    },
    /// Beside its entry, which another tab has saved since, or which cannot be read. Both are kept.
    Conflict {
        /// The id of the new entry.
        saved_as: DesignId,
        /// Its name.
        name: String,
        /// Its revision.
        revision: u64,
    },
}

/// Why a design is not saved, loaded, renamed or duplicated. What was kept before stays.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SaveError {
    /// The storage failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The design cannot be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// There is no such entry: another tab may have deleted it.
    #[error("That design is not on the shelf any more. Look among the deleted ones.")]
    Gone,
    /// The entry cannot be read.
    #[error("{}", unreadable(.0, Units::default()))]
    Unreadable(ImportError),
}

impl SaveError {
    /// Why, with lengths in these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        match self {
            Self::Write(error) => error.told(units),
            Self::Unreadable(reason) => unreadable(reason, units),
            Self::Store(_) | Self::Gone => self.to_string(),
        }
    }
}

fn unreadable(reason: &ImportError, units: Units) -> String {
    format!("That design cannot be read. {}", reason.told(units))
}

/// What stands under a name.
pub(super) enum Found {
    Nothing,
    Entry(Box<Entry>),
    Unreadable(SetAside),
}

impl<S: Store> Shelf<S> {
    /// A shelf in this store.
    pub const fn new(store: S) -> Self {
        Self { store }
    }

    /// Everything on the shelf. Entries that cannot be read do not hold up the others.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage itself cannot be read.
    pub fn list(&self) -> Result<Listing, StoreError> {
        let mut listing = Listing::default();
        let mut keys = self.store.keys()?;
        keys.sort();
        for key in keys {
            if let Some(id) = key.strip_prefix(DESIGN_PREFIX) {
                match self.find(&key, DesignId::from_text(id))? {
                    Found::Entry(entry) => listing.entries.push(*entry),
                    Found::Unreadable(aside) => listing.set_aside.push(aside),
                    Found::Nothing => {}
                }
            } else if key.starts_with(ASIDE_PREFIX)
                && let Some(raw) = self.store.get(&key)?
            {
                let reason = read(&raw).err().unwrap_or(ImportError::NotOurs);
                listing.set_aside.push(SetAside { key, raw, reason });
            }
        }
        sort_by_number_falling(&mut listing.entries, |entry| entry.saved_at_ms as f64);
        Ok(listing)
    }

    /// The design of this id.
    ///
    /// # Errors
    ///
    /// [`SaveError`] when it is gone or cannot be read.
    pub fn load(&self, id: &DesignId) -> Result<Entry, SaveError> {
        match self.find(&entry_key(id), Some(id.clone()))? {
            Found::Entry(entry) => Ok(*entry),
            Found::Unreadable(aside) => Err(SaveError::Unreadable(aside.reason)),
            Found::Nothing => Err(SaveError::Gone),
        }
    }

    /// Adds a design as a new entry. `random` is a number drawn at random, `now_ms` the time since 1970.
    ///
    /// # Errors
    ///
    /// [`SaveError`]; nothing on the shelf has changed then.
    pub fn add(&self, design: &Design, random: u64, now_ms: u64) -> Result<Entry, SaveError> {
        let text = write_entry(design, 1, now_ms)?;
        let id = self.unused_id(random)?;
        self.set(&entry_key(&id), &text)?;
        Ok(Entry { id, saved_at_ms: now_ms, revision: 1, design: design.clone() })
    }

    /// Saves a design that was loaded, added or last saved at `expected_revision`.
    ///
    /// When its entry has another revision now, or cannot be read, the design is kept as a new entry beside it. When
    /// the entry is gone, it is kept under its id again. `random` and `now_ms` as in [`Shelf::add`].
    ///
    /// # Errors
    ///
    /// [`SaveError`]; what was kept before stays.
    pub fn save(
        &self,
        id: &DesignId,
        design: &Design,
        expected_revision: u64,
        random: u64,
        now_ms: u64,
    ) -> Result<SaveOutcome, SaveError> {
        let found = self.find(&entry_key(id), Some(id.clone()))?;
        let in_place = match &found {
            Found::Nothing => true,
            Found::Entry(entry) => entry.revision == expected_revision,
            Found::Unreadable(_) => false,
        };
        if in_place {
            let revision = expected_revision.saturating_add(1);
            self.set(&entry_key(id), &write_entry(design, revision, now_ms)?)?;
            return Ok(SaveOutcome::Saved { revision });
        }
        if let Found::Entry(entry) = &found
            && entry.design == *design
        {
            // The other tab came to the same design.
            return Ok(SaveOutcome::Saved { revision: entry.revision });
        }
        let copy = Design { name: self.free_name(&design.name, "other copy")?, ..design.clone() };
        let entry = self.add(&copy, random, now_ms)?;
        Ok(SaveOutcome::Conflict { saved_as: entry.id, name: copy.name, revision: entry.revision })
    }

    /// Gives a design another name.
    ///
    /// # Errors
    ///
    /// [`SaveError`]; the old name stays.
    pub fn rename(&self, id: &DesignId, name: &str, random: u64, now_ms: u64) -> Result<SaveOutcome, SaveError> {
        let entry = self.load(id)?;
        let design = Design { name: name.to_owned(), ..entry.design };
        self.save(id, &design, entry.revision, random, now_ms)
    }

    /// Adds a copy of a design, named after it.
    ///
    /// # Errors
    ///
    /// [`SaveError`]; nothing on the shelf has changed then.
    pub fn duplicate(&self, id: &DesignId, random: u64, now_ms: u64) -> Result<Entry, SaveError> {
        let design = self.load(id)?.design;
        let copy = Design { name: self.free_name(&design.name, "copy")?, ..design };
        self.add(&copy, random, now_ms)
    }

    pub(super) fn find(&self, key: &str, id: Option<DesignId>) -> Result<Found, StoreError> {
        let Some(raw) = self.store.get(key)? else { return Ok(Found::Nothing) };
        let reason = match (read(&raw), id) {
            (Ok(Imported::Design(saved)), Some(id)) => return Ok(Found::Entry(Box::new(entry(id, *saved)))),
            (Err(reason), _) => reason,
            (Ok(_), _) => ImportError::NotOurs,
        };
        Ok(Found::Unreadable(SetAside { key: key.to_owned(), raw, reason }))
    }

    /// An id that no entry has.
    pub(super) fn unused_id(&self, random: u64) -> Result<DesignId, StoreError> {
        let keys = self.store.keys()?;
        let mut number = random;
        loop {
            let id = DesignId::from_random(number);
            // Ends: there are fewer keys than numbers.
            if !keys.contains(&entry_key(&id)) {
                return Ok(id);
            }
            number = number.wrapping_add(1);
        }
    }

    /// "name (copy)", or "name (copy 2)" and so on, whichever no design has.
    fn free_name(&self, name: &str, addition: &str) -> Result<String, StoreError> {
        let taken: Vec<String> = self.list()?.entries.into_iter().map(|entry| entry.design.name).collect();
        let mut number = 1_usize;
        loop {
            let addition = match number {
                1 => format!(" ({addition})"),
                number => format!(" ({addition} {number})"),
            };
            let room = NAME_LETTERS.saturating_sub(addition.chars().count());
            let free: String = name.chars().take(room).chain(addition.chars()).collect();
            // Ends: there are fewer entries than numbers.
            if !taken.contains(&free) {
                return Ok(free);
            }
            number += 1;
        }
    }
}

/// The name in the store of the design of this id.
#[must_use]
pub fn entry_key(id: &DesignId) -> String {
    format!("{DESIGN_PREFIX}{id}")
}

fn entry(id: DesignId, saved: SavedDesign) -> Entry {
    Entry {
        id,
        saved_at_ms: saved.saved_at_ms.unwrap_or(0),
        revision: saved.revision.unwrap_or(0),
        design: saved.design,
    }
}
