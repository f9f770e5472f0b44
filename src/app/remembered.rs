//! Small choices of the screen that the browser remembers apart from the shelf.

use serde::{Deserialize, Serialize};

use crate::shelf::browser::BrowserStore;

/// Where they are kept.
const KEY: &str = "skewline:screen";

/// Light, dark, or as the device is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ThemeChoice {
    /// As the device is set.
    #[default]
    Device,
    /// Ink on paper.
    Light,
    /// Chalk on slate.
    Dark,
}

impl ThemeChoice {
    /// Every choice, with its name on screen.
    pub const ALL: [(Self, &'static str); 3] =
        [(Self::Device, "As device"), (Self::Light, "Light"), (Self::Dark, "Dark")];

    /// The value of the page's `data-theme`.
    pub const fn attribute(self) -> &'static str {
        match self {
            Self::Device => "device",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}

/// What is remembered.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Choices {
    /// Light or dark.
    pub theme: ThemeChoice,
    /// The station of the section, in mm.
    pub section_mm: f64,
}

impl Default for Choices {
    fn default() -> Self {
        Self { theme: ThemeChoice::default(), section_mm: 30.0 }
    }
}

impl Choices {
    /// What was remembered. Nothing is lost when it cannot be read: these are conveniences, made again by a tap.
    pub fn recall() -> Self {
        BrowserStore::value(KEY).unwrap_or_default()
    }

    /// Remembers, where the browser allows it.
    pub fn keep(self) {
        // The banner of the shelf already says it when this browser keeps nothing.
        let _ = BrowserStore::set_value(KEY, &self);
    }
}
