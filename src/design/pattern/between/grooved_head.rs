//! The grooved head: a round head with grooves that repeat along it, on a handle.

use serde::{Deserialize, Serialize};

use super::bar::{Bar, pass};
use super::handle::{Handle, handle_row};
use super::sides::{FIRST_DEG, Section};
use super::spindle::{HANDLE_THICK, MARKS};
use crate::design::axis_name::AxisName;
use crate::design::pattern::handle_end::HandleEnd;
use crate::design::pattern::kind::{HANDLE, HANDLE_LENGTH, Kind, Listed, Look, Number, ends, number};
use crate::design::pattern::made::Made;
use crate::design::profile::Node;
use crate::design::validation::bounds::{self, Bound, MM};

/// What the turner chooses; everything else follows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct GroovedHead {
    /// Greatest diameter of the head, in mm.
    pub head_diameter_mm: f64,
    /// Its diameter at the tip and at the handle, in mm.
    pub end_diameter_mm: f64,
    /// Length of the head, in mm.
    pub head_mm: f64,
    /// How many grooves it has: rounded down.
    pub grooves: f64,
    /// Width of a groove, as a share of the distance from one to the next.
    pub groove_share: f64,
    /// Depth of the grooves, in mm.
    pub groove_depth_mm: f64,
    /// Length from the head to the end of the handle, in mm.
    pub handle_mm: f64,
    /// The handle.
    pub handle: Handle,
    /// Side of the square blank, in mm.
    pub blank_side_mm: f64,
}

impl Default for GroovedHead {
    /// An invented honey dipper.
    fn default() -> Self {
        Self {
            head_diameter_mm: 32.0,
            end_diameter_mm: 24.0,
            head_mm: 42.0,
            grooves: 6.0,
            groove_share: 0.6,
            groove_depth_mm: 5.0,
            handle_mm: 115.0,
            handle: Handle {
                neck_diameter_mm: 12.0,
                diameter_mm: 16.0,
                section: Section::Round,
                marks_mm: 15.0,
                end: HandleEnd::Round,
            },
            blank_side_mm: 38.0,
        }
    }
}

const PART: &str = "handle";
const HEAD: &str = "Head";
const BLANK: &str = "Blank";
const LENGTH: Bound = Bound { from: 10.0, to: 300.0, unit: MM };
const THICK: Bound = Bound { from: 8.0, to: 200.0, unit: MM };
const GROOVES: Bound = Bound { from: 1.0, to: 20.0, unit: "" };
const SHARE: Bound = Bound { from: 0.1, to: 0.9, unit: "" };
const DEPTH: Bound = Bound { from: 0.2, to: 50.0, unit: MM };
/// Length of the neck behind the head, in mm, and the most of the handle.
const NECK_MM: f64 = 12.0;
const MOST_NECK: f64 = 0.2;
/// What is left in the middle under a groove at least, as a share of the head.
const LEAST_LEFT: f64 = 0.2;

impl GroovedHead {
    /// The radius of the head at a share of its length, in mm: a parabola, widest in the middle.
    fn radius_mm(&self, share: f64) -> f64 {
        let (most, least) = (self.head_diameter_mm / 2.0, self.end_diameter_mm / 2.0);
        most - (most - least) * (2.0 * share - 1.0).powi(2)
    }

    /// Ridges and square grooves by turns, a ridge at both ends.
    fn head(&self) -> Vec<Node> {
        let count = self.grooves.clamp(GROOVES.from, GROOVES.to).floor();
        let pitch = self.head_mm / (count + (1.0 - self.groove_share));
        let ridge = pitch * (1.0 - self.groove_share);
        let node = |at: f64, less: f64| {
            let radius = self.radius_mm(at / self.head_mm);
            Node::line(self.bar().from() + at, 2.0 * (radius - less).max(LEAST_LEFT * radius))
        };
        let mut nodes = vec![Node::line(self.bar().turned_from(), self.end_diameter_mm), node(0.0, 0.0)];
        for groove in 0..count as u32 {
            let from = f64::from(groove) * pitch + ridge;
            let to = from + pitch - ridge;
            let depth = self.groove_depth_mm;
            nodes.extend([node(from, 0.0), node(from, depth), node(to, depth), node(to, 0.0)]);
        }
        nodes.push(node(self.head_mm, 0.0));
        nodes
    }

    fn bar(&self) -> Bar {
        Bar::straight(self.length_mm())
    }

    /// Length of the whole piece, in mm.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        self.head_mm + self.handle_mm
    }
}

impl Kind for GroovedHead {
    const TITLE: &'static str = "Grooved head";

    const NUMBERS: &'static [Number<Self>] = &[
        number!(head_diameter_mm, HEAD, "Thickest", THICK, 15.0 to 60.0).cures(3),
        number!(end_diameter_mm, HEAD, "At both ends", THICK, 10.0 to 60.0).cures(3),
        number!(head_mm, HEAD, "Length", LENGTH, 20.0 to 100.0).cures(4),
        number!(grooves, HEAD, "Grooves", GROOVES, 2.0 to 12.0),
        number!(groove_share, HEAD, "Width of a groove", SHARE, 0.2 to 0.8)
            .note("As a share of the distance from one groove to the next.")
            .fine(),
        number!(groove_depth_mm, HEAD, "Depth of the grooves", DEPTH, 1.0 to 12.0).fine().cures(2),
        number!(handle_mm, HANDLE, "Length", HANDLE_LENGTH, 60.0 to 300.0).cures(3),
        number!(handle.neck_diameter_mm, HANDLE, "Neck", HANDLE_THICK, 8.0 to 40.0).cures(2),
        number!(handle.diameter_mm, HANDLE, "Thickest", HANDLE_THICK, 10.0 to 50.0).cures(2),
        handle_row!(marks),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 150.0).cures(1),
    ];

    const LISTS: &'static [Listed<Self>] = &handle_row!(lists);

    fn made(&self) -> Made {
        let bar = self.bar();
        let neck_at = bar.from() + self.head_mm + NECK_MM.min(MOST_NECK * self.handle_mm);
        let mut nodes = self.head();
        if let Some(last) = nodes.last_mut() {
            *last = Node::ogee(last.at_mm, last.diameter_mm);
        }
        nodes.extend(self.handle.outline(neck_at, bar));
        let sides = self.handle.sides(neck_at, bar, (1, FIRST_DEG));
        let mut passes = vec![pass("outline", AxisName::A, nodes, PART)];
        passes.extend(self.handle.side_passes(&sides, bar, PART));
        passes.extend(self.handle.end_pass(neck_at, bar, PART));
        bar.made(self.blank_side_mm, sides.axes(), passes)
    }
}
