//! The thinnest wall.

use std::f64::consts::TAU;

use super::WallPoint;
use super::surface::{COLUMNS, Field, HollowSurface, ROWS};
use crate::geometry::order::sort_by_number;

/// Low places of the field that are searched more closely.
const STARTS: usize = 3;
/// Directions tried in each step of the search: enough to slide along the edge of what is kept.
const DIRECTIONS: usize = 16;
/// The search ends at this step, in mm.
const FINEST: f64 = 0.003;
/// A step that gains less than this share of itself gains nothing: on a level ridge rounding alone would lead it round and
/// round.
const LEAST_GAIN: f64 = 2e-4;
/// Most steps of one search; a tenth of them is usual.
const MOST_STEPS: usize = 1000;

/// The thinnest wall over the kept surface, by a closer search from the lowest places of the field.
pub(super) fn least(surface: &HollowSurface<'_>, field: &Field) -> Option<WallPoint> {
    let found = starts(field).into_iter().filter_map(|(along, clock)| search(surface, along, clock));
    found.min_by(|a, b| a.wall_mm.total_cmp(&b.wall_mm))
}

/// The lowest local minima of the field.
fn starts(field: &Field) -> Vec<(f64, f64)> {
    let wall = |i: usize, j: usize| field[i][j % COLUMNS].wall.unwrap_or(f64::INFINITY);
    let mut low: Vec<(f64, f64, f64)> = Vec::new();
    for (i, row) in field.iter().enumerate() {
        for (j, point) in row.iter().enumerate() {
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
    let mut best = surface.wall(along, clock)?;
    let (mut along, mut clock) = (along, clock);
    let mut step = surface.length() / (ROWS - 1) as f64;
    for _ in 0..MOST_STEPS {
        if step <= FINEST {
            break;
        }
        let (_, radius) = surface.outline_at(along);
        let around = 1.0 / radius.max(0.5);
        let tried = (0..DIRECTIONS).filter_map(|i| {
            let (sin, cos) = (TAU * i as f64 / DIRECTIONS as f64).sin_cos();
            let (a, c) = (along + step * sin, clock + step * cos * around);
            // Off the sheet the nearest edge of it is tried.
            let a = a.clamp(0.0, surface.length());
            Some((surface.wall(a, c)?, a, c))
        });
        match tried.min_by(|a, b| a.0.wall_mm.total_cmp(&b.0.wall_mm)) {
            Some((wall, a, c)) if wall.wall_mm < best.wall_mm - LEAST_GAIN * step => {
                (best, along, clock) = (wall, a, c)
            }
            _ => step /= 2.0,
        }
    }
    Some(best)
}
