//! The blank, its axes and the cuts.
//!
//! Stations, `x`, `y` and clock directions are as in [`document`](super::document).

use serde::{Deserialize, Serialize};

use super::axis_name::AxisName;
use super::profile::Node;

/// The blank: wood from s = 0 to its length, about axis A.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Blank {
    /// Square or round.
    pub section: BlankSection,
    /// From the bowl-end face to the head face, tenon and waste included, in mm.
    pub length_mm: f64,
}

/// The blank's cross-section.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum BlankSection {
    /// A square with its sides parallel to x and y.
    Square {
        /// Side, in mm.
        side_mm: f64,
    },
    /// A round.
    Round {
        /// Diameter, in mm.
        diameter_mm: f64,
    },
}

/// How an axis after A is placed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum AxisChoice {
    /// By its marks on the tail face and on the head face.
    Marks {
        /// x of the mark on the tail face, in mm.
        tail_x_mm: f64,
        /// y of the mark on the tail face, in mm.
        tail_y_mm: f64,
        /// x of the mark on the head face, in mm.
        head_x_mm: f64,
        /// y of the mark on the head face, in mm.
        head_y_mm: f64,
    },
    /// By a wanted tilt and the station where it crosses axis A.
    Tilt {
        /// Angle to axis A, in degrees, 0 to 60.
        tilt_deg: f64,
        /// The clock direction toward which it moves on its way to the head end, in degrees.
        toward_deg: f64,
        /// Where it crosses axis A, in mm.
        crossing_mm: f64,
    },
    /// Square to the blank, through axis A; `t` is 0 on axis A and grows into the wood, away from `from_deg`.
    Across {
        /// The station on axis A, in mm.
        station_mm: f64,
        /// The clock direction it comes from, in degrees: 0 for a bowl that opens upward.
        from_deg: f64,
    },
}

/// One step that takes wood away, or fits or takes out the plug.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Cut {
    /// A pass: outside turning on one axis.
    Pass(Pass),
    /// A bore or another hollow.
    Hollow(Hollow),
    /// The plug goes in.
    FitPlug(Plug),
    /// The plug comes out.
    TakeOutPlug,
    /// A saw cut that opens the hollow.
    Saw(SawCut),
    /// Wood beyond a plane goes, and a hollow may open there.
    Face(EndPlane),
    /// Wood beyond a plane goes, and the plane is part of the outside.
    Part(EndPlane),
}

/// A cut that is switched off.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct OffCut {
    /// Its place among the cuts, from 0, when it is switched on again.
    pub place: usize,
    /// The cut as it was.
    pub cut: Cut,
}

impl Cut {
    /// The axis it stands on; none for a plug and a saw cut.
    pub(crate) const fn axis_mut(&mut self) -> Option<&mut AxisName> {
        match self {
            Self::Pass(pass) => Some(&mut pass.axis),
            Self::Hollow(hollow) => Some(&mut hollow.axis),
            Self::Face(plane) | Self::Part(plane) => Some(&mut plane.axis),
            Self::FitPlug(_) | Self::TakeOutPlug | Self::Saw(_) => None,
        }
    }
}

/// Outside turning on one axis.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Pass {
    /// What the turner calls it: "bowl", "handle", "tenon".
    pub name: String,
    /// The axis it turns on.
    pub axis: AxisName,
    /// Where it starts, toward the tail, in mm along its axis.
    pub from_mm: f64,
    /// Where it ends, toward the head, in mm along its axis.
    pub to_mm: f64,
    /// The finished diameters.
    pub profile: PassProfile,
    /// The part that it shapes together with every other pass that names the same one, such as a handle whose sides are
    /// turned on several axes: they overlap on purpose, and only what comes after all of them has to find its wood.
    /// Absent for a pass that overlaps no other on purpose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shapes: Option<String>,
}

/// The diameters of a pass.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum PassProfile {
    /// As drawn; the nodes cover the whole pass.
    Drawn {
        /// Diameters at stations along the pass's own axis.
        nodes: Vec<Node>,
    },
    /// The proposed join: the fewest straight tapers that keep the wanted wall over every hollow and leave what every
    /// later pass needs.
    Join,
}

/// A solid of revolution taken out of the inside.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Hollow {
    /// The axis it is hollowed on.
    pub axis: AxisName,
    /// Where the finished hollow starts, in mm along its axis; it is open there.
    pub mouth_mm: f64,
    /// Its shape; stations inside it count from the mouth.
    pub shape: HollowShape,
}

/// The finished shape of a hollow, stations counted from its mouth into the wood.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum HollowShape {
    /// A straight bore with a rounded corner at its floor.
    RoundEnded {
        /// Finished diameter, in mm.
        diameter_mm: f64,
        /// Finished depth, in mm.
        depth_mm: f64,
        /// Radius of the corner between side and floor, in mm: 0 leaves it square.
        rounding_mm: f64,
    },
    /// As drawn.
    Drawn {
        /// Diameters at stations from the mouth.
        nodes: Vec<Node>,
    },
}

/// The plug that carries the tail centre over a bored end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Plug {
    /// Diameter of the disc that stands on the bowl-end face, in mm.
    pub disc_diameter_mm: f64,
    /// Thickness of the disc, in mm: the tail face is this far before the bowl-end face, and by the tenon's length more.
    pub thickness_mm: f64,
    /// Diameter of the spigot in the bore, in mm.
    pub spigot_diameter_mm: f64,
    /// Length of the spigot, in mm.
    pub spigot_length_mm: f64,
    /// The tenon on its outer face, by which the chuck holds it while its spigot is fitted; absent for a plug that is
    /// turned on the end of a piece of waste.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tenon: Option<PlugTenon>,
}

/// The short tenon on the outer face of a plug.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PlugTenon {
    /// Diameter, in mm: no wider than the disc.
    pub diameter_mm: f64,
    /// Length, in mm: the live centre bears on its end.
    pub length_mm: f64,
}

/// Wood for parting the plug off the blank and truing the end that is left, in mm. Common practice, no source.
const PLUG_PARTING_MM: f64 = 5.0;

impl Plug {
    /// How far it stands out before the bowl-end face, in mm.
    #[must_use]
    pub fn stands_out_mm(&self) -> f64 {
        self.thickness_mm + self.tenon.map_or(0.0, |tenon| tenon.length_mm)
    }

    /// The length of wood that it takes, spigot and parting included, in mm.
    #[must_use]
    pub(super) fn wood_mm(&self) -> f64 {
        self.stands_out_mm() + self.spigot_length_mm + PLUG_PARTING_MM
    }
}
/// A saw cut: what is above its path goes, across all x, between its ends and beyond its bowl-side end.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct SawCut {
    /// The line in the side view.
    pub path: SawPath,
}

/// The line of a saw cut in the side view, from the bowl end toward the handle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum SawPath {
    /// Straight from point to point; two points make a straight cut.
    Lines {
        /// At least two points, their stations growing.
        points: Vec<SawPoint>,
    },
    /// A circular arc.
    Arc {
        /// The bowl-side end.
        from: SawPoint,
        /// The handle-side end.
        to: SawPoint,
        /// Height of the arc over its chord, in mm: positive bows upward, negative sags.
        bulge_mm: f64,
    },
}

/// A point of the side view.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct SawPoint {
    /// Station along the blank, in mm.
    pub at_mm: f64,
    /// Height over axis A (y), in mm.
    pub height_mm: f64,
}

/// A plane square to an axis, and the side of it that goes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EndPlane {
    /// The axis it is square to.
    pub axis: AxisName,
    /// Where it stands, in mm along that axis.
    pub at_mm: f64,
    /// The side that is taken away.
    pub removes: Side,
}

/// A side of a plane square to an axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Toward the tail: smaller stations.
    Tail,
    /// Toward the head: greater stations.
    Head,
}
