//! Passes that may be added: within the wood there.

use super::along::{pass, place_of_pass};
use super::chuck::{has_tenon, tenon};
use super::kin::{All, Kin, MOVED_ALREADY, NO_WOOD};
use super::tenths::{to_hundredth, to_tenth};
use crate::design::{AxisName, Curve, Cut, Node};
use crate::form::parts::Addition;
use crate::form::parts::axes::letter;
use crate::form::parts::bodies::{Bench, LEAST_RADIUS_MM};
use crate::geometry::Axis;

/// What is left over a round of the blank's own width, in mm, so that no flat stays.
const ROUNDING_OFF_MM: f64 = 1.0;
/// A collar: its width over its diameter, the part of that which swells, its foot over its diameter.
const COLLAR_WIDTH: f64 = 0.5;
const COLLAR_SWELLS: f64 = 0.5;
const COLLAR_FOOT: f64 = 0.85;
/// A groove: its width and its depth over the diameter.
const GROOVE_WIDTH: f64 = 0.2;
const GROOVE_DEPTH: f64 = 0.05;
/// A hook on A: its length over the diameter there, and its end over that.
const HOOK_LENGTH: f64 = 1.2;
const HOOK_END: f64 = 0.5;
/// New passes stay within this share of the wood, so that their circles are whole.
const INSIDE: f64 = 0.98;

/// The radius of a new pass in wood of this radius, in mm: what finishing takes must be there as well.
fn inside(bench: Bench<'_>, radius_mm: f64) -> f64 {
    let limits = bench.design.limits.over(&bench.shop.limits);
    (radius_mm - limits.finishing_allowance_mm).min(radius_mm * INSIDE)
}

pub(super) fn all(bench: Bench<'_>, all: &mut All) {
    let design = bench.design;
    let length_mm = design.blank.length_mm;
    let has_pass = |axis: AxisName| design.cuts.iter().any(|cut| matches!(cut, Cut::Pass(pass) if pass.axis == axis));
    let mut add = |label: String, place: usize, cut: Result<Cut, &'static str>, together_with: Option<usize>| {
        let addition = cut.map(|cut| Addition { axis: None, cuts: vec![(place, cut)], together_with });
        all.push((Kin::Pass, label, addition));
    };
    if !has_pass(AxisName::A) {
        let diameter_mm = (2.0 * bench.half_mm() - ROUNDING_OFF_MM).max(1.0);
        let nodes = vec![Node::line(0.0, diameter_mm), Node::line(length_mm, diameter_mm)];
        add("Round the whole blank".into(), 0, Ok(pass(design, "round", AxisName::A, nodes)), None);
    }
    let (axis, t) = bench.outside_here();
    let place = place_of_pass(design, axis).max(bench.after_passes_here());
    let ring = |name: &str, nodes: Option<Vec<Node>>| nodes.map(|nodes| pass(design, name, axis, nodes)).ok_or(NO_WOOD);
    add(format!("A collar here (axis {axis})"), place, ring("collar", collar(bench, axis, t)), None);
    add(format!("A groove here (axis {axis})"), place, ring("groove", groove(bench, axis, t)), None);
    for name in (0..design.axes.len()).map(letter).filter(|name| !has_pass(*name)) {
        let Some(nodes) = along(bench, name) else { continue };
        add(format!("A pass on axis {name}"), place_of_pass(design, name), Ok(pass(design, "side", name, nodes)), None);
    }
    if let Some((handle, nodes)) = hook(bench) {
        let place = place_of_pass(design, AxisName::A).max(handle + 1);
        add("A hook on A".into(), place, Ok(pass(design, "hook", AxisName::A, nodes)), Some(handle));
    }
    if !has_tenon(design) {
        add("A tenon at the head end".into(), 0, tenon(bench).ok_or(MOVED_ALREADY), None);
    }
}

/// The outside about an axis at a station, in mm, where there is enough for a pass of this half width.
fn outside(bench: Bench<'_>, axis: &Axis, t: f64, half_width: f64) -> Option<f64> {
    let radius_mm = bench.radius_mm(axis, t);
    let half_mm = radius_mm * half_width;
    let least_mm = inside(bench, bench.least_mm(axis, t - half_mm, t + half_mm));
    (least_mm > LEAST_RADIUS_MM).then_some(least_mm)
}

/// A ring that stands up between two shoulders.
fn collar(bench: Bench<'_>, name: AxisName, t: f64) -> Option<Vec<Node>> {
    let axis = bench.axis(name)?;
    let radius_mm = outside(bench, &axis, t, COLLAR_WIDTH)?;
    let foot_mm = radius_mm * COLLAR_FOOT;
    let (half_mm, swell_mm) = (radius_mm * COLLAR_WIDTH, radius_mm * COLLAR_WIDTH * COLLAR_SWELLS);
    let stations = [t - half_mm, t - swell_mm, t + swell_mm, t + half_mm];
    if !stations.iter().all(|at| bench.keeps_wall(&axis, *at, foot_mm)) {
        return None;
    }
    let bulge_mm = (radius_mm - foot_mm).min(swell_mm * 0.9);
    let nodes = stations.map(|at| Node::line(to_hundredth(at), to_hundredth(2.0 * foot_mm)));
    let mut nodes = nodes.to_vec();
    nodes[1] = Node::arc(nodes[1].at_mm, nodes[1].diameter_mm, to_hundredth(bulge_mm));
    Some(nodes)
}

/// A cove all round.
fn groove(bench: Bench<'_>, name: AxisName, t: f64) -> Option<Vec<Node>> {
    let axis = bench.axis(name)?;
    let radius_mm = outside(bench, &axis, t, GROOVE_WIDTH)?;
    let (half_mm, depth_mm) = (radius_mm * GROOVE_WIDTH, 2.0 * radius_mm * GROOVE_DEPTH);
    if !bench.keeps_wall(&axis, t, radius_mm - depth_mm) {
        return None;
    }
    let (from, to) = (to_hundredth(t - half_mm), to_hundredth(t + half_mm));
    let diameter_mm = to_hundredth(2.0 * radius_mm);
    Some(vec![Node::arc(from, diameter_mm, -to_hundredth(depth_mm)), Node::line(to, diameter_mm)])
}

/// Along the wood about an axis: within it on one that leans; on one beside A as far from it as the wood is from A, so
/// that it turns a side.
fn along(bench: Bench<'_>, name: AxisName) -> Option<Vec<Node>> {
    let axis = bench.axis(name).filter(Axis::is_lengthwise)?;
    let room = bench.stretch(&axis)?;
    let is_beside = (axis.along() - Axis::A.along()).length() < 1e-9;
    let off_mm = axis.origin().x.hypot(axis.origin().y);
    let radius_mm = if is_beside { room.radius_mm + off_mm } else { inside(bench, room.radius_mm) };
    let middle_mm = f64::midpoint(room.from_mm, room.to_mm);
    let keeps = [room.from_mm, middle_mm, room.to_mm].iter().all(|t| bench.keeps_wall(&axis, *t, radius_mm));
    let diameter_mm = to_tenth(2.0 * radius_mm);
    keeps.then(|| vec![Node::line(to_tenth(room.from_mm), diameter_mm), Node::line(to_tenth(room.to_mm), diameter_mm)])
}

/// A hook over the end of the last pass on another axis, with that pass.
fn hook(bench: Bench<'_>) -> Option<(usize, Vec<Node>)> {
    let design = bench.design;
    let handle = design
        .cuts
        .iter()
        .rposition(|cut| matches!(cut, Cut::Pass(pass) if pass.axis != AxisName::A && !design.is_across(pass.axis)))?;
    let Some(Cut::Pass(pass)) = design.cuts.get(handle) else { return None };
    let end_mm = bench.axis(pass.axis)?.point(pass.to_mm, 0.0, 0.0).s;
    let radius_mm = inside(bench, bench.radius_mm(&Axis::A, end_mm - LEAST_RADIUS_MM));
    let to_mm = to_tenth(end_mm.min(design.blank.length_mm));
    let from_mm = to_tenth(to_mm - radius_mm * HOOK_LENGTH);
    let is_stout = radius_mm > LEAST_RADIUS_MM && bench.keeps_wall(&Axis::A, from_mm, radius_mm);
    let node = |at_mm: f64, share: f64| Node::line(at_mm, to_tenth(2.0 * radius_mm * share));
    is_stout.then(|| (handle, vec![Node { curve: Curve::Ogee, ..node(from_mm, 1.0) }, node(to_mm, HOOK_END)]))
}
