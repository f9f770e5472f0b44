//! Moving the ends of a pass, and with them the nodes that stand there or come in the way.

use super::cut::{Cut, Pass, PassProfile};
use super::document::Design;
use super::profile::{Curve, Node};
use super::validation::{largest_bulge_mm, lowest_radius_mm};
use crate::geometry::frame::tolerance::ROUNDING_MM;

/// An end node takes the place of nodes that it comes nearer to than this, in mm.
const NEAREST_MM: f64 = 0.1;
/// An arc is kept this much flatter than the flattest that turns back on itself, so that rounding cannot tip it over.
pub(crate) const ARC_SHARE: f64 = 0.999;
/// How often a cove that would sink past the axis is made half as deep, before it is made straight.
const HALVINGS: u32 = 12;

/// An end of a pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Toward the tail.
    Start,
    /// Toward the head.
    Finish,
}

/// The end of the pass that this node stands on.
pub(crate) fn end_of_pass(design: &Design, cut: usize, node: usize) -> Option<End> {
    let Some(Cut::Pass(pass)) = design.cuts.get(cut) else { return None };
    let nodes = drawn(pass)?;
    let at_mm = nodes.get(node)?.at_mm;
    let same = |end_mm: f64| (at_mm - end_mm).abs() <= ROUNDING_MM;
    match node {
        0 if same(pass.from_mm) => Some(End::Start),
        last if last + 1 == nodes.len() && same(pass.to_mm) => Some(End::Finish),
        _ => None,
    }
}

fn drawn(pass: &Pass) -> Option<&Vec<Node>> {
    match &pass.profile {
        PassProfile::Drawn { nodes } => Some(nodes),
        PassProfile::Join => None,
    }
}

/// The pass with one end at another station, in mm along its axis.
///
/// A node that stands on the end moves with it, its diameter as it was; nodes that it comes to or passes are left out, and
/// an arc that has become too short for its bulge is made flatter. Where the nodes end short of the new end, one more
/// carries the diameter of the outermost on to it.
#[must_use]
pub fn with_end(pass: &Pass, end: End, at_mm: f64) -> Pass {
    let mut moved = pass.clone();
    let before_mm = match end {
        End::Start => std::mem::replace(&mut moved.from_mm, at_mm),
        End::Finish => std::mem::replace(&mut moved.to_mm, at_mm),
    };
    if let PassProfile::Drawn { nodes } = &mut moved.profile {
        // The far end turned to the front, so that both ends are moved in one way.
        let forward = if end == End::Start { 1.0 } else { -1.0 };
        move_nodes(nodes, end, forward, before_mm, at_mm);
    }
    moved
}

fn move_nodes(nodes: &mut Vec<Node>, end: End, forward: f64, before_mm: f64, at_mm: f64) {
    let outermost = if end == End::Start { nodes.first() } else { nodes.last() };
    let Some(outermost) = outermost.copied() else { return };
    let on_end = (outermost.at_mm - before_mm).abs() <= ROUNDING_MM;
    let short = (outermost.at_mm - at_mm) * forward > ROUNDING_MM;
    if !on_end {
        match end {
            _ if !short => {}
            End::Start => nodes.insert(0, Node::line(at_mm, outermost.diameter_mm)),
            End::Finish => nodes.push(Node::line(at_mm, outermost.diameter_mm)),
        }
        return;
    }
    let passed = |node: &Node| (node.at_mm - at_mm) * forward < NEAREST_MM;
    match end {
        End::Start => {
            // One node stays, whatever is passed, so that the profile has two.
            let most = nodes.len().saturating_sub(2);
            let count = nodes.iter().skip(1).take(most).take_while(|node| passed(node)).count();
            let curve = nodes.get(count).map_or(Curve::Line, |last| last.curve);
            nodes.drain(1..=count);
            nodes[0] = Node { at_mm, diameter_mm: outermost.diameter_mm, curve };
            fit_curve(nodes, 0);
        }
        End::Finish => {
            let most = nodes.len().saturating_sub(2);
            let count = nodes.iter().rev().skip(1).take(most).take_while(|node| passed(node)).count();
            nodes.truncate(nodes.len() - count);
            let last = nodes.len() - 1;
            nodes[last] = Node { at_mm, ..outermost };
            fit_curve(nodes, last.saturating_sub(1));
        }
    }
}

/// Makes the arc after a node flat enough for its chord, and a cove shallow enough to stay off the axis.
fn fit_curve(nodes: &mut [Node], node: usize) {
    let Some([from, to]) = nodes.get(node..node + 2).and_then(|pair| <[Node; 2]>::try_from(pair).ok()) else { return };
    let Curve::Arc { bulge_mm } = from.curve else { return };
    let most = largest_bulge_mm(&from, &to) * ARC_SHARE;
    let mut bulge_mm = bulge_mm.clamp(-most, most);
    for _ in 0..HALVINGS {
        if lowest_radius_mm(&from, &to, bulge_mm) >= 0.0 {
            nodes[node].curve = Curve::Arc { bulge_mm };
            return;
        }
        bulge_mm /= 2.0;
    }
    nodes[node].curve = Curve::Line;
}
