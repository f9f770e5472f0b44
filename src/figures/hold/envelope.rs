//! The highest surface contents can keep: from every point of the rim, up at the angle of repose.

use std::cmp::Ordering;

use super::pitch::Pitch;
use crate::geometry::Vector;
use crate::geometry::line::pace::spend;

/// Straight pieces in a chunk.
const CHUNK: usize = 4;

/// The lower envelope over the rim of height plus `slope` times level distance, for one pitch.
pub(super) struct Envelope {
    slope: f64,
    pieces: Vec<RimPiece>,
    chunks: Vec<Chunk>,
    /// Pieces that may be lowest for the group of points asked about last.
    near: Vec<Near>,
    /// The middle of that group.
    middle: (f64, f64),
    /// The piece that was lowest last.
    last: usize,
}

/// A straight piece of rim, seen from above.
#[derive(Clone, Copy)]
struct RimPiece {
    x: f64,
    level: f64,
    height: f64,
    /// Direction on the level.
    along_x: f64,
    along_level: f64,
    length: f64,
    /// Rise per mm of level length.
    rise: f64,
    /// How far down the piece from abreast of a point its lowest path starts, per mm of distance from the piece.
    lag: f64,
}

/// A piece as it is in the middle of a group of points.
///
/// Its height is a convex function of the place, so nowhere below what it is in the middle and how it grows there say.
#[derive(Clone, Copy)]
struct Near {
    piece: usize,
    height: f64,
    /// How the height grows along x and along the level; not numbers where the piece passes through the middle.
    growth: (f64, f64),
    /// Level distance to the nearest path down.
    away: f64,
}

/// How high the envelope is at most within a radius of a place: as high as one piece.
struct UpperBound {
    height: f64,
    growth: (f64, f64),
    radius_sq: f64,
}

impl UpperBound {
    fn of(piece: &Near, slope: f64, radius: f64) -> Self {
        // The path down from the middle goes on being one: so high above its tangent is it at most.
        let bend = slope * radius * radius / (2.0 * piece.away);
        Self { height: piece.height + bend, growth: piece.growth, radius_sq: radius * radius }
    }

    /// Whether another piece is nowhere lower.
    fn is_under(&self, other: &Near) -> bool {
        let apart = (other.growth.0 - self.growth.0).powi(2) + (other.growth.1 - self.growth.1).powi(2);
        let spare = other.height - self.height;
        // False for what is not a number.
        spare > 0.0 && spare * spare > apart * self.radius_sq
    }
}

struct Chunk {
    x: f64,
    level: f64,
    radius: f64,
    lowest: f64,
    from: usize,
    to: usize,
}

impl Envelope {
    /// From lines of rim, for one pitch and one slope (the tangent of the angle of repose, greater than 0).
    pub(super) fn new<'a>(lines: impl Iterator<Item = &'a [Vector]>, pitch: Pitch, slope: f64) -> Self {
        let (pieces, chunks, near) = (Vec::new(), Vec::new(), Vec::new());
        let mut envelope = Self { slope, pieces, chunks, near, middle: (0.0, 0.0), last: 0 };
        for line in lines {
            let first = envelope.pieces.len();
            let pairs = line.windows(2).map(|pair| RimPiece::new(pair[0], pair[1], pitch, slope));
            envelope.pieces.extend(pairs);
            for from in (first..envelope.pieces.len()).step_by(CHUNK) {
                let to = (from + CHUNK).min(envelope.pieces.len());
                let chunk = Chunk::new(&envelope.pieces[from..to], from);
                envelope.chunks.push(chunk);
            }
        }
        envelope
    }

    /// Narrows the rim to what may be lowest for points within `radius` of a place; `false` when the envelope is not
    /// above `lowest` there.
    ///
    /// The envelope rises by no more than the slope, so a piece higher in the middle by twice slope times radius than
    /// another is lowest nowhere about.
    pub(super) fn near(&mut self, x: f64, level: f64, radius: f64, lowest: f64) -> bool {
        let Some(piece) = self.pieces.get(self.last) else { return false };
        let mut best = piece.near(self.last, (x, level), self.slope);
        if best.height <= lowest {
            return false;
        }
        self.middle = (x, level);
        self.near.clear();
        self.near.push(best);
        let (spread, first) = (2.0 * self.slope * radius, self.last);
        let mut bound = UpperBound::of(&best, self.slope, radius);
        let run = 1.0 / self.slope;
        spend(self.chunks.len());
        for chunk in &self.chunks {
            // How near the chunk must be to matter, compared in squares.
            let within = chunk.radius + (best.height + spread - chunk.lowest) * run;
            let away = (x - chunk.x, level - chunk.level);
            let away_sq = away.0 * away.0 + away.1 * away.1;
            if within < 0.0 || away_sq > within * within {
                continue;
            }
            spend(chunk.to - chunk.from);
            for i in (chunk.from..chunk.to).filter(|i| *i != first) {
                let near = self.pieces[i].near(i, self.middle, self.slope);
                if near.height > best.height + spread || bound.is_under(&near) {
                    continue;
                }
                self.near.push(near);
                if near.height < best.height {
                    bound = UpperBound::of(&near, self.slope, radius);
                    (best, self.last) = (near, i);
                }
            }
        }
        if best.height <= lowest {
            return false;
        }
        // What was taken before the lowest was known; that comes first, for what follows to be passed over.
        self.near.retain(|near| near.piece == best.piece || !bound.is_under(near));
        if let Some(at) = self.near.iter().position(|near| near.piece == best.piece) {
            self.near.swap(0, at);
        }
        true
    }

    /// The height of the envelope at a place within the radius given to [`Self::near`].
    pub(super) fn height(&self, x: f64, level: f64) -> f64 {
        spend(self.near.len());
        let (dx, dl) = (x - self.middle.0, level - self.middle.1);
        let mut height = f64::INFINITY;
        for near in &self.near {
            let at_least = near.height + near.growth.0 * dx + near.growth.1 * dl;
            // Also true for what is not a number.
            let matters = !matches!(at_least.partial_cmp(&height), Some(Ordering::Greater | Ordering::Equal));
            if matters {
                height = height.min(self.pieces[near.piece].height(x, level, self.slope));
            }
        }
        height
    }
}

impl RimPiece {
    fn new(from: Vector, to: Vector, pitch: Pitch, slope: f64) -> Self {
        let (a, b) = ((from.x, pitch.level(from)), (to.x, pitch.level(to)));
        let length = ((b.0 - a.0).powi(2) + (b.1 - a.1).powi(2)).sqrt();
        let (low, high) = (pitch.height(from), pitch.height(to));
        if length < 1e-12 {
            // Seen on end: its lower end.
            let height = low.min(high);
            return Self { x: a.0, level: a.1, height, along_x: 0.0, along_level: 0.0, length, rise: 0.0, lag: 0.0 };
        }
        let rise = (high - low) / length;
        let spare = slope * slope - rise * rise;
        // Steeper than the slope, it is lowest at its lower end.
        let lag = if spare > 0.0 { rise / spare.sqrt() } else { FAR * rise.signum() };
        let (along_x, along_level) = ((b.0 - a.0) / length, (b.1 - a.1) / length);
        Self { x: a.0, level: a.1, height: low, along_x, along_level, length, rise, lag }
    }

    /// The least over the piece of height plus slope times level distance. Exact.
    fn height(&self, x: f64, level: f64, slope: f64) -> f64 {
        let (dx, dl) = (x - self.x, level - self.level);
        let along = dx * self.along_x + dl * self.along_level;
        let aside = dx * self.along_level - dl * self.along_x;
        let start = (along - self.lag * (aside.abs() + TINY)).clamp(0.0, self.length);
        let before = along - start;
        self.height + self.rise * start + slope * (before * before + aside * aside).sqrt()
    }

    /// Itself as it is at a place.
    fn near(&self, piece: usize, (x, level): (f64, f64), slope: f64) -> Near {
        let (dx, dl) = (x - self.x, level - self.level);
        let along = dx * self.along_x + dl * self.along_level;
        let aside = dx * self.along_level - dl * self.along_x;
        let start = (along - self.lag * (aside.abs() + TINY)).clamp(0.0, self.length);
        let before = along - start;
        let away = (before * before + aside * aside).sqrt();
        let steep = slope / away;
        let growth = (
            steep * (before * self.along_x + aside * self.along_level),
            steep * (before * self.along_level - aside * self.along_x),
        );
        Near { piece, height: self.height + self.rise * start + slope * away, growth, away }
    }

    fn end(&self, at: f64) -> (f64, f64, f64) {
        (self.x + self.along_x * at, self.level + self.along_level * at, self.height + self.rise * at)
    }
}

/// Past the end of any piece.
const FAR: f64 = 1e30;
/// Keeps a point straight above a piece steeper than the slope on its way to the lower end, in mm.
const TINY: f64 = 1e-12;

impl Chunk {
    fn new(pieces: &[RimPiece], from: usize) -> Self {
        let ends = || pieces.iter().flat_map(|p| [p.end(0.0), p.end(p.length)]);
        let count = 2.0 * pieces.len() as f64;
        let (x, level) = ends().fold((0.0, 0.0), |sum, e| (sum.0 + e.0 / count, sum.1 + e.1 / count));
        let radius = ends().map(|e| (e.0 - x).powi(2) + (e.1 - level).powi(2)).fold(0.0, f64::max).sqrt();
        let lowest = ends().map(|e| e.2).fold(f64::INFINITY, f64::min);
        Self { x, level, radius, lowest, from, to: from + pieces.len() }
    }
}
