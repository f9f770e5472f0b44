//! Points beyond what a picture shows: an arrow at its edge says where each lies.

use plotters::prelude::{DrawingBackend, RGBColor};

use super::clip::{Frame, clip_segment};
use super::frame::Point;
use super::line::arrow_head;
use super::pen::{Drawn, Pen, toward};

/// Length of an arrow, in CSS pixels.
const LENGTH_PX: f64 = 14.0;

/// Where the way from the middle of a room to a point leaves the room; `None` for a point within it.
#[must_use]
pub fn leaves(room: &Frame, point: Point) -> Option<Point> {
    let middle = Point::new(f64::midpoint(room.low.x, room.high.x), f64::midpoint(room.low.y, room.high.y));
    if room.contains(point) { None } else { clip_segment(middle, point, room).map(|(_, edge)| edge) }
}

/// An arrow with its tip at the edge, that points on to what lies beyond.
pub(super) fn arrow<DB: DrawingBackend>(pen: &mut Pen<'_, DB>, tip: Point, to: Point, colour: RGBColor) -> Drawn<DB> {
    let head = arrow_head(tip, toward(tip, to, -LENGTH_PX), LENGTH_PX);
    pen.fill(&head.into_iter().map(Vec::from).collect::<Vec<_>>(), colour, 1.0)
}

#[cfg(test)]
mod tests {
    use super::{Frame, Point, leaves};

    #[test]
    fn a_point_beyond_is_pointed_to_from_the_edge() {
        let room = Frame { low: Point::new(0.0, 0.0), high: Point::new(100.0, 60.0) };
        assert_eq!(leaves(&room, Point::new(50.0, 30.0)), None);
        assert_eq!(leaves(&room, Point::new(99.0, 59.0)), None);
        assert_eq!(leaves(&room, Point::new(50.0, 330.0)), Some(Point::new(50.0, 60.0)));
        assert_eq!(leaves(&room, Point::new(-50.0, 30.0)), Some(Point::new(0.0, 30.0)));
        assert_eq!(leaves(&room, Point::new(250.0, 90.0)), Some(Point::new(100.0, 45.0)));
    }
}
