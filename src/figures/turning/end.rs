//! Figure 12 for facing and parting.

use serde::Serialize;

use super::balance::{Held, Unbalance};
use super::operations::{Operation, OperationSpeed, Spinning};
use super::step::off_centre;
use super::{StateMasses, Turning};
use crate::design::entry::Units;
use crate::design::{AxisName, Cut, Design, Shop};
use crate::geometry::Spin;
use crate::piece::Piece;

/// How fast an end may be faced or parted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EndSpeed {
    /// The cut, by its place in working order from 0.
    pub cut: usize,
    /// The axis it spins on.
    pub axis: AxisName,
    /// No wood swings wider than this, in mm: a bound, seldom reached.
    pub swing_at_most_mm: f64,
    /// Speeds for each operation, in the order of the work; empty without wood.
    pub operations: Vec<OperationSpeed>,
}

/// Every facing and parting, in working order. The density is that of the wood as it is worked, in kg/m3; without it only
/// diameter and lathe count.
#[must_use]
pub fn end_speeds(
    design: &Design,
    piece: &Piece,
    shop: &Shop,
    density_kg_m3: Option<f64>,
    masses: &StateMasses,
    turnings: &[Turning],
) -> Vec<EndSpeed> {
    let end = |(cut, choice): (usize, &Cut)| {
        let axis_name = match choice {
            Cut::Face(plane) | Cut::Part(plane) => plane.axis,
            _ => return None,
        };
        let axis = piece.axis(axis_name)?;
        let state = piece.solid.state(cut);
        let mass = masses.after(cut);
        // Cuts only take wood: it swings no wider than before an earlier cut on the same axis with the same plug.
        let same_plug = |at: usize| piece.solid.state(at).plug.is_some() == state.plug.is_some();
        let earlier = turnings.iter().filter(|t| t.cut < cut && t.axis == axis_name && same_plug(t.cut));
        let reach = earlier.map(|t| t.swing.radius_mm).fold(Spin::new(state, axis).reach(), f64::min);
        let swing_at_most_mm = if mass.volume_mm3 > 0.0 { 2.0 * reach } else { 0.0 };
        let tail_face = if state.plug.is_some() { piece.tail_face } else { 0.0 };
        let held = match axis.centre(tail_face).zip(axis.centre(piece.head_face)) {
            Some((tail, head)) => Held::Centres(tail, head),
            None => Held::OneEnd(axis.origin()),
        };
        let force_rpm = density_kg_m3.and_then(|density| {
            let per_rpm_sq = Unbalance::of(&mass, density, axis, held).worst_n(1.0);
            let rpm = (shop.lathe.force_limit_n / per_rpm_sq).sqrt();
            (rpm <= shop.lathe.highest_rpm).then_some(rpm)
        });
        let work =
            Spinning { diameter_mm: swing_at_most_mm, off_centre: off_centre(design, cut, axis_name), force_rpm };
        let speed = |operation| OperationSpeed::of(operation, None, &work, &shop.lathe, Units::from(shop));
        let operations = [Operation::Parting, Operation::Sanding].into_iter().filter_map(speed).collect();
        Some(EndSpeed { cut, axis: axis_name, swing_at_most_mm, operations })
    };
    design.cuts.iter().enumerate().filter_map(end).collect()
}
