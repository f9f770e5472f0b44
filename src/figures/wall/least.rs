//! The thinnest wall.

use std::f64::consts::TAU;
use std::sync::LazyLock;

use super::WallPoint;
use super::surface::{COLUMNS, Field, HollowSurface, ROWS};
use crate::geometry::order::sort_by_number;

/// Low places of the field that are searched more closely.
const STARTS: usize = 3;
/// Directions tried in each step of the search, as sine and cosine, every other first: enough to slide along the edge of
/// what is kept.
static DIRECTIONS: LazyLock<[(f64, f64); 16]> = LazyLock::new(|| {
    std::array::from_fn(|i| (TAU * (i as f64 / 8.0 + if i < 8 { 0.0 } else { 1.0 / 16.0 })).sin_cos())
});
/// The search ends at this step, in mm.
const FINEST: f64 = 0.003;
/// A step that gains less than this share of itself gains nothing: on a level ridge rounding alone would lead it round and
/// round.
const LEAST_GAIN: f64 = 2e-4;
/// Most steps of one search; a tenth of them is usual.
const MOST_STEPS: usize = 1000;

/// The thinnest wall over the kept surface, by a closer search from the lowest places of the field.
pub(super) fn least(surface: &HollowSurface<'_>, field: &Field) -> Option<WallPoint> {
    let found = starts(surface, field).into_iter().filter_map(|(along, clock)| search(surface, along, clock));
    found.min_by(|a, b| a.wall_mm.total_cmp(&b.wall_mm))
}

/// The lowest local minima of the field; of mirror images, one.
fn starts(surface: &HollowSurface<'_>, field: &Field) -> Vec<(f64, f64)> {
    let wall = |i: usize, j: usize| field[i][j % COLUMNS].wall.unwrap_or(f64::INFINITY);
    let mut low: Vec<(f64, f64, f64)> = Vec::new();
    for (i, row) in field.iter().enumerate() {
        for (j, point) in row[..surface.columns()].iter().enumerate() {
            let Some(here) = point.wall else { continue };
            let lower = |i: usize, j: usize| wall(i, j) < here;
            let beside = lower(i, j + 1) || lower(i, j + COLUMNS - 1);
            let above_or_below = (i > 0 && lower(i - 1, j)) || (i + 1 < ROWS && lower(i + 1, j));
            if !beside && !above_or_below {
                low.push((here, point.along, point.clock));
            }
        }
    }
    sort_by_number(&mut low, |(wall, ..)| *wall);
    // A ridge of equal walls has many lowest points: one of each stretch is enough. A ridge that runs all round, as in a
    // bore on the outside's own axis, takes one more at most, so that others along the bore have their turn.
    let mut chosen: Vec<(f64, f64)> = Vec::new();
    let mut beside = 0;
    for (_, along, clock) in low {
        let same_ring = chosen.iter().any(|c| (c.0 - along).abs() <= 4.0);
        let near = |c: &(f64, f64)| (c.0 - along).abs() <= 4.0 && (c.1 - clock).abs() <= 0.5;
        if chosen.len() >= STARTS + beside || chosen.iter().any(near) || (same_ring && beside > 1) {
            continue;
        }
        beside += usize::from(same_ring);
        chosen.push((along, clock));
    }
    chosen
}

/// Walks downhill in ever smaller steps.
fn search(surface: &HollowSurface<'_>, along: f64, clock: f64) -> Option<WallPoint> {
    let (mut wall, mut point) = surface.thinner(along, clock, f64::INFINITY)?;
    let (mut along, mut clock) = (along, clock);
    let mut step = surface.length() / (ROWS - 1) as f64;
    for _ in 0..MOST_STEPS {
        if step <= FINEST {
            break;
        }
        let (_, radius) = surface.outline_at(along);
        let around = 1.0 / radius.max(0.5);
        let mut limit = wall - LEAST_GAIN * step;
        let mut found = None;
        for (i, (sin, cos)) in DIRECTIONS.iter().enumerate() {
            // Every other direction first; those between where none of them leads down.
            if i == DIRECTIONS.len() / 2 && found.is_some() {
                break;
            }
            // Off the sheet the nearest edge of it is tried.
            let (a, c) = ((along + step * sin).clamp(0.0, surface.length()), clock + step * cos * around);
            if let Some((thinner, there)) = surface.thinner(a, c, limit) {
                limit = thinner;
                found = Some((thinner, there, a, c));
            }
        }
        match found {
            Some(better) => (wall, point, along, clock) = better,
            None => step /= 2.0,
        }
    }
    Some(surface.wall_at(point))
}
