//! What a utensil may hold: bulk densities and angles of repose.
//!
//! Averages from many measurers and states of packing: indicative, not design values. Each row names its source.

mod baking;
mod drinks;
mod grains;
mod liquids;
mod row;

use crate::geometry::grams;
pub use row::{Basis, Content, Repose};

/// The slope to reckon with for dry goods whose own angle is not known, in degrees: the middle of the class of
/// average flow, 30 to 39 degrees (CEMA belt-conveyor handbook, Table 3-1).
pub const USUAL_REPOSE_DEG: f64 = 35.0;

impl Content {
    /// Every row, in the order of the groups: drinks, baking, grains, liquids.
    pub fn all() -> impl Iterator<Item = &'static Self> {
        [drinks::DRINKS, baking::BAKING, grains::GRAINS, liquids::LIQUIDS].into_iter().flatten()
    }

    /// The row with this name, letter for letter.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        Self::all().find(|content| content.name == name)
    }

    /// The angle of repose to reckon with, in degrees: 0 for a liquid, [`USUAL_REPOSE_DEG`] where none is known.
    #[must_use]
    pub fn repose_deg(&self) -> f64 {
        match self.repose {
            Some(repose) => repose.typical_deg,
            None if self.liquid => 0.0,
            None => USUAL_REPOSE_DEG,
        }
    }

    /// Whether [`Self::repose_deg`] is only the usual slope of dry goods, because none is known for this one.
    #[must_use]
    pub fn repose_is_assumed(&self) -> bool {
        self.repose.is_none() && !self.liquid
    }

    /// The mass of a volume given in mm3 of it, in grams, at its typical density.
    #[must_use]
    pub fn grams(&self, volume_mm3: f64) -> f64 {
        grams(volume_mm3, self.typical_kg_m3)
    }

    /// The mass of a volume given in mm3 as it is said: `32 g`; below 10 g to half a gram, a kilogram and more in kg.
    ///
    /// A dash when it is negative or not finite.
    #[must_use]
    pub fn say_grams(&self, volume_mm3: f64) -> String {
        let grams = self.grams(volume_mm3);
        if !grams.is_finite() || grams < 0.0 {
            "\u{2013}".to_owned()
        } else if grams < 9.75 {
            format!("{} g", (grams * 2.0).round() / 2.0)
        } else if grams < 999.5 {
            format!("{grams:.0} g")
        } else {
            format!("{:.2} kg", grams / 1000.0)
        }
    }
}
