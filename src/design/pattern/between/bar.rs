//! The bar that a piece is turned from between centres: its waste at both ends, its outline and its partings.

use crate::design::axis_name::AxisName;
use crate::design::cut::{AxisChoice, Blank, BlankSection, Cut, EndPlane, Pass, PassProfile, Side};
use crate::design::pattern::made::Made;
use crate::design::profile::Node;

/// Square wood at either end, for the centres, in mm: deeper than their spurs. Common practice, no source.
const STUB_MM: f64 = 12.0;
/// What is turned beyond the piece at either end, for the parting tool, in mm. Common practice, no source.
const BEYOND_MM: f64 = 5.0;

/// Where a piece lies in its blank.
#[derive(Clone, Copy)]
pub(super) struct Bar {
    /// Length of the piece, in mm.
    pub(super) piece_mm: f64,
    /// How far shoulders that are not square to the blank lean along it, at most, in mm.
    pub(super) lean_mm: f64,
}

impl Bar {
    /// A bar whose every shoulder is square to it.
    pub(super) fn straight(piece_mm: f64) -> Self {
        Self { piece_mm, lean_mm: 0.0 }
    }

    /// Where turning begins, in mm from the tail face.
    pub(super) fn turned_from(self) -> f64 {
        STUB_MM
    }

    /// Where the piece begins, in mm from the tail face.
    pub(super) fn from(self) -> f64 {
        STUB_MM + BEYOND_MM + 2.0 * self.lean_mm
    }

    /// Where the piece ends.
    pub(super) fn to(self) -> f64 {
        self.from() + self.piece_mm
    }

    /// Where turning ends.
    pub(super) fn turned_to(self) -> f64 {
        self.to() + self.from() - STUB_MM
    }

    /// The length of the blank, in mm.
    pub(super) fn blank_mm(self) -> f64 {
        self.to() + self.from()
    }

    /// The piece, with its axes and its passes; its ends are parted last.
    pub(super) fn made(self, side_mm: f64, axes: Vec<AxisChoice>, passes: Vec<Cut>) -> Made {
        let part = |at_mm: f64, removes: Side| Cut::Part(EndPlane { axis: AxisName::A, at_mm, removes });
        let ends = [part(self.from(), Side::Tail), part(self.to(), Side::Head)];
        Made {
            blank: Blank { section: BlankSection::Square { side_mm }, length_mm: self.blank_mm() },
            thickness: None,
            axes,
            cuts: passes.into_iter().chain(ends).collect(),
        }
    }
}

/// A pass over its nodes that shapes a part with others.
pub(super) fn pass(name: &str, axis: AxisName, nodes: Vec<Node>, shapes: &str) -> Cut {
    let end = |node: Option<&Node>| node.map_or(0.0, |node| node.at_mm);
    Cut::Pass(Pass {
        name: name.to_owned(),
        axis,
        from_mm: end(nodes.first()),
        to_mm: end(nodes.last()),
        profile: PassProfile::Drawn { nodes },
        shapes: Some(shapes.to_owned()),
    })
}

/// The radius at a station of straight tapers between (station, radius) points; that of the nearest end beyond them.
pub(super) fn tapered(points: &[(f64, f64)], at_mm: f64) -> f64 {
    let Some((first, last)) = points.first().zip(points.last()) else { return 0.0 };
    if at_mm <= first.0 {
        return first.1;
    }
    for pair in points.windows(2) {
        let [(from, a), (to, b)] = pair else { continue };
        if at_mm <= *to {
            return a + (b - a) * ((at_mm - from) / (to - from)).clamp(0.0, 1.0);
        }
    }
    last.1
}
