//! Cutting lines and areas off at the edge of the sheet, so that a closer view costs no more than the whole.

use super::frame::Point;

/// The rectangle that is kept, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Top left corner.
    pub low: Point,
    /// Bottom right corner.
    pub high: Point,
}

impl Frame {
    /// Whether a point is in it, the edge included.
    #[must_use]
    pub fn contains(&self, p: Point) -> bool {
        (self.low.x..=self.high.x).contains(&p.x) && (self.low.y..=self.high.y).contains(&p.y)
    }

    /// The point of it nearest to `p`.
    fn hold(&self, p: Point) -> Point {
        Point::new(p.x.max(self.low.x).min(self.high.x), p.y.max(self.low.y).min(self.high.y))
    }
}

/// The part of a segment inside the frame; `None` when there is none or a number is not finite.
#[must_use]
pub fn clip_segment(a: Point, b: Point, frame: &Frame) -> Option<(Point, Point)> {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    if !(a.x.is_finite() && a.y.is_finite() && dx.is_finite() && dy.is_finite()) {
        return None;
    }
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    let sides =
        [(-dx, a.x - frame.low.x), (dx, frame.high.x - a.x), (-dy, a.y - frame.low.y), (dy, frame.high.y - a.y)];
    for (toward, room) in sides {
        if toward == 0.0 {
            if room < 0.0 {
                return None;
            }
        } else if toward < 0.0 {
            from = from.max(room / toward);
        } else {
            to = to.min(room / toward);
        }
    }
    // Where numbers are huge, a share of 1 may still be off the frame.
    let at = |share: f64| frame.hold(Point::new(a.x + dx * share, a.y + dy * share));
    (from <= to)
        .then(|| (if from > 0.0 { at(from) } else { frame.hold(a) }, if to < 1.0 { at(to) } else { frame.hold(b) }))
}

/// The runs of a chain of points that lie inside the frame.
#[must_use]
pub fn clip_chain(points: &[Point], frame: &Frame) -> Vec<Vec<Point>> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    let mut joined = false;
    for pair in points.windows(2) {
        let Some((from, to)) = clip_segment(pair[0], pair[1], frame) else {
            joined = false;
            continue;
        };
        match runs.last_mut() {
            Some(run) if joined && from == pair[0] => run.push(to),
            _ => runs.push(vec![from, to]),
        }
        joined = to == pair[1];
    }
    runs
}

/// The part of a ring inside the frame (Sutherland and Hodgman, 1974); points that are not finite are dropped first.
#[must_use]
pub fn clip_ring(ring: &[Point], frame: &Frame) -> Vec<Point> {
    let mut points: Vec<Point> = ring.iter().copied().filter(|p| p.x.is_finite() && p.y.is_finite()).collect();
    if points.iter().all(|p| frame.contains(*p)) {
        return points;
    }
    // Depth inside each side of the frame.
    let sides: [fn(Point, &Frame) -> f64; 4] =
        [|p, f| p.x - f.low.x, |p, f| f.high.x - p.x, |p, f| p.y - f.low.y, |p, f| f.high.y - p.y];
    for depth in sides {
        let mut kept = Vec::with_capacity(points.len() + 4);
        for (i, &p) in points.iter().enumerate() {
            let q = points[(i + 1) % points.len()];
            let (dp, dq) = (depth(p, frame), depth(q, frame));
            if dp >= 0.0 {
                kept.push(p);
            }
            if (dp >= 0.0) != (dq >= 0.0) {
                let share = dp / (dp - dq);
                let cut = Point::new(p.x + (q.x - p.x) * share, p.y + (q.y - p.y) * share);
                if cut.x.is_finite() && cut.y.is_finite() {
                    kept.push(cut);
                }
            }
        }
        points = kept;
    }
    // Rounding on far-off corners must not lead back out.
    for p in &mut points {
        *p = frame.hold(*p);
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Frame = Frame { low: Point::new(0.0, 0.0), high: Point::new(10.0, 10.0) };

    #[test]
    fn a_chain_that_leaves_and_comes_back_becomes_two_runs() {
        let chain = [(5.0, 5.0), (15.0, 5.0), (15.0, 8.0), (2.0, 8.0), (2.0, 9.0)].map(Point::from);
        let runs = clip_chain(&chain, &FRAME);
        assert_eq!(
            runs,
            vec![
                vec![Point::new(5.0, 5.0), Point::new(10.0, 5.0)],
                [(10.0, 8.0), (2.0, 8.0), (2.0, 9.0)].map(Point::from).to_vec()
            ]
        );
    }

    #[test]
    fn a_ring_around_the_frame_becomes_the_frame() {
        let ring = [(-90.0, -90.0), (90.0, -90.0), (90.0, 90.0), (-90.0, 90.0)].map(Point::from);
        let clipped = clip_ring(&ring, &FRAME);
        let area: f64 = (0..clipped.len())
            .map(|i| {
                let (p, q) = (clipped[i], clipped[(i + 1) % clipped.len()]);
                (p.x * q.y - q.x * p.y) / 2.0
            })
            .sum();
        assert!((area - 100.0).abs() < 1e-9);
    }

    #[test]
    fn numbers_that_are_not_finite_draw_nothing() {
        assert_eq!(clip_segment(Point::new(f64::NAN, 0.0), Point::new(1.0, 1.0), &FRAME), None);
        assert_eq!(clip_segment(Point::new(0.0, f64::INFINITY), Point::new(1.0, 1.0), &FRAME), None);
        assert!(clip_ring(&[Point::new(f64::NAN, 1.0), Point::new(2.0, f64::INFINITY)], &FRAME).is_empty());
    }
}
