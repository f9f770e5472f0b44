//! The region above a line drawn in the side view, across the whole width.

use kurbo::Point;

use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::pace::spend;
use crate::geometry::region::curve::{Segment, arc_points, arc_start_slope};
use crate::geometry::region::meridian::{Bent, distance_to_piece_sq};
use crate::geometry::region::revolved::Ray;

/// What lies above a chain of straight pieces in the side view (s, y), across all x: between its ends and beyond its
/// first end along its tangent; at its last end the region stops square to axis A.
#[derive(Clone, Debug, PartialEq)]
pub struct Sawn {
    points: Vec<Point>,
    drawn: (f64, f64),
    arc: Option<Bent>,
}

/// How far the line is carried on before its first end, in mm: past any blank.
const FAR: f64 = 1e5;
/// The steepest slope at which the line is carried on: a tenth of a degree from upright.
const STEEPEST: f64 = 573.0;

impl Sawn {
    /// From points `(s, y)`, stations growing; `None` when there are fewer than two, a number is not finite, or
    /// stations do not grow.
    #[must_use]
    pub fn above(points: &[Point]) -> Option<Self> {
        let (a, b) = (points.first()?, points.get(1)?);
        Self::above_with_tangent(points, (b.y - a.y) / (b.x - a.x))
    }

    /// From the ends `(s, y)` of an arc that stands off its chord by `bulge`, positive upward; chords within `tolerance` mm.
    #[must_use]
    pub fn above_arc(from: Point, to: Point, bulge: f64, tolerance: f64) -> Option<Self> {
        let points = arc_points(from, to, bulge, tolerance);
        let sawn = Self::above_with_tangent(&points, arc_start_slope(from, to, bulge))?;
        Some(Self { arc: (bulge != 0.0).then_some(Bent { from, to, segment: Segment::Arc { bulge } }), ..sawn })
    }

    /// The arc that the line was before it was flattened.
    #[must_use]
    pub fn arc(&self) -> Option<&Bent> {
        self.arc.as_ref()
    }

    /// From points `(s, y)` of a curve whose tangent at the first end rises by `slope` per mm, where the first chord
    /// would carry the line on too steeply or too flat. Past a tenth of a degree from upright it is held there.
    #[must_use]
    fn above_with_tangent(points: &[Point], slope: f64) -> Option<Self> {
        let sound = points.len() >= 2
            && !slope.is_nan()
            && points.iter().all(|p| p.x.is_finite() && p.y.is_finite())
            && points.windows(2).all(|pair| pair[0].x < pair[1].x);
        if !sound {
            return None;
        }
        let (a, slope) = (points[0], slope.clamp(-STEEPEST, STEEPEST));
        let mut all = vec![Point::new(a.x - FAR, a.y - FAR * slope)];
        all.extend_from_slice(points);
        Some(Self { points: all, drawn: (a.x, points[points.len() - 1].x), arc: None })
    }

    /// The chain, carried on far before its first end.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The stations of its two drawn ends, in mm.
    #[must_use]
    pub fn ends(&self) -> (f64, f64) {
        self.drawn
    }

    /// The height of the line at station `s`, in mm; `None` past its handle-side end.
    #[must_use]
    pub fn height(&self, s: f64) -> Option<f64> {
        let next = self.points.partition_point(|p| p.x < s).max(1);
        let (a, b) = (self.points[next - 1], self.points.get(next)?);
        Some(a.y + (b.y - a.y) * (s - a.x) / (b.x - a.x))
    }

    /// Whether a point is in the region.
    #[must_use]
    pub fn contains(&self, point: Vector) -> bool {
        self.height(point.s).is_some_and(|height| point.y >= height)
    }

    /// Distance from a point to the region's surface, in mm: negative inside. Exact.
    #[must_use]
    pub fn signed_distance(&self, point: Vector) -> f64 {
        let p = Point::new(point.s, point.y);
        let last = self.points[self.points.len() - 1];
        let end = if p.y >= last.y { (p.x - last.x).powi(2) } else { f64::INFINITY };
        let nearest = self.nearest_sq(p, end).sqrt();
        if self.contains(point) { -nearest } else { nearest }
    }

    /// The least squared distance from `(s, y)` to the chain, or `best_sq` when that is less.
    ///
    /// Pieces are tried outward from `s` and given up once they are farther along than the best so far.
    fn nearest_sq(&self, p: Point, mut best_sq: f64) -> f64 {
        spend(8);
        let pieces = self.points.len() - 1;
        let middle = self.points.partition_point(|q| q.x < p.x).clamp(1, pieces) - 1;
        for i in middle..pieces {
            let ahead = (self.points[i].x - p.x).max(0.0);
            if ahead * ahead > best_sq {
                break;
            }
            best_sq = best_sq.min(distance_to_piece_sq(p, self.points[i], self.points[i + 1]));
        }
        for i in (0..middle).rev() {
            let behind = (p.x - self.points[i + 1].x).max(0.0);
            if behind * behind > best_sq {
                break;
            }
            best_sq = best_sq.min(distance_to_piece_sq(p, self.points[i], self.points[i + 1]));
        }
        best_sq
    }

    /// The stretches of a line inside the region. Exact.
    #[must_use]
    pub fn along(&self, ray: Ray) -> Intervals {
        spend(self.points.len());
        let (ds, dy) = (ray.direction.s, ray.direction.y);
        if ds.abs() < 1e-13 * ray.direction.length() {
            return self.height(ray.start.s).map_or_else(Intervals::none, |height| above(dy, ray.start.y - height));
        }
        let mut set = Intervals::none();
        let mut visit = |pair: &[Point]| {
            let (a, b) = (pair[0], pair[1]);
            let slope = (b.y - a.y) / (b.x - a.x);
            let (p, q) = ((a.x - ray.start.s) / ds, (b.x - ray.start.s) / ds);
            let over = above(dy - slope * ds, ray.start.y - a.y - slope * (ray.start.s - a.x));
            for (from, to) in over.intersection(&Intervals::one(p.min(q), p.max(q))).iter() {
                set.push_rising(from, to);
            }
        };
        if ds > 0.0 {
            self.points.windows(2).for_each(&mut visit);
        } else {
            self.points.windows(2).rev().for_each(&mut visit);
        }
        set
    }
}

/// The places where `value + slope p >= 0`.
fn above(slope: f64, value: f64) -> Intervals {
    if slope == 0.0 {
        return if value >= 0.0 { Intervals::all() } else { Intervals::none() };
    }
    let root = -value / slope;
    if slope > 0.0 { Intervals::one(root, f64::INFINITY) } else { Intervals::one(f64::NEG_INFINITY, root) }
}
