//! Lines after ISO 128: dash patterns, hatching and arrow heads, worked out as plain strokes in CSS pixels.
//!
//! A backend only knows solid lines, so every pattern is cut into strokes here.

use super::clip::{Frame, clip_segment};
use super::frame::Point;
use crate::geometry::line::order::sort_by_number;

/// A straight stroke.
pub type Stroke = (Point, Point);

/// Lengths of dash and gap in turn, in CSS pixels.
///
/// Proportions after ISO 128-2 (long dash 24 d, dash 12 d, gap 3 d, dot half d), from memory; shortened, and the dots
/// lengthened, for sheets as small as a phone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pattern(&'static [f64]);

impl Pattern {
    /// Hidden edges.
    pub const DASHED: Self = Self(&[7.0, 4.0]);
    /// Saw lines.
    pub const LONG_DASH_DOUBLE_DOT: Self = Self(&[16.0, 4.0, 2.0, 4.0, 2.0, 4.0]);
    /// Dimension helpers that must stay faint.
    pub const DOTTED: Self = Self(&[2.0, 4.0]);

    /// The long-dash-dot of the axis with this place in A, B, C...: each has its own length of dash.
    #[must_use]
    pub fn axis(index: usize) -> Self {
        Self(match index % 4 {
            0 => &[24.0, 4.0, 2.0, 4.0],
            1 => &[14.0, 4.0, 2.0, 4.0],
            2 => &[34.0, 4.0, 2.0, 4.0],
            _ => &[9.0, 4.0, 2.0, 4.0],
        })
    }

    fn period(self) -> f64 {
        self.0.iter().sum()
    }
}

/// The strokes of a dashed chain of points, those on the sheet only. The pattern runs on around corners.
#[must_use]
pub fn dashes(points: &[Point], pattern: Pattern, frame: &Frame) -> Vec<Stroke> {
    let mut strokes = Vec::new();
    let mut run = 0.0;
    for pair in points.windows(2) {
        let length = distance(pair[0], pair[1]);
        if let Some((from, to)) = clip_segment(pair[0], pair[1], frame) {
            let phase = (run + distance(pair[0], from)) % pattern.period();
            dash_segment(from, to, phase, pattern, &mut strokes);
        }
        run += length;
    }
    strokes
}

/// Appends the dashes of one segment that begins `phase` into the pattern.
fn dash_segment(from: Point, to: Point, phase: f64, pattern: Pattern, strokes: &mut Vec<Stroke>) {
    let length = distance(from, to);
    if !(phase.is_finite() && length.is_finite() && length > 0.0) {
        return;
    }
    let at = |along: f64| {
        let share = (along / length).clamp(0.0, 1.0);
        Point::new(from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share)
    };
    let mut start = -phase;
    // The segment lies on the sheet, so the number of dashes is small.
    while start < length {
        for (i, part) in pattern.0.iter().enumerate() {
            let end = start + part;
            if i % 2 == 0 && end > 0.0 && start < length {
                strokes.push((at(start.max(0.0)), at(end.min(length))));
            }
            start = end;
        }
    }
}

/// Which way hatching rises.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lean {
    /// Up to the right.
    Right,
    /// Up to the left.
    Left,
}

/// Hatching at 45 degrees, `spacing` CSS pixels between lines, inside rings (even-odd: holes stay free).
///
/// Lines are tied to the corner of the sheet, so that neighbouring areas match.
#[must_use]
pub fn hatch(rings: &[Vec<Point>], spacing: f64, lean: Lean) -> Vec<Stroke> {
    // Turned by 45 degrees, lines are level: line k lies where across = k * step.
    let turn = |p: Point| match lean {
        Lean::Right => Point::new(p.x - p.y, p.x + p.y),
        Lean::Left => Point::new(p.x + p.y, p.y - p.x),
    };
    let back = |along: f64, across: f64| match lean {
        Lean::Right => Point::new((along + across) / 2.0, (across - along) / 2.0),
        Lean::Left => Point::new((along - across) / 2.0, (along + across) / 2.0),
    };
    let step = spacing.max(1.0) * std::f64::consts::SQRT_2;
    let mut crossings: Vec<(i64, f64)> = Vec::new();
    for ring in rings {
        for (i, p) in ring.iter().enumerate() {
            let (a, b) = (turn(*p), turn(ring[(i + 1) % ring.len()]));
            cross_lines(a, b, step, &mut crossings);
        }
    }
    sort_by_number(&mut crossings, |(_, along)| *along);
    sort_by_number(&mut crossings, |(line, _)| *line as f64);
    let mut strokes = Vec::with_capacity(crossings.len() / 2);
    let mut i = 0;
    while i + 1 < crossings.len() {
        let ((line, from), (same, to)) = (crossings[i], crossings[i + 1]);
        if line != same {
            i += 1;
            continue;
        }
        let across = line as f64 * step;
        if to - from > 0.5 {
            strokes.push((back(from, across), back(to, across)));
        }
        i += 2;
    }
    strokes
}

/// Most hatching lines one edge may cross; edges on a sheet cross far fewer.
const MOST_LINES: f64 = 4000.0;

/// Appends where an edge crosses hatching lines. Half-open, so that a corner on a line counts once.
fn cross_lines(a: Point, b: Point, step: f64, crossings: &mut Vec<(i64, f64)>) {
    let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
    let (first, last) = ((low.y / step).ceil(), (high.y / step).ceil());
    let sound = first.is_finite() && last.is_finite() && last - first <= MOST_LINES && first.abs() < 1e12;
    if !sound {
        return;
    }
    for line in first as i64..last as i64 {
        let share = (line as f64 * step - low.y) / (high.y - low.y);
        crossings.push((line, low.x + (high.x - low.x) * share));
    }
}

/// A slim arrow head (about 20 degrees) with its point at `tip`, coming from `from`; `length` in CSS pixels.
#[must_use]
pub fn arrow_head(tip: Point, from: Point, length: f64) -> Option<[Point; 3]> {
    let run = distance(tip, from);
    if !(run.is_finite() && run > 1e-6) {
        return None;
    }
    let (ux, uy) = ((from.x - tip.x) / run, (from.y - tip.y) / run);
    let half = length * 0.17;
    let base = (tip.x + ux * length, tip.y + uy * length);
    Some([tip, Point::new(base.0 - uy * half, base.1 + ux * half), Point::new(base.0 + uy * half, base.1 - ux * half)])
}

/// Distance between two points.
#[must_use]
pub fn distance(a: Point, b: Point) -> f64 {
    (b.x - a.x).hypot(b.y - a.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Frame = Frame { low: Point::new(0.0, 0.0), high: Point::new(400.0, 300.0) };

    #[test]
    fn dashes_keep_their_lengths_around_a_corner() {
        let strokes =
            dashes(&[Point::new(0.0, 0.0), Point::new(10.0, 0.0), Point::new(10.0, 30.0)], Pattern::DASHED, &FRAME);
        assert_eq!(strokes[0], (Point::new(0.0, 0.0), Point::new(7.0, 0.0)));
        // The gap ends 1 px past the corner.
        assert_eq!(strokes[1], (Point::new(10.0, 1.0), Point::new(10.0, 8.0)));
        assert_eq!(strokes.len(), 4);
    }

    #[test]
    fn dashes_of_a_line_far_beyond_the_sheet_are_few() {
        let strokes = dashes(&[Point::new(-1e9, 150.0), Point::new(1e9, 150.0)], Pattern::DASHED, &FRAME);
        assert!((30..60).contains(&strokes.len()), "{}", strokes.len());
        assert!(dashes(&[Point::new(f64::NAN, 0.0), Point::new(1.0, 1.0)], Pattern::DASHED, &FRAME).is_empty());
        assert!(dashes(&[Point::new(-1e300, 5.0), Point::new(1e300, 5.0)], Pattern::DASHED, &FRAME).len() < 200);
    }

    /// A square ring with a square hole: the hatched length times the spacing is near the area between them.
    #[test]
    fn hatching_fills_the_ring_and_spares_its_hole() {
        let square = |half: f64| {
            let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
            corners.map(|(x, y)| Point::new(100.0 + x, 100.0 + y)).to_vec()
        };
        for lean in [Lean::Right, Lean::Left] {
            let strokes = hatch(&[square(60.0), square(30.0)], 6.0, lean);
            let length: f64 = strokes.iter().map(|s| distance(s.0, s.1)).sum();
            let area = 120.0 * 120.0 - 60.0 * 60.0;
            assert!((length * 6.0 / area - 1.0).abs() < 0.03, "{}", length * 6.0);
            for (a, b) in strokes {
                let middle = ((a.x + b.x) / 2.0 - 100.0, (a.y + b.y) / 2.0 - 100.0);
                assert!(middle.0.abs().max(middle.1.abs()) >= 30.0 - 1e-9);
                assert!(((b.x - a.x).abs() - (b.y - a.y).abs()).abs() < 1e-9, "not 45 degrees");
                assert_eq!((b.x - a.x) * (b.y - a.y) < 0.0, lean == Lean::Right);
            }
        }
    }
}
