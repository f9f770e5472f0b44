//! Places where the outside comes through into the hollow.

use serde::Serialize;

use super::WallPoint;
use super::surface::{COLUMNS, Field, HollowSurface, ROWS};
use crate::geometry::order::sort_by_number;

/// A patch of the hollow's kept surface that lies outside the outside shape.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Breakthrough {
    /// Its deepest point; `wall_mm` is negative, the depth by which the cut overruns.
    pub deepest: WallPoint,
    /// The smallest station along the blank that it reaches, in mm.
    pub from_station_mm: f64,
    /// The greatest station along the blank that it reaches, in mm.
    pub to_station_mm: f64,
    /// Its area on the hollow's surface, in mm2; to about the spacing of the map.
    pub area_mm2: f64,
}

/// Every breakthrough, the deepest first. One smaller than the map's spacing is found as the least wall.
pub(super) fn find(surface: &HollowSurface<'_>, field: &Field, least: Option<&WallPoint>) -> Vec<Breakthrough> {
    let mut seen = vec![[false; COLUMNS]; ROWS];
    let mut found = Vec::new();
    for i in 0..ROWS {
        for j in 0..COLUMNS {
            if through(field, i, j) && !seen[i][j] {
                found.push(patch(surface, field, &mut seen, (i, j)));
            }
        }
    }
    if let Some(least) = least.filter(|l| l.wall_mm <= 0.0) {
        match found.iter_mut().min_by(|a, b| a.deepest.wall_mm.total_cmp(&b.deepest.wall_mm)) {
            Some(deepest) => deepest.deepest = *least,
            None => found.push(Breakthrough {
                deepest: *least,
                from_station_mm: least.place.station_mm,
                to_station_mm: least.place.station_mm,
                area_mm2: 0.0,
            }),
        }
    }
    sort_by_number(&mut found, |it| it.deepest.wall_mm);
    found
}

fn through(field: &Field, i: usize, j: usize) -> bool {
    field[i][j].wall.is_some_and(|wall| wall <= 0.0)
}

/// Gathers the patch that holds one point of the field.
fn patch(
    surface: &HollowSurface<'_>,
    field: &Field,
    seen: &mut [[bool; COLUMNS]],
    start: (usize, usize),
) -> Breakthrough {
    let mut waiting = vec![start];
    seen[start.0][start.1] = true;
    let first = field[start.0][start.1].point;
    let mut patch = Breakthrough {
        deepest: surface.wall_at(first),
        from_station_mm: first.s,
        to_station_mm: first.s,
        area_mm2: 0.0,
    };
    let row_height = surface.length() / (ROWS - 1) as f64;
    while let Some((i, j)) = waiting.pop() {
        let point = field[i][j].point;
        let here = surface.wall_at(point);
        if here.wall_mm < patch.deepest.wall_mm {
            patch.deepest = here;
        }
        patch.from_station_mm = patch.from_station_mm.min(point.s);
        patch.to_station_mm = patch.to_station_mm.max(point.s);
        let (_, radius) = surface.outline_at(field[i][j].along);
        patch.area_mm2 += row_height * radius * std::f64::consts::TAU / COLUMNS as f64;
        let around = [(i, (j + 1) % COLUMNS), (i, (j + COLUMNS - 1) % COLUMNS), (i + 1, j), (i.wrapping_sub(1), j)];
        for (a, b) in around {
            if a < ROWS && !seen[a][b] && through(field, a, b) {
                seen[a][b] = true;
                waiting.push((a, b));
            }
        }
    }
    patch
}
