//! The name of an entry of the shelf: drawn once, never shown, never changed.

/// The id of a design on the shelf: small letters and digits.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct DesignId(String);

/// The longest id, in letters.
const LONGEST: usize = 32;

impl DesignId {
    /// From a number drawn at random.
    #[must_use]
    pub fn from_random(number: u64) -> Self {
        Self(format!("{number:016x}"))
    }

    /// From its text; none when it has anything but small letters and digits.
    #[must_use]
    pub fn from_text(text: &str) -> Option<Self> {
        let letters = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit();
        let sound = !text.is_empty() && text.len() <= LONGEST && text.bytes().all(letters);
        sound.then(|| Self(text.to_owned()))
    }

    /// Its text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for DesignId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}
