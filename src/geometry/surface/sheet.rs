//! The whole surface of one hollow, laid out flat: length along the meridian by clock around the axis.

use kurbo::Vec2;

use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::revolved::{Fill, Revolved};
use crate::geometry::region::stock::Stock;

/// A place on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Length along the meridian, in mm.
    pub u: f64,
    /// Clock direction around the hollow's axis, in radians.
    pub clock: f64,
}

impl Spot {
    /// From its length along the meridian, in mm, and its clock direction, in radians.
    #[must_use]
    pub const fn new(u: f64, clock: f64) -> Self {
        Self { u, clock }
    }
}

/// The surface of one hollow: the way out before an open mouth (or the first end disc of a closed hollow), the profile,
/// and the end disc.
///
/// `u` is 0 where the way out leaves the stock, and grows along the profile to the middle of the end disc.
#[derive(Clone, Debug)]
pub struct Sheet<'a> {
    hollow: &'a Revolved,
    /// Points `(t, r)` of the whole meridian.
    points: Vec<Station>,
    /// Length along the meridian up to each point, in mm.
    lengths: Vec<f64>,
    /// The direction of each straight piece: along the axis, and away from it.
    headings: Vec<Vec2>,
    profile_from: f64,
    disc_from: f64,
}

/// A point of a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetPoint {
    /// Where on the sheet.
    pub place: Spot,
    /// Station along the hollow's axis, in mm.
    pub t: f64,
    /// Distance from the hollow's axis, in mm.
    pub radius: f64,
    /// The point in the blank's frame, in mm.
    pub point: Vector,
    /// Square to the surface, out of the hollow into the wood, of length 1; at a corner that of the piece before it.
    pub into_wood: Vector,
}

impl<'a> Sheet<'a> {
    /// The surface of a hollow in a bar; `None` for a region that is not a hollow or has no surface.
    #[must_use]
    pub fn new(hollow: &'a Revolved, stock: &Stock) -> Option<Self> {
        let chain = hollow.meridian.points();
        let (first, last) = (*chain.first()?, *chain.last()?);
        let mut points = Vec::with_capacity(chain.len() + 2);
        match hollow.fill {
            Fill::WithinOpen => {
                let out = way_out(hollow, stock);
                if out < first.t {
                    points.push(Station::new(out, first.r));
                }
            }
            Fill::Within => points.push(Station::new(first.t, 0.0)),
            Fill::Beyond => return None,
        }
        let before = points.len();
        points.extend_from_slice(chain);
        points.push(Station::new(last.t, 0.0));
        let mut lengths = Vec::with_capacity(points.len());
        let mut headings = Vec::with_capacity(points.len());
        let mut length = 0.0;
        lengths.push(length);
        for pair in points.windows(2) {
            let (dt, dr) = (pair[1].t - pair[0].t, pair[1].r - pair[0].r);
            let step = dt.hypot(dr);
            headings.push(if step > 0.0 { Vec2::new(dt / step, dr / step) } else { Vec2::new(1.0, 0.0) });
            length += step;
            lengths.push(length);
        }
        let (profile_from, disc_from) = (lengths[before], lengths[lengths.len() - 2]);
        let sound = length.is_finite() && length > 0.0;
        sound.then_some(Self { hollow, points, lengths, headings, profile_from, disc_from })
    }

    /// The hollow.
    #[must_use]
    pub fn hollow(&self) -> &'a Revolved {
        self.hollow
    }

    /// Length of the whole meridian, in mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.lengths[self.lengths.len() - 1]
    }

    /// Where the profile starts, in mm along the meridian: what lies before it is the way out or the first end disc.
    #[must_use]
    pub fn profile_from(&self) -> f64 {
        self.profile_from
    }

    /// Where the profile ends and the end disc starts, in mm along the meridian.
    #[must_use]
    pub fn disc_from(&self) -> f64 {
        self.disc_from
    }

    /// Whether a place lies on the way out before an open mouth.
    #[must_use]
    pub fn is_way_out(&self, place: Spot) -> bool {
        place.u < self.profile_from && self.hollow.fill == Fill::WithinOpen
    }

    /// The corners of the meridian as `(u, t, r)` in mm, its ends included.
    pub fn corners(&self) -> impl DoubleEndedIterator<Item = (f64, f64, f64)> + '_ {
        self.lengths.iter().zip(&self.points).map(|(u, p)| (*u, p.t, p.r))
    }

    /// The corners of the meridian strictly between two lengths, as `(t, r)` in mm.
    #[must_use]
    pub fn corners_between(&self, from: f64, to: f64) -> &[Station] {
        let first = self.lengths.partition_point(|u| *u <= from);
        let last = self.lengths.partition_point(|u| *u < to);
        self.points.get(first..last).unwrap_or_default()
    }

    /// The straight piece of the meridian that holds `u`, ends held.
    fn piece(&self, u: f64) -> usize {
        self.lengths.partition_point(|l| *l < u).clamp(1, self.lengths.len() - 1) - 1
    }

    /// Station and radius at a length along the meridian, in mm; ends held.
    #[must_use]
    pub fn at(&self, u: f64) -> Station {
        self.on_piece(self.piece(u), u)
    }

    fn on_piece(&self, piece: usize, u: f64) -> Station {
        let (a, b) = (self.points[piece], self.points[piece + 1]);
        let (from, to) = (self.lengths[piece], self.lengths[piece + 1]);
        let part = if to > from { ((u - from) / (to - from)).clamp(0.0, 1.0) } else { 0.0 };
        Station::new(a.t + (b.t - a.t) * part, a.r + (b.r - a.r) * part)
    }

    /// The point at a place.
    #[must_use]
    pub fn point(&self, place: Spot) -> Vector {
        let Station { t, r } = self.at(place.u);
        self.hollow.axis.point(t, r, place.clock)
    }

    /// The point at a place, with all that is known of it.
    #[must_use]
    pub fn see(&self, place: Spot) -> SheetPoint {
        let (sin, cos) = place.clock.sin_cos();
        self.see_toward(place, self.hollow.axis.right() * sin + self.hollow.axis.up() * cos)
    }

    /// As [`Self::see`], with the direction that the clock stands for, of length 1: for points by the hundred.
    #[must_use]
    pub fn see_toward(&self, place: Spot, toward: Vector) -> SheetPoint {
        let axis = &self.hollow.axis;
        let piece = self.piece(place.u);
        let Station { t, r: radius } = self.on_piece(piece, place.u);
        let Vec2 { x: dt, y: dr } = self.headings[piece];
        let into_wood = toward * dt - axis.along() * dr;
        SheetPoint { place, t, radius, point: axis.point_toward(t, radius, toward), into_wood }
    }
}

/// The station along a hollow's axis before which nothing of the bar lies.
fn way_out(hollow: &Revolved, stock: &Stock) -> f64 {
    let w = stock.half_width();
    let corners = [0.0, stock.length]
        .into_iter()
        .flat_map(|s| [(-w, -w), (-w, w), (w, -w), (w, w)].into_iter().map(move |(x, y)| Vector::new(x, y, s)));
    corners.map(|corner| hollow.axis.see(corner).t).fold(f64::INFINITY, f64::min)
}
