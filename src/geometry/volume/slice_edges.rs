//! The heights at which what a slice shows begins, ends or turns a corner.

use smallvec::SmallVec;

use crate::geometry::frame::station::Station;
use crate::geometry::frame::tolerance::{FLAT, PARALLEL, SAME_MM};
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::pace::spend;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Ray, Revolved};
use crate::geometry::volume::slice_points::{corner_points, crossing_near};

/// Heights in a slice, rising.
pub(crate) type Heights = SmallVec<[f64; 32]>;

/// Profile corners that turn by less than this, in radians, are part of a flattened curve.
pub(crate) const CORNER: f64 = 0.12;
/// An axis whose direction along the blank is less than this, a sine, is nearly square to it.
pub(crate) const SQUARE: f64 = 0.02;
/// Heights closer than this count as one, in mm.
const SAME: f64 = 0.01;
/// A line is level where the upward part of its normal, of length 1, is more than this: it leans by less than 4.5e-5 rad.
const LEVEL: f64 = 1.0 - 1e-9;
/// An axis lies in the slice where its direction along the blank, a sine, is less than this.
const IN_SLICE: f64 = 1e-6;
/// A piece of a cone whose outline leans from x by less than this, a sine squared, runs along x.
const ALONG_X: f64 = 1e-9;
/// Two lines cross where the sine of the angle between them is more than this: else they cross far outside the wood.
const CROSSES: f64 = 1e-6;

/// The angle by which a chain turns at `b`.
pub(crate) fn turn(a: Station, b: Station, c: Station) -> f64 {
    (c.r - b.r).atan2(c.t - b.t) - (b.r - a.r).atan2(b.t - a.t)
}

/// The edges that regions show in the slice at one station.
pub(crate) struct SliceEdges<'a> {
    s: f64,
    /// Lines farther from axis A than this miss the wood.
    reach: f64,
    heights: Heights,
    rounds: SmallVec<[Round<'a>; 12]>,
    lines: SmallVec<[Line; 16]>,
}

/// A region of revolution in the slice, and a circle near its outline.
struct Round<'a> {
    /// `None` for round stock.
    region: Option<&'a Revolved>,
    /// Whether the circle is only near its outline.
    leans: bool,
    x: f64,
    y: f64,
    radius: f64,
}

/// The line `nx x + ny y = at`, the normal of length 1.
struct Line {
    nx: f64,
    ny: f64,
    at: f64,
}

impl<'a> SliceEdges<'a> {
    pub fn new(s: f64, reach: f64) -> Self {
        Self { s, reach, heights: SmallVec::new(), rounds: SmallVec::new(), lines: SmallVec::new() }
    }

    /// The sides of square stock.
    pub fn sides(&mut self, half_side: f64) {
        self.lines.extend([half_side, -half_side].map(|at| Line { nx: 1.0, ny: 0.0, at }));
        // A plug may be wider than the stock, which then ends between the first height and the last.
        self.heights.extend([-half_side, half_side]);
    }

    /// Round stock.
    pub fn stock_round(&mut self, radius: f64) {
        self.heights.extend([-radius, radius]);
        self.rounds.push(Round { region: None, leans: false, x: 0.0, y: 0.0, radius });
    }

    pub fn region(&mut self, region: &'a Region) {
        match region {
            Region::Revolved(revolved) => self.revolved(revolved),
            Region::Sawn(sawn) => self.heights.extend(sawn.height(self.s)),
            Region::HalfSpace(half) => self.plane(half.into, half.offset),
        }
    }

    /// The line in which a plane cuts the slice.
    fn plane(&mut self, normal: Vector, offset: f64) {
        let flat = normal.x.hypot(normal.y);
        if flat < PARALLEL {
            return;
        }
        let line = Line { nx: normal.x / flat, ny: normal.y / flat, at: (offset - normal.s * self.s) / flat };
        if line.at.abs() > self.reach {
            return;
        }
        if line.ny.abs() > LEVEL {
            self.heights.push(line.at * line.ny);
        }
        self.lines.push(line);
    }

    pub fn revolved(&mut self, revolved: &'a Revolved) {
        let axis = &revolved.axis;
        let leans = axis.is_tilted();
        let centre = axis.centre(self.s).filter(|_| axis.along().s.abs() > 0.5);
        if let Some(centre) = centre.filter(|_| !leans) {
            let t = axis.see(centre).t;
            let radius = revolved.meridian.greatest_at(t);
            self.rounds.push(Round { region: Some(revolved), leans, x: centre.x, y: centre.y, radius });
            self.heights.extend([centre.y - radius, centre.y + radius]);
            return;
        }
        for t in [revolved.meridian.start(), revolved.meridian.end()] {
            self.plane(axis.along(), axis.point(t, 0.0, 0.0).dot(axis.along()));
        }
        self.sides_of_square(revolved);
        let ends = self.leaning(revolved);
        let Some(centre) = centre else { return };
        let round = match ends.filter(|(low, high)| high.y - low.y > SAME) {
            // The middle of an ellipse is midway between its lowest and its highest point.
            Some((low, high)) => ((low.x + high.x) / 2.0, (low.y + high.y) / 2.0, (high.y - low.y) / 2.0),
            None => (centre.x, centre.y, radius_near(revolved, axis.see(centre).t)),
        };
        self.rounds.push(Round { region: Some(revolved), leans, x: round.0, y: round.1, radius: round.2 });
    }

    /// The sides that straight cylinders about an axis nearly square to the blank show: straight, or as good as straight
    /// within the blank.
    fn sides_of_square(&mut self, revolved: &Revolved) {
        let (along, origin) = (revolved.axis.along(), revolved.axis.origin());
        if along.s.abs() > SQUARE {
            return;
        }
        let across = along.x.hypot(along.y);
        let (nx, ny) = (-along.y / across, along.x / across);
        // Midway through the blank, how far the slice is from the axis.
        let off = (self.s - origin.s) * across + (origin.x * along.x + origin.y * along.y) * along.s / across;
        let middle = origin.x * nx + origin.y * ny;
        let nodes = Nodes::of(revolved);
        let stretches = (1..nodes.len()).filter_map(|i| Some((nodes.get(i - 1)?.r, nodes.get(i)?.r)));
        for (radius, _) in stretches.filter(|(from, to)| from == to && *from > off.abs()) {
            let half = (radius * radius - off * off).sqrt();
            self.lines.extend([-half, half].map(|aside| Line { nx, ny, at: middle + aside }));
        }
    }

    /// Corners and level points of a region whose axis leans; its lowest and highest level points.
    fn leaning(&mut self, revolved: &Revolved) -> Option<(Vector, Vector)> {
        let points = Nodes::of(revolved);
        let mut ends: Option<(Vector, Vector)> = None;
        let mut widen = |p: Vector| {
            ends = Some(ends.map_or((p, p), |(low, high)| {
                (if p.y < low.y { p } else { low }, if p.y > high.y { p } else { high })
            }));
        };
        // Whether the conic of the piece before ran level past the piece's end; none when it did not run level.
        let mut ran_past: Option<[bool; 2]> = None;
        let reached = self.reached(revolved, points);
        spend(4 * reached.len());
        for i in reached {
            let Some(here) = points.get(i) else { break };
            let next = points.get(i + 1).filter(|n| n.t > here.t);
            // A stretch turned to nothing has no outline.
            let thick = next.filter(|n| n.r > 0.0 || here.r > 0.0);
            let level = thick.and_then(|next| self.level_points(revolved, here, next));
            let between = match (ran_past, level) {
                (Some(past), Some(level)) => (0..2).any(|k| past[k] && level[k].0 < here.t),
                _ => false,
            };
            if points.is_corner(i) || between || ran_past.is_some() != level.is_some() {
                for p in corner_points(revolved, here, self.s).into_iter().flatten() {
                    self.heights.push(p.y);
                    if between {
                        widen(p);
                    }
                }
            }
            let end = next.map_or(here.t, |n| n.t);
            for (_, p) in level.into_iter().flatten().filter(|(t, _)| (here.t..=end).contains(t)) {
                self.heights.push(p.y);
                widen(p);
            }
            ran_past = level.map(|l| l.map(|l| l.0 > end));
        }
        ends
    }

    /// The nodes of a leaning profile whose circles can reach the slice.
    fn reached(&self, revolved: &Revolved, nodes: Nodes<'_>) -> std::ops::Range<usize> {
        let along = revolved.axis.along();
        let off = self.s - revolved.axis.origin().s;
        let reach = along.x.hypot(along.y) * revolved.meridian.largest_radius();
        if along.s.abs() < IN_SLICE {
            return if off.abs() > reach + SAME { 0..0 } else { 0..nodes.len() };
        }
        let (p, q) = ((off - reach) / along.s, (off + reach) / along.s);
        let first = nodes.count_before(p.min(q)).saturating_sub(1);
        first..(nodes.count_before(p.max(q)) + 1).min(nodes.len())
    }

    /// The highest and the lowest point of the conic that a straight piece of the profile shows, wherever they lie,
    /// each with its station on the axis.
    ///
    /// With d from the axis's origin and t = d.a, the conic is |d|^2 - t^2 - r(t)^2 = 0; where it runs level its
    /// derivative by x is zero, which gives d.x as a linear function of d.y, and so a quadratic in d.y.
    fn level_points(&self, revolved: &Revolved, from: Station, to: Station) -> Option<[(f64, Vector); 2]> {
        let (origin, a) = (revolved.axis.origin(), revolved.axis.along());
        let ds = self.s - origin.s;
        let growth = (to.r - from.r) / (to.t - from.t);
        let base = from.r - growth * from.t;
        let k = 1.0 + growth * growth;
        let across = 1.0 - k * a.x * a.x;
        if across.abs() < ALONG_X {
            // A cylinder along x shows two level lines.
            let rise = (base * base - ds * ds).max(0.0).sqrt();
            let flat = (from.t + to.t) / 2.0;
            return Some([rise, -rise].map(|dy| (flat, Vector::new(origin.x, origin.y + dy, self.s))));
        }
        let (x_y, x_0) = (k * a.x * a.y / across, a.x * (k * a.s * ds + growth * base) / across);
        let (t_y, t_0) = (a.x * x_y + a.y, a.x * x_0 + a.s * ds);
        let (r_y, r_0) = (growth * t_y, base + growth * t_0);
        let square = x_y * x_y + 1.0 - t_y * t_y - r_y * r_y;
        let half = x_y * x_0 - t_y * t_0 - r_y * r_0;
        let rest = x_0 * x_0 + ds * ds - t_0 * t_0 - r_0 * r_0;
        let discriminant = half * half - square * rest;
        let sound = discriminant >= 0.0 && square.abs() > FLAT;
        sound.then(|| {
            [discriminant.sqrt(), -discriminant.sqrt()].map(|root| {
                let dy = (root - half) / square;
                (t_0 + t_y * dy, Vector::new(origin.x + x_0 + x_y * dy, origin.y + dy, self.s))
            })
        })
    }

    /// All heights from -half to half, both included.
    pub fn heights(self, half: f64) -> Heights {
        let mut heights = self.heights.clone();
        let edges = self.rounds.len() + self.lines.len();
        spend(edges * edges);
        for (i, round) in self.rounds.iter().enumerate() {
            for other in &self.rounds[i + 1..] {
                heights.extend(round.crossings(other, self.s).into_iter().flatten());
            }
            self.lines.iter().for_each(|line| round.line_crossings(line, self.s, &mut heights));
        }
        for (i, line) in self.lines.iter().enumerate() {
            heights.extend(self.lines[i + 1..].iter().filter_map(|other| line.crossing(other)));
        }
        heights.retain(|y| y.abs() < half - SAME);
        heights.extend([-half, half]);
        heights.sort_unstable_by(f64::total_cmp);
        heights.dedup_by(|b, a| *b - *a < SAME);
        heights
    }
}

/// The nodes of a profile, with one far before an open mouth.
#[derive(Clone, Copy)]
struct Nodes<'a> {
    points: &'a [Station],
    mouth: Option<Station>,
}

impl<'a> Nodes<'a> {
    /// Past any blank, in mm.
    const FAR: f64 = 1e5;

    fn of(revolved: &'a Revolved) -> Self {
        let points = revolved.meridian.points();
        let open = revolved.fill == Fill::WithinOpen;
        Self { points, mouth: open.then(|| Station::new(points[0].t - Self::FAR, points[0].r)) }
    }

    fn extra(self) -> usize {
        usize::from(self.mouth.is_some())
    }

    fn len(self) -> usize {
        self.points.len() + self.extra()
    }

    fn get(self, i: usize) -> Option<Station> {
        match self.mouth {
            Some(mouth) if i == 0 => Some(mouth),
            _ => self.points.get(i - self.extra()).copied(),
        }
    }

    /// How many nodes lie before a station.
    fn count_before(self, t: f64) -> usize {
        let mouth = self.mouth.filter(|m| m.t < t).map_or(0, |_| 1);
        mouth + self.points.partition_point(|n| n.t < t)
    }

    /// Whether a node is an end or a corner sharper than those of flattened curves.
    fn is_corner(self, i: usize) -> bool {
        match (i.checked_sub(1).and_then(|before| self.get(before)), self.get(i), self.get(i + 1)) {
            (Some(a), Some(b), Some(c)) => turn(a, b, c).abs() > CORNER,
            _ => true,
        }
    }
}

impl Line {
    fn crossing(&self, other: &Self) -> Option<f64> {
        let determinant = self.nx * other.ny - other.nx * self.ny;
        (determinant.abs() > CROSSES).then(|| (self.nx * other.at - other.nx * self.at) / determinant)
    }
}

impl Round<'_> {
    /// The heights where two outlines cross.
    fn crossings(&self, other: &Self, s: f64) -> [Option<f64>; 2] {
        let (dx, dy) = (other.x - self.x, other.y - self.y);
        let apart = dx.hypot(dy);
        let along = (apart * apart + self.radius * self.radius - other.radius * other.radius) / (2.0 * apart);
        let lift_sq = self.radius * self.radius - along * along;
        if apart < SAME_MM || lift_sq <= 0.0 {
            return [None; 2];
        }
        let (x, y) = (self.x + dx * along / apart, self.y + dy * along / apart);
        let (lift_x, lift_y) = (-dy / apart * lift_sq.sqrt(), dx / apart * lift_sq.sqrt());
        [1.0, -1.0].map(|side| {
            let near = Vector::new(x + side * lift_x, y + side * lift_y, s);
            match (self.region, other.region) {
                (Some(a), Some(b)) if self.leans || other.leans => crossing_near(a, b, near),
                _ => Some(near.y),
            }
        })
    }

    fn line_crossings(&self, line: &Line, s: f64, heights: &mut Heights) {
        if let Some(region) = self.region.filter(|_| self.leans) {
            let start = Vector::new(line.nx * line.at, line.ny * line.at, s);
            let ray = Ray { start, direction: Vector::new(-line.ny, line.nx, 0.0) };
            for (from, to) in region.along(ray).iter() {
                heights.extend([from, to].into_iter().filter(|p| p.is_finite()).map(|p| ray.at(p).y));
            }
            return;
        }
        let along = line.at - line.nx * self.x - line.ny * self.y;
        let rise_sq = self.radius * self.radius - along * along;
        if rise_sq > 0.0 {
            let (foot, lift) = (self.y + line.ny * along, line.nx * rise_sq.sqrt());
            heights.extend([foot - lift, foot + lift]);
        }
    }
}

/// The radius at a station; past a pass that went to nothing, the widest leads nearer to what a slice may show.
fn radius_near(revolved: &Revolved, t: f64) -> f64 {
    let radius = revolved.meridian.greatest_at(t);
    if radius > 0.0 { radius } else { revolved.meridian.largest_radius() }
}
