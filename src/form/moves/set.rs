//! Setting what was moved.

use super::{Movable, SidePlace, chord, drawn_nodes, node_at_end, pass_of, saw_point, seen};
use crate::design::ends::ARC_SHARE;
use crate::design::following::make_own;
use crate::design::validation::{bounds, bounds::Bound, largest_bulge_mm};
use crate::design::{
    AxisChoice, Curve, Cut, Design, HollowShape, Node, Pass, PassProfile, SawPath, SawPoint, Side, plug,
};
use crate::piece::Piece;

/// Nodes and points are kept at least this far apart along their axis, in mm, unless they stand on a step.
const NEAREST_MM: f64 = 0.1;

/// Moves a thing to a place in the side view, as near as its bounds and its neighbours let it come. Returns whether it
/// could be moved; if not, or if the move would bring in a [problem](Design::problems), the design stays as it is.
///
/// `piece` is the design resolved. During a drag, apply each place to the design as it was when the drag began: what
/// was pushed aside on the way then comes back.
pub fn apply(design: &mut Design, piece: &Piece, thing: Movable, to: SidePlace) -> bool {
    if !(to.x.is_finite() && to.y.is_finite()) {
        return false;
    }
    let mut moved = design.clone();
    if set(&mut moved, piece, thing, to).is_none() {
        return false;
    }
    make_own(design, &mut moved);
    let before = design.problems();
    let sound = moved.problems().iter().all(|problem| before.contains(problem));
    if sound {
        *design = moved;
    }
    sound
}

fn set(design: &mut Design, piece: &Piece, thing: Movable, to: SidePlace) -> Option<()> {
    match thing {
        Movable::PassNode { cut, node } => {
            let axis = *pass_of(design, piece, cut)?.1;
            let (t, up) = seen(&axis, to)?;
            let Some(Cut::Pass(pass)) = design.cuts.get_mut(cut) else { return None };
            set_pass_node(pass, node, t, 2.0 * up.abs())
        }
        Movable::PassEnd { cut, end } => {
            let axis = *pass_of(design, piece, cut)?.1;
            let (t, _) = seen(&axis, to)?;
            let Some(Cut::Pass(pass)) = design.cuts.get_mut(cut) else { return None };
            set_pass_end(pass, end, t)
        }
        Movable::HollowNode { .. } | Movable::BoreFloor { .. } | Movable::BoreSide { .. } => {
            set_in_hollow(design, piece, thing, to)
        }
        Movable::SawPoint { cut, point } => set_saw_point(saw_path_mut(design, cut)?, point, to),
        Movable::SawBulge { cut } => {
            let SawPath::Arc { from, to: end, bulge_mm } = saw_path_mut(design, cut)? else { return None };
            let (middle, normal) = chord(from, end)?;
            *bulge_mm = (to.x - middle.x) * normal.x + (to.y - middle.y) * normal.y;
            flatten_saw_arc(from, end, bulge_mm);
            Some(())
        }
        Movable::EndPlane { cut } => {
            let (Cut::Face(plane) | Cut::Part(plane)) = design.cuts.get_mut(cut)? else { return None };
            plane.at_mm = held(seen(piece.axis(plane.axis)?, to)?.0, bounds::STATION);
            Some(())
        }
        Movable::Crossing { axis } | Movable::Across { axis } => match design.axes.get_mut(axis)? {
            AxisChoice::Tilt { crossing_mm: s, .. } | AxisChoice::Across { station_mm: s, .. } => {
                *s = held(to.x, bounds::STATION);
                Some(())
            }
            AxisChoice::Marks { .. } => None,
        },
        Movable::Tilt { axis } => set_tilt(design.axes.get_mut(axis)?, piece.head_face, to.y),
        Movable::Mark { axis, face } => {
            let AxisChoice::Marks { tail_y_mm, head_y_mm, .. } = design.axes.get_mut(axis)? else { return None };
            let y = if face == Side::Tail { tail_y_mm } else { head_y_mm };
            *y = held(to.y, bounds::MARK);
            Some(())
        }
    }
}

/// The tilt at which the axis meets the head face at height `y`; the direction it leans in stays.
fn set_tilt(axis: &mut AxisChoice, head_face: f64, y: f64) -> Option<()> {
    let AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm } = axis else { return None };
    let lever = (head_face - *crossing_mm) * toward_deg.to_radians().cos();
    // Leaning across the view, or crossing at the face itself, no height tells a tilt.
    if lever.abs() < 1e-3 * head_face.abs().max(1.0) {
        return None;
    }
    *tilt_deg = held((y / lever).atan().to_degrees(), bounds::TILT_DEG);
    Some(())
}

fn set_pass_node(pass: &mut Pass, node: usize, t: f64, diameter: f64) -> Option<()> {
    let at_tail = node_at_end(pass, Side::Tail) == Some(node);
    let at_head = node_at_end(pass, Side::Head) == Some(node);
    let (from, to) = (pass.from_mm, pass.to_mm);
    let PassProfile::Drawn { nodes } = &mut pass.profile else { return None };
    let last = nodes.len().checked_sub(1)?;
    let mut range = room(nodes, node)?;
    // A profile must go on covering its pass.
    if node == 0 && !at_tail {
        range.1 = range.1.min(from);
    }
    if node == last && !at_head {
        range.0 = range.0.max(to);
    }
    if at_tail {
        range.1 = range.1.min(to - NEAREST_MM);
    }
    if at_head {
        range.0 = range.0.max(from + NEAREST_MM);
    }
    set_node(nodes, node, t, diameter, range)?;
    let at = nodes.get(node)?.at_mm;
    if at_tail {
        pass.from_mm = at;
    }
    if at_head {
        pass.to_mm = at;
    }
    Some(())
}

fn set_pass_end(pass: &mut Pass, end: Side, t: f64) -> Option<()> {
    let mut range = match end {
        Side::Tail => (bounds::STATION.from, pass.to_mm - NEAREST_MM),
        Side::Head => (pass.from_mm + NEAREST_MM, bounds::STATION.to),
    };
    if let Some(nodes) = drawn_nodes(pass) {
        range = (range.0.max(nodes.first()?.at_mm), range.1.min(nodes.last()?.at_mm));
    }
    let t = between(t, range)?;
    match end {
        Side::Tail => pass.from_mm = t,
        Side::Head => pass.to_mm = t,
    }
    Some(())
}

fn set_in_hollow(design: &mut Design, piece: &Piece, thing: Movable, to: SidePlace) -> Option<()> {
    let (Movable::HollowNode { cut, .. } | Movable::BoreFloor { cut } | Movable::BoreSide { cut }) = thing else {
        return None;
    };
    let Some(Cut::Hollow(hollow)) = design.cuts.get_mut(cut) else { return None };
    let (t, up) = seen(piece.axis(hollow.axis)?, to)?;
    let (t, diameter) = (t - hollow.mouth_mm, 2.0 * up.abs());
    match (&mut hollow.shape, thing) {
        (HollowShape::Drawn { nodes }, Movable::HollowNode { node, .. }) => {
            let mut range = room(nodes, node)?;
            if node == 0 {
                // Stations count from the mouth.
                range = (0.0, 0.0);
            }
            set_node(nodes, node, t, diameter, range)?;
        }
        (HollowShape::RoundEnded { depth_mm, rounding_mm, .. }, Movable::BoreFloor { .. }) => {
            *depth_mm = held(t, bounds::DEPTH);
            *rounding_mm = rounding_mm.min(*depth_mm);
        }
        (HollowShape::RoundEnded { diameter_mm, rounding_mm, .. }, Movable::BoreSide { .. }) => {
            *diameter_mm = held(diameter, bounds::BORE_DIAMETER);
            *rounding_mm = rounding_mm.min(*diameter_mm / 2.0);
        }
        _ => return None,
    }
    plug::fit_all(design);
    Some(())
}

/// The stations a node may take between its neighbours.
fn room(nodes: &[Node], node: usize) -> Option<(f64, f64)> {
    let here = nodes.get(node)?.at_mm;
    // A node on a step may stay there, any other keeps off its neighbour.
    let gap = |neighbour: f64| if neighbour == here { 0.0 } else { NEAREST_MM };
    let before = node.checked_sub(1).and_then(|i| nodes.get(i)).map(|n| n.at_mm);
    let after = nodes.get(node + 1).map(|n| n.at_mm);
    Some((before.map_or(bounds::STATION.from, |at| at + gap(at)), after.map_or(bounds::STATION.to, |at| at - gap(at))))
}

fn set_node(nodes: &mut [Node], node: usize, t: f64, diameter: f64, range: (f64, f64)) -> Option<()> {
    let moved = nodes.get_mut(node)?;
    moved.at_mm = between(t, range)?;
    moved.diameter_mm = held(diameter, bounds::DIAMETER);
    for first in [node.checked_sub(1), Some(node)].into_iter().flatten() {
        let Some([from, to]) = nodes.get(first..first + 2).and_then(|pair| <[Node; 2]>::try_from(pair).ok()) else {
            continue;
        };
        if let Curve::Arc { bulge_mm } = &mut nodes[first].curve {
            let most = largest_bulge_mm(&from, &to) * ARC_SHARE;
            *bulge_mm = bulge_mm.clamp(-most, most);
        }
    }
    Some(())
}

fn set_saw_point(path: &mut SawPath, point: usize, to: SidePlace) -> Option<()> {
    let before = point.checked_sub(1).and_then(|i| saw_point(path, i)).map(|p| p.at_mm + NEAREST_MM);
    let after = saw_point(path, point + 1).map(|p| p.at_mm - NEAREST_MM);
    let range = (before.unwrap_or(bounds::STATION.from), after.unwrap_or(bounds::STATION.to));
    let moved = SawPoint { at_mm: between(to.x, range)?, height_mm: held(to.y, bounds::HEIGHT) };
    match path {
        SawPath::Lines { points } => *points.get_mut(point)? = moved,
        SawPath::Arc { from, to, bulge_mm } => {
            *(if point == 0 { &mut *from } else { &mut *to }) = moved;
            flatten_saw_arc(from, to, bulge_mm);
        }
    }
    Some(())
}

/// Keeps a saw arc from turning back on itself.
fn flatten_saw_arc(from: &SawPoint, to: &SawPoint, bulge_mm: &mut f64) {
    let node = |p: &SawPoint| Node::line(p.at_mm, 2.0 * p.height_mm);
    let most = largest_bulge_mm(&node(from), &node(to)) * ARC_SHARE;
    *bulge_mm = bulge_mm.clamp(-most, most);
}

fn saw_path_mut(design: &mut Design, cut: usize) -> Option<&mut SawPath> {
    let Cut::Saw(saw) = design.cuts.get_mut(cut)? else { return None };
    Some(&mut saw.path)
}

fn held(value: f64, bound: Bound) -> f64 {
    value.clamp(bound.from, bound.to)
}

/// `value` brought into a range; `None` when the range is empty.
fn between(value: f64, range: (f64, f64)) -> Option<f64> {
    (range.0 <= range.1).then(|| value.clamp(range.0, range.1))
}
