//! A pointer on a slider: when it drags the thumb, and to what value.
//!
//! A finger that moves up or down scrolls the page and leaves the value alone. It drags the thumb when it takes the
//! thumb, or moves sideways first. A mouse cannot scroll by dragging: it drags at once, and a click on the track moves
//! the thumb there.

use super::frame::Point;

/// Width of the thumb, in CSS pixels, as the style sheet draws it.
const THUMB_PX: f64 = 28.0;
/// A finger this far beside the thumb, in CSS pixels, still takes it.
const REACH_PX: f64 = 10.0;
/// A finger on the thumb, and one beside it, that has moved less than this, in CSS pixels, has not chosen a way yet.
const STILL_ON_THUMB_PX: f64 = 2.0;
const STILL_PX: f64 = 8.0;

/// A slider on screen: the values at its ends, and its width in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Track {
    /// Value at the left end.
    pub from: f64,
    /// Value at the right end.
    pub to: f64,
    /// Width, in CSS pixels.
    pub width_px: f64,
}

impl Track {
    /// How far the middle of the thumb can move, in CSS pixels.
    fn travel_px(&self) -> f64 {
        (self.width_px - THUMB_PX).max(1.0)
    }

    /// Where the middle of the thumb stands, in CSS pixels from the left end of the track.
    fn thumb_px(&self, value: f64) -> f64 {
        let range = self.to - self.from;
        let share = if range > 0.0 { ((value - self.from) / range).clamp(0.0, 1.0) } else { 0.0 };
        THUMB_PX / 2.0 + share * self.travel_px()
    }

    /// The value after the thumb has moved by so many CSS pixels from a value, on the track.
    fn moved(&self, value: f64, by_px: f64) -> f64 {
        let moved = value + by_px / self.travel_px() * (self.to - self.from);
        moved.min(self.to).max(self.from)
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    /// Not chosen yet.
    Still,
    /// Sideways: the thumb follows.
    Sideways,
    /// Up or down: the page's business.
    Scrolls,
}

/// One press of a pointer on a slider, from down to up.
#[derive(Clone, Copy, Debug)]
pub struct Slide {
    track: Track,
    start: Point,
    value: f64,
    before: f64,
    on_thumb: bool,
    way: Way,
}

impl Slide {
    /// A finger or a pen goes down at a place on the slider, in CSS pixels from its top left corner. Nothing moves yet.
    #[must_use]
    pub fn by_finger(track: Track, value: f64, place: Point) -> Self {
        let on_thumb = (place.x - track.thumb_px(value)).abs() <= THUMB_PX / 2.0 + REACH_PX;
        Self { track, start: place, value, before: value, on_thumb, way: Way::Still }
    }

    /// A mouse goes down. The second part is the value to move to at once: absent on the thumb.
    #[must_use]
    pub fn by_mouse(track: Track, value: f64, place: Point) -> (Self, Option<f64>) {
        let off = place.x - track.thumb_px(value);
        let on_thumb = off.abs() <= THUMB_PX / 2.0;
        let start = if on_thumb { value } else { track.moved(value, off) };
        let slide = Self { track, start: place, value: start, before: value, on_thumb, way: Way::Sideways };
        (slide, (!on_thumb).then_some(start))
    }

    /// The pointer moves: the value to move to; absent while it has not moved sideways first.
    pub fn moved(&mut self, place: Point) -> Option<f64> {
        let (dx, dy) = (place.x - self.start.x, place.y - self.start.y);
        if self.way == Way::Still {
            let still = if self.on_thumb { STILL_ON_THUMB_PX } else { STILL_PX };
            self.way = match dx.hypot(dy) {
                far if far < still => Way::Still,
                _ if dx.abs() > dy.abs() => Way::Sideways,
                _ => Way::Scrolls,
            };
        }
        (self.way == Way::Sideways).then(|| self.track.moved(self.value, dx))
    }

    /// Whether the thumb has been taken along.
    #[must_use]
    pub fn is_dragging(&self) -> bool {
        self.way == Way::Sideways
    }

    /// The value before the pointer went down.
    #[must_use]
    pub const fn before(&self) -> f64 {
        self.before
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 0 to 10 over 228 pixels: the thumb's middle moves over 200, 20 pixels a unit.
    const TRACK: Track = Track { from: 0.0, to: 10.0, width_px: 228.0 };

    #[test]
    fn a_vertical_swipe_never_moves_the_thumb() {
        for x in [4.0, 114.0, 220.0] {
            let mut slide = Slide::by_finger(TRACK, 5.0, Point::new(x, 20.0));
            for step in 1..40 {
                // Later it may wander sideways as well: the way is chosen.
                let place = Point::new(x + 1.4 * f64::from(step), 20.0 - 2.0 * f64::from(step));
                assert_eq!(slide.moved(place), None, "from {x}, step {step}");
            }
            assert!(!slide.is_dragging());
        }
    }

    #[test]
    fn a_tap_moves_nothing() {
        let mut slide = Slide::by_finger(TRACK, 5.0, Point::new(20.0, 20.0));
        assert_eq!(slide.moved(Point::new(23.0, 21.0)), None);
        assert!(!slide.is_dragging());
    }

    #[test]
    fn sideways_the_thumb_goes_as_far_as_the_finger() {
        // On the thumb, whose middle is at 114, and away from it.
        for x in [110.0, 30.0] {
            let mut slide = Slide::by_finger(TRACK, 5.0, Point::new(x, 20.0));
            assert_eq!(slide.moved(Point::new(x + 40.0, 22.0)), Some(7.0));
            assert_eq!(slide.moved(Point::new(x - 20.0, 90.0)), Some(4.0), "once it drags, it goes on");
            assert_eq!(slide.moved(Point::new(x + 900.0, 22.0)), Some(10.0));
            assert_eq!(slide.before(), 5.0);
        }
    }

    #[test]
    fn a_mouse_moves_the_thumb_to_where_it_clicks() {
        assert_eq!(Slide::by_mouse(TRACK, 5.0, Point::new(120.0, 20.0)).1, None, "on the thumb");
        let (mut slide, at_once) = Slide::by_mouse(TRACK, 5.0, Point::new(34.0, 20.0));
        assert_eq!(at_once, Some(1.0));
        assert_eq!(slide.moved(Point::new(54.0, 20.0)), Some(2.0));
        assert_eq!(slide.before(), 5.0);
    }

    #[test]
    fn a_track_without_room_or_range_stays_where_it_is() {
        let narrow = Track { from: 3.0, to: 3.0, width_px: 0.0 };
        let mut slide = Slide::by_finger(narrow, 3.0, Point::new(0.0, 0.0));
        assert_eq!(slide.moved(Point::new(50.0, 0.0)), Some(3.0));
    }
}
