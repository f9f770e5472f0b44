//! What the shelf keeps beside the designs: the shop, the open design, the time of the last backup.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::designs::{ASIDE_PREFIX, Entry, SaveError, SetAside, Shelf};
use super::id::DesignId;
use super::saved::{ImportError, Imported, read, write_shop};
use super::store::{Store, StoreError};
use crate::design::Shop;

/// The name in the store of the shop's settings.
pub const SHOP_KEY: &str = "skewline/shop";
/// The name in the store of the id of the design that was open last.
pub const OPEN_KEY: &str = "skewline/open";
const BACKUP_KEY: &str = "skewline/last_backup";

/// The shop as it is kept.
#[derive(Clone, Debug, PartialEq)]
pub enum KeptShop {
    /// None is kept yet: the default counts.
    None,
    /// The settings.
    Shop(Box<Shop>),
    /// What is kept cannot be read. It is set aside by the next save, never overwritten.
    Unreadable(SetAside),
}

impl<S: Store> Shelf<S> {
    /// The shop's settings.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    pub fn shop(&self) -> Result<KeptShop, StoreError> {
        let Some(raw) = self.store.get(SHOP_KEY)? else { return Ok(KeptShop::None) };
        let reason = match read(&raw) {
            Ok(Imported::Shop(shop)) => return Ok(KeptShop::Shop(shop)),
            Ok(_) => ImportError::NotOurs,
            Err(reason) => reason,
        };
        Ok(KeptShop::Unreadable(SetAside { key: SHOP_KEY.to_owned(), raw, reason }))
    }

    /// Keeps the shop's settings. The last save counts; settings that cannot be read are set aside first.
    ///
    /// # Errors
    ///
    /// [`SaveError`]; what was kept before stays.
    pub fn save_shop(&self, shop: &Shop, now_ms: u64) -> Result<(), SaveError> {
        let text = write_shop(shop)?;
        if let KeptShop::Unreadable(aside) = self.shop()? {
            self.set(&format!("{ASIDE_PREFIX}shop-{now_ms}"), &aside.raw)?;
        }
        Ok(self.set(SHOP_KEY, &text)?)
    }

    /// The design that was open last.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    pub fn open_design(&self) -> Result<Option<DesignId>, StoreError> {
        Ok(self.store.get(OPEN_KEY)?.as_deref().and_then(DesignId::from_text))
    }

    /// Notes which design is open.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when it is not kept.
    pub fn set_open_design(&self, id: &DesignId) -> Result<(), StoreError> {
        self.set(OPEN_KEY, id.as_str())
    }

    /// The last backup file of the whole shelf.
    pub(super) fn noted_backup(&self) -> Result<Option<NotedBackup>, StoreError> {
        Ok(self.store.get(BACKUP_KEY)?.and_then(|text| serde_json::from_str(&text).ok()))
    }

    /// Notes that a backup file of the whole shelf, as it is now, has been saved.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when it is not kept.
    pub fn set_last_backup_ms(&self, now_ms: u64) -> Result<(), StoreError> {
        let entries = self.list()?.entries;
        let revisions = entries.into_iter().map(|entry| (entry.id.to_string(), entry.revision)).collect();
        let noted = NotedBackup { at_ms: now_ms, revisions: Some(revisions) };
        let text = serde_json::to_string(&noted).map_err(|error| StoreError::Other(error.to_string()))?;
        self.set(BACKUP_KEY, &text)
    }
}

/// A backup, and which state of every design is in it. A clock that is set back tells nothing about that.
#[derive(Serialize, Deserialize)]
#[serde(from = "KeptBackup")]
pub(super) struct NotedBackup {
    /// When it was saved, in milliseconds since 1970.
    pub at_ms: u64,
    /// The revision of every design in it, by id; none as noted by an earlier version.
    revisions: Option<BTreeMap<String, u64>>,
}

impl NotedBackup {
    /// Whether the backup has a design as it is now.
    pub(super) fn has(&self, entry: &Entry) -> bool {
        match &self.revisions {
            Some(revisions) => revisions.get(entry.id.as_str()) == Some(&entry.revision),
            None => entry.saved_at_ms <= self.at_ms,
        }
    }
}

/// As it is kept. Earlier versions kept the time alone.
#[derive(Deserialize)]
#[serde(untagged)]
enum KeptBackup {
    Time(u64),
    Noted { at_ms: u64, revisions: Option<BTreeMap<String, u64>> },
}

impl From<KeptBackup> for NotedBackup {
    fn from(kept: KeptBackup) -> Self {
        match kept {
            KeptBackup::Time(at_ms) => Self { at_ms, revisions: None },
            KeptBackup::Noted { at_ms, revisions } => Self { at_ms, revisions },
        }
    }
}
