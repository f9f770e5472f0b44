//! Points beyond what a picture shows: an arrow at its edge says where each lies.

use plotters::prelude::{DrawingBackend, RGBColor};

use super::frame::Point;
use super::pen::{Drawn, Pen};
use super::text::Block;

/// Length of an arrow, in CSS pixels.
const LENGTH_PX: f64 = 9.0;
/// Half its width, in CSS pixels.
const HALF_WIDTH_PX: f64 = 5.0;

/// Where the way from the middle of a room to a point leaves the room; `None` for a point within it.
#[must_use]
pub fn leaves(room: &Block, point: Point) -> Option<Point> {
    let middle = (f64::midpoint(room.low.0, room.high.0), f64::midpoint(room.low.1, room.high.1));
    let half = ((room.high.0 - room.low.0) / 2.0, (room.high.1 - room.low.1) / 2.0);
    let away = (point.0 - middle.0, point.1 - middle.1);
    // Not a number where the point is the middle itself.
    let part = (half.0 / away.0.abs()).min(half.1 / away.1.abs());
    (part < 1.0).then_some((middle.0 + away.0 * part, middle.1 + away.1 * part))
}

/// An arrow with its tip at the edge, that points on to what lies beyond.
pub(super) fn arrow<DB: DrawingBackend>(pen: &mut Pen<'_, DB>, tip: Point, to: Point, colour: RGBColor) -> Drawn<DB> {
    let away = (to.0 - tip.0, to.1 - tip.1);
    let length = away.0.hypot(away.1).max(1e-9);
    let along = (away.0 / length, away.1 / length);
    let foot = (tip.0 - along.0 * LENGTH_PX, tip.1 - along.1 * LENGTH_PX);
    let corner = |side: f64| (foot.0 - along.1 * side, foot.1 + along.0 * side);
    pen.fill(&[vec![tip, corner(HALF_WIDTH_PX), corner(-HALF_WIDTH_PX)]], colour, 1.0)
}

#[cfg(test)]
mod tests {
    use super::{Block, leaves};

    #[test]
    fn a_point_beyond_is_pointed_to_from_the_edge() {
        let room = Block { low: (0.0, 0.0), high: (100.0, 60.0) };
        assert_eq!(leaves(&room, (50.0, 30.0)), None);
        assert_eq!(leaves(&room, (99.0, 59.0)), None);
        assert_eq!(leaves(&room, (50.0, 330.0)), Some((50.0, 60.0)));
        assert_eq!(leaves(&room, (-50.0, 30.0)), Some((0.0, 30.0)));
        assert_eq!(leaves(&room, (250.0, 90.0)), Some((100.0, 45.0)));
    }
}
