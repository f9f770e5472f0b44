//! What was typed and not taken yet, kept until it is taken or let go: a glance elsewhere costs nobody their words.

use serde::{Deserialize, Serialize};

use super::designs::Shelf;
use super::store::Store;

/// The name in the store of the drafts.
pub const DRAFTS_KEY: &str = "skewline/drafts";
/// How many lines are kept: the longest untouched go first.
pub const MOST: usize = 60;
/// How many letters of a line are kept: more than any line takes.
pub const LETTERS: usize = 10_000;

/// Lines that were typed and not taken, by the names of the lines.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Drafts(Vec<(String, String)>);

impl Drafts {
    /// What was typed in the line of this name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&str> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, text)| text.as_str())
    }

    /// Whether something was typed in a line whose name begins so.
    #[must_use]
    pub fn has_any(&self, prefix: &str) -> bool {
        self.0.iter().any(|(name, _)| name.starts_with(prefix))
    }

    /// How many lines are kept.
    #[must_use]
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// Keeps what is typed in a line, or lets it go.
    pub fn set(&mut self, name: &str, text: Option<&str>) {
        self.0.retain(|(known, _)| known != name);
        if let Some(text) = text {
            self.0.push((name.to_owned(), text.chars().take(LETTERS).collect()));
        }
        let surplus = self.0.len().saturating_sub(MOST);
        self.0.drain(..surplus);
    }

    /// Lets go of every line whose name begins so.
    pub fn forget(&mut self, prefix: &str) {
        self.0.retain(|(name, _)| !name.starts_with(prefix));
    }
}

impl<S: Store> Shelf<S> {
    /// The drafts as they were kept; none where they cannot be read.
    #[must_use]
    pub fn drafts(&self) -> Drafts {
        let raw = self.store.get(DRAFTS_KEY).ok().flatten();
        raw.and_then(|raw| serde_json::from_str(&raw).ok()).unwrap_or_default()
    }

    /// Keeps the drafts. A storage that fails says so when something is saved; drafts are worth no further word.
    pub fn keep_drafts(&self, drafts: &Drafts) {
        if *drafts == Drafts::default() {
            let _ = self.store.remove(DRAFTS_KEY);
        } else if let Ok(text) = serde_json::to_string(drafts) {
            let _ = self.set(DRAFTS_KEY, &text);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shelf::MemoryStore;

    #[test]
    fn lines_are_kept_within_bounds_until_they_are_taken() {
        let store = MemoryStore::new();
        let shelf = Shelf::new(store.clone());
        let mut drafts = shelf.drafts();
        for number in 0..=MOST {
            drafts.set(&format!("log/{number}"), Some("torn grain"));
        }
        drafts.set("shop/name", Some(&"x".repeat(LETTERS + 5)));
        assert_eq!((drafts.get("log/0"), drafts.get("log/1"), drafts.get("log/2")), (None, None, Some("torn grain")));
        assert_eq!(drafts.get("shop/name").map(str::len), Some(LETTERS));
        shelf.keep_drafts(&drafts);
        assert_eq!(shelf.drafts(), drafts);
        drafts.forget("log/");
        assert!(!drafts.has_any("log/") && drafts.has_any("shop/"));
        drafts.set("shop/name", None);
        shelf.keep_drafts(&drafts);
        assert_eq!(store.keys(), Ok(Vec::new()));
        assert_eq!(store.set(DRAFTS_KEY, "{half"), Ok(()));
        assert_eq!(shelf.drafts(), Drafts::default());
    }
}
