//! The handle of a piece that is turned between centres: its outline, its sides, and its end, which is turned last.

use serde::{Deserialize, Serialize};

use super::bar::{Bar, pass};
use super::sides::{Section, Sides};
use crate::design::axis_name::AxisName;
use crate::design::cut::Cut;
use crate::design::pattern::handle_end::HandleEnd;
use crate::design::profile::Node;

/// Where a handle is thickest, as a share of its length from the neck. A choice of ours, no source.
const THICKEST_AT: f64 = 0.6;
/// A handle before its end over its thickest, as its end has it.
const SLIM: f64 = 0.8;
/// The most of a handle that its end may take.
const MOST_END: f64 = 0.25;

/// The choices of a handle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Handle {
    /// Diameter of the neck, in mm.
    pub neck_diameter_mm: f64,
    /// Greatest diameter, in mm: across the corners where it has sides.
    pub diameter_mm: f64,
    /// Its section.
    pub section: Section,
    /// Distance of the marks of its sides from the middle, in mm.
    pub marks_mm: f64,
    /// How it ends: not with a hook.
    pub end: HandleEnd,
}

impl Handle {
    pub(super) fn has_sides(&self) -> bool {
        self.section != Section::Round
    }

    fn end_mm(&self, from: f64, bar: Bar) -> f64 {
        self.end.length_mm(self.diameter_mm).min(MOST_END * (bar.to() - from))
    }

    /// The corners of its outline from the neck to the end of the piece: stations and radii, in mm.
    fn corners(&self, from: f64, bar: Bar) -> [(f64, f64); 3] {
        let last = if self.end == HandleEnd::Knob { self.diameter_mm } else { SLIM * self.diameter_mm };
        let slim_at = bar.to() - self.end_mm(from, bar);
        let widest = from + THICKEST_AT * (slim_at - from);
        [(from, self.neck_diameter_mm / 2.0), (widest, self.diameter_mm / 2.0), (slim_at, last / 2.0)]
    }

    /// The nodes of its outline from the neck on to beyond the end of the piece.
    pub(super) fn outline(&self, from: f64, bar: Bar) -> Vec<Node> {
        let corners = self.corners(from, bar);
        // Sides follow straight tapers.
        let node = if self.has_sides() { Node::line } else { Node::ogee };
        let beyond = Node::line(bar.turned_to(), 2.0 * corners[2].1);
        corners.iter().map(|(at, radius)| node(*at, 2.0 * radius)).chain([beyond]).collect()
    }

    /// Its sides, from the neck to its end.
    pub(super) fn sides(&self, from: f64, bar: Bar, (axes_before, first_deg): (usize, f64)) -> Sides {
        Sides {
            section: self.section,
            first_deg,
            marks_mm: self.marks_mm,
            winds_deg: 0.0,
            from_mm: from,
            to_mm: bar.to() - self.end_mm(from, bar),
            runs_out: (true, true),
            axes_before,
            blank_mm: bar.blank_mm(),
        }
    }

    /// The passes of its sides.
    pub(super) fn side_passes(&self, sides: &Sides, bar: Bar, shapes: &str) -> Vec<Cut> {
        sides.passes(&self.corners(sides.from_mm, bar), shapes)
    }

    /// Its end, turned last on axis A; none where it is parted off plain.
    pub(super) fn end_pass(&self, from: f64, bar: Bar, shapes: &str) -> Option<Cut> {
        let nodes = self.end.nodes(self.diameter_mm, bar.to(), self.end_mm(from, bar));
        (nodes.len() > 1).then(|| pass("end", AxisName::A, nodes, shapes))
    }
}

/// What the screen shows alike of every piece with such a handle, in its own `impl`: the row of its marks, and its lists.
macro_rules! handle_row {
    (marks) => {
        number!(handle.marks_mm, HANDLE, "Marks of its sides from the middle", MARKS, 8.0 to 40.0)
            .note("The farther out, the flatter the sides.")
            .only_if(|it| it.handle.has_sides())
            .cures(3)
    };
    (lists) => {
        [
            Listed {
                section: HANDLE,
                label: "Section",
                names: &Section::NAMES,
                read: |it| it.handle.section as usize,
                change: |it, which| it.handle.section = Section::ALL.get(which).copied().unwrap_or(it.handle.section),
            },
            ends!(handle.end),
        ]
    };
}
pub(super) use handle_row;
