//! Small choices of the screen that the browser remembers apart from the designs.

use serde::{Deserialize, Serialize};

/// The name in the store of the screen's choices.
pub const CHOICES_KEY: &str = "skewline:screen";

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
    #[must_use]
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
    /// From the text that is stored; the defaults where it cannot be read, since a tap makes these choices again.
    #[must_use]
    pub fn read(text: &str) -> Self {
        serde_json::from_str(text).unwrap_or_default()
    }
}

/// The station of a section, clamped to a blank of this length in mm: 0 for a station that is no number. A remembered
/// station may come from another design, or be damaged.
#[must_use]
pub fn station_on_blank(station_mm: f64, blank_length_mm: f64) -> f64 {
    if station_mm.is_finite() { station_mm.clamp(0.0, blank_length_mm.max(0.0)) } else { 0.0 }
}
