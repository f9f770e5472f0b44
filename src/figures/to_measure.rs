//! What is worth measuring on a finished piece, with what was planned: the lines that the log offers.

use super::report::Figures;
use crate::design::{AxisName, Cut, Design, Measured, MeasuredWhat, PassProfile};

/// Most lines that are offered: a log that asks for too much is not kept.
const MOST: usize = 8;

/// The lines to measure, each as planned; `measured_mm` is the plan's too until it is measured.
///
/// The thinnest wall and the floor of every hollow, the depth of every bore, and the first diameter of every outside
/// that is drawn. Exact copies of the figures.
#[must_use]
pub fn to_measure(design: &Design, figures: &Figures) -> Vec<Measured> {
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
        if let Some(Cut::Hollow(hollow)) = design.cuts.get(boring.cut) {
            lines.push(line(MeasuredWhat::Depth, hollow.axis, hollow.mouth_mm, boring.depth_mm));
        }
    }
    for cut in &design.cuts {
        if let Cut::Pass(pass) = cut
            && let PassProfile::Drawn { nodes } = &pass.profile
            && let Some(node) = nodes.iter().find(|node| node.diameter_mm > 0.0)
        {
            lines.push(line(MeasuredWhat::Diameter, pass.axis, node.at_mm, node.diameter_mm));
        }
    }
    lines.truncate(MOST);
    lines
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
        let lines = to_measure(&design, &worked.figures);
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
