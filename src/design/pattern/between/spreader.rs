//! The spreader and the stirrer: a blade as the thin section between two far axes, its outline and its handle on axis A.
//!
//! Both faces are turned at radius `R` about marks `d` from the middle on either side: the blade's section is the lens of
//! two circles, `2 (R - d)` thick, with its edges cut off by the outline, a round about axis A.

use serde::{Deserialize, Serialize};

use super::bar::{Bar, pass};
use super::handle::{Handle, handle_row};
use super::sides::{FIRST_DEG, Section, Sides};
use super::spindle::{HANDLE_THICK, MARKS};
use crate::design::axis_name::AxisName;
use crate::design::cut::{AxisChoice, Cut};
use crate::design::pattern::handle_end::HandleEnd;
use crate::design::pattern::kind::{HANDLE, HANDLE_LENGTH, Kind, Listed, Look, Number, ends, number};
use crate::design::pattern::made::Made;
use crate::design::profile::Node;
use crate::design::validation::bounds::{self, Bound, MM};

/// What the turner chooses; everything else follows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Spreader {
    /// Length of the blade, in mm.
    pub blade_mm: f64,
    /// Greatest width of the blade, in mm.
    pub width_mm: f64,
    /// Width at the tip, in mm.
    pub tip_width_mm: f64,
    /// Thickness in the middle of the blade where it is widest, and as far as the handle, in mm.
    pub thickness_mm: f64,
    /// Thickness in the middle of the tip, in mm.
    pub tip_thickness_mm: f64,
    /// Thickness of the edges where the blade is widest, in mm: 0 is sharp.
    pub edge_mm: f64,
    /// Length from the blade to the end of the handle, in mm.
    pub handle_mm: f64,
    /// The handle.
    pub handle: Handle,
    /// Side of the square blank, in mm.
    pub blank_side_mm: f64,
}

impl Default for Spreader {
    /// An invented spreader for soft butter.
    fn default() -> Self {
        Self {
            blade_mm: 60.0,
            width_mm: 32.0,
            tip_width_mm: 26.0,
            thickness_mm: 12.5,
            tip_thickness_mm: 12.0,
            edge_mm: 0.0,
            handle_mm: 90.0,
            handle: Handle {
                neck_diameter_mm: 19.0,
                diameter_mm: 23.0,
                section: Section::Round,
                marks_mm: 15.0,
                end: HandleEnd::Round,
            },
            blank_side_mm: 54.0,
        }
    }
}

/// The part that outline, faces, sides and end shape together.
const PART: &str = "spreader";
const BLADE: &str = "Blade";
const BLANK: &str = "Blank";
const WIDTH: Bound = Bound { from: 4.0, to: 150.0, unit: MM };
const LENGTH: Bound = Bound { from: 20.0, to: 400.0, unit: MM };
const THICKNESS: Bound = Bound { from: 1.0, to: 60.0, unit: MM };
const EDGE: Bound = Bound { from: 0.0, to: 20.0, unit: MM };
/// Where the blade is widest, as a share of its length from the tip. A choice of ours, no source.
const WIDEST_AT: f64 = 0.45;
/// The length over which the faces run out to the handle over the blade's, and the share of the blade before it.
const SHOULDER: f64 = 0.3;
/// A blade is thicker than its edges by this share at least, so that its marks are somewhere.
const LEAST_SWELL: f64 = 0.1;

impl Spreader {
    /// An invented stirrer: a short narrow blade on a long handle.
    #[must_use]
    pub fn stirrer() -> Self {
        Self {
            blade_mm: 45.0,
            width_mm: 26.0,
            tip_width_mm: 22.0,
            thickness_mm: 13.5,
            tip_thickness_mm: 13.0,
            edge_mm: 0.0,
            handle_mm: 145.0,
            handle: Handle { neck_diameter_mm: 16.0, diameter_mm: 20.0, ..Self::default().handle },
            blank_side_mm: 46.0,
        }
    }

    /// How far the marks of both faces stand from the middle, in mm: so that an edge of this thickness stands where the
    /// outline is widest. Pythagoras, from mark to edge and from mark to face.
    #[must_use]
    pub fn marks_mm(&self) -> f64 {
        let (half_width, half) = (self.width_mm / 2.0, self.thickness_mm / 2.0);
        let swell = (self.thickness_mm - self.edge_mm).max(LEAST_SWELL * self.thickness_mm);
        ((half_width * half_width - half * half) / swell).clamp(MARKS.from, MARKS.to)
    }

    /// Length of the whole piece, in mm.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        self.blade_mm + self.handle_mm
    }

    fn bar(&self) -> Bar {
        Bar::straight(self.length_mm())
    }

    /// Where the blade has run out to the handle, in mm from the tail face.
    #[must_use]
    pub fn neck_at_mm(&self) -> f64 {
        self.bar().from() + self.blade_mm
    }

    /// The middle of the blade where it is widest, in mm from the tail face.
    #[must_use]
    pub fn widest_at_mm(&self) -> f64 {
        self.bar().from() + WIDEST_AT * self.blade_mm
    }

    /// Two marks on either side of the middle, toward corners of the blank, where there is most wood for them.
    fn axes(&self) -> Vec<AxisChoice> {
        let across = self.marks_mm() * FIRST_DEG.to_radians().sin();
        let mark = |out: f64| AxisChoice::Marks { tail_x_mm: out, tail_y_mm: out, head_x_mm: out, head_y_mm: out };
        [mark(across), mark(-across)].into_iter().chain(self.sides().axes()).collect()
    }

    /// The sides of its handle, their marks as far round from those of the faces as goes.
    fn sides(&self) -> Sides {
        let sides = self.handle.section.sides().max(1);
        let round_deg = if sides.is_multiple_of(2) { 180.0 } else { 90.0 } / sides as f64;
        self.handle.sides(self.neck_at_mm(), self.bar(), (3, FIRST_DEG + round_deg))
    }

    fn outline(&self) -> Vec<Node> {
        let bar = self.bar();
        let mut nodes = vec![
            Node::line(bar.turned_from(), self.tip_width_mm),
            Node::ogee(bar.from(), self.tip_width_mm),
            Node::ogee(self.widest_at_mm(), self.width_mm),
        ];
        nodes.extend(self.handle.outline(self.neck_at_mm(), bar));
        nodes
    }

    /// Either face, from beyond the tip to where it has run out to the neck.
    fn face(&self) -> Vec<Node> {
        let node = |at: f64, thickness_mm: f64| Node::line(at, 2.0 * self.marks_mm() + thickness_mm);
        let root = node(self.neck_at_mm() - SHOULDER * self.blade_mm, self.thickness_mm);
        vec![
            node(self.bar().turned_from(), self.tip_thickness_mm),
            node(self.bar().from(), self.tip_thickness_mm),
            node(self.widest_at_mm(), self.thickness_mm),
            Node::ogee(root.at_mm, root.diameter_mm),
            node(self.neck_at_mm(), self.handle.neck_diameter_mm.max(self.thickness_mm)),
        ]
    }

    /// The sides of the handle before the blade is thin, and its end when nothing else bears on it.
    fn passes(&self) -> Vec<Cut> {
        let bar = self.bar();
        let mut passes = vec![pass("outline", AxisName::A, self.outline(), PART)];
        passes.extend(self.handle.side_passes(&self.sides(), bar, PART));
        passes.push(pass("first face", AxisName::B, self.face(), PART));
        passes.push(pass("second face", AxisName::C, self.face(), PART));
        passes.extend(self.handle.end_pass(self.neck_at_mm(), bar, PART));
        passes
    }
}

impl Kind for Spreader {
    const TITLE: &'static str = "Spreader or stirrer";

    const NUMBERS: &'static [Number<Self>] = &[
        number!(blade_mm, BLADE, "Length", LENGTH, 30.0 to 120.0).cures(3),
        number!(width_mm, BLADE, "Width", WIDTH, 15.0 to 60.0).cures(2),
        number!(tip_width_mm, BLADE, "Width at the tip", WIDTH, 10.0 to 60.0).cures(4),
        number!(thickness_mm, BLADE, "Thickness", THICKNESS, 4.0 to 20.0)
            .note("In its middle: it thins to both edges.")
            .fine()
            .cures(1),
        number!(tip_thickness_mm, BLADE, "Thickness at the tip", THICKNESS, 3.0 to 20.0).fine().cures(1),
        number!(edge_mm, BLADE, "Thickness of the edges", EDGE, 0.0 to 5.0)
            .note("Where it is widest. Thicker edges need marks farther out.")
            .fine()
            .cures(2),
        number!(handle_mm, HANDLE, "Length", HANDLE_LENGTH, 60.0 to 300.0).cures(4),
        number!(handle.neck_diameter_mm, HANDLE, "Neck", HANDLE_THICK, 8.0 to 40.0).cures(3),
        number!(handle.diameter_mm, HANDLE, "Thickest", HANDLE_THICK, 10.0 to 50.0).cures(3),
        handle_row!(marks),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 150.0).cures(1),
    ];

    const LISTS: &'static [Listed<Self>] = &handle_row!(lists);

    fn made(&self) -> Made {
        self.bar().made(self.blank_side_mm, self.axes(), self.passes())
    }
}
