//! Figure 7: how the finished piece lies on a table.

use serde::Serialize;

use super::kept;
use crate::design::Piece;
use crate::geometry::order::sort_by_number;
use crate::geometry::{Axis, Mass, Ray, Region, Role, Vector};

/// How the finished piece lies on a table, without roll.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rest {
    /// Every pose it stays in, the least pitch first.
    pub poses: Vec<Pose>,
    /// The pose with the opening up and the least pitch, by its place in `poses`; absent when it does not lie so.
    pub opening_up: Option<usize>,
    /// The hull of its side view, corners `[s, y]` in mm, counter-clockwise.
    #[serde(skip)]
    pub outline: Vec<[f64; 2]>,
}

/// One pose on a table.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pose {
    /// The pitch, in degrees: positive with the bowl end raised; beyond 90 either way the opening is down.
    pub pitch_deg: f64,
    /// Where it touches nearer to the bowl end: station, in mm.
    pub from_station_mm: f64,
    /// Where it touches nearer to the head end: station, in mm.
    pub to_station_mm: f64,
    /// How far the centre of mass is inside the two touching places, along the table, in mm.
    pub margin_mm: f64,
    #[serde(skip)]
    edge: Edge,
}

/// An edge of the hull in the side view: from `a` to `b` with the piece on its left.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Edge {
    a: [f64; 2],
    b: [f64; 2],
}

impl Pose {
    /// Whether it stays in this pose with contents of a mass (in g) about a centre, when the piece itself has `own_g`
    /// about its centre of mass.
    #[must_use]
    pub fn stays_with(&self, own_g: f64, own: Vector, contents_g: f64, contents: Vector) -> bool {
        let total = own_g + contents_g;
        if total <= 0.0 {
            return true;
        }
        let middle = (own * own_g + contents * contents_g) * (1.0 / total);
        self.edge.margin([middle.s, middle.y]) >= 0.0
    }
}

impl Edge {
    fn length(self) -> f64 {
        (self.b[0] - self.a[0]).hypot(self.b[1] - self.a[1])
    }

    /// How far a point's foot is inside the edge, in mm; negative outside it.
    fn margin(self, p: [f64; 2]) -> f64 {
        let length = self.length();
        let along =
            ((p[0] - self.a[0]) * (self.b[0] - self.a[0]) + (p[1] - self.a[1]) * (self.b[1] - self.a[1])) / length;
        along.min(length - along)
    }

    /// The pitch that puts the edge on the table, in radians.
    fn pitch(self) -> f64 {
        // The outward normal points down then; up is (y, s) = (cos pitch, -sin pitch).
        let (ds, dy) = (self.b[0] - self.a[0], self.b[1] - self.a[1]);
        let (normal_s, normal_y) = (dy, -ds);
        normal_s.atan2(-normal_y)
    }
}

/// Edges shorter than this are rounding of a curve, on which the piece rocks, in mm.
const SHORTEST: f64 = 0.5;

/// How the finished piece lies. Pitches within about 0.1 degree for pieces over 60 mm long.
///
/// The side view's hull is taken from points of the kept outside, of the stock's own surface where it stays, and of the
/// saw lines. Rolling to the side is not looked at.
#[must_use]
pub fn rest(piece: &Piece, finished: &Mass) -> Rest {
    let outline = hull(&silhouette(piece));
    let middle = [finished.centroid.s, finished.centroid.y];
    let edges = outline.iter().zip(outline.iter().cycle().skip(1)).map(|(a, b)| Edge { a: *a, b: *b });
    let mut poses: Vec<Pose> = edges
        .filter(|edge| edge.length() >= SHORTEST && edge.margin(middle) > 0.0)
        .map(|edge| Pose {
            pitch_deg: edge.pitch().to_degrees(),
            from_station_mm: edge.a[0].min(edge.b[0]),
            to_station_mm: edge.a[0].max(edge.b[0]),
            margin_mm: edge.margin(middle),
            edge,
        })
        .collect();
    sort_by_number(&mut poses, |pose| pose.pitch_deg.abs());
    let opening_up = poses.first().filter(|p| p.pitch_deg.abs() < 90.0).map(|_| 0);
    Rest { poses, opening_up, outline }
}

/// Points of the finished piece that its side view's outline may pass through.
fn silhouette(piece: &Piece) -> Vec<[f64; 2]> {
    let state = piece.solid.finished();
    let stock = &piece.solid.stock;
    let mut points = kept::points(piece, &near_upright(piece), 3.0, |_, point| state.contains(point));
    let half = stock.half_width() - NEAR;
    let count = 60_u32;
    let stations =
        (0..=count).map(|i| (stock.length * f64::from(i) / f64::from(count)).clamp(NEAR, stock.length - NEAR));
    points.extend(stations.flat_map(|s| [half, -half].map(|y| Vector::new(0.0, y, s))).filter(|p| state.contains(*p)));
    points.extend(saw_points(piece));
    points.iter().map(|p| [p.s, p.y]).collect()
}

/// How deep under the stock's own surface wood is looked for, in mm.
const NEAR: f64 = 1e-3;

/// Clock directions around straight up and straight down, where a round's outline lies in the side view. Axes that lean
/// to the side shift it by a few degrees at most; where all lie in the upright plane x = 0, so does the outline.
fn near_upright(piece: &Piece) -> Vec<f64> {
    let aside = if piece.axes.iter().all(Axis::is_in_upright_plane) { 0 } else { 3 };
    let around = |middle: f64| (-aside..=aside).map(move |i| middle + f64::from(i) * 4.0_f64.to_radians());
    around(0.0).chain(around(std::f64::consts::PI)).collect()
}

/// Points of the saw lines where they leave the outside, looked for across the piece.
fn saw_points(piece: &Piece) -> impl Iterator<Item = Vector> + '_ {
    let state = piece.solid.finished();
    let stock = piece.solid.stock;
    let saws = piece.solid.with_role(Role::Opening).filter_map(|r| match &r.region {
        Region::Sawn(sawn) => Some(sawn),
        Region::Revolved(_) | Region::HalfSpace(_) => None,
    });
    saws.flat_map(move |saw| {
        let end = saw.ends().1;
        (0..=40).filter_map(move |i| {
            let s = end.min(stock.length) * f64::from(i) / 40.0;
            // Just under the line the wood that carries it.
            let start = Vector::new(0.0, saw.height(s)? - 0.01, s);
            let ray = Ray { start, direction: Vector::new(1.0, 0.0, 0.0) };
            let (from, _) = state.along(ray).iter().next()?;
            Some(ray.at(from + 0.01))
        })
    })
}

/// The convex hull, counter-clockwise (Andrew's monotone chain).
fn hull(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut sorted: Vec<[f64; 2]> = points.iter().copied().filter(|p| p[0].is_finite() && p[1].is_finite()).collect();
    sort_by_number(&mut sorted, |point| point[0]);
    for level in sorted.chunk_by_mut(|a, b| a[0] == b[0]).filter(|level| level.len() > 1) {
        sort_by_number(level, |point| point[1]);
    }
    let turns_left =
        |a: [f64; 2], b: [f64; 2], c: [f64; 2]| (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 1e-9;
    let half = |points: &mut dyn Iterator<Item = [f64; 2]>| {
        let mut chain: Vec<[f64; 2]> = Vec::new();
        for p in points {
            while chain.len() >= 2 && !turns_left(chain[chain.len() - 2], chain[chain.len() - 1], p) {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut outline = half(&mut sorted.iter().copied());
    outline.extend(half(&mut sorted.iter().rev().copied()));
    outline
}
