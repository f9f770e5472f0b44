//! What printers measured, as the shelf keeps it.

use super::designs::{ASIDE_PREFIX, SaveError, Shelf};
use super::saved::WriteError;
use super::store::{Store, StoreError};
use crate::design::Printers;

/// The name in the store of the printers.
pub const PRINTERS_KEY: &str = "skewline:printers";

impl<S: Store> Shelf<S> {
    /// The printers that were measured, the one that is used, and the paper; the default where none are kept, or where
    /// they cannot be read, and then the check lines are measured again.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    pub fn printers(&self) -> Result<Printers, StoreError> {
        Ok(self.kept_printers()?.and_then(Result::ok).unwrap_or_default())
    }

    /// Keeps the printers. The last save counts; what cannot be read is set aside first.
    ///
    /// # Errors
    ///
    /// [`SaveError`]; what was kept before stays.
    pub fn save_printers(&self, printers: &Printers, now_ms: u64) -> Result<(), SaveError> {
        let text = serde_json::to_string(printers).map_err(WriteError::from)?;
        if let Some(Err(raw)) = self.kept_printers()? {
            self.set(&format!("{ASIDE_PREFIX}printers-{now_ms}"), &raw)?;
        }
        Ok(self.set(PRINTERS_KEY, &text)?)
    }

    /// What is kept, if anything is: the printers, or the raw text where it cannot be read.
    pub(super) fn kept_printers(&self) -> Result<Option<Result<Printers, String>>, StoreError> {
        let raw = self.store.get(PRINTERS_KEY)?;
        Ok(raw.map(|raw| serde_json::from_str(&raw).map_err(|_| raw)))
    }
}
