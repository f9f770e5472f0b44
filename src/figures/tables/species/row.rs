//! A row of the table of woods, and the sources that several rows name.

use crate::figures::tables::Basis;

/// One kind of wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Species {
    /// Common name; a design keeps it.
    pub name: &'static str,
    /// Botanical name.
    pub latin: &'static str,
    /// Whether it is a softwood.
    pub softwood: bool,
    /// How its pores lie: "ring", "semi-ring", "diffuse" or "none".
    pub porosity: &'static str,
    /// Ovendry mass over volume at 12 percent moisture, relative to water.
    pub gravity_12: Option<f64>,
    /// Ovendry mass over green volume, relative to water.
    pub gravity_green: Option<f64>,
    /// Density at 12 percent moisture, water included, in kg/m3.
    pub density_12_kg_m3: Option<f64>,
    /// Where the density comes from.
    pub density_source: &'static str,
    /// Modulus of rupture, in MPa.
    pub rupture_mpa: Option<f64>,
    /// Modulus of elasticity, in GPa.
    pub elasticity_gpa: Option<f64>,
    /// Compression parallel to the grain, in MPa.
    pub compression_mpa: Option<f64>,
    /// Shear parallel to the grain, in MPa.
    pub shear_mpa: Option<f64>,
    /// Tension across the grain, in MPa.
    pub tension_across_mpa: Option<f64>,
    /// Side hardness, in N.
    pub hardness_n: Option<f64>,
    /// Radial shrinkage from green to ovendry, percent of the green size.
    pub shrink_radial_percent: Option<f64>,
    /// Tangential shrinkage, percent.
    pub shrink_tangential_percent: Option<f64>,
    /// Shrinkage of volume, percent.
    pub shrink_volume_percent: Option<f64>,
    /// Where the figures come from.
    pub source: &'static str,
    /// How they were come by.
    pub basis: Basis,
    /// Columns of the table that are from memory, separated by semicolons.
    pub from_memory: &'static str,
    /// Remarks.
    pub notes: &'static str,
}

pub(super) const HANDBOOK: &str =
    "Wood Handbook FPL-GTR-282 (2021) Table 5-3b; shrinkage: Wood Handbook FPL-GTR-190 (2010) Table 4-3";
pub(super) const COPIED: &str =
    "Wood Handbook FPL-GTR-282 (2021) Table 5-3b; shrinkage: secondary copy of Wood Handbook Table 4-3 values";
pub(super) const IMPORTED: &str =
    "Wood Handbook FPL-GTR-282 (2021) Table 5-5b; shrinkage: Wood Handbook FPL-GTR-190 (2010) Table 4-4";
pub(super) const DATABASE: &str = "The Wood Database (E. Meier) species page, read in a secondary copy";
