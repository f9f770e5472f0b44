//! What can be measured on a finished piece, with what was planned: the lines that the log offers.

use std::f64::consts::PI;

use super::leave::caliper_step_mm;
use super::report::Worked;
use crate::design::{AxisName, Cut, Design, LengthUnit, Measured, MeasuredWhat};
use crate::geometry::Revolved;
use crate::piece::Piece;

/// Most lines that are offered: a log that asks for too much is not kept.
const MOST: usize = 8;
/// Pairs of opposite places that a caliper may be set to, around a circle.
const PAIRS: usize = 24;
/// How near to a surface it is looked for, in mm.
const NEAR_MM: f64 = 0.05;

/// The lines to measure, each as planned; `measured_mm` is the plan's too until it is measured.
///
/// The thinnest wall and the floor of every hollow, the depth of every bore of which some rim is left, and one diameter of
/// every pass of which two opposite places are left for a caliper: at a round station where the whole circle is, else where
/// a pair is. Exact copies of the figures.
#[must_use]
pub fn to_measure(design: &Design, worked: &Worked, unit: LengthUnit) -> Vec<Measured> {
    let (figures, piece) = (&worked.figures, &*worked.piece);
    let line = |what, axis, at_mm, planned_mm| Measured { what, axis, at_mm, planned_mm, measured_mm: planned_mm };
    let mut lines = Vec::new();
    for wall in &figures.walls {
        if let Some(least) = wall.least.filter(|least| least.wall_mm > 0.0) {
            lines.push(line(MeasuredWhat::Wall, AxisName::A, least.place.station_mm, least.wall_mm));
        }
        if let Some(floor) = wall.floor.as_ref().filter(|floor| floor.least.wall_mm > 0.0) {
            lines.push(line(MeasuredWhat::Floor, AxisName::A, floor.least.place.station_mm, floor.least.wall_mm));
        }
    }
    for boring in &figures.borings {
        if let (Some(Cut::Hollow(hollow)), Some(bore)) = (design.cuts.get(boring.cut), piece.revolved(boring.cut))
            && pairs_left(piece, bore, bore.meridian.start() + NEAR_MM, Side::Within) != Left::Nothing
        {
            lines.push(line(MeasuredWhat::Depth, hollow.axis, hollow.mouth_mm, boring.depth_mm));
        }
    }
    for (cut, choice) in design.cuts.iter().enumerate() {
        if let (Cut::Pass(pass), Some(turned)) = (choice, piece.revolved(cut))
            && let Some((at_mm, diameter_mm)) = caliper_station(piece, turned, unit)
        {
            lines.push(line(MeasuredWhat::Diameter, pass.axis, at_mm, diameter_mm));
        }
    }
    lines.truncate(MOST);
    lines
}

/// The station of a pass at which a caliper finds most, and the diameter there, in mm; `None` where it finds no pair.
fn caliper_station(piece: &Piece, turned: &Revolved, unit: LengthUnit) -> Option<(f64, f64)> {
    let chain = &turned.meridian;
    let (from, to, step) = (chain.start(), chain.end(), caliper_step_mm(unit));
    let round = (0..400).map(|i| ((from / step).ceil() + f64::from(i)) * step).take_while(|t| *t < to);
    let mut best: Option<(Left, f64)> = None;
    for t in round.chain(chain.points().iter().map(|p| p.t)) {
        // On a step a caliper finds either diameter.
        if (chain.radius_after(t) - chain.radius_before(t)).abs() > NEAR_MM || chain.radius_after(t) <= NEAR_MM {
            continue;
        }
        let left = pairs_left(piece, turned, t, Side::Outside);
        if left != Left::Nothing && best.is_none_or(|known| left > known.0) {
            best = Some((left, t));
        }
    }
    best.map(|(_, t)| (t, 2.0 * chain.radius_after(t)))
}

/// On which side of a surface its wood lies.
#[derive(Clone, Copy, PartialEq)]
enum Side {
    /// A pass: wood within.
    Outside,
    /// A hollow: wood without.
    Within,
}

/// How much of a circle is left.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
enum Left {
    Nothing,
    Pair,
    All,
}

/// How much of the circle of a cut at a station is surface of the finished piece.
fn pairs_left(piece: &Piece, turned: &Revolved, t: f64, side: Side) -> Left {
    let finished = piece.solid.finished();
    let radius = turned.meridian.radius_after(t);
    let off = if side == Side::Outside { NEAR_MM } else { -NEAR_MM };
    let is_surface = |clock: f64| {
        let wood = |r: f64| finished.contains(turned.axis.point(t, r, clock));
        wood(radius - off) && !wood(radius + off)
    };
    let clocks = |i: usize| PI * i as f64 / PAIRS as f64;
    let pair = |i: usize| is_surface(clocks(i)) && is_surface(clocks(i) + PI);
    let found = (0..PAIRS).filter(|i| pair(*i)).count();
    let any = || side == Side::Within && (0..2 * PAIRS).any(|i| is_surface(clocks(i)));
    match found {
        PAIRS => Left::All,
        0 if !any() => Left::Nothing,
        _ => Left::Pair,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests may stop at once")]

    use super::*;
    use crate::design::{Shop, starters};
    use crate::figures::work_out;

    #[test]
    fn the_demo_offers_its_wall_floor_depth_and_diameters_and_they_make_a_sound_log() {
        let mut design = starters::demo();
        let worked = work_out(&design, &Shop::default()).unwrap();
        let lines = to_measure(&design, &worked, LengthUnit::Millimetres);
        for what in [MeasuredWhat::Wall, MeasuredWhat::Floor, MeasuredWhat::Depth, MeasuredWhat::Diameter] {
            assert!(lines.iter().any(|line| line.what == what), "{what:?}");
        }
        let wall = lines.iter().find(|line| line.what == MeasuredWhat::Wall).unwrap();
        assert_eq!(Some(wall.planned_mm), worked.figures.walls[0].least.map(|least| least.wall_mm));
        let making = crate::design::Making { date: "2026-03-09".into(), measured: lines, ..Default::default() };
        design.log.push(making);
        assert_eq!(design.problems(), vec![]);
    }
}
