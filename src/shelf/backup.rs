//! The whole shelf out to a file and in again.

use super::designs::{ASIDE_PREFIX, SaveError, Shelf};
use super::id::DesignId;
use super::saved::{Imported, Refused, read, write_shelf};
use super::settings::KeptShop;
use super::store::{Store, StoreError};
use crate::design::printers::PrintersAdded;
use crate::design::{Design, Printers, Shop};

/// How safe the shelf is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct BackupState {
    /// When the last backup was saved, in milliseconds since 1970.
    pub last_ms: Option<u64>,
    /// How many designs have been saved since.
    pub designs_since: usize,
}

/// What became of an import.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TakenIn {
    /// The designs that were added.
    pub added: Vec<DesignId>,
    /// How many are on the shelf already, the same in everything, and were left out.
    pub already_here: usize,
    /// The shop of the file. It is not put in force: that is for the user to say.
    pub shop: Option<Shop>,
    /// What became of the printers of the file.
    pub printers: PrintersAdded,
    /// Why the printers of the file are not kept, when they are not.
    pub printers_failed: Option<SaveError>,
    /// How many texts that cannot be read were set aside.
    pub set_aside: usize,
    /// Parts of the file that cannot be read.
    pub refused: Vec<Refused>,
    /// Designs that could not be saved, and why.
    pub failed: Vec<(Design, SaveError)>,
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
    /// [`StoreError`] when the storage cannot be read; what cannot be saved stands in the answer.
    pub fn take_in(&self, imported: Imported, random: u64, now_ms: u64) -> Result<TakenIn, StoreError> {
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
        let mut here: Vec<Design> = self.list()?.entries.into_iter().map(|entry| entry.design).collect();
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
            taken.set_aside += usize::from(self.set_aside(&raw, random)?);
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

    /// When the last backup was saved, and how many designs have been saved since.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    pub fn backup_state(&self) -> Result<BackupState, StoreError> {
        let last_ms = self.last_backup_ms()?;
        let entries = self.list()?.entries;
        let designs_since = entries.iter().filter(|entry| last_ms.is_none_or(|last| entry.saved_at_ms > last)).count();
        Ok(BackupState { last_ms, designs_since })
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
