//! Corners where planes meet in the side view.

use super::{Corner, DUST, HAIR};
use crate::geometry::region::Region;
use crate::geometry::revolved::Ray;
use crate::geometry::solid::State;
use crate::geometry::stock::Section;
use crate::geometry::vector::Vector;

/// Corners where planes meet: the stock's edges, and the saw lines with their ends and crossings.
pub(super) fn plain_corners(state: &State<'_>) -> Vec<Corner> {
    let stock = state.stock;
    let plain = |p: Vector| Corner { at: [p.s, p.y], ring: None, edge: None };
    let mut corners = Vec::new();
    if let Section::Square { half_side } = stock.section {
        let (half, last) = (half_side - HAIR, stock.length - HAIR);
        let mut add = |start: Vector, end: Vector| {
            let line = Ray { start, direction: end - start };
            let mut wood = state.along(line);
            wood.clip(0.0, 1.0);
            let solid = wood.iter().filter(|(from, to)| (to - from) * line.direction.length() > DUST);
            corners.extend(solid.flat_map(|(from, to)| [plain(line.at(from)), plain(line.at(to))]));
        };
        for (x, y) in [(half, half), (half, -half), (-half, half), (-half, -half)] {
            add(Vector::new(x, y, 0.0), Vector::new(x, y, stock.length));
            for s in [HAIR, last] {
                add(Vector::new(-half_side, y, s), Vector::new(half_side, y, s));
                add(Vector::new(x, -half_side, s), Vector::new(x, half_side, s));
            }
        }
    }
    let lines = lines_of(state);
    for (i, (a, b)) in lines.iter().enumerate() {
        let own = [*a, *b];
        let crossings = lines[i + 1..].iter().filter_map(|other| crossing((*a, *b), *other));
        for p in own.into_iter().chain(crossings) {
            let near = [(HAIR, HAIR), (HAIR, -HAIR), (-HAIR, HAIR), (-HAIR, -HAIR)];
            let is_wood = |(ds, dy): &(f64, f64)| {
                let start = Vector::new(0.0, p[1] + dy, p[0] + ds);
                let across = state.along(Ray { start, direction: Vector::new(1.0, 0.0, 0.0) });
                across.iter().any(|(from, to)| to - from > DUST)
            };
            if near.iter().any(is_wood) {
                corners.push(Corner { at: p, ring: None, edge: None });
            }
        }
    }
    corners
}

/// The straight lines that planes across the side view show in it.
fn lines_of(state: &State<'_>) -> Vec<([f64; 2], [f64; 2])> {
    let (half, length) = (state.stock.half_width(), state.stock.length);
    let (low, high) = (-half, half);
    let mut lines = Vec::new();
    for removal in state.removals {
        match &removal.region {
            Region::Sawn(saw) => {
                let points = saw.points();
                lines.extend(points.windows(2).map(|pair| ([pair[0].0, pair[0].1], [pair[1].0, pair[1].1])));
                if let Some(end) = points.last() {
                    lines.push(([end.0, end.1], [end.0, end.1.max(high)]));
                }
            }
            Region::HalfSpace(plane) if plane.into.x.abs() < 1e-9 => {
                let at = Vector::new(0.0, plane.into.y * plane.offset, plane.into.s * plane.offset);
                let far = length + 2.0 * high;
                let (ds, dy) = (-plane.into.y * far, plane.into.s * far);
                lines.push(([at.s - ds, at.y - dy], [at.s + ds, at.y + dy]));
            }
            Region::HalfSpace(_) | Region::Revolved(_) => {}
        }
    }
    if lines.is_empty() {
        return lines;
    }
    lines.extend([([0.0, low], [0.0, high]), ([length, low], [length, high])]);
    if matches!(state.stock.section, Section::Square { .. }) {
        lines.extend([([0.0, low], [length, low]), ([0.0, high], [length, high])]);
    }
    lines
}

/// Where two straight pieces cross.
fn crossing((a, b): ([f64; 2], [f64; 2]), (c, d): ([f64; 2], [f64; 2])) -> Option<[f64; 2]> {
    let (p, q) = ([b[0] - a[0], b[1] - a[1]], [d[0] - c[0], d[1] - c[1]]);
    let whole = p[0] * q[1] - p[1] * q[0];
    let from = [c[0] - a[0], c[1] - a[1]];
    let (here, there) = ((from[0] * q[1] - from[1] * q[0]) / whole, (from[0] * p[1] - from[1] * p[0]) / whole);
    let on = |place: f64| (0.0..=1.0).contains(&place);
    (on(here) && on(there)).then(|| [a[0] + p[0] * here, a[1] + p[1] * here])
}
