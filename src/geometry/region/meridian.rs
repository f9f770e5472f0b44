//! The outline of a solid of revolution in its half-plane: radius by station, as a chain of straight pieces.

use kurbo::Point;
use thiserror::Error;

use crate::geometry::frame::station::Station;
use crate::geometry::frame::tolerance::SAME_MM;
use crate::geometry::line::pace::spend;
use crate::geometry::region::curve::{Segment, flatten};

/// Radius `r` as a function of station `t`, piecewise straight, stations never falling. Equal stations make a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Meridian {
    points: Vec<Station>,
    largest: f64,
    least: f64,
    /// The least and the greatest radius of every [`BLOCK`] pieces.
    blocks: Vec<(f64, f64)>,
    /// The curves that were flattened into it, whole.
    curves: Vec<Bent>,
}

/// A curved segment between two points of a plane: `t` and `r` of a profile, s and y of a saw line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bent {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// How it runs.
    pub segment: Segment,
}

/// Neighbouring pieces that are passed over together where they are too far in or out to be nearest.
const BLOCK: usize = 8;

/// Some neighbouring pieces of a profile.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Block {
    /// The first of them.
    pub start: usize,
    /// The one past the last.
    pub end: usize,
    /// Their least and their greatest radius, in mm.
    pub radii: (f64, f64),
}

/// Why a chain of points is not a meridian.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum MeridianError {
    /// Fewer than two points.
    #[error("a profile needs at least two nodes")]
    TooShort,
    /// A number that is not finite, or a negative radius.
    #[error("node {index} has a number that is not finite, or a negative diameter")]
    BadNumber {
        /// The point, counted from 0.
        index: usize,
    },
    /// A station smaller than the one before it.
    #[error("node {index} lies before the node ahead of it")]
    OutOfOrder {
        /// The point, counted from 0.
        index: usize,
    },
    /// The range asked for is empty or not covered.
    #[error("the profile does not cover the range from {from} to {to}")]
    NotCovered {
        /// Start of the range.
        from: f64,
        /// End of the range.
        to: f64,
    },
}

impl Meridian {
    /// From points `(t, r)` joined by straight lines.
    ///
    /// # Errors
    /// See [`MeridianError`].
    pub fn new(points: Vec<Station>) -> Result<Self, MeridianError> {
        if points.len() < 2 {
            return Err(MeridianError::TooShort);
        }
        for (index, Station { t, r }) in points.iter().enumerate() {
            if !t.is_finite() || !r.is_finite() || *r < 0.0 {
                return Err(MeridianError::BadNumber { index });
            }
            if index > 0 && *t < points[index - 1].t {
                return Err(MeridianError::OutOfOrder { index });
            }
        }
        let largest = points.iter().fold(0.0, |most: f64, p| most.max(p.r));
        let least = points.iter().fold(f64::INFINITY, |least: f64, p| least.min(p.r));
        let mut blocks = Vec::with_capacity(points.len() / BLOCK + 1);
        for from in (0..points.len() - 1).step_by(BLOCK) {
            let to = (from + BLOCK).min(points.len() - 1);
            let radii = points[from..=to].iter().map(|p| p.r);
            blocks.push(radii.fold((f64::INFINITY, 0.0), |(low, high), r| (f64::min(low, r), f64::max(high, r))));
        }
        Ok(Self { points, largest, least, blocks, curves: Vec::new() })
    }

    /// From nodes `(t, r, segment to the next)`, curves flattened so that chords stay within `tolerance` mm.
    ///
    /// # Errors
    /// See [`MeridianError`].
    pub fn from_nodes(nodes: &[(f64, f64, Segment)], tolerance: f64) -> Result<Self, MeridianError> {
        let bare: Vec<_> = nodes.iter().map(|n| Station::new(n.0, n.1)).collect();
        let checked = Self::new(bare)?;
        let mut points: Vec<Point> = vec![checked.points[0].into()];
        for pair in nodes.windows(2) {
            flatten(
                Point::new(pair[0].0, pair[0].1),
                Point::new(pair[1].0, pair[1].1),
                pair[0].2,
                tolerance,
                &mut points,
            );
        }
        let bent = |pair: &[(f64, f64, Segment)]| Bent {
            from: Point::new(pair[0].0, pair[0].1),
            to: Point::new(pair[1].0, pair[1].1),
            segment: pair[0].2,
        };
        let curves = nodes.windows(2).filter(|pair| pair[0].2 != Segment::Line).map(bent).collect();
        Ok(Self { curves, ..Self::new(points.into_iter().map(Station::from).collect())? })
    }

    /// The part from `from` to `to`.
    ///
    /// At a step that stands on an end of the range, the value just inside the range counts.
    ///
    /// # Errors
    /// [`MeridianError::NotCovered`] when the range is empty or reaches past the ends by more than 1e-6 mm.
    pub fn clipped(&self, from: f64, to: f64) -> Result<Self, MeridianError> {
        let covered = from < to && from >= self.start() - SAME_MM && to <= self.end() + SAME_MM;
        if !covered {
            return Err(MeridianError::NotCovered { from, to });
        }
        let mut points = vec![Station::new(from, self.radius_after(from))];
        points.extend(self.points.iter().copied().filter(|p| p.t > from && p.t < to));
        points.push(Station::new(to, self.radius_before(to)));
        let curves = self.curves.iter().filter(|bent| bent.from.x < to && bent.to.x > from).copied().collect();
        Ok(Self { curves, ..Self::new(points)? })
    }

    /// The curve that passes a station, if it was a curve before it was flattened. Whole, whatever part is left of it.
    #[must_use]
    pub fn curve_at(&self, t: f64) -> Option<&Bent> {
        self.curves.iter().find(|bent| bent.from.x <= t && t <= bent.to.x)
    }

    /// Its points `(t, r)`.
    #[must_use]
    pub fn points(&self) -> &[Station] {
        &self.points
    }

    /// The first station, in mm.
    #[must_use]
    pub fn start(&self) -> f64 {
        self.points[0].t
    }

    /// The last station, in mm.
    #[must_use]
    pub fn end(&self) -> f64 {
        self.points[self.points.len() - 1].t
    }

    /// The largest radius, in mm.
    #[must_use]
    pub fn largest_radius(&self) -> f64 {
        self.largest
    }

    /// The least radius, in mm.
    #[must_use]
    pub fn least_radius(&self) -> f64 {
        self.least
    }

    /// The first piece whose end lies at or after `t`: pieces are `points[i]..points[i + 1]`.
    pub(crate) fn piece_at(&self, t: f64) -> usize {
        self.points.partition_point(|p| p.t < t).clamp(1, self.points.len() - 1) - 1
    }

    /// The block that a piece is in.
    pub(crate) fn block_of(&self, piece: usize) -> Block {
        let block = piece / BLOCK;
        let end = ((block + 1) * BLOCK).min(self.points.len() - 1);
        Block { start: block * BLOCK, end, radii: self.blocks[block] }
    }

    /// The radius just after station `t` (the greater side of a step), ends held.
    #[must_use]
    pub fn radius_after(&self, t: f64) -> f64 {
        let next = self.points.partition_point(|p| p.t <= t);
        self.between(next, t)
    }

    /// The radius just before station `t` (the smaller side of a step), ends held.
    #[must_use]
    pub fn radius_before(&self, t: f64) -> f64 {
        let next = self.points.partition_point(|p| p.t < t);
        self.between(next, t)
    }

    /// The radius just before station `t` and just after it, ends held: they differ at a step.
    #[must_use]
    pub fn radii(&self, t: f64) -> (f64, f64) {
        let next = self.points.partition_point(|p| p.t < t);
        let before = self.between(next, t);
        let at_a_node = self.points.get(next).is_some_and(|p| p.t <= t);
        (before, if at_a_node { self.radius_after(t) } else { before })
    }

    /// The least radius at station `t`, ends held: the lesser side of a step, in mm. What a closed cut about it leaves.
    #[must_use]
    pub fn least_at(&self, t: f64) -> f64 {
        let (before, after) = self.radii(t);
        before.min(after)
    }

    /// The greatest radius at station `t`, ends held: the greater side of a step, in mm. How far a closed solid of it
    /// reaches.
    #[must_use]
    pub fn greatest_at(&self, t: f64) -> f64 {
        let (before, after) = self.radii(t);
        before.max(after)
    }

    fn between(&self, next: usize, t: f64) -> f64 {
        if next == 0 {
            return self.points[0].r;
        }
        let Some(b) = self.points.get(next) else { return self.points[self.points.len() - 1].r };
        let a = self.points[next - 1];
        if b.t <= a.t { b.r } else { a.r + (b.r - a.r) * ((t - a.t) / (b.t - a.t)) }
    }

    /// The nearest distance from `(t, r)` to the chain, in mm. Exact for the chain.
    #[must_use]
    pub fn distance(&self, t: f64, r: f64) -> f64 {
        self.distance_sq_below(t, r, f64::INFINITY).sqrt()
    }

    /// The least squared distance from `(t, r)` to the chain, or `best_sq` when that is less.
    ///
    /// Pieces are tried outward from `t` and given up once they are farther along the axis than the best so far.
    pub(crate) fn distance_sq_below(&self, t: f64, r: f64, mut best_sq: f64) -> f64 {
        let (pieces, middle, at) = (self.points.len() - 1, self.piece_at(t), Point::new(t, r));
        let mut looked = 1;
        let mut i = middle;
        while i < pieces {
            looked += 1;
            let ahead = (self.points[i].t - t).max(0.0);
            if ahead * ahead > best_sq {
                break;
            }
            if i.is_multiple_of(BLOCK) && self.is_beyond(i, r, ahead, best_sq) {
                i += BLOCK;
                continue;
            }
            best_sq = best_sq.min(distance_to_piece_sq(at, self.points[i].into(), self.points[i + 1].into()));
            i += 1;
        }
        let mut left = middle;
        while left > 0 {
            looked += 1;
            let behind = (t - self.points[left].t).max(0.0);
            if behind * behind > best_sq {
                break;
            }
            if left.is_multiple_of(BLOCK) && self.is_beyond(left - 1, r, behind, best_sq) {
                left -= BLOCK;
                continue;
            }
            left -= 1;
            best_sq = best_sq.min(distance_to_piece_sq(at, self.points[left].into(), self.points[left + 1].into()));
        }
        spend(looked);
        best_sq
    }

    /// Whether the block of a piece is too far, seen from radius `r` and `along` the axis from it.
    fn is_beyond(&self, piece: usize, r: f64, along: f64, best_sq: f64) -> bool {
        let (low, high) = self.blocks[piece / BLOCK];
        let across = (low - r).max(r - high).max(0.0);
        across * across + along * along > best_sq
    }
}

/// Squared distance from a point to a straight piece, in mm2.
pub(crate) fn distance_to_piece_sq(p: Point, a: Point, b: Point) -> f64 {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let (px, py) = (p.x - a.x, p.y - a.y);
    let length_sq = dx * dx + dy * dy;
    let along = if length_sq > 0.0 { ((px * dx + py * dy) / length_sq).clamp(0.0, 1.0) } else { 0.0 };
    let (ex, ey) = (px - dx * along, py - dy * along);
    ex * ex + ey * ey
}
