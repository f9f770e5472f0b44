//! Corners where planes meet in the side view.

use super::hull::{Corner, DUST, HAIR};
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::Ray;
use crate::geometry::region::solid::State;
use crate::geometry::region::stock::{Section, Stock};

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
    for (i, Line { ends: [a, b], arc }) in lines.iter().enumerate() {
        let own = [*a, *b];
        let crossings = lines[i + 1..].iter().filter_map(|other| crossing((*a, *b), other.ends.into()));
        for p in own.into_iter().chain(crossings) {
            let near = [(HAIR, HAIR), (HAIR, -HAIR), (-HAIR, HAIR), (-HAIR, -HAIR)];
            let is_wood = |(ds, dy): &(f64, f64)| {
                let start = Vector::new(0.0, p[1] + dy, p[0] + ds);
                let across = state.along(Ray { start, direction: Vector::new(1.0, 0.0, 0.0) });
                across.iter().any(|(from, to)| to - from > DUST)
            };
            if near.iter().any(is_wood) {
                corners.push(Corner { at: p, ring: arc.map(|removal| (removal, p[0])), edge: None });
            }
        }
    }
    corners
}

/// A straight line that a plane across the side view shows in it.
struct Line {
    ends: [[f64; 2]; 2],
    /// The sawn arc it is a chord of, by the place of its removal.
    arc: Option<usize>,
}

/// The lines of saw cuts, facings and partings, and where there are any, the stock's own.
fn lines_of(state: &State<'_>) -> Vec<Line> {
    let (half, length) = (state.stock.half_width(), state.stock.length);
    let high = half;
    let plain = |a, b| Line { ends: [a, b], arc: None };
    let mut lines = Vec::new();
    for (i, removal) in state.removals.iter().enumerate() {
        match &removal.region {
            Region::Sawn(saw) => {
                let points = saw.points();
                let on_arc = |s: f64| saw.arc().is_some_and(|arc| arc.from.x <= s && s <= arc.to.x);
                lines.extend(points.windows(2).map(|pair| Line {
                    ends: [[pair[0].x, pair[0].y], [pair[1].x, pair[1].y]],
                    arc: (on_arc(pair[0].x) && on_arc(pair[1].x)).then_some(i),
                }));
                if let Some(end) = points.last() {
                    lines.push(plain([end.x, end.y], [end.x, end.y.max(high)]));
                }
            }
            Region::HalfSpace(plane) if plane.is_mirrored() => {
                let at = Vector::new(0.0, plane.into.y * plane.offset, plane.into.s * plane.offset);
                let far = length + 2.0 * high;
                let (ds, dy) = (-plane.into.y * far, plane.into.s * far);
                lines.push(plain([at.s - ds, at.y - dy], [at.s + ds, at.y + dy]));
            }
            Region::HalfSpace(_) | Region::Revolved(_) => {}
        }
    }
    if lines.is_empty() {
        return lines;
    }
    lines.extend(stock_lines(state.stock));
    lines
}

/// The lines that the stock's own ends and sides show.
fn stock_lines(stock: &Stock) -> Vec<Line> {
    let (low, high, length) = (-stock.half_width(), stock.half_width(), stock.length);
    let line = |a, b| Line { ends: [a, b], arc: None };
    let mut lines = vec![line([0.0, low], [0.0, high]), line([length, low], [length, high])];
    if matches!(stock.section, Section::Square { .. }) {
        lines.extend([line([0.0, low], [length, low]), line([0.0, high], [length, high])]);
    }
    lines
}

/// Every plane square to the side view that wood may end on, as a line in it: saw lines, facings, partings, the stock's ends
/// and flat sides, and the end planes of cuts whose axes lie in the side view.
pub(super) fn planes_of(state: &State<'_>) -> Vec<[[f64; 2]; 2]> {
    let mut planes: Vec<[[f64; 2]; 2]> =
        lines_of(state).into_iter().filter(|line| line.arc.is_none()).map(|line| line.ends).collect();
    planes.extend(stock_lines(state.stock).into_iter().map(|line| line.ends));
    for removal in state.removals {
        if let Region::Revolved(revolved) = &removal.region
            && revolved.axis.along().x.abs() < 1e-9
        {
            let along = revolved.axis.along();
            planes.extend([revolved.meridian.start(), revolved.meridian.end()].map(|t| {
                let at = revolved.axis.point(t, 0.0, 0.0);
                [[at.s, at.y], [at.s - along.y, at.y + along.s]]
            }));
        }
    }
    planes
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
