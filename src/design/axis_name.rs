//! The letter of an axis.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::{Deserialize, Serialize};

/// An axis by its letter: A is the blank's own.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, BorshSerialize, BorshDeserialize,
)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(try_from = "String", into = "String")]
#[cfg_attr(not(target_arch = "wasm32"), schemars(extend("pattern" = "^[A-Z]$")))]
pub struct AxisName(u8);

impl AxisName {
    /// The blank's own axis.
    pub const A: Self = Self(0);
    /// The second axis.
    pub const B: Self = Self(1);
    /// The third axis.
    pub const C: Self = Self(2);

    /// The axis with this place in the list A, B, C...; `None` past Z.
    #[must_use]
    pub fn from_index(index: usize) -> Option<Self> {
        u8::try_from(index).ok().filter(|i| *i < 26).map(Self)
    }

    /// Its place in the list A, B, C..., from 0.
    #[must_use]
    pub fn index(self) -> usize {
        usize::from(self.0)
    }

    /// Its letter.
    #[must_use]
    pub fn letter(self) -> char {
        char::from(b'A' + self.0)
    }
}

impl std::fmt::Display for AxisName {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.letter())
    }
}

impl TryFrom<String> for AxisName {
    type Error = String;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        match text.as_bytes() {
            [letter @ b'A'..=b'Z'] => Ok(Self(letter - b'A')),
            _ => Err(format!("an axis is a capital letter, not {text:?}")),
        }
    }
}

impl From<AxisName> for String {
    fn from(name: AxisName) -> Self {
        name.letter().to_string()
    }
}
