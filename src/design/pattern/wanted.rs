//! What a piece was wanted for, beside what its other choices say.

use serde::{Deserialize, Serialize};

/// What a piece was wanted for when it was looked for. Wood and contents stand in the design, tilt and handle among the
/// choices.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Wanted {
    /// What it should hold level with its handle, in mm3: dry goods struck, a liquid as it stands.
    pub holds_mm3: f64,
    /// The blank on hand; absent where the least that will do was looked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blank: Option<BlankOnHand>,
    /// Whether as much tilt was wanted as goes.
    pub most_tilt: bool,
    /// Whether it is bored with bits that the shop has only.
    pub own_bits_only: bool,
}

/// A square blank that lies ready.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BlankOnHand {
    /// Its side, in mm.
    pub side_mm: f64,
    /// Its length, in mm; absent where it is as long as it takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_mm: Option<f64>,
}
