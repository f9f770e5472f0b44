//! The steps that spin the work.

use crate::design::{AxisName, Cut, Design};
use crate::geometry::{Axis, Revolved};
use crate::piece::Piece;

/// A pass or a hollow, with what it needs.
pub(super) struct Step<'a> {
    /// Its place in working order from 0.
    pub cut: usize,
    /// What the turner calls it.
    pub name: &'a str,
    /// The axis it spins on.
    pub axis_name: AxisName,
    pub axis: &'a Axis,
    /// What it takes.
    pub turned: &'a Revolved,
    /// Where it starts and ends, in mm along its axis.
    pub from: f64,
    pub to: f64,
    /// Whether it turns the outside.
    pub is_pass: bool,
    /// Whether it turns on a moved axis, or after a pass on one: then part of the work swings off centre.
    pub off_centre: bool,
}

/// Every pass and hollow, in working order.
pub(super) fn steps<'a>(design: &'a Design, piece: &'a Piece) -> impl Iterator<Item = Step<'a>> {
    design.cuts.iter().enumerate().filter_map(|(cut, choice)| {
        let (name, axis_name, is_pass) = match choice {
            Cut::Pass(pass) => (pass.name.as_str(), pass.axis, true),
            Cut::Hollow(hollow) => ("hollow", hollow.axis, false),
            Cut::FitPlug(_) | Cut::TakeOutPlug | Cut::Saw(_) | Cut::Face(_) | Cut::Part(_) => return None,
        };
        let turned = piece.revolved(cut)?;
        let (from, to) = (turned.meridian.start(), turned.meridian.end());
        let axis = piece.axis(axis_name)?;
        let off_centre = off_centre(design, cut, axis_name);
        Some(Step { cut, name, axis_name, axis, turned, from, to, is_pass, off_centre })
    })
}

/// Whether work on an axis in the state before a cut is off centre.
pub(super) fn off_centre(design: &Design, cut: usize, axis: AxisName) -> bool {
    let moved = |cut: &Cut| matches!(cut, Cut::Pass(pass) if pass.axis != AxisName::A);
    axis != AxisName::A || design.cuts.iter().take(cut).any(moved)
}
