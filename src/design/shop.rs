//! The shop: units, tools, machines and limits shared by every design.

use serde::{Deserialize, Serialize};

/// Settings shared by all designs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct Shop {
    /// Unit of lengths on screen.
    pub length_unit: LengthUnit,
    /// How inches are written.
    pub rounding: Rounding,
    /// Bits owned.
    pub bits: Vec<Bit>,
    /// The lathe.
    pub lathe: Lathe,
    /// The chuck.
    pub chuck: Chuck,
    /// The flat jaws to which wood is screwed.
    pub carrier: CarrierJaws,
    /// Footprints of the centres.
    pub centres: Centres,
    /// Limits and allowances.
    pub limits: Limits,
    /// Grits that the shop sands through, coarse to fine.
    pub grits: Vec<u32>,
    /// Woods of the turner's own, beside the table's; one of the same name stands before the table's.
    pub own_species: Vec<OwnSpecies>,
}

/// A wood that is not in the table, or one that the turner knows better.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct OwnSpecies {
    /// What it is called; a design keeps it.
    pub name: String,
    /// Density at 12 percent moisture, water included, in kg/m3.
    pub density_kg_m3: f64,
    /// Modulus of rupture of straight-grained wood at 12 percent moisture, in MPa.
    pub rupture_mpa: Option<f64>,
    /// Radial shrinkage from green to ovendry, percent of the green size.
    pub shrink_radial_percent: Option<f64>,
    /// Tangential shrinkage from green to ovendry, percent of the green size.
    pub shrink_tangential_percent: Option<f64>,
    /// Where the figures come from, and remarks.
    pub note: String,
}

/// Unit of lengths on screen; the document is always in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum LengthUnit {
    /// Millimetres.
    #[default]
    Millimetres,
    /// Inches of 25.4 mm.
    Inches,
}

/// How inches are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Rounding {
    /// Three decimals.
    Decimal,
    /// To the nearest 1/16.
    Sixteenths,
    /// To the nearest 1/32.
    #[default]
    ThirtySeconds,
    /// To the nearest 1/64.
    SixtyFourths,
}

/// A boring bit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Bit {
    /// What kind it is.
    pub kind: BitKind,
    /// Diameter of its cutting edge, in mm.
    pub diameter_mm: f64,
    /// How far its point reaches past its cutting edge, in mm.
    pub point_mm: f64,
    /// How deep it can bore, in mm.
    pub reach_mm: f64,
}

/// Kinds of boring bit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum BitKind {
    /// A rim-guided flat-bottomed bit.
    Forstner,
    /// A large flat-bottomed bit with a toothed rim.
    Sawtooth,
    /// A flat spade bit.
    Spade,
    /// A twist drill.
    Twist,
}

/// The lathe.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct Lathe {
    /// Largest diameter that turns over the bed, in mm.
    pub swing_over_bed_mm: f64,
    /// Largest diameter that turns over the tool-rest base, in mm.
    pub swing_over_rest_mm: f64,
    /// Distance between centres, in mm.
    pub between_centres_mm: f64,
    /// Lowest speed, in revolutions per minute.
    pub lowest_rpm: f64,
    /// Highest speed, in revolutions per minute.
    pub highest_rpm: f64,
    /// The out-of-balance force on one centre that the turner accepts, in N.
    pub force_limit_n: f64,
    /// The largest bit its tailstock and drive can push, in mm.
    pub largest_bit_mm: f64,
    /// How far the drill chuck reaches out of the tailstock, in mm.
    pub drill_chuck_mm: f64,
}

/// The chuck.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct Chuck {
    /// Smallest tenon it grips, in mm.
    pub jaw_from_mm: f64,
    /// Largest tenon it grips, in mm.
    pub jaw_to_mm: f64,
    /// Depth of its jaws, in mm.
    pub jaw_depth_mm: f64,
    /// How far the front of its jaws stands from the end of the spindle, in mm.
    pub length_mm: f64,
    /// How many times the gripped diameter the work may stand out of the jaws while it is bored without support.
    pub overhang_times: f64,
}

/// Flat jaws of the chuck, four of them, that carry wooden jaws on screws.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct CarrierJaws {
    /// Diameter of the closed ring, in mm.
    pub diameter_mm: f64,
    /// Diameter of the circle on which the screws stand, in mm.
    pub screw_circle_mm: f64,
    /// How far their face stands from the end of the spindle, in mm.
    pub reach_mm: f64,
    /// What the saw that quarters the wood takes, in mm.
    pub saw_kerf_mm: f64,
}

/// Footprints of the centres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct Centres {
    /// Diameter of the drive centre's footprint, in mm.
    pub drive_diameter_mm: f64,
    /// Diameter of the live centre's footprint, in mm.
    pub live_diameter_mm: f64,
    /// Wood wanted around a footprint, in mm.
    pub margin_mm: f64,
    /// How much of a footprint may overlap that of an earlier mark, in percent of its diameter.
    pub overlap_percent: f64,
}

/// Limits and allowances of the shop.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct Limits {
    /// Thinnest wall wanted, in mm.
    pub wall_mm: f64,
    /// Thinnest floor wanted, in mm.
    pub floor_mm: f64,
    /// Added to what a later pass needs when the join is proposed, in mm on the radius.
    pub finishing_allowance_mm: f64,
    /// Left by the boring bits for the scraper, in mm.
    pub scraping_allowance_mm: f64,
    /// How far, at most, straight tapers may stand above the join, in mm on the radius.
    pub join_spare_mm: f64,
    /// Widest flat that sanding takes out, in mm.
    pub flat_width_mm: f64,
    /// Deepest bore before a warning, in mm.
    pub bore_depth_mm: f64,
    /// How much one diameter of a bore may end up greater than another as the wood dries, in mm.
    pub out_of_round_mm: f64,
    /// The turner's usual error in a length, in mm.
    pub usual_error_mm: f64,
    /// How many times the load in use a neck should bear.
    pub strength_factor: f64,
}

/// Limits of one design that differ from the shop's; absent means as in the shop.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct LimitChoices {
    /// Thinnest wall wanted, in mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall_mm: Option<f64>,
    /// Thinnest floor wanted, in mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub floor_mm: Option<f64>,
    /// Added to what a later pass needs, in mm on the radius.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub finishing_allowance_mm: Option<f64>,
    /// How far straight tapers may stand above the join, in mm on the radius.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub join_spare_mm: Option<f64>,
}

impl LimitChoices {
    /// The shop's limits with this design's choices laid over them.
    #[must_use]
    pub fn over(&self, shop: &Limits) -> Limits {
        Limits {
            wall_mm: self.wall_mm.unwrap_or(shop.wall_mm),
            floor_mm: self.floor_mm.unwrap_or(shop.floor_mm),
            finishing_allowance_mm: self.finishing_allowance_mm.unwrap_or(shop.finishing_allowance_mm),
            join_spare_mm: self.join_spare_mm.unwrap_or(shop.join_spare_mm),
            ..*shop
        }
    }
}

impl Default for Shop {
    /// An invented small shop; grits are common practice, no source.
    fn default() -> Self {
        let forstner = |sixteenths: f64| Bit {
            kind: BitKind::Forstner,
            diameter_mm: sixteenths * 25.4 / 16.0,
            point_mm: 3.0,
            reach_mm: 90.0,
        };
        Self {
            length_unit: LengthUnit::default(),
            rounding: Rounding::default(),
            bits: [12.0, 16.0, 18.0, 20.0, 22.0, 24.0, 26.0, 28.0, 32.0].map(forstner).to_vec(),
            lathe: Lathe::default(),
            chuck: Chuck::default(),
            carrier: CarrierJaws::default(),
            centres: Centres::default(),
            limits: Limits::default(),
            grits: vec![120, 180, 240, 320],
            own_species: Vec::new(),
        }
    }
}

impl Default for Lathe {
    /// Common practice, no source: a 12 in lathe.
    fn default() -> Self {
        Self {
            swing_over_bed_mm: 305.0,
            swing_over_rest_mm: 240.0,
            between_centres_mm: 500.0,
            lowest_rpm: 250.0,
            highest_rpm: 3500.0,
            force_limit_n: 60.0,
            largest_bit_mm: 54.0,
            drill_chuck_mm: 60.0,
        }
    }
}

impl Chuck {
    /// The length of a tenon for jaws of this depth, in mm: a little shorter, so that its shoulder seats on them. Common
    /// practice, no source.
    #[must_use]
    pub fn tenon_mm(jaw_depth_mm: f64) -> f64 {
        (jaw_depth_mm - 1.0).max(0.75 * jaw_depth_mm)
    }

    /// The diameter of a tenon on a blank of this width, in mm: as wide as the blank lets it be with a shoulder, within
    /// what the jaws take. Common practice, no source.
    #[must_use]
    pub fn tenon_diameter_mm(&self, blank_width_mm: f64) -> f64 {
        (blank_width_mm - 4.0).min(self.jaw_to_mm - 2.0).max(self.jaw_from_mm)
    }
}

impl Default for Chuck {
    /// Common practice, no source: 50 mm jaws.
    fn default() -> Self {
        Self { jaw_from_mm: 38.0, jaw_to_mm: 70.0, jaw_depth_mm: 8.0, length_mm: 60.0, overhang_times: 4.0 }
    }
}

impl Default for CarrierJaws {
    /// Common practice, no source: flat jaws of a small chuck.
    fn default() -> Self {
        Self { diameter_mm: 140.0, screw_circle_mm: 100.0, reach_mm: 72.0, saw_kerf_mm: 2.0 }
    }
}

impl Default for Centres {
    /// Common practice, no source: a 20 mm drive centre and a 12 mm cup.
    fn default() -> Self {
        Self { drive_diameter_mm: 20.0, live_diameter_mm: 12.0, margin_mm: 3.0, overlap_percent: 75.0 }
    }
}

impl Default for Limits {
    /// Common practice, no source.
    fn default() -> Self {
        Self {
            wall_mm: 3.0,
            floor_mm: 4.0,
            finishing_allowance_mm: 0.5,
            scraping_allowance_mm: 0.5,
            join_spare_mm: 1.0,
            flat_width_mm: 1.0,
            bore_depth_mm: 50.0,
            out_of_round_mm: 0.5,
            usual_error_mm: 0.5,
            strength_factor: 3.0,
        }
    }
}
