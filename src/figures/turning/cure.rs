//! What to change when a step cannot spin as fast as is usual.

use super::balance::Balance;
use super::step::Step;
use super::swing::Swing;
use crate::design::Shop;
use crate::design::entry::Units;
use crate::design::units::Quantity;

/// An axis that is nowhere farther than this from axis A is not offset, in mm.
const OFFSET_MM: f64 = 0.05;

/// What to change, the most telling first.
pub(super) fn cures(
    step: &Step<'_>,
    swing: &Swing,
    balance: Option<&Balance>,
    force_rpm: Option<f64>,
    shop: &Shop,
) -> Vec<String> {
    let mut cures = Vec::new();
    let by_force = force_rpm.is_some();
    if swing.is_corner {
        cures.push("Rough it round first, on the blank's own axis.".to_owned());
    }
    let offset = step.axis.see(step.axis.nearest(&crate::geometry::Axis::A).there).radius();
    if by_force && (step.axis.is_tilted() || offset > OFFSET_MM) {
        // By how much is not said: what is left off centre when the marks move less hangs on the whole piece.
        cures.push("Use a smaller offset or tilt.".to_owned());
    }
    if let Some(balance) = balance.filter(|_| by_force) {
        cures.extend(counterweight(balance, swing, Units::from(shop)));
    }
    if step.axis.is_lengthwise() {
        cures.push("Take a shorter blank: less waste to swing.".to_owned());
    } else {
        cures.push("Saw the handle to a thinner blank before it is spun across the grain.".to_owned());
    }
    cures
}

/// A weight on the light side that balances the centre of mass.
fn counterweight(balance: &Balance, swing: &Swing, units: Units) -> Option<String> {
    let worse = if balance.after.worst_n(1.0) > balance.before.worst_n(1.0) { balance.after } else { balance.before };
    let heavy = worse.heavy_clock_deg?;
    let at_mm = (swing.radius_mm / 2.0).max(1.0);
    Some(format!(
        "Fix a counterweight to the waste on the light side, at {}: about {:.0} g at {} from the axis.",
        crate::figures::place::clock_words(heavy + 180.0),
        worse.unbalance_g_mm / at_mm,
        units.show_with_unit(at_mm, Quantity::Length)
    ))
}
