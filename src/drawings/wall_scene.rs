//! What the wall map shows, as plain data.

use crate::design::Units;
use crate::figures::wall::{Wall, WallPoint};
use crate::geometry::{Revolved, Station};
use crate::piece::Piece;

/// The thickness of the wall all over one hollow.
///
/// A row is a place along the hollow's outline, from its mouth along its side and over its floor to its axis; so the
/// floor, where stations stand still, is spread out as well.
#[derive(Clone, Debug, PartialEq)]
pub struct WallMapScene {
    /// Distance of each row from the mouth along the outline, rising from 0, in mm.
    pub along_mm: Vec<f64>,
    /// Station of each row along the hollow's axis, in mm; never falls.
    pub station_mm: Vec<f64>,
    /// Clock direction of each column about the hollow's axis, rising from 0 to 360, in degrees.
    pub clocks_deg: Vec<f64>,
    /// Thickness, in mm: every column of the first row first. `None` where nothing is kept.
    pub thickness_mm: Vec<Option<f64>>,
    /// Where along the outline the side ends and a flat floor begins, in mm.
    pub floor_from_mm: f64,
    /// The least wall that is wanted, in mm.
    pub limit_mm: f64,
    /// The least wall: distance along the outline in mm, clock in degrees, thickness in mm.
    pub least: Option<(f64, f64, f64)>,
    /// How lengths are written.
    pub lengths: Units,
}

impl WallMapScene {
    /// The map of one hollow of a piece, `limit_mm` the least wall that is wanted; `None` when the wall belongs to no
    /// hollow of the piece.
    #[must_use]
    pub fn new(piece: &Piece, wall: &Wall, limit_mm: f64, lengths: Units) -> Option<Self> {
        let hollow = piece.revolved(wall.cut)?;
        let map = &wall.map;
        // The first column again at the end, so that the sheet closes.
        let closed = |row: &Vec<Option<f64>>| row.iter().chain(row.first()).copied().collect::<Vec<_>>();
        Some(Self {
            along_mm: map.along_mm.clone(),
            station_mm: map.station_mm.clone(),
            clocks_deg: map.clock_deg.iter().copied().chain([360.0]).collect(),
            thickness_mm: map.wall_mm.iter().flat_map(closed).collect(),
            floor_from_mm: side_length(hollow),
            limit_mm,
            least: wall.least.as_ref().map(|least| place_on(hollow, least)),
            lengths,
        })
    }

    /// Thickness at a row and a column.
    pub(super) fn at(&self, row: usize, column: usize) -> Option<f64> {
        let index = row.checked_mul(self.clocks_deg.len())?.checked_add(column)?;
        self.thickness_mm.get(index).copied().flatten().filter(|mm| mm.is_finite())
    }

    /// The first and the last station of the side, in mm.
    pub(super) fn side_stations(&self) -> (f64, f64) {
        match (self.station_mm.first(), self.station_mm.last()) {
            (Some(first), Some(last)) => (*first, *last),
            _ => (0.0, 0.0),
        }
    }

    /// Where along the outline a station of the side is, in mm.
    pub(super) fn along_at(&self, station_mm: f64) -> Option<f64> {
        let next = self.station_mm.partition_point(|s| *s < station_mm);
        let (s1, a1) = (self.station_mm.get(next)?, self.along_mm.get(next)?);
        let Some(before) = next.checked_sub(1) else { return Some(*a1) };
        let (s0, a0) = (self.station_mm.get(before)?, self.along_mm.get(before)?);
        let share = if s1 > s0 { (station_mm - s0) / (s1 - s0) } else { 0.0 };
        Some((a0 + (a1 - a0) * share).min(self.floor_from_mm))
    }
}

/// Length of the outline from the mouth to where it meets the floor, in mm.
fn side_length(hollow: &Revolved) -> f64 {
    hollow.meridian.points().windows(2).map(|pair| (pair[1] - pair[0]).length()).sum()
}

/// Where on the map a point of the hollow is, and its wall.
fn place_on(hollow: &Revolved, wall: &WallPoint) -> (f64, f64, f64) {
    let seen = hollow.axis.see(wall.point);
    let point = Station::new(seen.t, seen.radius());
    let mut run = 0.0;
    let mut best = (f64::INFINITY, 0.0);
    let floor = Station::new(hollow.meridian.end(), 0.0);
    let chain: Vec<_> = hollow.meridian.points().iter().copied().chain([floor]).collect();
    for pair in chain.windows(2) {
        let (off, along) = nearest_on(pair[0], pair[1], point);
        if off < best.0 {
            best = (off, run + along);
        }
        run += (pair[1] - pair[0]).length();
    }
    (best.1, seen.clock().to_degrees().rem_euclid(360.0), wall.wall_mm)
}

/// How far a point is from a piece, and how far along the piece its nearest place is, in mm.
fn nearest_on(a: Station, b: Station, p: Station) -> (f64, f64) {
    let length = (b - a).length();
    if length <= 0.0 {
        return ((p - a).length(), 0.0);
    }
    let along = (((p.t - a.t) * (b.t - a.t) + (p.r - a.r) * (b.r - a.r)) / length).clamp(0.0, length);
    let share = along / length;
    ((p - (a + (b - a) * share)).length(), along)
}
