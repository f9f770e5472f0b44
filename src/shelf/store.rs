//! Where texts are kept: one small trait, so that everything above it runs and is tested without a browser.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use thiserror::Error;

/// Why the storage does not do what it is asked.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum StoreError {
    /// The browser does not let the page use its storage.
    #[error(
        "The browser does not let this page keep anything. Allow it to store data for this site, or save to a file."
    )]
    Blocked,
    /// No room is left.
    #[error("The browser's storage is full, and this is not saved. Save it to a file, or delete designs for room.")]
    Full,
    /// The browser has no storage.
    #[error("This browser keeps nothing for a page. Save your work to a file.")]
    Absent,
    /// Something else.
    #[error("The browser's storage failed ({0}). Save your work to a file.")]
    Other(String),
}

/// A place for named texts.
///
/// Calls are short and never wait. A `set` that fails leaves the old text as it was.
pub trait Store {
    /// The text of this name, if there is one.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    fn get(&self, key: &str) -> Result<Option<String>, StoreError>;

    /// Keeps a text under this name, in place of the one before.
    ///
    /// # Errors
    ///
    /// [`StoreError`]; the text before stays.
    fn set(&self, key: &str, text: &str) -> Result<(), StoreError>;

    /// Forgets the text of this name; no error when there is none.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be changed.
    fn remove(&self, key: &str) -> Result<(), StoreError>;

    /// Every name, in any order.
    ///
    /// # Errors
    ///
    /// [`StoreError`] when the storage cannot be read.
    fn keys(&self) -> Result<Vec<String>, StoreError>;
}

/// A store that lasts as long as the page: for browsers without storage, and for tests.
///
/// Clones share what they hold, as the tabs of a browser do.
#[derive(Clone, Debug, Default)]
pub struct MemoryStore {
    inside: Rc<RefCell<Inside>>,
}

#[derive(Debug, Default)]
struct Inside {
    texts: BTreeMap<String, String>,
    quota: Option<usize>,
    failure: Option<StoreError>,
    fails_after: usize,
}

impl MemoryStore {
    /// An empty store without limit.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// From now on holds at most this many bytes, names and texts together.
    pub fn limit(&self, bytes: usize) {
        self.inside.borrow_mut().quota = Some(bytes);
    }

    /// Answers every call after the next `after` ones with this error, until [`MemoryStore::heal`].
    pub fn fail_after(&self, after: usize, error: StoreError) {
        let mut inside = self.inside.borrow_mut();
        inside.failure = Some(error);
        inside.fails_after = after;
    }

    /// Ends the failures.
    pub fn heal(&self) {
        self.inside.borrow_mut().failure = None;
    }

    /// The bytes held, names and texts together.
    #[must_use]
    pub fn bytes(&self) -> usize {
        self.inside.borrow().bytes()
    }

    fn answer(&self) -> Result<(), StoreError> {
        let mut inside = self.inside.borrow_mut();
        match &inside.failure {
            Some(error) if inside.fails_after == 0 => Err(error.clone()),
            Some(_) => {
                inside.fails_after -= 1;
                Ok(())
            }
            None => Ok(()),
        }
    }
}

impl Inside {
    fn bytes(&self) -> usize {
        self.texts.iter().map(|(key, text)| key.len() + text.len()).sum()
    }
}

impl Store for MemoryStore {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        self.answer()?;
        Ok(self.inside.borrow().texts.get(key).cloned())
    }

    fn set(&self, key: &str, text: &str) -> Result<(), StoreError> {
        self.answer()?;
        let mut inside = self.inside.borrow_mut();
        let before = inside.texts.get(key).map_or(0, |before| key.len() + before.len());
        let after = inside.bytes() - before + key.len() + text.len();
        if inside.quota.is_some_and(|quota| after > quota) {
            return Err(StoreError::Full);
        }
        inside.texts.insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), StoreError> {
        self.answer()?;
        self.inside.borrow_mut().texts.remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        self.answer()?;
        Ok(self.inside.borrow().texts.keys().cloned().collect())
    }
}
