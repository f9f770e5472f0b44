//! One row of the table, and how its figures were come by.

/// Where most densities come from, read through a copy of it.
pub(super) const FAO: &str = "FAO/INFOODS Density Database v2.0 (2012)";

/// How a figure was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Read in the source named, or in a text that quotes it.
    Found,
    /// From memory of the source named: not looked up.
    Memory,
    /// Worked out from the definition named.
    Computed,
}

impl Basis {
    /// As one word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Found => "found",
            Self::Memory => "memory",
            Self::Computed => "computed",
        }
    }
}

/// One thing that is scooped or ladled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Content {
    /// Its name; a design keeps it.
    pub name: &'static str,
    /// The state it was measured in; may be empty.
    pub form: &'static str,
    /// Whether it runs level.
    pub liquid: bool,
    /// The least bulk density found, in kg/m3.
    pub least_kg_m3: f64,
    /// The greatest bulk density found, in kg/m3.
    pub most_kg_m3: f64,
    /// The bulk density to reckon with, in kg/m3.
    pub typical_kg_m3: f64,
    /// Where the densities come from.
    pub source: &'static str,
    /// How they were come by.
    pub basis: Basis,
    /// Its angle of repose; `None` for a liquid and where no figure is known.
    pub repose: Option<Repose>,
    /// Remarks; may be empty.
    pub notes: &'static str,
}

/// An angle of repose: the steepest slope a heap keeps, in degrees from level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repose {
    /// The least found.
    pub least_deg: f64,
    /// The greatest found.
    pub most_deg: f64,
    /// The one to reckon with.
    pub typical_deg: f64,
    /// Where it comes from.
    pub source: &'static str,
    /// How it was come by.
    pub basis: Basis,
}
