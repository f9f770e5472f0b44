//! Small choices of the screen that the browser remembers apart from the shelf.

use serde::{Deserialize, Serialize};

use crate::shelf::browser::BrowserStore;

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

const PRINTERS_KEY: &str = "skewline:printers";

/// What the 100 mm check lines measured on one printer's paper.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Printer {
    /// What the turner calls it; one may go without a name.
    pub name: String,
    /// Across the paper, in mm.
    pub across_mm: f64,
    /// Along the paper, in mm.
    pub along_mm: f64,
}

/// The paper, the printer that is used, and every printer that was measured.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Printers {
    /// US Letter instead of A4.
    pub letter: bool,
    /// The printer that is used.
    pub name: String,
    /// Those that were measured.
    pub known: Vec<Printer>,
}

impl Printers {
    /// What was remembered; nothing where it cannot be read, and then the check lines are measured again.
    pub fn recall() -> Self {
        BrowserStore::value(PRINTERS_KEY).unwrap_or_default()
    }

    /// Remembers it. What cannot be kept holds for this visit.
    pub fn keep(&self) {
        // Full storage is told where designs are kept.
        let _ = BrowserStore::set_value(PRINTERS_KEY, self);
    }

    /// Takes what a printer measures, and uses it.
    pub fn take(&mut self, printer: Printer) {
        self.name.clone_from(&printer.name);
        self.known.retain(|other| other.name != printer.name);
        self.known.push(printer);
    }
}
