//! A design: the blank, its axes and the cuts in working order.
//!
//! Stations are in mm. `s` runs along the blank from the finished bowl-end face (0) toward the head end. Held by the
//! handle with the opening up and the bowl pointing away, `x` is to the right and `y` up. Clock directions are as
//! held: 0 deg is up (12 o'clock), 90 deg is right (3 o'clock).

use serde::{Deserialize, Serialize};

use super::cut::{AxisChoice, Blank, BlankSection, Cut, OffCut, Plug};
use super::log::Making;
use super::pattern::Pattern;
use super::shop::LimitChoices;

/// One piece, as decided by the turner.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Design {
    /// The design's name.
    pub name: String,
    /// Free text.
    #[serde(default)]
    pub notes: String,
    /// What it is made of.
    pub wood: Wood,
    /// The pattern that it is made from, with the turner's choices; absent for a free piece. Blank, axes and cuts are
    /// written in full all the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pattern: Option<Pattern>,
    /// The wood at the start.
    pub blank: Blank,
    /// Axes B, C, D...; axis A is the blank's own and is not listed.
    #[serde(default)]
    pub axes: Vec<AxisChoice>,
    /// The cuts, in working order.
    pub cuts: Vec<Cut>,
    /// The cuts that are switched off, by their places: no figure, drawing or step knows of them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub off: Vec<OffCut>,
    /// What the utensil is meant to hold: a name from the table of contents.
    pub contents: String,
    /// How hard it is used.
    #[serde(default)]
    pub duty: Duty,
    /// Limits that differ from the shop's.
    #[serde(default)]
    pub limits: LimitChoices,
    /// The steps that are ticked while it is being made, each by the plan's name for it.
    #[serde(default)]
    pub done: Vec<String>,
    /// Each time it was made.
    #[serde(default)]
    pub log: Vec<Making>,
}

/// The wood.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Wood {
    /// Common name, from the table of species.
    pub species: String,
    /// Moisture content while it is worked, percent of dry mass.
    pub moisture_percent: f64,
    /// What it dries to in use.
    #[serde(default)]
    pub in_use: InUse,
    /// How wood is worked that would go out of round as it dries.
    #[serde(default)]
    pub green: Green,
}

/// How wood is worked that would go out of round as it dries.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Green {
    /// Nothing is said of it.
    #[default]
    Unsaid,
    /// It is roughed out oversize, dried, and then finished.
    RoughFirst,
    /// It is finished now, and may go out of round: it is wanted so.
    LeftOval,
}

/// What the wood's moisture settles at in use.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum InUse {
    /// The moisture content itself.
    Moisture {
        /// Percent of dry mass.
        moisture_percent: f64,
    },
    /// The air it is kept in, with which it comes to rest.
    Air {
        /// Temperature, in degrees Celsius.
        temperature_c: f64,
        /// Relative humidity, in percent.
        humidity_percent: f64,
    },
}

impl Default for InUse {
    /// A lived-in room. Common practice, no source.
    fn default() -> Self {
        Self::Air { temperature_c: 20.0, humidity_percent: 50.0 }
    }
}

/// How hard a utensil is used: what its lip has to bear.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Duty {
    /// Dry goods and thin liquids.
    Light,
    /// Stirring and serving.
    #[default]
    Ordinary,
    /// Dough, frozen food, levering.
    Heavy,
}

impl Design {
    /// The plug that is turned on the end of the blank before it is bored, and the cut that fits it: the first plug,
    /// when it has a tenon of its own and its disc comes out of the blank. Any other is made from waste.
    #[must_use]
    pub fn plug_of_blank(&self) -> Option<(usize, &Plug)> {
        let plug = self.cuts.iter().enumerate().find_map(|(cut, choice)| match choice {
            Cut::FitPlug(plug) => Some((cut, plug)),
            _ => None,
        });
        let (BlankSection::Square { side_mm: width } | BlankSection::Round { diameter_mm: width }) = self.blank.section;
        plug.filter(|(_, plug)| plug.tenon.is_some() && plug.disc_diameter_mm <= width)
    }

    /// The length of wood to cut, in mm: the blank, and before its bowl end the wood of the plug that is made from it.
    #[must_use]
    pub fn length_to_cut_mm(&self) -> f64 {
        self.blank.length_mm + self.plug_of_blank().map_or(0.0, |(_, plug)| plug.wood_mm())
    }
}
