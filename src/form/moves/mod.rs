//! Moving one thing of a design by its place in the side view: by finger, mouse or arrow key.
//!
//! Places are (s, y) in mm. What lies on a tilted axis is converted through that axis to a station along it and a
//! diameter about it. Nodes, drawn on the lower side of their pass or hollow, keep their order.

use crate::design::{AxisChoice, Cut, Design, HollowShape, Node, Pass, PassProfile, SawPath, SawPoint, Side};
use crate::geometry::frame::tolerance::SAME_MM;
use crate::geometry::{Axis, Vector};
use crate::piece::Piece;
use kurbo::Point;

mod set;

pub use set::apply;

/// A place in the side view: station along the blank and height over axis A, in mm.
pub type SidePlace = kurbo::Point;

/// Something that can be moved in the side view. Cuts, nodes and points count from 0; axes as in the design's list,
/// so that 0 is axis B.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Movable {
    /// A node of a pass that is drawn.
    PassNode {
        /// The cut.
        cut: usize,
        /// The node.
        node: usize,
    },
    /// An end of a pass where no node stands, or of one that follows the join.
    PassEnd {
        /// The cut.
        cut: usize,
        /// Which end.
        end: Side,
    },
    /// A node of a hollow that is drawn.
    HollowNode {
        /// The cut.
        cut: usize,
        /// The node.
        node: usize,
    },
    /// The floor of a round-ended bore.
    BoreFloor {
        /// The cut.
        cut: usize,
    },
    /// The side of a round-ended bore: its diameter.
    BoreSide {
        /// The cut.
        cut: usize,
    },
    /// A point of a saw line; an arc has its two ends.
    SawPoint {
        /// The cut.
        cut: usize,
        /// The point.
        point: usize,
    },
    /// The middle of a saw arc.
    SawBulge {
        /// The cut.
        cut: usize,
    },
    /// The plane of a facing or parting cut: where the handle ends.
    EndPlane {
        /// The cut.
        cut: usize,
    },
    /// Where a tilted axis crosses axis A.
    Crossing {
        /// The axis.
        axis: usize,
    },
    /// The head end of a tilted axis: its tilt.
    Tilt {
        /// The axis.
        axis: usize,
    },
    /// The mark of an axis on a face: its height.
    Mark {
        /// The axis.
        axis: usize,
        /// The face.
        face: Side,
    },
    /// The station of an axis across the blank.
    Across {
        /// The axis.
        axis: usize,
    },
}

impl Movable {
    /// The cut that it belongs to; `None` for what belongs to an axis.
    #[must_use]
    pub const fn cut(self) -> Option<usize> {
        match self {
            Self::PassNode { cut, .. }
            | Self::PassEnd { cut, .. }
            | Self::HollowNode { cut, .. }
            | Self::BoreFloor { cut }
            | Self::BoreSide { cut }
            | Self::SawPoint { cut, .. }
            | Self::SawBulge { cut }
            | Self::EndPlane { cut } => Some(cut),
            Self::Crossing { .. } | Self::Tilt { .. } | Self::Mark { .. } | Self::Across { .. } => None,
        }
    }

    /// The axis that it belongs to; `None` for what belongs to a cut.
    #[must_use]
    pub const fn axis(self) -> Option<usize> {
        match self {
            Self::Crossing { axis } | Self::Tilt { axis } | Self::Mark { axis, .. } | Self::Across { axis } => {
                Some(axis)
            }
            _ => None,
        }
    }
}

/// Everything in a design that can be moved in the side view, in working order; axes last.
#[must_use]
pub fn movables(design: &Design) -> Vec<Movable> {
    let cuts = design.cuts.iter().enumerate().flat_map(|(cut, choice)| movables_of_cut(cut, choice));
    let axes = design.axes.iter().enumerate().flat_map(|(axis, choice)| match choice {
        AxisChoice::Tilt { .. } => vec![Movable::Crossing { axis }, Movable::Tilt { axis }],
        AxisChoice::Marks { .. } => [Side::Tail, Side::Head].map(|face| Movable::Mark { axis, face }).to_vec(),
        AxisChoice::Across { .. } => vec![Movable::Across { axis }],
    });
    cuts.chain(axes).collect()
}

fn movables_of_cut(cut: usize, choice: &Cut) -> Vec<Movable> {
    match choice {
        Cut::Pass(pass) => {
            let nodes = drawn_nodes(pass).map_or(0, |nodes| nodes.len());
            let ends = [Side::Tail, Side::Head].into_iter().filter(|end| node_at_end(pass, *end).is_none());
            let nodes = (0..nodes).map(|node| Movable::PassNode { cut, node });
            nodes.chain(ends.map(|end| Movable::PassEnd { cut, end })).collect()
        }
        Cut::Hollow(hollow) => match &hollow.shape {
            HollowShape::RoundEnded { .. } => vec![Movable::BoreFloor { cut }, Movable::BoreSide { cut }],
            HollowShape::Drawn { nodes } => (0..nodes.len()).map(|node| Movable::HollowNode { cut, node }).collect(),
        },
        Cut::Saw(saw) => match &saw.path {
            SawPath::Lines { points } => (0..points.len()).map(|point| Movable::SawPoint { cut, point }).collect(),
            SawPath::Arc { .. } => {
                let ends = (0..2).map(|point| Movable::SawPoint { cut, point });
                ends.chain([Movable::SawBulge { cut }]).collect()
            }
        },
        Cut::Face(_) | Cut::Part(_) => vec![Movable::EndPlane { cut }],
        Cut::FitPlug(_) | Cut::TakeOutPlug => vec![],
    }
}

/// Where a thing stands in the side view; `None` when the design has no such thing, or it is seen end on.
///
/// `piece` is the design resolved.
#[must_use]
pub fn place(design: &Design, piece: &Piece, thing: Movable) -> Option<SidePlace> {
    let found = match thing {
        Movable::PassNode { cut, node } => {
            let (pass, axis) = pass_of(design, piece, cut)?;
            let node = drawn_nodes(pass)?.get(node)?;
            shown(axis, node.at_mm, -node.diameter_mm / 2.0)
        }
        Movable::PassEnd { cut, end } => {
            let (pass, axis) = pass_of(design, piece, cut)?;
            let chain = &piece.revolved(cut)?.meridian;
            match end {
                Side::Tail => shown(axis, pass.from_mm, -chain.radius_after(pass.from_mm)),
                Side::Head => shown(axis, pass.to_mm, -chain.radius_before(pass.to_mm)),
            }
        }
        Movable::HollowNode { .. } | Movable::BoreFloor { .. } | Movable::BoreSide { .. } => {
            place_in_hollow(design, piece, thing)?
        }
        Movable::SawPoint { cut, point } => {
            let point = saw_point(&saw_path(design, cut)?, point)?;
            Point::new(point.at_mm, point.height_mm)
        }
        Movable::SawBulge { cut } => {
            let SawPath::Arc { from, to, bulge_mm } = saw_path(design, cut)? else { return None };
            let (middle, normal) = chord(&from, &to)?;
            Point::new(middle.x + normal.x * bulge_mm, middle.y + normal.y * bulge_mm)
        }
        Movable::EndPlane { cut } => {
            let (Cut::Face(plane) | Cut::Part(plane)) = design.cuts.get(cut)? else { return None };
            shown(piece.axis(plane.axis)?, plane.at_mm, 0.0)
        }
        Movable::Crossing { axis } => {
            let AxisChoice::Tilt { crossing_mm, .. } = design.axes.get(axis)? else { return None };
            Point::new(*crossing_mm, 0.0)
        }
        Movable::Tilt { axis } => on_face(piece, axis, Side::Head)?,
        Movable::Mark { axis, face } => on_face(piece, axis, face)?,
        Movable::Across { axis } => {
            let AxisChoice::Across { station_mm, .. } = design.axes.get(axis)? else { return None };
            Point::new(*station_mm, 0.0)
        }
    };
    (found.x.is_finite() && found.y.is_finite()).then_some(found)
}

fn place_in_hollow(design: &Design, piece: &Piece, thing: Movable) -> Option<SidePlace> {
    let (Movable::HollowNode { cut, .. } | Movable::BoreFloor { cut } | Movable::BoreSide { cut }) = thing else {
        return None;
    };
    let Cut::Hollow(hollow) = design.cuts.get(cut)? else { return None };
    let axis = piece.axis(hollow.axis)?;
    let (t, radius) = match (&hollow.shape, thing) {
        (HollowShape::Drawn { nodes }, Movable::HollowNode { node, .. }) => {
            let node = nodes.get(node)?;
            (node.at_mm, node.diameter_mm / 2.0)
        }
        (HollowShape::RoundEnded { depth_mm, .. }, Movable::BoreFloor { .. }) => (*depth_mm, 0.0),
        (HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm }, Movable::BoreSide { .. }) => {
            ((depth_mm - rounding_mm) / 2.0, diameter_mm / 2.0)
        }
        _ => return None,
    };
    Some(shown(axis, hollow.mouth_mm + t, -radius))
}

fn pass_of<'a>(design: &'a Design, piece: &'a Piece, cut: usize) -> Option<(&'a Pass, &'a Axis)> {
    let Cut::Pass(pass) = design.cuts.get(cut)? else { return None };
    Some((pass, piece.axis(pass.axis)?))
}

fn drawn_nodes(pass: &Pass) -> Option<&[Node]> {
    match &pass.profile {
        PassProfile::Drawn { nodes } => Some(nodes),
        PassProfile::Join => None,
    }
}

/// The outermost node at an end of a pass, when it stands on that end and so moves with it.
fn node_at_end(pass: &Pass, end: Side) -> Option<usize> {
    let nodes = drawn_nodes(pass)?;
    let (node, at) = match end {
        Side::Tail => (0, pass.from_mm),
        Side::Head => (nodes.len().checked_sub(1)?, pass.to_mm),
    };
    ((nodes.get(node)?.at_mm - at).abs() <= SAME_MM).then_some(node)
}

fn saw_path(design: &Design, cut: usize) -> Option<SawPath> {
    let Cut::Saw(saw) = design.cuts.get(cut)? else { return None };
    Some(saw.path.clone())
}

fn saw_point(path: &SawPath, point: usize) -> Option<SawPoint> {
    match path {
        SawPath::Lines { points } => points.get(point).copied(),
        SawPath::Arc { from, to, .. } => [*from, *to].get(point).copied(),
    }
}

/// The middle of a chord and the direction square to it, upward.
fn chord(from: &SawPoint, to: &SawPoint) -> Option<(SidePlace, SidePlace)> {
    let (ds, dy) = (to.at_mm - from.at_mm, to.height_mm - from.height_mm);
    let length = ds.hypot(dy);
    let middle = Point::new(f64::midpoint(from.at_mm, to.at_mm), f64::midpoint(from.height_mm, to.height_mm));
    (length > 0.0).then_some((middle, Point::new(-dy / length, ds / length)))
}

/// Where axis number `axis` of the design's list meets a face, in the side view.
fn on_face(piece: &Piece, axis: usize, face: Side) -> Option<SidePlace> {
    let s = if face == Side::Tail { piece.tail_face } else { piece.head_face };
    let Vector { y, s, .. } = piece.axes.get(axis + 1)?.centre(s)?;
    Some(Point::new(s, y))
}

/// Where the point at station `t`, `up` above the axis, is seen in the side view.
#[must_use]
pub fn shown(axis: &Axis, t: f64, up: f64) -> SidePlace {
    let Vector { y, s, .. } = axis.origin() + axis.along() * t + axis.up() * up;
    Point::new(s, y)
}

/// The station along an axis, and the height above it, of the point of its upright plane seen at a place; `None` when
/// that plane is seen edge on.
#[must_use]
pub fn seen(axis: &Axis, place: SidePlace) -> Option<(f64, f64)> {
    let (origin, along, up) = (axis.origin(), axis.along(), axis.up());
    let (s, y) = (place.x - origin.s, place.y - origin.y);
    let scale = along.s * up.y - along.y * up.s;
    (scale.abs() > 1e-6).then(|| ((s * up.y - y * up.s) / scale, (along.s * y - along.y * s) / scale))
}
