//! What every bowl that is hollowed across the grain has: rounds drawn as arcs, its handle, and the wood around it.

use super::handle_end::HandleEnd;
use crate::design::axis_name::AxisName;
use crate::design::cut::{Pass, PassProfile, SawPath, SawPoint};
use crate::design::pattern::arcs::{Bend, rounded};
use crate::design::profile::Node;
use crate::design::validation::largest_bulge_mm;

/// Waste before the bowl, for the live centre and the parting tool, in mm. Common practice, no source.
pub(super) const TAIL_WASTE_MM: f64 = 12.0;
/// Radius of the nub at the bowl end, in mm: stout enough to bear the turning of the handle. The flat that it leaves on the
/// bowl is carved and sanded away. A choice of ours, no source.
pub(super) const NUB_RADIUS_MM: f64 = 7.5;
/// Length of the taper from the stub to the nub, in mm.
pub(super) const NUB_MM: f64 = 4.0;
/// Wood of the stub around the marks that it bears, in mm: a live centre's footprint and its margin. Common practice, no
/// source.
pub(super) const STUB_MARGIN_MM: f64 = 12.0;
/// The stub leaves at least this share of the bowl's radius to be turned.
pub(super) const MOST_STUB: f64 = 0.8;
/// Waste between the finished end and the tenon, for the parting tool, in mm. Common practice, no source.
pub(super) const WASTE_MM: f64 = 10.0;
/// What the cove is wider than the neck where it meets the bowl, in mm, and its length.
const FLARE_MM: f64 = 6.0;
const COVE_MM: f64 = 10.0;
/// The most of a short handle's pass that its cove, and that its end may take.
const MOST_OF_HANDLE: f64 = 0.25;
/// Where between neck and end a handle is thickest, as a share.
const THICKEST_AT: f64 = 0.65;
/// A round and a hollow are drawn as so many arcs: of an egg-shaped hollow they leave less than 0.01 mm.
pub(super) const ARCS: usize = 8;
/// How far past the hollow's edge and past the bowl the saw cut runs, in mm.
pub(super) const SAWN_OVER_MM: f64 = 1.0;
const SAWN_BEYOND_MM: f64 = 3.0;
/// How far over the opening the hollow begins, in mm: a hair, so that the saw opens it, and depths are those from the rim.
pub(super) const OVER_OPENING_MM: f64 = 0.01;

/// The outline of a handle behind a bowl.
pub(super) struct HandleLine {
    /// Diameter of the neck, in mm.
    pub(super) neck_diameter_mm: f64,
    /// Greatest diameter, in mm.
    pub(super) diameter_mm: f64,
    /// How it ends: not with a hook.
    pub(super) end: HandleEnd,
}

impl HandleLine {
    /// Its radius where it leaves the bowl, in mm.
    pub(super) fn root_mm(&self) -> f64 {
        (self.neck_diameter_mm + FLARE_MM) / 2.0
    }

    /// Its nodes between two stations of its axis, from a root of this radius on.
    pub(super) fn nodes(&self, (root_at, root_mm): (f64, f64), to_mm: f64) -> Vec<Node> {
        let most = MOST_OF_HANDLE * (to_mm - root_at);
        let neck_at = root_at + COVE_MM.min(most);
        let end_length = self.end.length_mm(self.diameter_mm).min(most);
        let widest_at = neck_at + (to_mm - end_length - neck_at) * THICKEST_AT;
        let root = Node::line(root_at, 2.0 * root_mm);
        let neck = Node::ogee(neck_at, self.neck_diameter_mm);
        let mut nodes = vec![rounded(root, &neck, Bend::In), neck, Node::ogee(widest_at, self.diameter_mm)];
        nodes.extend(self.end.nodes(self.diameter_mm, to_mm, end_length));
        nodes
    }
}

/// An egg about an axis, round across it, from one angle to a lesser one as so many arcs: its half axes are along the axis and
/// across it, and angles are those of the circle that it is drawn out from.
pub(super) fn egg(arcs: usize, centre_mm: f64, (along_mm, across_mm): (f64, f64), (from, to): (f64, f64)) -> Vec<Node> {
    let point = |angle: f64| (centre_mm + along_mm * angle.cos(), across_mm * angle.sin());
    let angle = |i: usize| from + (to - from) * i as f64 / arcs as f64;
    let mut nodes: Vec<Node> =
        (0..=arcs).map(|i| point(angle(i))).map(|(t, r)| Node::line(t, 2.0 * r.max(0.0))).collect();
    for i in 0..arcs {
        let (a, b) = (nodes[i], nodes[i + 1]);
        let (middle, (t, r)) = (
            (f64::midpoint(a.at_mm, b.at_mm), (a.diameter_mm + b.diameter_mm) / 4.0),
            point(f64::midpoint(angle(i), angle(i + 1))),
        );
        let bulge = (t - middle.0).hypot(r - middle.1);
        nodes[i] = Node::arc(a.at_mm, a.diameter_mm, bulge.min(largest_bulge_mm(&a, &b)));
    }
    nodes
}

/// How many arcs an egg of these half axes is drawn as: the longer, the more, so that they leave about 0.01 mm.
pub(super) fn arcs((along_mm, across_mm): (f64, f64)) -> usize {
    let drawn_out = (along_mm / across_mm).max(across_mm / along_mm);
    if drawn_out < 1.2 {
        ARCS
    } else if drawn_out < 2.0 {
        2 * ARCS
    } else {
        4 * ARCS
    }
}

/// A pass over its nodes.
pub(super) fn pass(name: &str, axis: AxisName, nodes: Vec<Node>) -> Pass {
    let end = |node: Option<&Node>| node.map_or(0.0, |node| node.at_mm);
    let (from_mm, to_mm) = (end(nodes.first()), end(nodes.last()));
    Pass { name: name.to_owned(), axis, from_mm, to_mm, profile: PassProfile::Drawn { nodes }, shapes: None }
}

/// A level saw cut from before the bowl to a station.
pub(super) fn level(height_mm: f64, to: f64) -> SawPath {
    let from = TAIL_WASTE_MM - SAWN_BEYOND_MM;
    SawPath::Lines { points: vec![SawPoint { at_mm: from, height_mm }, SawPoint { at_mm: to, height_mm }] }
}
