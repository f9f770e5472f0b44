//! Woods: averages of clear straight-grained specimens at 12 percent moisture; not design values.
//!
//! Every row names its source. Columns from memory are listed in the row.

use super::Basis;
use crate::design::text::same_name;

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

impl Species {
    /// Every wood of the table.
    pub fn all() -> impl Iterator<Item = &'static Self> {
        WOODS.iter()
    }

    /// The wood with this common name, capitals or not.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        WOODS.iter().find(|wood| same_name(wood.name, name))
    }
}

const HANDBOOK: &str =
    "Wood Handbook FPL-GTR-282 (2021) Table 5-3b; shrinkage: Wood Handbook FPL-GTR-190 (2010) Table 4-3";
const COPIED: &str =
    "Wood Handbook FPL-GTR-282 (2021) Table 5-3b; shrinkage: secondary copy of Wood Handbook Table 4-3 values";
const IMPORTED: &str =
    "Wood Handbook FPL-GTR-282 (2021) Table 5-5b; shrinkage: Wood Handbook FPL-GTR-190 (2010) Table 4-4";
const DATABASE: &str = "The Wood Database (E. Meier) species page, read in a secondary copy";

#[rustfmt::skip]
const WOODS: &[Species] = &[
    Species {
        name: "Red alder", latin: "Alnus rubra", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.41), gravity_green: Some(0.37), density_12_kg_m3: Some(459.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(67.6), elasticity_gpa: Some(9.51), compression_mpa: Some(40.1), shear_mpa: Some(7.4), tension_across_mpa: Some(2.9), hardness_n: Some(2620.0),
        shrink_radial_percent: Some(4.4), shrink_tangential_percent: Some(7.3), shrink_volume_percent: Some(12.6),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Even texture; light and easily dented.",
    },
    Species {
        name: "White ash", latin: "Fraxinus americana", softwood: false, porosity: "ring",
        gravity_12: Some(0.6), gravity_green: Some(0.55), density_12_kg_m3: Some(672.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(103.4), elasticity_gpa: Some(12.0), compression_mpa: Some(51.1), shear_mpa: Some(13.2), tension_across_mpa: Some(6.5), hardness_n: Some(5870.0),
        shrink_radial_percent: Some(4.9), shrink_tangential_percent: Some(7.8), shrink_volume_percent: Some(13.3),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "MOR entered is 15000 lbf/in2, as a woodworking magazine Q&A quotes from an older Wood Handbook printing; a copy of the 2021 edition gives 15400 lbf/in2 (106.2 MPa). The lower figure is used. No characteristic odour or taste. Open earlywood pores hold food and water. Dust reported to irritate skin and airways.",
    },
    Species {
        name: "Quaking aspen", latin: "Populus tremuloides", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.38), gravity_green: Some(0.35), density_12_kg_m3: Some(426.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(57.9), elasticity_gpa: Some(8.14), compression_mpa: Some(29.3), shear_mpa: Some(5.9), tension_across_mpa: Some(1.8), hardness_n: Some(1560.0),
        shrink_radial_percent: Some(3.5), shrink_tangential_percent: Some(6.7), shrink_volume_percent: Some(11.5),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Soft; cuts can be fuzzy.",
    },
    Species {
        name: "American basswood", latin: "Tilia americana", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.37), gravity_green: Some(0.32), density_12_kg_m3: Some(414.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(60.0), elasticity_gpa: Some(10.07), compression_mpa: Some(32.6), shear_mpa: Some(6.8), tension_across_mpa: Some(2.4), hardness_n: Some(1820.0),
        shrink_radial_percent: Some(6.6), shrink_tangential_percent: Some(9.3), shrink_volume_percent: Some(15.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Soft fine-textured carving wood; high shrinkage; dents easily.",
    },
    Species {
        name: "American beech", latin: "Fagus grandifolia", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.64), gravity_green: Some(0.56), density_12_kg_m3: Some(717.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(102.7), elasticity_gpa: Some(11.86), compression_mpa: Some(50.3), shear_mpa: Some(13.9), tension_across_mpa: Some(7.0), hardness_n: Some(5780.0),
        shrink_radial_percent: Some(5.5), shrink_tangential_percent: Some(11.9), shrink_volume_percent: Some(17.2),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "High tangential shrinkage. ACGIH lists beech dust as A1 (confirmed human carcinogen).",
    },
    Species {
        name: "Paper birch", latin: "Betula papyrifera", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.55), gravity_green: Some(0.48), density_12_kg_m3: Some(616.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(84.8), elasticity_gpa: Some(10.96), compression_mpa: Some(39.2), shear_mpa: Some(8.3), tension_across_mpa: None, hardness_n: Some(4050.0),
        shrink_radial_percent: Some(6.3), shrink_tangential_percent: Some(8.6), shrink_volume_percent: Some(16.2),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Common spoon wood. ACGIH lists birch dust as A2.",
    },
    Species {
        name: "Sweet birch", latin: "Betula lenta", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.65), gravity_green: Some(0.6), density_12_kg_m3: Some(728.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(116.5), elasticity_gpa: Some(14.96), compression_mpa: Some(58.9), shear_mpa: Some(15.4), tension_across_mpa: Some(6.6), hardness_n: Some(6540.0),
        shrink_radial_percent: Some(6.5), shrink_tangential_percent: Some(9.0), shrink_volume_percent: Some(15.6),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "ACGIH lists birch dust as A2.",
    },
    Species {
        name: "Yellow birch", latin: "Betula alleghaniensis", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.62), gravity_green: Some(0.55), density_12_kg_m3: Some(694.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(114.5), elasticity_gpa: Some(13.86), compression_mpa: Some(56.3), shear_mpa: Some(13.0), tension_across_mpa: Some(6.3), hardness_n: Some(5600.0),
        shrink_radial_percent: Some(7.3), shrink_tangential_percent: Some(9.5), shrink_volume_percent: Some(16.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "High radial shrinkage. ACGIH lists birch dust as A2.",
    },
    Species {
        name: "Butternut", latin: "Juglans cinerea", softwood: false, porosity: "semi-ring",
        gravity_12: Some(0.38), gravity_green: Some(0.36), density_12_kg_m3: Some(426.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(55.8), elasticity_gpa: Some(8.14), compression_mpa: Some(35.2), shear_mpa: Some(8.1), tension_across_mpa: Some(3.0), hardness_n: Some(2180.0),
        shrink_radial_percent: Some(3.4), shrink_tangential_percent: Some(6.4), shrink_volume_percent: Some(10.6),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Soft. The inch-pound and metric printings of the Handbook disagree on compression parallel (5110 lbf/in2 = 35.2 MPa against 36.2 MPa); inch-pound used.",
    },
    Species {
        name: "Black cherry", latin: "Prunus serotina", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.5), gravity_green: Some(0.47), density_12_kg_m3: Some(560.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(84.8), elasticity_gpa: Some(10.27), compression_mpa: Some(49.0), shear_mpa: Some(11.7), tension_across_mpa: Some(3.9), hardness_n: Some(4230.0),
        shrink_radial_percent: Some(3.7), shrink_tangential_percent: Some(7.1), shrink_volume_percent: Some(11.5),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Closed fine texture; widely used for utensils. Gum pockets occur; darkens in light.",
    },
    Species {
        name: "American elm", latin: "Ulmus americana", softwood: false, porosity: "ring",
        gravity_12: Some(0.5), gravity_green: Some(0.46), density_12_kg_m3: Some(560.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(81.4), elasticity_gpa: Some(9.24), compression_mpa: Some(38.1), shear_mpa: Some(10.4), tension_across_mpa: Some(4.6), hardness_n: Some(3690.0),
        shrink_radial_percent: Some(4.2), shrink_tangential_percent: Some(9.5), shrink_volume_percent: Some(14.6),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Interlocked grain; open earlywood pores.",
    },
    Species {
        name: "Hackberry", latin: "Celtis occidentalis", softwood: false, porosity: "ring",
        gravity_12: Some(0.53), gravity_green: Some(0.49), density_12_kg_m3: Some(594.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(75.8), elasticity_gpa: Some(8.2), compression_mpa: Some(37.5), shear_mpa: Some(11.0), tension_across_mpa: Some(4.0), hardness_n: Some(3910.0),
        shrink_radial_percent: Some(4.8), shrink_tangential_percent: Some(8.9), shrink_volume_percent: Some(13.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Open earlywood pores hold food.",
    },
    Species {
        name: "Shagbark hickory", latin: "Carya ovata", softwood: false, porosity: "ring",
        gravity_12: Some(0.72), gravity_green: Some(0.64), density_12_kg_m3: Some(806.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(139.3), elasticity_gpa: Some(14.89), compression_mpa: Some(63.5), shear_mpa: Some(16.8), tension_across_mpa: None, hardness_n: Some(8360.0),
        shrink_radial_percent: Some(7.0), shrink_tangential_percent: Some(10.5), shrink_volume_percent: Some(16.7),
        source: COPIED,
        basis: Basis::Found, from_memory: "",
        notes: "Very tough handle wood; high shrinkage. Handbook side hardness for true hickories is from Bendtsen and Ethington (1975).",
    },
    Species {
        name: "Black locust", latin: "Robinia pseudoacacia", softwood: false, porosity: "ring",
        gravity_12: Some(0.69), gravity_green: Some(0.66), density_12_kg_m3: Some(773.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(133.8), elasticity_gpa: Some(14.13), compression_mpa: Some(70.2), shear_mpa: Some(17.1), tension_across_mpa: Some(4.4), hardness_n: Some(7560.0),
        shrink_radial_percent: Some(4.6), shrink_tangential_percent: Some(7.2), shrink_volume_percent: Some(10.2),
        source: "Wood Handbook FPL-GTR-282 (2021) Table 5-3b; shrinkage: The Wood Database (E. Meier) species page, read in a secondary copy",
        basis: Basis::Found, from_memory: "",
        notes: "Dust reported to cause eye and skin irritation and (uncommonly) nausea.",
    },
    Species {
        name: "Bigleaf maple", latin: "Acer macrophyllum", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.48), gravity_green: Some(0.44), density_12_kg_m3: Some(538.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(73.8), elasticity_gpa: Some(10.0), compression_mpa: Some(41.0), shear_mpa: Some(11.9), tension_across_mpa: Some(3.7), hardness_n: Some(3780.0),
        shrink_radial_percent: Some(3.7), shrink_tangential_percent: Some(7.1), shrink_volume_percent: Some(11.6),
        source: "Wood Handbook FPL-GTR-282 (2021) Table 5-3b; shrinkage: memory of Wood Handbook Table 4-3 (dimensional-change coefficients in Table 13-5 equal those of black cherry, which is consistent)",
        basis: Basis::Memory, from_memory: "shrink_radial_pct;shrink_tangential_pct;shrink_volumetric_pct",
        notes: "Often figured.",
    },
    Species {
        name: "Red maple", latin: "Acer rubrum", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.54), gravity_green: Some(0.49), density_12_kg_m3: Some(605.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(92.4), elasticity_gpa: Some(11.31), compression_mpa: Some(45.1), shear_mpa: Some(12.8), tension_across_mpa: None, hardness_n: Some(4230.0),
        shrink_radial_percent: Some(4.0), shrink_tangential_percent: Some(8.2), shrink_volume_percent: Some(12.6),
        source: COPIED,
        basis: Basis::Found, from_memory: "",
        notes: "Softer than sugar maple; closed pores.",
    },
    Species {
        name: "Silver maple", latin: "Acer saccharinum", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.47), gravity_green: Some(0.44), density_12_kg_m3: Some(526.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(61.4), elasticity_gpa: Some(7.86), compression_mpa: Some(36.0), shear_mpa: Some(10.2), tension_across_mpa: Some(3.4), hardness_n: Some(3110.0),
        shrink_radial_percent: Some(3.0), shrink_tangential_percent: Some(7.2), shrink_volume_percent: Some(12.0),
        source: COPIED,
        basis: Basis::Found, from_memory: "",
        notes: "Softest of the common maples.",
    },
    Species {
        name: "Sugar (hard) maple", latin: "Acer saccharum", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.63), gravity_green: Some(0.56), density_12_kg_m3: Some(706.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(108.9), elasticity_gpa: Some(12.62), compression_mpa: Some(54.0), shear_mpa: Some(16.1), tension_across_mpa: None, hardness_n: Some(6450.0),
        shrink_radial_percent: Some(4.8), shrink_tangential_percent: Some(9.9), shrink_volume_percent: Some(14.7),
        source: COPIED,
        basis: Basis::Found, from_memory: "",
        notes: "Fine uniform texture; turns well; abrasion resistant; no characteristic odour or taste; common utensil wood.",
    },
    Species {
        name: "Northern red oak", latin: "Quercus rubra", softwood: false, porosity: "ring",
        gravity_12: Some(0.63), gravity_green: Some(0.56), density_12_kg_m3: Some(706.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(98.6), elasticity_gpa: Some(12.55), compression_mpa: Some(46.6), shear_mpa: Some(12.3), tension_across_mpa: Some(5.5), hardness_n: Some(5740.0),
        shrink_radial_percent: Some(4.0), shrink_tangential_percent: Some(8.6), shrink_volume_percent: Some(13.7),
        source: COPIED,
        basis: Basis::Found, from_memory: "",
        notes: "Open pores: Wood Handbook calls the red oak group unsuitable for tight cooperage unless lined or sealed. Tannin stains with iron. ACGIH lists oak dust as A1.",
    },
    Species {
        name: "White oak", latin: "Quercus alba", softwood: false, porosity: "ring",
        gravity_12: Some(0.68), gravity_green: Some(0.6), density_12_kg_m3: Some(762.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(104.8), elasticity_gpa: Some(12.27), compression_mpa: Some(51.3), shear_mpa: Some(13.8), tension_across_mpa: Some(5.5), hardness_n: Some(6050.0),
        shrink_radial_percent: Some(5.6), shrink_tangential_percent: Some(10.5), shrink_volume_percent: Some(16.3),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Pores largely plugged by tyloses; tannin taste and iron staining commonly reported. ACGIH lists oak dust as A1.",
    },
    Species {
        name: "Sassafras", latin: "Sassafras albidum", softwood: false, porosity: "ring",
        gravity_12: Some(0.46), gravity_green: Some(0.42), density_12_kg_m3: Some(515.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(62.1), elasticity_gpa: Some(7.72), compression_mpa: Some(32.8), shear_mpa: Some(8.5), tension_across_mpa: None, hardness_n: None,
        shrink_radial_percent: Some(4.0), shrink_tangential_percent: Some(6.2), shrink_volume_percent: Some(10.3),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Strongly aromatic; commonly advised against for food contact.",
    },
    Species {
        name: "Sweetgum", latin: "Liquidambar styraciflua", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.52), gravity_green: Some(0.46), density_12_kg_m3: Some(582.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(86.2), elasticity_gpa: Some(11.31), compression_mpa: Some(43.6), shear_mpa: Some(11.0), tension_across_mpa: Some(5.2), hardness_n: Some(3780.0),
        shrink_radial_percent: Some(5.3), shrink_tangential_percent: Some(10.2), shrink_volume_percent: Some(15.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Interlocked grain; prone to warp.",
    },
    Species {
        name: "American sycamore", latin: "Platanus occidentalis", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.49), gravity_green: Some(0.46), density_12_kg_m3: Some(549.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(68.9), elasticity_gpa: Some(9.79), compression_mpa: Some(37.1), shear_mpa: Some(10.1), tension_across_mpa: Some(5.0), hardness_n: Some(3430.0),
        shrink_radial_percent: Some(5.0), shrink_tangential_percent: Some(8.4), shrink_volume_percent: Some(14.1),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Interlocked grain; fine texture.",
    },
    Species {
        name: "Black tupelo", latin: "Nyssa sylvatica", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.5), gravity_green: Some(0.46), density_12_kg_m3: Some(560.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(66.2), elasticity_gpa: Some(8.27), compression_mpa: Some(38.1), shear_mpa: Some(9.2), tension_across_mpa: Some(3.4), hardness_n: Some(3600.0),
        shrink_radial_percent: Some(5.1), shrink_tangential_percent: Some(8.7), shrink_volume_percent: Some(14.4),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Interlocked grain resists splitting.",
    },
    Species {
        name: "Black walnut", latin: "Juglans nigra", softwood: false, porosity: "semi-ring",
        gravity_12: Some(0.55), gravity_green: Some(0.51), density_12_kg_m3: Some(616.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(100.7), elasticity_gpa: Some(11.58), compression_mpa: Some(52.3), shear_mpa: Some(9.4), tension_across_mpa: Some(4.8), hardness_n: Some(4490.0),
        shrink_radial_percent: Some(5.5), shrink_tangential_percent: Some(7.8), shrink_volume_percent: Some(12.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Dust commonly reported to irritate skin and airways; ACGIH lists walnut dust as A2. Pores moderately open.",
    },
    Species {
        name: "Black willow", latin: "Salix nigra", softwood: false, porosity: "semi-ring",
        gravity_12: Some(0.39), gravity_green: Some(0.36), density_12_kg_m3: Some(437.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(53.8), elasticity_gpa: Some(6.96), compression_mpa: Some(28.3), shear_mpa: Some(8.6), tension_across_mpa: None, hardness_n: None,
        shrink_radial_percent: Some(3.3), shrink_tangential_percent: Some(8.7), shrink_volume_percent: Some(13.9),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Soft; tough for its weight.",
    },
    Species {
        name: "Yellow-poplar", latin: "Liriodendron tulipifera", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.42), gravity_green: Some(0.4), density_12_kg_m3: Some(470.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(69.6), elasticity_gpa: Some(10.89), compression_mpa: Some(38.2), shear_mpa: Some(8.2), tension_across_mpa: Some(3.7), hardness_n: Some(2400.0),
        shrink_radial_percent: Some(4.6), shrink_tangential_percent: Some(8.2), shrink_volume_percent: Some(12.7),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Soft; easily dented; greenish heartwood browns in light.",
    },
    Species {
        name: "Alaska yellow-cedar", latin: "Callitropsis nootkatensis", softwood: true, porosity: "none",
        gravity_12: Some(0.44), gravity_green: Some(0.42), density_12_kg_m3: Some(493.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(76.5), elasticity_gpa: Some(9.79), compression_mpa: Some(43.5), shear_mpa: Some(7.8), tension_across_mpa: Some(2.5), hardness_n: Some(2580.0),
        shrink_radial_percent: Some(2.8), shrink_tangential_percent: Some(6.0), shrink_volume_percent: Some(9.2),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Distinct odour; can irritate skin and airways.",
    },
    Species {
        name: "Port-Orford-cedar", latin: "Chamaecyparis lawsoniana", softwood: true, porosity: "none",
        gravity_12: Some(0.43), gravity_green: Some(0.39), density_12_kg_m3: Some(482.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(87.6), elasticity_gpa: Some(11.72), compression_mpa: Some(43.1), shear_mpa: Some(9.4), tension_across_mpa: Some(2.8), hardness_n: Some(2800.0),
        shrink_radial_percent: Some(4.6), shrink_tangential_percent: Some(6.9), shrink_volume_percent: Some(10.1),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Strong gingery odour.",
    },
    Species {
        name: "Incense-cedar", latin: "Calocedrus decurrens", softwood: true, porosity: "none",
        gravity_12: Some(0.37), gravity_green: Some(0.35), density_12_kg_m3: Some(414.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(55.2), elasticity_gpa: Some(7.17), compression_mpa: Some(35.9), shear_mpa: Some(6.1), tension_across_mpa: Some(1.9), hardness_n: Some(2090.0),
        shrink_radial_percent: Some(3.3), shrink_tangential_percent: Some(5.2), shrink_volume_percent: Some(7.7),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Strong odour; very soft.",
    },
    Species {
        name: "Western redcedar", latin: "Thuja plicata", softwood: true, porosity: "none",
        gravity_12: Some(0.32), gravity_green: Some(0.31), density_12_kg_m3: Some(358.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(51.7), elasticity_gpa: Some(7.65), compression_mpa: Some(31.4), shear_mpa: Some(6.8), tension_across_mpa: Some(1.5), hardness_n: Some(1560.0),
        shrink_radial_percent: Some(2.4), shrink_tangential_percent: Some(5.0), shrink_volume_percent: Some(6.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Known respiratory sensitiser (occupational asthma); ACGIH TLV 0.5 mg/m3. Strong odour.",
    },
    Species {
        name: "Eastern redcedar", latin: "Juniperus virginiana", softwood: true, porosity: "none",
        gravity_12: Some(0.47), gravity_green: Some(0.44), density_12_kg_m3: Some(526.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(60.7), elasticity_gpa: Some(6.07), compression_mpa: Some(41.5), shear_mpa: None, tension_across_mpa: None, hardness_n: Some(4000.0),
        shrink_radial_percent: Some(3.1), shrink_tangential_percent: Some(4.7), shrink_volume_percent: Some(7.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Strong odour and taste. Side hardness taken from the metric printing (Table 5-3a: 4000 N); the inch-pound printing shows a dash. No shear or tension-perpendicular figure printed.",
    },
    Species {
        name: "Douglas-fir (coast)", latin: "Pseudotsuga menziesii", softwood: true, porosity: "none",
        gravity_12: Some(0.48), gravity_green: Some(0.45), density_12_kg_m3: Some(538.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(85.5), elasticity_gpa: Some(13.44), compression_mpa: Some(49.8), shear_mpa: Some(7.8), tension_across_mpa: Some(2.3), hardness_n: Some(3160.0),
        shrink_radial_percent: Some(4.8), shrink_tangential_percent: Some(7.6), shrink_volume_percent: Some(12.4),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Resinous; hard latewood and soft earlywood bands. Splinters commonly said to fester.",
    },
    Species {
        name: "Eastern white pine", latin: "Pinus strobus", softwood: true, porosity: "none",
        gravity_12: Some(0.35), gravity_green: Some(0.34), density_12_kg_m3: Some(392.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(59.3), elasticity_gpa: Some(8.55), compression_mpa: Some(33.1), shear_mpa: Some(6.2), tension_across_mpa: Some(2.1), hardness_n: Some(1690.0),
        shrink_radial_percent: Some(2.1), shrink_tangential_percent: Some(6.1), shrink_volume_percent: Some(8.2),
        source: COPIED,
        basis: Basis::Found, from_memory: "",
        notes: "Soft; resin odour.",
    },
    Species {
        name: "Mahogany (bigleaf, true)", latin: "Swietenia macrophylla", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.53), gravity_green: Some(0.45), density_12_kg_m3: Some(593.0), density_source: "lb/ft3 figure (37 lb/ft3) from a secondary species list",
        rupture_mpa: Some(79.3), elasticity_gpa: Some(10.34), compression_mpa: Some(46.7), shear_mpa: Some(8.5), tension_across_mpa: None, hardness_n: Some(3560.0),
        shrink_radial_percent: Some(3.0), shrink_tangential_percent: Some(4.1), shrink_volume_percent: Some(7.8),
        source: IMPORTED,
        basis: Basis::Found, from_memory: "",
        notes: "The Handbook prints only the green-volume specific gravity for imported woods. specific_gravity_12pct = density/1120. ACGIH lists mahogany dust as A2; CITES controlled; open pores.",
    },
    Species {
        name: "African mahogany", latin: "Khaya spp.", softwood: false, porosity: "diffuse",
        gravity_12: None, gravity_green: Some(0.42), density_12_kg_m3: None, density_source: "not found",
        rupture_mpa: Some(73.8), elasticity_gpa: Some(9.65), compression_mpa: Some(44.5), shear_mpa: Some(10.3), tension_across_mpa: None, hardness_n: Some(3690.0),
        shrink_radial_percent: Some(2.5), shrink_tangential_percent: Some(4.5), shrink_volume_percent: Some(8.8),
        source: IMPORTED,
        basis: Basis::Found, from_memory: "",
        notes: "The Handbook prints only the green-volume specific gravity for imported woods. Open pores; interlocked grain.",
    },
    Species {
        name: "Teak", latin: "Tectona grandis", softwood: false, porosity: "ring",
        gravity_12: Some(0.58), gravity_green: Some(0.55), density_12_kg_m3: Some(655.0), density_source: "The Wood Database (E. Meier) species page, read in a secondary copy",
        rupture_mpa: Some(100.7), elasticity_gpa: Some(10.69), compression_mpa: Some(58.0), shear_mpa: Some(13.0), tension_across_mpa: None, hardness_n: Some(4450.0),
        shrink_radial_percent: Some(2.6), shrink_tangential_percent: Some(5.3), shrink_volume_percent: Some(7.2),
        source: "Wood Handbook FPL-GTR-282 (2021) Table 5-5b; shrinkage and density: The Wood Database (E. Meier) species page, read in a secondary copy",
        basis: Basis::Found, from_memory: "",
        notes: "The Handbook prints only the green-volume specific gravity for imported woods. specific_gravity_12pct = density/1120. Oily; up to about 1.4 percent silica blunts tools; dust is a sensitiser; ACGIH lists teak dust as A2. Often called semi-ring-porous. Handbook Table 4-4 shrinkage is 2.5 / 5.8 / 7.0 from memory.",
    },
    Species {
        name: "Sapele", latin: "Entandrophragma cylindricum", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.6), gravity_green: Some(0.55), density_12_kg_m3: Some(673.0), density_source: "lb/ft3 figure (42 lb/ft3) from a secondary species list",
        rupture_mpa: Some(105.5), elasticity_gpa: Some(12.55), compression_mpa: Some(56.3), shear_mpa: Some(15.6), tension_across_mpa: None, hardness_n: Some(6720.0),
        shrink_radial_percent: Some(4.8), shrink_tangential_percent: Some(7.2), shrink_volume_percent: Some(12.8),
        source: "Wood Handbook FPL-GTR-282 (2021) Table 5-5b; shrinkage and density: secondary species list",
        basis: Basis::Found, from_memory: "",
        notes: "The Handbook prints only the green-volume specific gravity for imported woods. specific_gravity_12pct = density/1120. Interlocked grain; sensitiser for some people.",
    },
    Species {
        name: "Common persimmon", latin: "Diospyros virginiana", softwood: false, porosity: "semi-ring",
        gravity_12: Some(0.72), gravity_green: Some(0.64), density_12_kg_m3: Some(801.0), density_source: "about 50 lb/ft3 when dry, secondary source",
        rupture_mpa: Some(122.1), elasticity_gpa: Some(13.86), compression_mpa: Some(63.2), shear_mpa: None, tension_across_mpa: None, hardness_n: Some(10230.0),
        shrink_radial_percent: Some(7.9), shrink_tangential_percent: Some(11.2), shrink_volume_percent: Some(19.1),
        source: "Shrinkage: Wood Handbook FPL-GTR-190 (2010) Table 4-3; hardness 2300 lbf: secondary pages; strength figures from memory of The Wood Database",
        basis: Basis::Memory, from_memory: "mor_12pct_mpa;moe_12pct_gpa;compression_parallel_mpa;specific_gravity_green",
        notes: "specific_gravity_12pct = density/1120 (the source counts the water in its own 12 percent figure). No characteristic odour or taste; very high shrinkage; keeps a smooth surface in wear.",
    },
    Species {
        name: "Apple", latin: "Malus spp.", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.74), gravity_green: Some(0.61), density_12_kg_m3: Some(830.0), density_source: "The Wood Database (E. Meier) species page, read in a secondary copy",
        rupture_mpa: Some(88.3), elasticity_gpa: Some(8.76), compression_mpa: Some(41.6), shear_mpa: None, tension_across_mpa: None, hardness_n: Some(7700.0),
        shrink_radial_percent: Some(5.6), shrink_tangential_percent: Some(10.1), shrink_volume_percent: Some(17.6),
        source: DATABASE,
        basis: Basis::Found, from_memory: "",
        notes: "specific_gravity_12pct = density/1120 (the source counts the water in its own 12 percent figure). Faint sweet scent when worked; very fine texture; high movement.",
    },
    Species {
        name: "Pear", latin: "Pyrus communis", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.62), gravity_green: Some(0.52), density_12_kg_m3: Some(690.0), density_source: "The Wood Database (E. Meier) species page, read in a secondary copy",
        rupture_mpa: Some(83.3), elasticity_gpa: Some(7.8), compression_mpa: Some(44.1), shear_mpa: None, tension_across_mpa: None, hardness_n: Some(7380.0),
        shrink_radial_percent: Some(3.9), shrink_tangential_percent: Some(11.3), shrink_volume_percent: Some(13.8),
        source: DATABASE,
        basis: Basis::Found, from_memory: "",
        notes: "specific_gravity_12pct = density/1120 (the source counts the water in its own 12 percent figure). No characteristic odour; very fine even texture.",
    },
    Species {
        name: "Olive", latin: "Olea europaea", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.88), gravity_green: Some(0.72), density_12_kg_m3: Some(990.0), density_source: "The Wood Database (E. Meier) species page, read in a secondary copy",
        rupture_mpa: Some(155.4), elasticity_gpa: Some(17.77), compression_mpa: Some(77.1), shear_mpa: None, tension_across_mpa: None, hardness_n: Some(12010.0),
        shrink_radial_percent: Some(5.4), shrink_tangential_percent: Some(8.8), shrink_volume_percent: Some(14.4),
        source: "The Wood Database (E. Meier) species page, read in a secondary copy (figures pooled for Olea europaea and Olea capensis)",
        basis: Basis::Found, from_memory: "",
        notes: "specific_gravity_12pct = density/1120 (the source counts the water in its own 12 percent figure). Distinct fruity scent; reported as a sensitiser. Another source gives density 850 (800-1000) kg/m3 at 12 percent for Olea europaea, and a published study gives total tangential shrinkage 5.6 percent, so treat these pooled figures as an upper estimate.",
    },
    Species {
        name: "European beech", latin: "Fagus sylvatica", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.62), gravity_green: None, density_12_kg_m3: Some(690.0), density_source: "Gottwald (1970) and Wagenfuehr (1996) as quoted by a secondary page; another page gives 730",
        rupture_mpa: Some(118.0), elasticity_gpa: Some(14.7), compression_mpa: Some(61.0), shear_mpa: None, tension_across_mpa: None, hardness_n: None,
        shrink_radial_percent: Some(5.8), shrink_tangential_percent: Some(11.8), shrink_volume_percent: None,
        source: "Mean strength values from a secondary data sheet (MOR 118 MPa, MOE 14.7 GPa, compression 61 MPa, density 730 kg/m3); shrinkage from Gottwald/Wagenfuehr via secondary page",
        basis: Basis::Found, from_memory: "",
        notes: "specific_gravity_12pct = density/1120 (the source counts the water in its own 12 percent figure). ACGIH lists beech dust as A1. High movement; common European utensil wood.",
    },
    Species {
        name: "Sycamore maple", latin: "Acer pseudoplatanus", softwood: false, porosity: "diffuse",
        gravity_12: Some(0.57), gravity_green: None, density_12_kg_m3: Some(640.0), density_source: "secondary data sheet",
        rupture_mpa: Some(112.0), elasticity_gpa: Some(10.0), compression_mpa: Some(59.0), shear_mpa: None, tension_across_mpa: None, hardness_n: None,
        shrink_radial_percent: Some(3.9), shrink_tangential_percent: Some(8.2), shrink_volume_percent: None,
        source: "Secondary data sheet at 12 percent moisture: radial 3.3-4.5, tangential 8.0-8.5 (mid-points entered), MOR 112 MPa, MOE 10 GPa, compression 59 MPa",
        basis: Basis::Found, from_memory: "",
        notes: "specific_gravity_12pct = density/1120 (the source counts the water in its own 12 percent figure). Pale, fine, no marked taste; traditional European spoon and bowl wood.",
    },
];
