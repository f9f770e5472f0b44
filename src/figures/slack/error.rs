//! Errors of the work, put into a design.

use serde::{Deserialize, Serialize};

use crate::design::{AxisChoice, AxisName, Cut, Design, Hollow, HollowShape, Node, Pass, PassProfile};
use crate::geometry::{Axis, Station, Vector};
use crate::piece::Piece;

/// What can be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// A mark on the tail face, to the right.
    TailX,
    /// A mark on the tail face, up.
    TailY,
    /// A mark on the head face, to the right.
    HeadX,
    /// A mark on the head face, up.
    HeadY,
    /// The depth of a hollow.
    HollowDepth,
    /// The diameter of a hollow, all along it.
    HollowDiameter,
    /// How far a bore has run off to the right at its floor.
    WanderX,
    /// How far a bore has run off upward at its floor.
    WanderY,
    /// The diameter of a pass, all along it.
    OutsideDiameter,
    /// The end of a pass toward the tail: more is farther to the head.
    PassFrom,
    /// The end of a pass toward the head: more is farther to the head.
    PassTo,
}

/// One thing that can be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fallible {
    /// What it is.
    pub what: What,
    /// The axis it belongs to, for a mark.
    pub axis: Option<AxisName>,
    /// The cut it belongs to, by its place in working order from 0.
    pub cut: Option<usize>,
}

/// Everything that can be off in a design: the marks of each moved axis, each hollow, each pass.
pub(super) fn all(design: &Design) -> Vec<Fallible> {
    let mut found = Vec::new();
    let mut add = |axis, cut, all: &[What]| found.extend(all.iter().map(|what| Fallible { what: *what, axis, cut }));
    for (index, choice) in design.axes.iter().enumerate() {
        let Some(name) = AxisName::from_index(index + 1) else { continue };
        if !matches!(choice, AxisChoice::Across { .. }) && design.cuts.iter().any(|cut| axis_of(cut) == Some(name)) {
            add(Some(name), None, &[What::TailX, What::TailY, What::HeadX, What::HeadY]);
        }
    }
    for (cut, choice) in design.cuts.iter().enumerate() {
        match choice {
            Cut::Hollow(hollow) => {
                add(None, Some(cut), &[What::HollowDepth, What::HollowDiameter]);
                if !design.is_across(hollow.axis) {
                    add(None, Some(cut), &[What::WanderX, What::WanderY]);
                }
            }
            Cut::Pass(_) => add(None, Some(cut), &[What::OutsideDiameter, What::PassFrom, What::PassTo]),
            _ => {}
        }
    }
    found
}

fn axis_of(cut: &Cut) -> Option<AxisName> {
    match cut {
        Cut::Pass(pass) => Some(pass.axis),
        Cut::Hollow(hollow) => Some(hollow.axis),
        Cut::Face(plane) | Cut::Part(plane) => Some(plane.axis),
        _ => None,
    }
}

/// The design as it is set out on the blank: joins drawn as they were proposed and axes by their marks, lest the plan
/// follow an error.
pub(super) fn set_out(design: &Design, piece: &Piece) -> Design {
    let mut drawn = design.clone();
    for (cut, choice) in drawn.cuts.iter_mut().enumerate() {
        if let (Cut::Pass(pass), Some(region)) = (choice, piece.revolved(cut))
            && matches!(pass.profile, PassProfile::Join)
        {
            let nodes =
                region.meridian.points().iter().map(|Station { t, r: radius }| Node::line(*t, 2.0 * radius)).collect();
            pass.profile = PassProfile::Drawn { nodes };
        }
    }
    for (choice, axis) in drawn.axes.iter_mut().zip(piece.axes.iter().skip(1)) {
        if matches!(choice, AxisChoice::Tilt { .. })
            && let Some(marks) = by_marks(piece, axis)
        {
            *choice = marks;
        }
    }
    drawn
}

/// An axis by where it pierces both faces.
fn by_marks(piece: &Piece, axis: &Axis) -> Option<AxisChoice> {
    let (tail, head) = (axis.centre(piece.tail_face)?, axis.centre(piece.head_face)?);
    Some(AxisChoice::Marks { tail_x_mm: tail.x, tail_y_mm: tail.y, head_x_mm: head.x, head_y_mm: head.y })
}

impl Fallible {
    /// Puts the error, in mm, into a design that is set out.
    pub(super) fn put_into(self, design: &mut Design, off_mm: f64) {
        if let Some(axis) = self.axis {
            let choice = axis.index().checked_sub(1).and_then(|index| design.axes.get_mut(index));
            if let Some(AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm, head_y_mm }) = choice {
                match self.what {
                    What::TailX => *tail_x_mm += off_mm,
                    What::TailY => *tail_y_mm += off_mm,
                    What::HeadX => *head_x_mm += off_mm,
                    _ => *head_y_mm += off_mm,
                }
            }
            return;
        }
        let Some(cut) = self.cut else { return };
        match self.what {
            What::WanderX => wander(design, cut, Vector::new(off_mm, 0.0, 0.0)),
            What::WanderY => wander(design, cut, Vector::new(0.0, off_mm, 0.0)),
            _ => match design.cuts.get_mut(cut) {
                Some(Cut::Hollow(hollow)) => self.put_into_hollow(&mut hollow.shape, off_mm),
                Some(Cut::Pass(pass)) => self.put_into_pass(pass, off_mm),
                _ => {}
            },
        }
    }

    fn put_into_hollow(self, shape: &mut HollowShape, off_mm: f64) {
        match (shape, self.what) {
            (HollowShape::RoundEnded { depth_mm, .. }, What::HollowDepth) => *depth_mm += off_mm,
            (HollowShape::RoundEnded { diameter_mm, .. }, _) => *diameter_mm += off_mm,
            (HollowShape::Drawn { nodes }, What::HollowDepth) => {
                nodes.iter_mut().skip(1).for_each(|node| node.at_mm += off_mm);
            }
            (HollowShape::Drawn { nodes }, _) => widen(nodes, off_mm),
        }
    }

    fn put_into_pass(self, pass: &mut Pass, off_mm: f64) {
        let PassProfile::Drawn { nodes } = &mut pass.profile else { return };
        let (Some(first), Some(last)) = (nodes.first().copied(), nodes.last().copied()) else { return };
        match self.what {
            What::PassFrom => {
                pass.from_mm += off_mm;
                // The tool goes on as wide as it began.
                if pass.from_mm < first.at_mm {
                    nodes.insert(0, Node::line(pass.from_mm, first.diameter_mm));
                }
            }
            What::PassTo => {
                pass.to_mm += off_mm;
                if pass.to_mm > last.at_mm {
                    nodes.push(Node::line(pass.to_mm, last.diameter_mm));
                }
            }
            _ => widen(nodes, off_mm),
        }
    }
}

fn widen(nodes: &mut [Node], off_mm: f64) {
    nodes.iter_mut().for_each(|node| node.diameter_mm = (node.diameter_mm + off_mm).max(0.0));
}

/// Lets a bore start where it should and run off by so much at its floor.
fn wander(design: &mut Design, cut: usize, off: Vector) {
    // A hollow that has no geometry cannot run off either; the design is left as it was, and refused later.
    let Ok(piece) = Piece::resolve_drawn(design) else { return };
    let (Some(region), Some(name)) = (piece.revolved(cut), AxisName::from_index(design.axes.len() + 1)) else { return };
    let mouth = region.axis.point(region.meridian.start(), 0.0, 0.0);
    let floor = region.axis.point(region.meridian.end(), 0.0, 0.0) + off;
    let Ok(axis) = Axis::through(mouth, floor) else { return };
    let Some(marks) = by_marks(&piece, &axis) else { return };
    design.axes.push(marks);
    if let Some(Cut::Hollow(Hollow { axis: on, mouth_mm, .. })) = design.cuts.get_mut(cut) {
        *on = name;
        *mouth_mm = axis.see(mouth).t;
    }
}
