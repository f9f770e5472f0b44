//! A figure, or why there is none.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

/// A figure, or the reason why it cannot be computed, in a sentence.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
#[serde(untagged)]
pub enum Known<T> {
    /// The figure.
    Value(T),
    /// None, and why.
    Missing {
        /// The reason, in a sentence.
        why_not: String,
    },
}

impl<T> Known<T> {
    /// The figure, if there is one.
    #[must_use]
    pub fn value(&self) -> Option<&T> {
        match self {
            Self::Value(value) => Some(value),
            Self::Missing { .. } => None,
        }
    }

    /// Why there is none.
    #[must_use]
    pub fn why_not(&self) -> Option<&str> {
        match self {
            Self::Value(_) => None,
            Self::Missing { why_not } => Some(why_not),
        }
    }

    /// No figure, for this reason.
    #[must_use]
    pub fn missing(why_not: impl Into<String>) -> Self {
        Self::Missing { why_not: why_not.into() }
    }
}

impl<T, E: std::fmt::Display> From<Result<T, E>> for Known<T> {
    fn from(result: Result<T, E>) -> Self {
        match result {
            Ok(value) => Self::Value(value),
            Err(error) => {
                // Errors below the page start small and end open; sentences do neither.
                let text = error.to_string();
                let mut letters = text.chars();
                let capital: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
                Self::missing(format!("{}.", capital.trim_end_matches('.')))
            }
        }
    }
}
