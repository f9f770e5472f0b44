//! A surface of revolution laid flat: how paper lies around it, and where a cut across it runs on the paper.

use std::f64::consts::PI;

use kurbo::Point;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::line::search::bisect_within;
use crate::geometry::region::meridian::Meridian;
use crate::geometry::region::revolved::Revolved;
use crate::geometry::region::sawn::Sawn;

/// A place on a surface of revolution about axis A.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnSurface {
    /// Station along the axis, in mm.
    pub t: f64,
    /// Clock direction, in radians.
    pub clock: f64,
}

/// A stretch of a surface of revolution, laid flat.
///
/// Distances along the middle line (clock 0) and along every hoop are true; the hoops are arcs about one middle. For a
/// cylinder and for a cone that is their exact development. A surface that curves both ways cannot be laid flat: there
/// the paper is longer or shorter away from the middle line: see [`stretch`](Self::stretch).
#[derive(Clone, Debug, PartialEq)]
pub struct Unrolled {
    meridian: Meridian,
    from: f64,
    to: f64,
    /// How much the radius grows per mm of outline, on the whole stretch: the sine of the mean cone's half angle.
    growth: f64,
    /// Distance of the first hoop from the middle of all hoops, in mm; without end for a cylinder.
    first_hoop: f64,
}

/// A growth smaller than this is a cylinder's.
const CYLINDER: f64 = 1e-9;

impl Unrolled {
    /// Lays the stretch from station `from` to `to` flat; `None` when it is empty or has no girth.
    #[must_use]
    pub fn new(meridian: &Meridian, from: f64, to: f64) -> Option<Self> {
        let (from, to) = (from.max(meridian.start()), to.min(meridian.end()));
        let meridian = meridian.clipped(from, to).ok()?;
        let points = meridian.points();
        let length = outline_length(points);
        let (first, last) = (points[0].r, points[points.len() - 1].r);
        if meridian.largest_radius() <= 0.0 || length <= 0.0 {
            return None;
        }
        let growth = (last - first) / length;
        let first_hoop = if growth.abs() < CYLINDER { f64::INFINITY } else { first / growth };
        Some(Self { meridian, from, to, growth, first_hoop })
    }

    /// The stations between which it lies, in mm.
    #[must_use]
    pub fn span(&self) -> (f64, f64) {
        (self.from, self.to)
    }

    /// The radius at a station, in mm.
    #[must_use]
    pub fn radius(&self, t: f64) -> f64 {
        self.meridian.least_at(t)
    }

    /// The way along the outline from the first station to `t`, in mm.
    #[must_use]
    pub fn along(&self, t: f64) -> f64 {
        let points = self.meridian.points();
        let next = points.partition_point(|p| p.t <= t).min(points.len());
        let whole = outline_length(&points[..next]);
        match (next.checked_sub(1).map(|i| points[i]), points.get(next)) {
            (Some(a), Some(b)) if b.t > a.t => whole + (b.t - a.t).hypot(b.r - a.r) * (t - a.t) / (b.t - a.t),
            _ => whole,
        }
    }

    /// Where a point of the surface lies on the paper, in mm: across from the middle line (right for clock directions
    /// up to half a turn) and along it from the first station.
    #[must_use]
    pub fn at(&self, t: f64, clock: f64) -> Point {
        let (along, arc) = (self.along(t), self.radius(t) * clock);
        if self.growth.abs() < CYLINDER {
            return Point::new(arc, along);
        }
        let hoop = self.first_hoop + along;
        if hoop.abs() < 1e-9 {
            return Point::new(0.0, along);
        }
        // The height of a flat arc, without cancelling for a hoop that is nearly straight.
        let half = (arc / hoop / 2.0).sin();
        Point::new(hoop * (arc / hoop).sin(), along - 2.0 * hoop * half * half)
    }

    /// The most by which the paper is longer or shorter than the surface anywhere along a line of places `(t, clock)`, as a
    /// share of the length there: 0 for a cylinder or a cone, as far as the places are close.
    #[must_use]
    pub fn stretch(&self, places: &[OnSurface]) -> f64 {
        let on_surface = |p: &OnSurface| Axis::A.point(p.t, self.radius(p.t), p.clock);
        let mut worst = 0.0_f64;
        for pair in places.windows(2) {
            let (a, b) = (self.at(pair[0].t, pair[0].clock), self.at(pair[1].t, pair[1].clock));
            let real = (on_surface(&pair[1]) - on_surface(&pair[0])).length();
            if real > SHORTEST {
                worst = worst.max(((b.x - a.x).hypot(b.y - a.y) / real - 1.0).abs());
            }
        }
        worst
    }
}

/// Shorter pieces of a line are not judged, in mm: rounding would be most of them.
const SHORTEST: f64 = 0.05;

fn outline_length(points: &[Station]) -> f64 {
    points.windows(2).map(|pair| (pair[1].t - pair[0].t).hypot(pair[1].r - pair[0].r)).sum()
}

/// How closely places of a cut are found, in mm or in radians.
const FOUND: f64 = 1e-7;
/// Places along the cut on either side, and near its far end.
const PLACES: usize = 160;
const PLACES_AT_THE_END: usize = 24;

/// Where a cut across a surface of revolution runs on it, as `(t, clock)`: from the first station on the right side to
/// the far end, and back on the left. Empty when the cut does not open the top at the first station.
///
/// Each place is on the cut within 1e-6 mm along or around.
#[must_use]
pub fn cut_around(surface: &Revolved, flat: &Unrolled, sawn: &Sawn) -> Vec<OnSurface> {
    let open = |t: f64, clock: f64| sawn.contains(surface.axis.point(t, flat.radius(t), clock));
    let (from, to) = flat.span();
    if !open(from, 0.0) {
        return Vec::new();
    }
    let station = |i: usize| from + (to - from) * i as f64 / PLACES as f64;
    let opened = (0..=PLACES).take_while(|i| open(station(*i), 0.0)).count();
    let last = station(opened - 1);
    let end = if opened > PLACES { to } else { edge(last, station(opened), |t| open(t, 0.0)) };
    let side = |sign: f64| {
        let around = |t: f64| if open(t, sign * PI) { PI } else { edge(0.0, PI, |clock| open(t, sign * clock)) };
        let mut places: Vec<OnSurface> =
            (0..opened).map(|i| OnSurface { t: station(i), clock: sign * around(station(i)) }).collect();
        // Toward its end a cut turns square to the stations: there it is followed by the clock.
        let turn = around(last);
        for i in 1..=PLACES_AT_THE_END {
            let clock = turn * (1.0 - i as f64 / PLACES_AT_THE_END as f64);
            let t = if opened > PLACES { to } else { edge(last, end.max(last), |t| open(t, sign * clock)) };
            places.push(OnSurface { t, clock: sign * clock });
        }
        places
    };
    let mut places = side(1.0);
    places.extend(side(-1.0).into_iter().rev().skip(1));
    places
}

/// Where something that holds at `inside` stops to hold on the way to `outside`.
fn edge(inside: f64, outside: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (inside, outside) = bisect_within((inside, outside), FOUND, holds);
    f64::midpoint(inside, outside)
}
