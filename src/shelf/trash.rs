//! Deleting with a way back: a deleted text is kept until [`KEPT`] more have been deleted.

use super::designs::{ASIDE_PREFIX, DESIGN_PREFIX, Shelf, entry_key};
use super::id::DesignId;
use super::saved::{Imported, read};
use super::store::{Store, StoreError};

const TRASH_PREFIX: &str = "skewline/trash/";

/// How many deleted texts are kept.
pub const KEPT: usize = 10;

/// What was deleted, and all that is needed to bring it back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deleted {
    /// Its name in the store.
    pub key: String,
    /// Its text.
    pub raw: String,
    /// Its name among the deleted; none when the storage had no room for it there, so that only this value has it.
    pub kept_as: Option<String>,
}

/// A deleted text that is still kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trashed {
    /// When it was deleted, in milliseconds since 1970; later than what was deleted before it, whatever the clock said.
    pub deleted_at_ms: u64,
    /// The design's name; none when the text cannot be read.
    pub name: Option<String>,
    /// What brings it back.
    pub deleted: Deleted,
}

impl<S: Store> Shelf<S> {
    /// Deletes a design; none when there was no such entry.
    ///
    /// # Errors
    ///
    /// [`StoreError`]; the design stays then.
    pub fn delete(&self, id: &DesignId, now_ms: u64) -> Result<Option<Deleted>, StoreError> {
        self.delete_key(&entry_key(id), now_ms)
    }

    /// Deletes a text that was set aside, by its name in the store; none when there was no such text.
    ///
    /// # Errors
    ///
    /// [`StoreError`]; the text stays then.
    pub fn delete_set_aside(&self, key: &str, now_ms: u64) -> Result<Option<Deleted>, StoreError> {
        if key.starts_with(DESIGN_PREFIX) || key.starts_with(ASIDE_PREFIX) {
            self.delete_key(key, now_ms)
        } else {
            Ok(None)
        }
    }

    fn delete_key(&self, key: &str, now_ms: u64) -> Result<Option<Deleted>, StoreError> {
        let Some(raw) = self.store.get(key)? else { return Ok(None) };
        let short = key.strip_prefix("skewline/").unwrap_or(key);
        // Later than whatever was deleted before, also when the clock was set back: the earliest are let go first.
        let stamp = self.last_stamp()?.map_or(now_ms, |last| now_ms.max(last.saturating_add(1)));
        let trash_key = format!("{TRASH_PREFIX}{stamp:020}/{short}");
        self.shorten_trash(KEPT - 1)?;
        let kept = match self.set(&trash_key, &raw) {
            // A full storage: what was deleted earlier makes room.
            Err(StoreError::Full) => {
                self.shorten_trash(0)?;
                self.set(&trash_key, &raw)
            }
            kept => kept,
        };
        let kept_as = match kept {
            Ok(()) => Some(trash_key),
            // To delete is how room is made, so it may not fail for want of room.
            Err(StoreError::Full) => None,
            Err(error) => return Err(error),
        };
        self.store.remove(key)?;
        if let Some(id) = key.strip_prefix(DESIGN_PREFIX) {
            self.forget_history(id);
        }
        Ok(Some(Deleted { key: key.to_owned(), raw, kept_as }))
    }

    /// Brings a deleted text back, and gives the name in the store under which it now stands.
    ///
    /// When its place has been taken since, it comes back beside it. `random` is a number drawn at random.
    ///
    /// # Errors
    ///
    /// [`StoreError`]; it stays among the deleted then.
    pub fn undelete(&self, deleted: &Deleted, random: u64) -> Result<String, StoreError> {
        let key = match self.store.get(&deleted.key)? {
            Some(there) if there != deleted.raw => entry_key(&self.unused_id(random)?),
            _ => deleted.key.clone(),
        };
        match (self.set(&key, &deleted.raw), &deleted.kept_as) {
            (Ok(()), Some(kept_as)) => self.store.remove(kept_as)?,
            (Ok(()), None) => {}
            // Its copy among the deleted may be what takes the room.
            (Err(StoreError::Full), Some(kept_as)) => {
                self.store.remove(kept_as)?;
                if let Err(error) = self.set(&key, &deleted.raw) {
                    self.set(kept_as, &deleted.raw)?;
                    return Err(error);
                }
            }
            (Err(error), _) => return Err(error),
        }
        Ok(key)
    }

    /// The deleted texts that are still kept, the last deleted first.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    pub fn trash(&self) -> Result<Vec<Trashed>, StoreError> {
        let mut trash = Vec::new();
        for trash_key in self.trash_keys()?.into_iter().rev() {
            let rest = trash_key.strip_prefix(TRASH_PREFIX).and_then(|rest| rest.split_once('/'));
            if let (Some((time, short)), Some(raw)) = (rest, self.store.get(&trash_key)?) {
                let name = match read(&raw) {
                    Ok(Imported::Design(saved)) => Some(saved.design.name),
                    _ => None,
                };
                let deleted = Deleted { key: format!("skewline/{short}"), raw, kept_as: Some(trash_key.clone()) };
                trash.push(Trashed { deleted_at_ms: time.parse().unwrap_or(0), name, deleted });
            }
        }
        Ok(trash)
    }

    /// Forgets every deleted text for good.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be changed.
    pub fn empty_trash(&self) -> Result<(), StoreError> {
        self.shorten_trash(0)
    }

    fn shorten_trash(&self, kept: usize) -> Result<(), StoreError> {
        let keys = self.trash_keys()?;
        let surplus = keys.len().saturating_sub(kept);
        keys.iter().take(surplus).try_for_each(|key| self.store.remove(key))
    }

    /// The stamp of what was deleted last.
    fn last_stamp(&self) -> Result<Option<u64>, StoreError> {
        let keys = self.trash_keys()?;
        let stamp = |key: &String| key.strip_prefix(TRASH_PREFIX)?.split_once('/')?.0.parse().ok();
        Ok(keys.iter().rev().find_map(stamp))
    }

    /// Oldest first: the time in the name has a fixed width.
    fn trash_keys(&self) -> Result<Vec<String>, StoreError> {
        let mut keys: Vec<String> = self.store.keys()?;
        keys.retain(|key| key.starts_with(TRASH_PREFIX));
        keys.sort();
        Ok(keys)
    }
}
