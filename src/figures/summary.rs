//! The few figures that are always in sight.

use super::report::Figures;
use super::wall::WallPoint;
use crate::design::AxisName;

impl Figures {
    /// The thinnest wall of any hollow; `None` without one.
    #[must_use]
    pub fn thinnest_wall(&self) -> Option<&WallPoint> {
        let least = self.walls.iter().filter_map(|wall| wall.least.as_ref());
        least.min_by(|a, b| a.wall_mm.total_cmp(&b.wall_mm))
    }

    /// The angle of the handle to axis A, in degrees: of the first axis after A; `None` for a piece that has only A.
    #[must_use]
    pub fn handle_deg(&self) -> Option<f64> {
        self.marks.iter().find(|marks| marks.axis != AxisName::A).map(|marks| marks.tilt_deg)
    }
}

#[cfg(test)]
mod tests {
    use crate::design::{Shop, starters};
    use crate::figures::work_out;

    #[test]
    fn the_example_has_a_wall_and_an_angle() {
        let worked = work_out(&starters::demo(), &Shop::default()).unwrap();
        let wall = worked.figures.thinnest_wall().unwrap();
        assert!(worked.figures.walls.iter().filter_map(|it| it.least).all(|least| wall.wall_mm <= least.wall_mm));
        assert!(worked.figures.handle_deg().is_some_and(|deg| deg > 0.0));
    }

    #[test]
    fn a_straight_handle_has_no_angle() {
        let worked = work_out(&starters::bored_end_scoop_straight(), &Shop::default()).unwrap();
        assert_eq!(worked.figures.handle_deg(), None);
    }
}
