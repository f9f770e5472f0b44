//! Regions swept around an axis: what a pass takes away outside a profile, or a hollow inside one.

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::pace::spend;
use crate::geometry::line::quadratic::{not_positive, push_not_positive};
use crate::geometry::region::meridian::{Block, Meridian};

/// Which side of the profile belongs to the region.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// From the profile outward without end, between the two shoulder planes.
    Beyond,
    /// From the axis to the profile, between the two end planes.
    Within,
    /// As [`Fill::Within`], and before the first station at the first radius without end: open at its mouth.
    WithinOpen,
}

/// A region of revolution.
#[derive(Clone, Debug, PartialEq)]
pub struct Revolved {
    /// Its axis.
    pub axis: Axis,
    /// Its profile.
    pub meridian: Meridian,
    /// Which side of the profile it is.
    pub fill: Fill,
}

/// A straight line `start + place * direction`; `direction` need not have length 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ray {
    /// Where `place` is 0.
    pub start: Vector,
    /// One unit of `place`.
    pub direction: Vector,
}

impl Ray {
    /// The point at a place along the line.
    #[must_use]
    pub fn at(&self, place: f64) -> Vector {
        self.start + self.direction * place
    }
}

impl Revolved {
    /// The first and the last station of the region; minus infinity for an open mouth.
    #[must_use]
    pub fn span(&self) -> (f64, f64) {
        let start = if self.fill == Fill::WithinOpen { f64::NEG_INFINITY } else { self.meridian.start() };
        (start, self.meridian.end())
    }

    /// Whether a point is in the region.
    #[must_use]
    pub fn contains(&self, point: Vector) -> bool {
        let t = (point - self.axis.origin()).dot(self.axis.along());
        let (from, to) = self.span();
        from <= t && t <= to && self.contains_seen(t, self.axis.see(point).radius())
    }

    /// Whether the region may reach a disc of a radius square to an axis at station `t`: not when the disc misses its
    /// span, or stays under its least radius. May say yes for one just missed.
    #[must_use]
    pub fn may_reach_disc(&self, about: &Axis, t: f64, radius: f64) -> bool {
        let seen = self.axis.see(about.point_toward(t, 0.0, about.up()));
        let lean = radius * self.axis.along().cross(about.along()).length() + 1e-9;
        let (from, to) = self.span();
        let deep = self.fill != Fill::Beyond || seen.radius() + radius + 1e-9 >= self.meridian.least_radius();
        deep && seen.t + lean >= from && seen.t - lean <= to
    }

    /// Whether the half-plane point `(t, radius)` is in the region.
    #[must_use]
    pub fn contains_seen(&self, t: f64, radius: f64) -> bool {
        let (from, to) = self.span();
        if !(from <= t && t <= to) {
            return false;
        }
        let (least, largest) = (self.meridian.least_radius(), self.meridian.largest_radius());
        let beyond = self.fill == Fill::Beyond;
        if radius < least || radius > largest {
            return beyond == (radius > largest);
        }
        if beyond { radius >= self.radius_at(t) } else { radius <= self.radius_at(t) }
    }

    /// Radius of the surface at station `t` of the axis, as the region's own points there have it, in mm. A region is
    /// closed: at a step a region beyond its profile begins at the lesser side, one within it ends at the greater.
    #[must_use]
    pub fn radius_at(&self, t: f64) -> f64 {
        match self.fill {
            Fill::Beyond => self.meridian.least_at(t),
            Fill::Within | Fill::WithinOpen => self.meridian.greatest_at(t),
        }
    }

    /// Distance from a point to the region's surface, in mm: negative inside the region. Exact for the profile's
    /// chain of straight pieces, shoulders included.
    #[must_use]
    pub fn signed_distance(&self, point: Vector) -> f64 {
        let seen = self.axis.see(point);
        self.signed_distance_seen(seen.t, seen.radius())
    }

    /// [`Self::signed_distance`], or `None` where it is certainly not below `best`: cheaper when it is far.
    ///
    /// Outside the span the distance is at least the way to it, and under the least radius of a [`Fill::Beyond`] region
    /// at least the way up to that.
    #[must_use]
    pub fn signed_distance_below(&self, point: Vector, best: f64) -> Option<f64> {
        let seen = self.axis.see(point);
        self.signed_distance_seen_below(seen.t, seen.radius(), best)
    }

    /// [`Self::signed_distance_below`] from a point of the half-plane.
    #[must_use]
    pub fn signed_distance_seen_below(&self, t: f64, radius: f64, best: f64) -> Option<f64> {
        let (from, to) = self.span();
        let along = (from - t).max(t - to);
        let across = if self.fill == Fill::Beyond { self.meridian.least_radius() - radius } else { 0.0 };
        if along.max(across) >= best {
            return None;
        }
        if self.contains_seen(t, radius) {
            return Some(-self.surface_sq(t, radius, f64::INFINITY).sqrt()).filter(|depth| *depth < best);
        }
        let best = best.max(0.0);
        let distance_sq = self.surface_sq(t, radius, best * best);
        (distance_sq < best * best).then(|| distance_sq.sqrt())
    }

    /// [`Self::signed_distance`] from a point of the half-plane.
    #[must_use]
    pub(crate) fn signed_distance_seen(&self, t: f64, radius: f64) -> f64 {
        let distance = self.surface_sq(t, radius, f64::INFINITY).sqrt();
        if self.contains_seen(t, radius) { -distance } else { distance }
    }

    /// The least squared distance from a point of the half-plane to the region's surface, or `best_sq` when that is
    /// less.
    fn surface_sq(&self, t: f64, radius: f64, mut best_sq: f64) -> f64 {
        let chain = self.meridian.points();
        let (first, last) = (chain[0], chain[chain.len() - 1]);
        let beyond = self.fill == Fill::Beyond;
        let open = self.fill == Fill::WithinOpen;
        for (at, edge, open) in [(first.t, first.r, open), (last.t, last.r, false)] {
            if open {
                if t <= at {
                    best_sq = best_sq.min((radius - edge) * (radius - edge));
                }
            } else if (beyond && radius >= edge) || (!beyond && radius <= edge) {
                best_sq = best_sq.min((t - at) * (t - at));
            }
        }
        self.meridian.distance_sq_below(t, radius, best_sq)
    }

    /// The stretches of a line inside the region. Exact for the chain.
    #[must_use]
    pub fn along(&self, ray: Ray) -> Intervals {
        let line = SeenLine::new(&self.axis, ray);
        let inside = self.within(&line);
        match self.fill {
            Fill::Within => inside,
            Fill::WithinOpen => self.mouth(&line).union(&inside),
            Fill::Beyond => line.between(self.meridian.start(), self.meridian.end()).minus(&inside),
        }
    }

    /// Takes the region out of stretches of a line.
    pub(crate) fn take_along(&self, ray: Ray, wood: &mut Intervals) {
        let line = SeenLine::new(&self.axis, ray);
        let inside = self.within(&line);
        if self.fill != Fill::Beyond {
            if self.fill == Fill::WithinOpen {
                self.mouth(&line).iter().for_each(|(from, to)| wood.cut_out(from, to));
            }
            return inside.iter().for_each(|(from, to)| wood.cut_out(from, to));
        }
        let span = line.between(self.meridian.start(), self.meridian.end());
        for (start, end) in span.iter() {
            let mut from = start;
            for (a, b) in inside.iter() {
                wood.cut_out(from, a);
                from = b;
            }
            wood.cut_out(from, end);
        }
    }

    /// The stretches of a line between the profile's end planes and within its radius, whichever side the region is.
    #[must_use]
    pub fn within_along(&self, ray: Ray) -> Intervals {
        self.within(&self.seen(ray))
    }

    /// A line as the region's axis sees it.
    pub(crate) fn seen(&self, ray: Ray) -> SeenLine {
        SeenLine::new(&self.axis, ray)
    }

    /// The stretches of a line between the region's end planes, whatever their distance from the axis.
    #[must_use]
    pub fn span_along(&self, ray: Ray) -> Intervals {
        let (from, to) = self.span();
        self.seen(ray).between(from, to)
    }

    /// The stretches before the mouth, within the first radius.
    fn mouth(&self, line: &SeenLine) -> Intervals {
        let Station { t: start, r: radius } = self.meridian.points()[0];
        line.between(f64::NEG_INFINITY, start).intersection(&line.within_radius(radius))
    }

    /// The stretches between the end stations and within the profile.
    pub(crate) fn within(&self, line: &SeenLine) -> Intervals {
        let points = self.meridian.points();
        let reach = line.within_radius(self.meridian.largest_radius() + 1e-9);
        let Some((near, far)) = reach.iter().next() else { return reach };
        let (t_near, t_far) = (line.station(near), line.station(far));
        let (low, high) = if line.dt >= 0.0 { (t_near, t_far) } else { (t_far, t_near) };
        let (low, high) =
            (if low.is_nan() { f64::NEG_INFINITY } else { low }, if high.is_nan() { f64::INFINITY } else { high });
        if low > self.meridian.end() || high < self.meridian.start() {
            return Intervals::none();
        }
        let (first, last) = (self.meridian.piece_at(low), self.meridian.piece_at(high));
        let mut set = Intervals::none();
        if line.dt == 0.0 {
            spend(last + 2 - first);
            return line.within_radius(self.meridian.greatest_at(line.t0));
        }
        // Where the line stays nearer to the axis than every radius of a block of pieces, or farther, that answers for
        // them all.
        let mut looked = 2;
        let mut visit = |(from, past): (usize, usize), radii: (f64, f64)| {
            let stretch = line.places(points[from].t, points[past].t);
            looked += 1;
            match line.beside(stretch, radii) {
                Beside::Nearer => set.push_rising(stretch.0, stretch.1),
                Beside::Farther => {}
                Beside::Across => {
                    let mut each = |i: usize| line.push_within_piece(points[i], points[i + 1], &mut set);
                    looked += past - from;
                    if line.dt > 0.0 {
                        (from..past).for_each(&mut each);
                    } else {
                        (from..past).rev().for_each(&mut each);
                    }
                }
            }
        };
        if line.dt > 0.0 {
            let mut from = first;
            while from <= last {
                let Block { end, radii, .. } = self.meridian.block_of(from);
                visit((from, end.min(last + 1)), radii);
                from = end;
            }
        } else {
            let mut past = last + 1;
            while past > first {
                let Block { start, radii, .. } = self.meridian.block_of(past - 1);
                visit((start.max(first), past), radii);
                past = start;
            }
        }
        spend(looked);
        set
    }
}

/// How a stretch of a line lies to radii around an axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Beside {
    /// Nearer to the axis than all of them.
    Nearer,
    /// Farther than all of them.
    Farther,
    /// Neither, or too close to say.
    Across,
}

/// A line in an axis's coordinates: station `t0 + dt p` and squared radius `c + 2 b p + a p^2` at place `p`.
pub(crate) struct SeenLine {
    pub t0: f64,
    pub dt: f64,
    a: f64,
    b: f64,
    c: f64,
}

impl SeenLine {
    pub fn new(axis: &Axis, ray: Ray) -> Self {
        let from = axis.see(ray.start);
        let d = ray.direction;
        let (right, up) = (d.dot(axis.right()), d.dot(axis.up()));
        let dt = d.dot(axis.along());
        // A line square to the axis keeps its station: rounding would only scatter it.
        let dt = if dt.abs() < 1e-13 * d.length() { 0.0 } else { dt };
        Self {
            t0: from.t,
            dt,
            a: right * right + up * up,
            b: from.right * right + from.up * up,
            c: from.right * from.right + from.up * from.up,
        }
    }

    pub fn station(&self, place: f64) -> f64 {
        if self.dt == 0.0 { self.t0 } else { self.t0 + self.dt * place }
    }

    /// The stretch with stations from `low` to `high`.
    pub fn between(&self, low: f64, high: f64) -> Intervals {
        if self.dt == 0.0 {
            return if low <= self.t0 && self.t0 <= high { Intervals::all() } else { Intervals::none() };
        }
        let (from, to) = self.places(low, high);
        Intervals::one(from, to)
    }

    /// Its distance from the axis at a place, in mm.
    pub fn distance(&self, place: f64) -> f64 {
        (self.c + place * (2.0 * self.b + place * self.a)).max(0.0).sqrt()
    }

    /// The stretch within a radius of the axis, in mm.
    pub fn within_radius(&self, radius: f64) -> Intervals {
        not_positive(self.a, self.b, self.c - radius * radius)
    }

    /// Where its station is `low` and where it is `high`, the lesser place first. Only for a line that changes its station.
    pub fn places(&self, low: f64, high: f64) -> (f64, f64) {
        let (p, q) = ((low - self.t0) / self.dt, (high - self.t0) / self.dt);
        (p.min(q), p.max(q))
    }

    /// Whether a stretch of the line is nearer to the axis than the lesser of two radii all along, or farther than the
    /// greater. Exact, but for a hair in which it says neither: distance from an axis is convex along a line.
    pub fn beside(&self, (from, to): (f64, f64), (least, greatest): (f64, f64)) -> Beside {
        /// More than rounding, as a share of the terms.
        const HAIR: f64 = 1e-11;
        let at = |place: f64| self.c + place * (2.0 * self.b + place * self.a);
        let farthest = at(from).max(at(to));
        let ends = from.abs().max(to.abs());
        let hair = HAIR * (self.c + ends * (2.0 * self.b.abs() + ends * self.a) + greatest * greatest);
        if farthest + hair < least * least {
            return Beside::Nearer;
        }
        let nearest = if self.a > 0.0 { at((-self.b / self.a).clamp(from, to)) } else { self.c };
        if nearest - hair > greatest * greatest { Beside::Farther } else { Beside::Across }
    }

    /// Adds the stretches within one straight piece of a profile to a set that ends at or before them.
    fn push_within_piece(&self, from: Station, to: Station, set: &mut Intervals) {
        let run = to.t - from.t;
        if run <= 0.0 {
            return;
        }
        let slope = (to.r - from.r) / run;
        let radius = from.r + slope * (self.t0 - from.t);
        push_not_positive(self.cone(radius, slope), self.places(from.t, to.t), set);
    }

    /// Of the squared distance less the squared radius of a cone as below: the coefficients of the place.
    fn cone(&self, radius: f64, slope: f64) -> (f64, f64, f64) {
        let growth = slope * self.dt;
        (self.a - growth * growth, self.b - radius * growth, self.c - radius * radius)
    }

    /// The stretches nearer to the axis than a line whose radius is `radius` at place 0 and grows by `slope` per mm of
    /// station: on both nappes of the cone.
    pub fn within_cone(&self, radius: f64, slope: f64) -> Intervals {
        let (a, b, c) = self.cone(radius, slope);
        not_positive(a, b, c)
    }
}
