//! How much there may be in a design for its figures to be worked out.
//!
//! This is no rule of a sound document: one that was kept when there was more room still opens, is drawn and changed. Only
//! its figures are left out.

use super::{Problem, bounds};
use crate::design::cut::{Cut, HollowShape, PassProfile, SawPath};
use crate::design::document::Design;

/// The nodes of every profile and the points of every saw line.
#[must_use]
pub fn nodes_in_all(design: &Design) -> usize {
    let nodes = |cut: &Cut| match cut {
        Cut::Pass(pass) => match &pass.profile {
            PassProfile::Drawn { nodes } => nodes.len(),
            PassProfile::Join => 0,
        },
        Cut::Hollow(hollow) => match &hollow.shape {
            HollowShape::Drawn { nodes } => nodes.len(),
            HollowShape::RoundEnded { .. } => 0,
        },
        Cut::Saw(saw) => match &saw.path {
            SawPath::Lines { points } => points.len(),
            SawPath::Arc { .. } => 0,
        },
        Cut::FitPlug(_) | Cut::TakeOutPlug | Cut::Face(_) | Cut::Part(_) => 0,
    };
    design.cuts.iter().map(nodes).sum()
}

/// What there is too much of for the figures of a design to be worked out, if anything.
#[must_use]
pub fn too_big(design: &Design) -> Option<Problem> {
    let (nodes, most) = (nodes_in_all(design), bounds::NODES_IN_ALL);
    (nodes > most).then(|| Problem {
        field: "cuts".to_owned(),
        place: None,
        sentence: format!(
            "Its profiles and saw lines have {nodes} points in all, and figures are worked out for {most} at most."
        )
        .into(),
        cure: format!("Take out {}.", nodes - most).into(),
    })
}
