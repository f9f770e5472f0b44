//! The surface of one hollow, laid out flat: length along the meridian by clock around the axis.

use std::cell::Cell;

use crate::geometry::{Fill, Revolved, Stock, Vector};

/// Where the meridian turns by more than this, in radians, a band ends.
const CORNER: f64 = 0.3;

/// The surface of one hollow: its profile, its end discs, and the straight way out before an open mouth.
pub(super) struct Sheet<'a> {
    pub(super) hollow: &'a Revolved,
    /// Points `(t, r)` of the whole meridian.
    points: Vec<(f64, f64)>,
    /// Length along the meridian up to each point, in mm.
    lengths: Vec<f64>,
    /// Where the profile itself starts, in mm along the meridian.
    profile_from: f64,
    /// The piece asked about last: the next is mostly the same.
    last: Cell<usize>,
}

/// The flux of a band's surface per radian: its vector area lies `along` the axis and `outward` from it, in mm2.
#[derive(Clone, Copy, Default)]
pub(super) struct Flux {
    /// Along the axis.
    pub along: f64,
    /// Away from the axis.
    pub outward: f64,
}

/// Two places along the meridian and the flux at each: exact for what changes evenly along it.
pub(super) type Nodes = [(f64, Flux); 2];

impl<'a> Sheet<'a> {
    /// The surface of a hollow in a bar; `None` for a region that is not a hollow or has no surface.
    pub(super) fn new(hollow: &'a Revolved, stock: &Stock) -> Option<Self> {
        if hollow.fill == Fill::Beyond {
            return None;
        }
        let chain = hollow.meridian.points();
        let (first, last) = (*chain.first()?, *chain.last()?);
        let mut points = Vec::with_capacity(chain.len() + 2);
        match hollow.fill {
            Fill::WithinOpen => {
                let out = way_out(hollow, stock);
                if out < first.0 {
                    points.push((out, first.1));
                }
            }
            Fill::Within | Fill::Beyond => points.push((first.0, 0.0)),
        }
        let profile_first = points.len();
        points.extend_from_slice(chain);
        points.push((last.0, 0.0));
        let mut lengths = vec![0.0];
        for pair in points.windows(2) {
            let step = (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1);
            lengths.push(lengths[lengths.len() - 1] + step);
        }
        let profile_from = lengths[profile_first.min(lengths.len() - 1)];
        let sheet = Self { hollow, points, lengths, profile_from, last: Cell::new(0) };
        (sheet.length().is_finite() && sheet.length() > 0.0).then_some(sheet)
    }

    /// Length of the whole meridian, in mm.
    fn length(&self) -> f64 {
        self.lengths[self.lengths.len() - 1]
    }

    /// Area of the profile and the end discs, without the way out, in mm2.
    pub(super) fn area(&self) -> f64 {
        let pieces = self.points.windows(2).zip(self.lengths.windows(2));
        let kept = pieces.filter(|(_, u)| u[0] >= self.profile_from);
        kept.map(|(p, u)| (u[1] - u[0]) * std::f64::consts::PI * (p[0].1 + p[1].1)).sum()
    }

    /// Bands no longer than `size`, as ends along the meridian; a corner of the meridian ends a band.
    pub(super) fn bands(&self, size: f64) -> Vec<(f64, f64)> {
        let mut bands = Vec::new();
        let mut from = 0.0;
        let mut heading = None;
        for (pair, u) in self.points.windows(2).zip(self.lengths.windows(2)) {
            if u[1] <= u[0] {
                continue;
            }
            let next = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
            if heading.is_some_and(|before| turn(before, next) > CORNER) {
                split(from, u[0], size, &mut bands);
                from = u[0];
            }
            heading = Some(next);
        }
        split(from, self.length(), size, &mut bands);
        bands
    }

    /// The piece of the meridian that holds the place `u`.
    fn piece(&self, u: f64) -> usize {
        let last = self.last.get();
        if self.lengths[last] < u && u <= self.lengths[last + 1] {
            return last;
        }
        let piece = self.lengths.partition_point(|l| *l < u).clamp(1, self.lengths.len() - 1) - 1;
        self.last.set(piece);
        piece
    }

    /// Station and radius at a place along the meridian.
    pub(super) fn at(&self, u: f64) -> (f64, f64) {
        let i = self.piece(u);
        let (a, b) = (self.points[i], self.points[i + 1]);
        let (from, to) = (self.lengths[i], self.lengths[i + 1]);
        let part = if to > from { (u - from) / (to - from) } else { 0.0 };
        (a.0 + (b.0 - a.0) * part, a.1 + (b.1 - a.1) * part)
    }

    /// The point at a place along the meridian and a clock direction.
    pub(super) fn point(&self, u: f64, clock: f64) -> Vector {
        let (t, r) = self.at(u);
        self.hollow.axis.point(t, r, clock)
    }

    /// The greatest radius between two places.
    pub(super) fn largest_radius(&self, from: f64, to: f64) -> f64 {
        let (i, j) = (self.piece(from), self.piece(to));
        let inner = self.points[i + 1..=j.max(i)].iter().map(|p| p.1);
        inner.chain([self.at(from).1, self.at(to).1]).fold(0.0, f64::max)
    }

    /// The flux between two places, into the air, as two nodes.
    ///
    /// The sum and the first moment are those of the meridian's straight pieces, exactly, however many there are.
    pub(super) fn nodes(&self, from: f64, to: f64) -> Nodes {
        let (middle, half) = ((from + to) / 2.0, (to - from) / 2.0);
        let mut sum = Flux::default();
        let mut moment = Flux::default();
        for i in self.piece(from)..=self.piece(to) {
            let (u0, u1) = (self.lengths[i].max(from), self.lengths[i + 1].min(to));
            let length = self.lengths[i + 1] - self.lengths[i];
            if u1 <= u0 || length <= 0.0 {
                continue;
            }
            let (a, b) = (self.points[i], self.points[i + 1]);
            let (dt, dr) = ((b.0 - a.0) / length, (b.1 - a.1) / length);
            let r_middle = a.1 + dr * ((u0 + u1) / 2.0 - self.lengths[i]);
            let width = u1 - u0;
            // Radius integrated over the piece, and the same weighted by the place from -1 to 1.
            let whole = r_middle * width;
            let place = ((u0 + u1) / 2.0 - middle) / half;
            let first = whole * place + dr * width.powi(3) / (12.0 * half);
            sum = sum.plus(whole * dr, -whole * dt);
            moment = moment.plus(first * dr, -first * dt);
        }
        let root3 = 3.0_f64.sqrt();
        let node = |side: f64| {
            let half_of = |m0: f64, m1: f64| (m0 + side * root3 * m1) / 2.0;
            let flux = Flux { along: half_of(sum.along, moment.along), outward: half_of(sum.outward, moment.outward) };
            (middle + side * half / root3, flux)
        };
        [node(-1.0), node(1.0)]
    }
}

impl Flux {
    fn plus(self, along: f64, outward: f64) -> Self {
        Self { along: self.along + along, outward: self.outward + outward }
    }
}

/// The angle between two directions of the half-plane, in radians.
fn turn(a: (f64, f64), b: (f64, f64)) -> f64 {
    (a.0 * b.1 - a.1 * b.0).atan2(a.0 * b.0 + a.1 * b.1).abs()
}

fn split(from: f64, to: f64, size: f64, bands: &mut Vec<(f64, f64)>) {
    if to <= from {
        return;
    }
    let count = ((to - from) / size).ceil().clamp(1.0, 1000.0);
    let step = (to - from) / count;
    bands.extend((0..count as usize).map(|i| (from + step * i as f64, from + step * (i as f64 + 1.0))));
}

/// The station along a hollow's axis before which nothing of the bar lies.
fn way_out(hollow: &Revolved, stock: &Stock) -> f64 {
    let w = stock.half_width();
    let corners = [0.0, stock.length]
        .into_iter()
        .flat_map(|s| [(-w, -w), (-w, w), (w, -w), (w, w)].into_iter().map(move |(x, y)| Vector::new(x, y, s)));
    corners.map(|corner| hollow.axis.see(corner).t).fold(f64::INFINITY, f64::min)
}
