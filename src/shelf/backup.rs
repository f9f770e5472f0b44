//! The whole shelf out to a file and in again.

use super::designs::{ASIDE_PREFIX, SaveError, Shelf};
use super::saved::{Imported, read, write_shelf};
use super::settings::KeptShop;
use super::store::{Store, StoreError};
use super::taken_in::TakenIn;
use crate::design::{Design, Printers};

/// How safe the shelf is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct BackupState {
    /// When the last backup was saved, in milliseconds since 1970.
    pub last_ms: Option<u64>,
    /// How many designs have been saved since.
    pub designs_since: usize,
}

impl<S: Store> Shelf<S> {
    /// The whole shelf as the text of a backup file: designs, shop, what printers measured, and the raw
    /// texts that were set aside.
    ///
    /// # Errors
    ///
    /// [`SaveError`] when the storage cannot be read.
    pub fn export(&self, now_ms: u64) -> Result<String, SaveError> {
        let listing = self.list()?;
        let designs: Vec<&Design> = listing.entries.iter().map(|entry| &entry.design).collect();
        let mut set_aside: Vec<String> = listing.set_aside.into_iter().map(|aside| aside.raw).collect();
        let shop = match self.shop()? {
            KeptShop::Shop(shop) => Some(shop),
            KeptShop::None => None,
            KeptShop::Unreadable(aside) => {
                set_aside.push(aside.raw);
                None
            }
        };
        let printers = match self.kept_printers()? {
            Some(Ok(printers)) => worth_keeping(printers),
            Some(Err(raw)) => {
                set_aside.push(raw);
                None
            }
            None => None,
        };
        Ok(write_shelf(&designs, shop.as_deref(), printers.as_ref(), &set_aside, now_ms)?)
    }

    /// Adds what a file holds. Nothing on the shelf is changed; designs that are there already are left out, and a printer
    /// that is known here keeps its lines, as [`Printers::add`] says.
    ///
    /// `random` is a number drawn at random, `now_ms` the time since 1970.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read: then nothing has come in. What cannot be saved stands in the answer.
    pub fn take_in(&self, imported: Imported, random: u64, now_ms: u64) -> Result<TakenIn, StoreError> {
        let mut here: Vec<Design> = self.list()?.entries.into_iter().map(|entry| entry.design).collect();
        let mut taken = TakenIn::default();
        let (designs, raws) = match imported {
            Imported::Design(saved) => (vec![saved.design], Vec::new()),
            Imported::Shop(shop) => {
                taken.shop = Some(*shop);
                (Vec::new(), Vec::new())
            }
            Imported::Shelf(shelf) => {
                taken.shop = shelf.shop;
                taken.refused = shelf.refused;
                if let Some(printers) = shelf.printers {
                    self.add_printers(printers, now_ms, &mut taken);
                }
                (shelf.designs, shelf.set_aside)
            }
        };
        let (mut now_readable, mut still_aside) = (Vec::new(), Vec::new());
        for raw in raws {
            // What an earlier version could not read, this one may.
            match read(&raw) {
                Ok(Imported::Design(saved)) => now_readable.push(saved.design),
                _ => still_aside.push(raw),
            }
        }
        for design in designs.into_iter().chain(now_readable) {
            if here.contains(&design) {
                taken.already_here += 1;
                continue;
            }
            match self.add(&design, random, now_ms) {
                Ok(entry) => {
                    taken.added.push(entry.id);
                    here.push(design);
                }
                Err(error) => taken.failed.push((design, error)),
            }
        }
        for raw in still_aside {
            match self.set_aside(&raw, random) {
                Ok(new) => taken.set_aside += usize::from(new),
                Err(error) => taken.aside_failed.push(error),
            }
        }
        Ok(taken)
    }

    fn add_printers(&self, others: Printers, now_ms: u64, taken: &mut TakenIn) {
        let kept = self.printers().map_err(SaveError::from).and_then(|before| {
            let mut printers = before.clone();
            let added = printers.add(others);
            if printers != before {
                self.save_printers(&printers, now_ms)?;
            }
            Ok(added)
        });
        match kept {
            Ok(added) => taken.printers = added,
            Err(error) => taken.printers_failed = Some(error),
        }
    }

    /// When the last backup was saved, and how many designs have been saved since, whatever the clock has said meanwhile.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    pub fn backup_state(&self) -> Result<BackupState, StoreError> {
        let noted = self.noted_backup()?;
        let entries = self.list()?.entries;
        let designs_since =
            entries.iter().filter(|entry| !noted.as_ref().is_some_and(|noted| noted.has(entry))).count();
        Ok(BackupState { last_ms: noted.map(|noted| noted.at_ms), designs_since })
    }

    /// Keeps a raw text among those set aside; whether it was not there yet.
    fn set_aside(&self, raw: &str, random: u64) -> Result<bool, StoreError> {
        if self.list()?.set_aside.iter().any(|aside| aside.raw == raw) {
            return Ok(false);
        }
        let keys = self.store.keys()?;
        let mut number = random;
        let mut key = format!("{ASIDE_PREFIX}{number:016x}");
        // Ends: there are fewer keys than numbers.
        while keys.contains(&key) {
            number = number.wrapping_add(1);
            key = format!("{ASIDE_PREFIX}{number:016x}");
        }
        self.set(&key, raw)?;
        Ok(true)
    }
}

/// What of the printers can be read back: a line that no paper can bear corrects nothing, and must not hold up a backup.
/// `None` when there is nothing to keep.
fn worth_keeping(printers: Printers) -> Option<Printers> {
    let mut kept = Printers { known: Vec::new(), ..printers };
    if !kept.problems().is_empty() {
        kept.name.clear();
    }
    for printer in printers.known {
        kept.known.push(printer);
        if !kept.problems().is_empty() {
            kept.known.pop();
        }
    }
    (kept != Printers::default()).then_some(kept)
}
