//! Fingers and mouse on a sheet: one drags, two pinch, two quick taps ask to see it whole.

use super::frame::Point;

/// Taps as near in time, in ms, and place, in pixels, are one double tap.
const DOUBLE_TAP_MS: f64 = 350.0;
const DOUBLE_TAP_PX: f64 = 24.0;
/// A pointer that has moved less than this, in pixels, has not moved.
const STILL_PX: f64 = 4.0;

/// How far off a handle may be touched, in pixels: a finger is broader than a mouse.
#[must_use]
pub fn reach_px(pointer_type: &str) -> f64 {
    if pointer_type == "mouse" { 14.0 } else { 28.0 }
}

/// What a movement amounts to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// Nothing.
    None,
    /// One pointer moved by so much.
    Drag(Point),
    /// Two pointers moved.
    Pinch {
        /// How far their middle moved.
        by: Point,
        /// How much farther apart they are.
        factor: f64,
        /// Their middle.
        about: Point,
    },
}

#[derive(Clone, Copy, Debug)]
struct Pointer {
    id: i32,
    start: Point,
    now: Point,
    moving: bool,
}

/// The pointers that are down.
#[derive(Clone, Debug, Default)]
pub struct Pointers {
    down: Vec<Pointer>,
    last_tap: Option<(Point, f64)>,
    pinched: bool,
}

impl Pointers {
    /// A pointer goes down; whether it is the only one.
    pub fn down(&mut self, id: i32, place: Point) -> bool {
        self.down.retain(|pointer| pointer.id != id);
        self.down.push(Pointer { id, start: place, now: place, moving: false });
        self.pinched = self.down.len() > 1;
        self.down.len() == 1
    }

    /// A pointer moves.
    pub fn moved(&mut self, id: i32, place: Point) -> Change {
        let before: Vec<Point> = self.down.iter().map(|pointer| pointer.now).collect();
        let Some(index) = self.down.iter().position(|pointer| pointer.id == id) else { return Change::None };
        let pointer = &mut self.down[index];
        if !pointer.moving && apart(pointer.start, place) < STILL_PX {
            return Change::None;
        }
        pointer.moving = true;
        pointer.now = place;
        match (before.as_slice(), self.down.as_slice()) {
            ([old], [new]) => Change::Drag(Point::new(new.now.x - old.x, new.now.y - old.y)),
            ([old_a, old_b], [new_a, new_b]) => {
                let (was, is) = (middle(*old_a, *old_b), middle(new_a.now, new_b.now));
                let (far_was, far_is) = (apart(*old_a, *old_b), apart(new_a.now, new_b.now));
                let factor = if far_was > STILL_PX { far_is / far_was } else { 1.0 };
                Change::Pinch { by: Point::new(is.x - was.x, is.y - was.y), factor, about: is }
            }
            _ => Change::None,
        }
    }

    /// A pointer is lifted at this time, in ms; whether that was the second of two quick taps.
    pub fn up(&mut self, id: i32, place: Point, time_ms: f64) -> bool {
        let tap = self.down.iter().any(|pointer| pointer.id == id && !pointer.moving) && !self.pinched;
        self.down.retain(|pointer| pointer.id != id);
        if !tap {
            self.last_tap = None;
            return false;
        }
        let again =
            self.last_tap.is_some_and(|(at, when)| time_ms - when < DOUBLE_TAP_MS && apart(at, place) < DOUBLE_TAP_PX);
        self.last_tap = if again { None } else { Some((place, time_ms)) };
        again
    }
}

fn middle(a: Point, b: Point) -> Point {
    Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y))
}

fn apart(a: Point, b: Point) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_pointer_drags_once_it_has_really_moved() {
        let mut pointers = Pointers::default();
        assert!(pointers.down(1, Point::new(10.0, 10.0)));
        assert_eq!(pointers.moved(1, Point::new(12.0, 11.0)), Change::None);
        assert_eq!(pointers.moved(1, Point::new(20.0, 15.0)), Change::Drag(Point::new(10.0, 5.0)));
        assert_eq!(pointers.moved(1, Point::new(21.0, 15.0)), Change::Drag(Point::new(1.0, 0.0)));
        assert_eq!(pointers.moved(2, Point::new(50.0, 50.0)), Change::None, "a pointer that is not down");
        assert!(!pointers.up(1, Point::new(21.0, 15.0), 0.0));
    }

    #[test]
    fn two_pointers_pinch_about_their_middle() {
        let mut pointers = Pointers::default();
        pointers.down(1, Point::new(0.0, 0.0));
        assert!(!pointers.down(2, Point::new(100.0, 0.0)));
        let Change::Pinch { by, factor, about } = pointers.moved(2, Point::new(200.0, 20.0)) else {
            panic!("no pinch")
        };
        assert_eq!((by, about), (Point::new(50.0, 10.0), Point::new(100.0, 10.0)));
        assert!((factor - 40_400_f64.sqrt() / 100.0).abs() < 1e-12);
    }

    #[test]
    fn two_quick_taps_in_one_place_are_a_double_tap() {
        let mut pointers = Pointers::default();
        let mut tap = |place: Point, time_ms: f64| {
            pointers.down(1, place);
            pointers.up(1, place, time_ms)
        };
        assert!(!tap(Point::new(10.0, 10.0), 0.0));
        assert!(tap(Point::new(14.0, 10.0), 200.0));
        assert!(!tap(Point::new(14.0, 10.0), 300.0), "the third tap begins anew");
        assert!(!tap(Point::new(14.0, 10.0), 900.0), "too late");
        assert!(!tap(Point::new(80.0, 10.0), 1000.0), "too far off");
    }

    #[test]
    fn a_drag_or_a_pinch_is_no_tap() {
        let mut pointers = Pointers::default();
        pointers.down(1, Point::new(0.0, 0.0));
        pointers.up(1, Point::new(0.0, 0.0), 0.0);
        pointers.down(1, Point::new(0.0, 0.0));
        pointers.moved(1, Point::new(40.0, 0.0));
        assert!(!pointers.up(1, Point::new(40.0, 0.0), 100.0));
        pointers.down(1, Point::new(0.0, 0.0));
        pointers.up(1, Point::new(0.0, 0.0), 150.0);
        pointers.down(1, Point::new(0.0, 0.0));
        pointers.down(2, Point::new(5.0, 0.0));
        assert!(!pointers.up(2, Point::new(5.0, 0.0), 200.0));
    }
}
