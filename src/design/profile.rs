//! Profiles as a turner draws them: diameters at stations, joined by lines, coves, beads and ogees.

use serde::{Deserialize, Serialize};

/// One node of a profile, and how the profile goes on from it to the next node.
///
/// Two nodes at the same station make a step.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Node {
    /// Distance along the axis, in mm.
    pub at_mm: f64,
    /// Diameter about the axis, in mm.
    pub diameter_mm: f64,
    /// The curve from here to the next node; of no effect on the last node.
    #[serde(default)]
    pub curve: Curve,
}

/// How two neighbouring nodes are joined.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Curve {
    /// A straight taper.
    #[default]
    Line,
    /// A circular arc whose middle stands off the straight line by `bulge_mm`: positive swells away from the axis
    /// (a bead), negative sinks toward it (a cove).
    Arc {
        /// Height of the arc over its chord, in mm.
        bulge_mm: f64,
    },
    /// A smooth S that leaves both nodes parallel to the axis.
    Ogee,
}

impl Node {
    /// A node followed by a straight taper.
    #[must_use]
    pub const fn line(at_mm: f64, diameter_mm: f64) -> Self {
        Self { at_mm, diameter_mm, curve: Curve::Line }
    }

    /// A node followed by an arc that stands off its chord by `bulge_mm`.
    #[must_use]
    pub const fn arc(at_mm: f64, diameter_mm: f64, bulge_mm: f64) -> Self {
        Self { at_mm, diameter_mm, curve: Curve::Arc { bulge_mm } }
    }

    /// A node followed by an ogee.
    #[must_use]
    pub const fn ogee(at_mm: f64, diameter_mm: f64) -> Self {
        Self { at_mm, diameter_mm, curve: Curve::Ogee }
    }
}
