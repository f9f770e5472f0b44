//! The curves in which a plane cuts a region of revolution.
//!
//! Under each straight piece of the profile lies one stretch of the plane with a conic over it: see `conic`. No section
//! need be star-shaped or in one part.

use std::f64::consts::{FRAC_PI_2, TAU};

use kurbo::{Point, Vec2};

use crate::geometry::frame::plane::Plane;
use crate::geometry::frame::station::Station;
use crate::geometry::line::pace::spend;
use crate::geometry::plane::conic::{AxisInPlane, ConicPiece};
use crate::geometry::region::revolved::{Fill, Revolved};

/// Closed chains: counter-clockwise around the region, clockwise around holes in it.
pub(crate) type Chains = Vec<Vec<[f64; 2]>>;

/// How a plane is cut: nothing farther than `reach` from its origin matters, and chords stay within `tolerance`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Window {
    pub reach: f64,
    pub tolerance: f64,
}

impl Window {
    /// The square that bounds it, counter-clockwise.
    pub fn square(self) -> Vec<[f64; 2]> {
        let r = self.reach;
        vec![[-r, -r], [r, -r], [r, r], [-r, r]]
    }
}

/// The outlines of a region in a plane, as far as the window reaches.
///
/// Corners are moved off the curve by two thirds of what the chords beside them fall short, so that areas are true to
/// far better than the chords.
pub(crate) fn outlines(region: &Revolved, plane: &Plane, window: Window) -> Chains {
    match Track::new(region, plane, window.reach) {
        Track::Square { t, centre } => square_outlines(region, t, centre, window),
        Track::Leaning(lean) => leaning_outlines(region, &lean, window),
    }
}

/// How an axis runs through a plane.
enum Track {
    /// Square to it: the station is the same all over.
    Square { t: f64, centre: [f64; 2] },
    /// At any other angle.
    Leaning(AxisInPlane),
}

/// Stations that differ by less than this over the whole window count as equal, in mm.
const SQUARE_WITHIN: f64 = 1e-7;

impl Track {
    fn new(region: &Revolved, plane: &Plane, reach: f64) -> Self {
        let seen = AxisInPlane::new(plane, &region.axis);
        if seen.sine * reach < SQUARE_WITHIN {
            return Self::Square { t: seen.t0, centre: plane.coordinates(region.axis.origin()) };
        }
        Self::Leaning(seen)
    }
}

/// A place by `w` and `q` in the plane's own coordinates.
fn in_plane(seen: &AxisInPlane, w: f64, q: f64) -> [f64; 2] {
    let [cos, sin] = seen.toward;
    [cos * w - sin * q, sin * w + cos * q]
}

fn square_outlines(region: &Revolved, t: f64, centre: [f64; 2], window: Window) -> Chains {
    let (from, to) = region.span();
    if !(from <= t && t <= to) {
        return Vec::new();
    }
    let outline = circle(centre, region.radius_at(t), window.tolerance);
    let mut chains = Vec::new();
    match region.fill {
        Fill::Within | Fill::WithinOpen => chains.extend(outline),
        Fill::Beyond => {
            chains.push(window.square());
            chains.extend(outline.map(|points| points.into_iter().rev().collect()));
        }
    }
    chains
}

/// The work of a corner, in units: it is found, and cut by other outlines.
pub(crate) const CORNER_UNITS: usize = 64;
/// More corners than this on one curve would only be asked for by absurd sizes.
const MOST_CORNERS: f64 = 2000.0;

/// A circle with the area of the true one.
fn circle(centre: [f64; 2], radius: f64, tolerance: f64) -> Option<Vec<[f64; 2]>> {
    if radius <= 0.0 || !radius.is_finite() {
        return None;
    }
    let step = 2.0 * (1.0 - (tolerance / radius).min(0.5)).acos();
    let count = (TAU / step).ceil().clamp(8.0, MOST_CORNERS);
    spend(CORNER_UNITS * count as usize);
    let step = TAU / count;
    let corner = radius * (step / step.sin()).sqrt();
    let point = |i: usize| {
        let (sin, cos) = (step * i as f64).sin_cos();
        [centre[0] + corner * cos, centre[1] + corner * sin]
    };
    Some((0..count as usize).map(point).collect())
}

fn leaning_outlines(region: &Revolved, lean: &AxisInPlane, window: Window) -> Chains {
    let profile = profile_with_mouth(region, lean, window.reach);
    let halves = half_outlines(&profile, lean, window);
    let inside = halves.iter().map(|half| half.close(lean));
    if region.fill != Fill::Beyond {
        return inside.collect();
    }
    let low = lean.w_at(region.meridian.start()).max(-window.reach);
    let high = lean.w_at(region.meridian.end()).min(window.reach);
    if low >= high {
        return Vec::new();
    }
    let far = window.reach;
    let mut strip = vec![in_plane(lean, low, -far), in_plane(lean, high, -far)];
    strip.extend(halves.iter().filter_map(|half| half.end_on(high, lean)).flatten());
    strip.extend([in_plane(lean, high, far), in_plane(lean, low, far)]);
    strip.extend(halves.iter().filter_map(|half| half.start_on(low, lean)).flatten());
    let mut chains = vec![strip];
    chains.extend(inside.map(|points| points.into_iter().rev().collect()));
    chains
}

/// Corners this close to an end of a pass stand on it, in mm.
const ON_END: f64 = 1e-9;

/// The profile's points, an open mouth carried on to the window's edge.
fn profile_with_mouth(region: &Revolved, lean: &AxisInPlane, reach: f64) -> Vec<Station> {
    let points = region.meridian.points();
    let mut profile = Vec::with_capacity(points.len() + 1);
    if region.fill == Fill::WithinOpen {
        let edge = lean.t0 - lean.sine * reach - 1.0;
        profile.push(Station::new(edge.min(points[0].t), points[0].r));
    }
    profile.extend_from_slice(points);
    profile
}

/// The upper half of one closed outline: corners `(w, height over the middle line)` with `w` rising.
struct Half {
    corners: Vec<Point>,
    /// How far the curve stands over the chord that ends at each corner.
    sags: Vec<f64>,
}

fn half_outlines(profile: &[Station], lean: &AxisInPlane, window: Window) -> Vec<Half> {
    let mut halves: Vec<Half> = Vec::new();
    // Whether the last half reached the end of its piece, so that the next piece goes on from there.
    let mut open = false;
    for pair in profile.windows(2) {
        if pair[1].t <= pair[0].t {
            continue;
        }
        let piece = ConicPiece::new(pair[0], pair[1], lean, window.reach);
        let Some(piece) = piece else {
            open = false;
            continue;
        };
        let start = Point::new(piece.low, piece.height(piece.low));
        match halves.last_mut().filter(|_| open && piece.from_start) {
            Some(half) => half.push(start, 0.0),
            None => halves.push(Half { corners: vec![start], sags: vec![0.0] }),
        }
        if let Some(half) = halves.last_mut() {
            Sampled(piece).sample(window.tolerance, half);
        }
        open = piece.to_end;
    }
    spend(profile.len() + halves.iter().map(|half| CORNER_UNITS * half.corners.len()).sum::<usize>());
    halves
}

/// Corners along a conic.
struct Sampled(ConicPiece);

impl Sampled {
    /// The corner at `angle` from -90 to 90 degrees: spaced as on an ellipse, closer toward both ends.
    fn corner(&self, angle: f64) -> Point {
        let Self(piece) = self;
        let w = (piece.low + piece.high) / 2.0 + (piece.high - piece.low) / 2.0 * angle.sin();
        let w = w.clamp(piece.low, piece.high);
        Point::new(w, piece.height(w))
    }

    fn sample(&self, tolerance: f64, half: &mut Half) {
        let ends = [(-FRAC_PI_2, self.corner(-FRAC_PI_2)), (FRAC_PI_2, self.corner(FRAC_PI_2))];
        self.split(ends[0], ends[1], tolerance, DEEPEST, half);
    }

    /// Appends corners up to `b`, halving the angle until the chords stand off by no more than the tolerance.
    fn split(&self, a: (f64, Point), b: (f64, Point), tolerance: f64, depth: u32, half: &mut Half) {
        let angle = (a.0 + b.0) / 2.0;
        let middle = self.corner(angle);
        let sag = stands_over(middle, a.1, b.1);
        if depth == 0 || sag.abs() <= tolerance {
            half.push(b.1, sag);
            return;
        }
        self.split(a, (angle, middle), tolerance, depth - 1, half);
        self.split((angle, middle), b, tolerance, depth - 1, half);
    }
}

/// Halvings of one stretch, at most.
const DEEPEST: u32 = 9;

/// How far a point stands over the chord from `a` to `b`, to its left.
fn stands_over(point: Point, a: Point, b: Point) -> f64 {
    let (dw, dh) = (b.x - a.x, b.y - a.y);
    let length = dw.hypot(dh);
    if length <= 0.0 { 0.0 } else { (dw * (point.y - a.y) - dh * (point.x - a.x)) / length }
}

impl Half {
    fn push(&mut self, corner: Point, sag: f64) {
        if self.corners.last() != Some(&corner) {
            self.corners.push(corner);
            self.sags.push(sag);
        }
    }

    /// Where it ends on the line at `w`: its corners there, lower first, for the outline around it to share. Edges that
    /// lie on each other cancel only from corner to the same corner; otherwise rounding leaves a crack.
    fn end_on(&self, w: f64, lean: &AxisInPlane) -> Option<[[f64; 2]; 2]> {
        self.corners_on(w, self.corners.len().checked_sub(1)?, lean)
    }

    /// Where it starts on the line at `w`: its corners there, upper first.
    fn start_on(&self, w: f64, lean: &AxisInPlane) -> Option<[[f64; 2]; 2]> {
        self.corners_on(w, 0, lean).map(|[lower, upper]| [upper, lower])
    }

    fn corners_on(&self, w: f64, index: usize, lean: &AxisInPlane) -> Option<[[f64; 2]; 2]> {
        let corner = self.moved(index);
        let on_line = (corner.x - w).abs() < ON_END && corner.y > 0.0;
        on_line.then(|| [-corner.y, corner.y].map(|h| in_plane(lean, corner.x, h - lean.q0)))
    }

    /// The whole outline in plane coordinates, counter-clockwise.
    fn close(&self, lean: &AxisInPlane) -> Vec<[f64; 2]> {
        let moved: Vec<Point> = (0..self.corners.len()).map(|i| self.moved(i)).collect();
        let lower = moved.iter().map(|c| Point::new(c.x, -c.y));
        let upper = moved.iter().rev().filter(|c| c.y > 0.0).copied();
        lower.chain(upper).map(|c| in_plane(lean, c.x, c.y - lean.q0)).collect()
    }

    /// A corner moved off the curve, so that the chords on both sides enclose the curve's own area.
    fn moved(&self, i: usize) -> Point {
        let corner = self.corners[i];
        let (before, after) = (self.edge(i), self.edge(i + 1));
        match (before, after) {
            (Some(a), Some(b)) => {
                let share = 2.0 / 3.0 / (a.length + b.length);
                let (wa, wb) = (share * a.sag * a.length, share * b.sag * b.length);
                let height = corner.y + wa * a.normal.y + wb * b.normal.y;
                Point::new(corner.x + wa * a.normal.x + wb * b.normal.x, height.max(0.0))
            }
            (Some(edge), None) | (None, Some(edge)) if corner.y <= 0.0 => {
                // On the middle line: its mirror image pulls as hard, so it moves along the line.
                Point::new(corner.x + 2.0 / 3.0 * edge.sag * edge.normal.x, 0.0)
            }
            (Some(edge), None) | (None, Some(edge)) => {
                // At a shoulder: it must stay in the shoulder's plane.
                Point::new(corner.x, (corner.y + 2.0 / 3.0 * edge.sag / edge.normal.y.max(0.5)).max(0.0))
            }
            (None, None) => corner,
        }
    }

    /// The edge that ends at corner `i`; `None` before the first and after the last.
    fn edge(&self, i: usize) -> Option<Edge> {
        let (a, b) = (self.corners.get(i.checked_sub(1)?)?, self.corners.get(i)?);
        let (dw, dh) = (b.x - a.x, b.y - a.y);
        let length = dw.hypot(dh);
        Some(Edge { length, normal: Vec2::new(-dh / length, dw / length), sag: self.sags[i] })
    }
}

/// An edge of a half outline.
struct Edge {
    length: f64,
    normal: Vec2,
    sag: f64,
}
