//! The rim: the inner edge of the hollow, as lines in space.

use super::bound::RimEdge;
use super::trace::Chord;
use crate::geometry::Vector;

/// Points left out of a rim line lie this near to what is left, in mm; of a small hollow, by this share of an element's
/// side: a heap is as much lower as its rim is drawn in.
const SIMPLER: (f64, f64) = (0.012, 0.003);
/// Ends of chords that agree to this many mm are the same point.
const SAME: f64 = 1e-4;

/// A part of the rim that ends at one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct RimLine {
    /// What the hollow ends at here.
    pub edge: RimEdge,
    /// Points along the rim, in the blank's frame, in mm: straight lines between them stay within 0.02 mm of it. The
    /// last repeats the first when the line is closed.
    pub points: Vec<Vector>,
}

/// Joins chords end to end into lines, each of one edge, and leaves out the points that straight lines do without.
pub(super) fn lines(chords: &[Chord], element_size: f64) -> Vec<RimLine> {
    let tolerance = SIMPLER.0.min(SIMPLER.1 * element_size);
    let partners = partners(chords);
    let mut used = vec![false; chords.len()];
    let mut lines = Vec::new();
    // Lines with loose ends first, each from one of them; what is left are rings.
    for from_loose_ends in [true, false] {
        for first in 0..chords.len() {
            for start in [2 * first, 2 * first + 1] {
                let loose = partners[start].is_none();
                if used[first] || (from_loose_ends && !loose) {
                    continue;
                }
                let points = walk(chords, &partners, &mut used, start);
                lines.push(RimLine { edge: chords[first].edge, points: simpler(&points, tolerance) });
            }
        }
    }
    lines
}

/// For each end (chord times two, plus one for its far end) the other end at the same point, of the same edge.
fn partners(chords: &[Chord]) -> Vec<Option<usize>> {
    let key = |p: Vector| {
        let round = |v: f64| (v / SAME).round() as i64;
        (round(p.x), round(p.y), round(p.s))
    };
    let mut ends: Vec<_> = (0..2 * chords.len()).map(|end| (key(point_of(chords, end)), end)).collect();
    ends.sort_unstable();
    let mut partners = vec![None; 2 * chords.len()];
    let mut i = 0;
    while i + 1 < ends.len() {
        let (a, b) = (ends[i], ends[i + 1]);
        if a.0 == b.0 && a.1 / 2 != b.1 / 2 && chords[a.1 / 2].edge == chords[b.1 / 2].edge {
            partners[a.1] = Some(b.1);
            partners[b.1] = Some(a.1);
            i += 2;
        } else {
            i += 1;
        }
    }
    partners
}

fn point_of(chords: &[Chord], end: usize) -> Vector {
    let chord = &chords[end / 2];
    if end.is_multiple_of(2) { chord.from } else { chord.to }
}

/// Follows chords from one end to a loose end or back to the start.
fn walk(chords: &[Chord], partners: &[Option<usize>], used: &mut [bool], start: usize) -> Vec<Vector> {
    let mut points = vec![point_of(chords, start)];
    let mut end = start;
    loop {
        used[end / 2] = true;
        let far = end ^ 1;
        points.push(point_of(chords, far));
        match partners[far] {
            Some(next) if !used[next / 2] => end = next,
            _ => return points,
        }
    }
}

/// The points that keep every point left out within `tolerance` mm of the line.
pub(super) fn simpler(points: &[Vector], tolerance: f64) -> Vec<Vector> {
    let mut keep = vec![false; points.len()];
    let last = points.len() - 1;
    // A ring is cut at the point farthest from its start.
    let ring = (points[0] - points[last]).length() <= SAME;
    let far = (1..last).max_by(|&a, &b| {
        let from_start = |i: usize| (points[i] - points[0]).length_sq();
        from_start(a).total_cmp(&from_start(b))
    });
    let mut spans = match far {
        Some(far) if ring => vec![(0, far), (far, last)],
        _ => vec![(0, last)],
    };
    while let Some((from, to)) = spans.pop() {
        keep[from] = true;
        keep[to] = true;
        let off = |i: usize| distance_sq(points[i], points[from], points[to]);
        let Some(worst) = (from + 1..to).max_by(|&a, &b| off(a).total_cmp(&off(b))) else { continue };
        if off(worst) > tolerance * tolerance {
            spans.extend([(from, worst), (worst, to)]);
        }
    }
    points.iter().zip(keep).filter_map(|(point, keep)| keep.then_some(*point)).collect()
}

/// Squared distance from a point to a straight piece, in mm2.
fn distance_sq(p: Vector, a: Vector, b: Vector) -> f64 {
    let along = b - a;
    let length_sq = along.length_sq();
    let part = if length_sq > 0.0 { ((p - a).dot(along) / length_sq).clamp(0.0, 1.0) } else { 0.0 };
    (p - a - along * part).length_sq()
}
