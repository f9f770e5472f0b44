//! The highest surface contents can keep: from every point of the rim, up at the angle of repose.

use std::cmp::Ordering;

use super::pitch::Pitch;
use crate::geometry::Vector;

/// Straight pieces in a chunk.
const CHUNK: usize = 4;

/// The lower envelope over the rim of height plus `slope` times level distance, for one pitch.
pub(super) struct Envelope {
    slope: f64,
    pieces: Vec<Piece>,
    chunks: Vec<Chunk>,
    /// Pieces that may be lowest for the group of points asked about last.
    near: Vec<Near>,
    /// Pieces looked at for that group that are not plainly too high, each with its height in the middle.
    seen: Vec<(usize, f64)>,
    /// The middle of that group.
    middle: (f64, f64),
    /// The piece that was lowest last.
    last: usize,
}

/// A straight piece of rim, seen from above.
#[derive(Clone, Copy)]
struct Piece {
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
        let (pieces, chunks, near, seen) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        let mut envelope = Self { slope, pieces, chunks, near, seen, middle: (0.0, 0.0), last: 0 };
        for line in lines {
            let first = envelope.pieces.len();
            let pairs = line.windows(2).map(|pair| Piece::new(pair[0], pair[1], pitch, slope));
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
        let Some(guess) = self.pieces.get(self.last).map(|piece| piece.height(x, level, self.slope)) else {
            return false;
        };
        if guess <= lowest {
            return false;
        }
        self.near.clear();
        self.seen.clear();
        self.seen.push((self.last, guess));
        self.middle = (x, level);
        let (spread, first) = (2.0 * self.slope * radius, self.last);
        let mut best = guess;
        for i in 0..self.chunks.len() {
            let chunk = &self.chunks[i];
            // How near the chunk must be to matter, compared in squares.
            let within = chunk.radius + (best + spread - chunk.lowest) / self.slope;
            let (dx, dl) = (x - chunk.x, level - chunk.level);
            if within >= 0.0 && dx * dx + dl * dl <= within * within {
                best = self.look(i, first, spread, best);
            }
        }
        if best <= lowest {
            return false;
        }
        self.take_near(radius, best + spread);
        true
    }

    /// Sees the pieces of a chunk but `known`; the least height, of them or so far.
    fn look(&mut self, chunk: usize, known: usize, spread: f64, mut best: f64) -> f64 {
        let Chunk { from, to, .. } = self.chunks[chunk];
        for i in (from..to).filter(|i| *i != known) {
            let height = self.pieces[i].height(self.middle.0, self.middle.1, self.slope);
            if height <= best + spread {
                self.seen.push((i, height));
                if height < best {
                    (best, self.last) = (height, i);
                }
            }
        }
        best
    }

    /// Of the pieces seen, takes the lowest in the middle first, and then those that may be lower within `radius`.
    fn take_near(&mut self, radius: f64, highest: f64) {
        let first = self.pieces[self.last].near(self.last, self.middle, self.slope);
        self.near.push(first);
        if radius <= 0.0 {
            return;
        }
        // The path down from the middle goes on being one: so high above its tangent is it at most.
        let bend = self.slope * radius * radius / (2.0 * first.away);
        for &(piece, height) in self.seen.iter().filter(|(piece, height)| *height <= highest && *piece != first.piece) {
            let near = self.pieces[piece].near(piece, self.middle, self.slope);
            let apart = (near.growth.0 - first.growth.0).powi(2) + (near.growth.1 - first.growth.1).powi(2);
            let spare = height - first.height - bend;
            let passed_over = spare > 0.0 && spare * spare > apart * radius * radius;
            if !passed_over {
                self.near.push(near);
            }
        }
    }

    /// The height of the envelope at a place within the radius given to [`Self::near`].
    pub(super) fn height(&self, x: f64, level: f64) -> f64 {
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

impl Piece {
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
    fn new(pieces: &[Piece], from: usize) -> Self {
        let ends = || pieces.iter().flat_map(|p| [p.end(0.0), p.end(p.length)]);
        let count = 2.0 * pieces.len() as f64;
        let (x, level) = ends().fold((0.0, 0.0), |sum, e| (sum.0 + e.0 / count, sum.1 + e.1 / count));
        let radius = ends().map(|e| (e.0 - x).powi(2) + (e.1 - level).powi(2)).fold(0.0, f64::max).sqrt();
        let lowest = ends().map(|e| e.2).fold(f64::INFINITY, f64::min);
        Self { x, level, radius, lowest, from, to: from + pieces.len() }
    }
}
