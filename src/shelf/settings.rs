//! What the shelf keeps beside the designs: the shop, the open design, the time of the last backup.

use super::designs::{ASIDE_PREFIX, SaveError, SetAside, Shelf};
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

    /// When a backup file of the whole shelf was last saved, in milliseconds since 1970.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    pub fn last_backup_ms(&self) -> Result<Option<u64>, StoreError> {
        Ok(self.store.get(BACKUP_KEY)?.and_then(|text| text.parse().ok()))
    }

    /// Notes that a backup file of the whole shelf has been saved.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when it is not kept.
    pub fn set_last_backup_ms(&self, now_ms: u64) -> Result<(), StoreError> {
        self.set(BACKUP_KEY, &now_ms.to_string())
    }
}
