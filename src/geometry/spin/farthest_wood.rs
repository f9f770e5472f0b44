//! The farthest wood from an axis, proven.
//!
//! Distance from an axis is convex, so along a straight line of wood it is greatest at an end. Every surface here is
//! a plane or a cone, and both are made of straight lines: the farthest wood lies where two planes meet, or at the end
//! of a line that runs up a cone. The first are finitely many lines. The lines up a cone are searched by branch and
//! bound: an arc of them is dropped when no wood near them (see [`keep`](super::keep)) can be farther than what was
//! found, and halved otherwise.

use std::f64::consts::TAU;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::tolerance::PARALLEL;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::order::sort_by_number_falling;
use crate::geometry::region::keep::{self, Face, Keep, clipped};
use crate::geometry::region::near_half::cut_by;
use crate::geometry::region::revolved::Ray;
use crate::geometry::region::solid::State;
use crate::geometry::region::turned::{Side, Slab};
use crate::geometry::spin::cone::{Bounds, Cone};

/// The farthest wood found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct FarthestWood {
    /// How far, in mm.
    pub radius: f64,
    /// Where it is.
    pub point: Vector,
    /// Whether it is on an edge of square stock.
    pub is_edge: bool,
}

/// How much farther than the wood found any other may be, in mm.
const CLOSENESS: f64 = 5e-5;
/// Wood thinner than this may be missed, in mm.
const THINNEST: f64 = 2e-5;
/// How far lines are moved into the wood whose surface they lie on, in mm.
const INTO: f64 = 1e-7;
/// Arcs of the first split of a cone.
const ARCS: usize = 4;
/// Shorter stretches of a line are rounding, in mm.
const ROUNDING: f64 = 1e-8;
/// Stretches of an axis shorter than this are one station, in mm.
const ONE_STATION: f64 = 1e-5;
/// Arcs of one cone looked at, at most, the widest first. Only where the surface of another cut runs along the cone are there
/// as many: arcs are then some 0.1 mm wide, and wood narrower than that may be missed.
const MOST_ARCS: usize = 1_500;
/// As [`MOST_ARCS`], at one station, where arcs are short and quickly looked at.
const MOST_ARCS_OF_STATION: usize = 20_000;

/// The farthest wood of a state from `about` between two of its stations. `None` where there is none.
///
/// Proven: no wood is farther by more than 0.0001 mm, but for what is thinner than that; and but for wood narrower than
/// about 0.1 mm where two cuts share a surface.
pub(crate) fn farthest_wood(state: &State<'_>, about: &Axis, from: f64, to: f64) -> Option<FarthestWood> {
    let mut search = Search { about, from, to, best: None };
    search.wood(keep::of_stock(state));
    if let Some(plug) = state.plug {
        search.wood(keep::of_plug(state, plug));
    }
    let best = search.best?;
    Some(FarthestWood { radius: best.distance_sq.sqrt(), point: best.point, is_edge: best.is_edge })
}

#[derive(Clone, Copy)]
struct Best {
    distance_sq: f64,
    point: Vector,
    is_edge: bool,
}

struct Search<'a> {
    about: &'a Axis,
    from: f64,
    to: f64,
    best: Option<Best>,
}

impl Search<'_> {
    fn wood(&mut self, mut keeps: Vec<Keep<'_>>) {
        if self.from.is_finite() || self.to.is_finite() {
            keeps.push(Keep::Between(*self.about, self.from, self.to));
        }
        if let Some(bounds) = Bounds::of(&keeps) {
            self.edges(&keeps, &bounds);
            self.cones(&keeps, &bounds);
        }
    }

    fn is_station(&self) -> bool {
        self.to - self.from < ONE_STATION
    }

    fn distance_sq(&self, point: Vector) -> f64 {
        let seen = self.about.see(point);
        seen.right * seen.right + seen.up * seen.up
    }

    fn take(&mut self, point: Vector, is_edge: bool) {
        let distance_sq = self.distance_sq(point);
        if self.best.is_none_or(|best| distance_sq > best.distance_sq) {
            self.best = Some(Best { distance_sq, point, is_edge });
        }
    }

    /// Takes the ends of the wood along a line, found along another right beside it.
    fn take_ends(&mut self, keeps: &[Keep<'_>], line: Ray, beside: Ray, is_edge: bool) {
        let shortest = ROUNDING / beside.direction.length();
        for (from, to) in wood_along(keeps, beside, 0.0).iter().filter(|s| s.1 - s.0 > shortest) {
            self.take(line.at(from), is_edge);
            self.take(line.at(to), is_edge);
        }
    }

    /// Whether nothing at this squared distance matters any more.
    fn is_known(&self, distance_sq: f64) -> bool {
        self.best.is_some_and(|best| distance_sq <= (best.distance_sq.sqrt() + CLOSENESS).powi(2))
    }

    /// The lines in which two planes meet.
    fn edges(&mut self, keeps: &[Keep<'_>], bounds: &Bounds) {
        let mut faces: Vec<Face> = Vec::new();
        for keep in keeps {
            keep.faces(&mut |face| faces.push(face));
        }
        faces.retain(|face| bounds.meets(face));
        let is_station = self.is_station();
        for (i, one) in faces.iter().enumerate() {
            // At one station the edges lie in its plane, the last but one of the faces.
            let others =
                if is_station { faces.len().saturating_sub(2).max(i + 1)..faces.len() } else { i + 1..faces.len() };
            for other in &faces[others] {
                self.edge(keeps, bounds, one, other);
            }
        }
    }

    fn edge(&mut self, keeps: &[Keep<'_>], bounds: &Bounds, one: &Face, other: &Face) {
        let along = one.normal.cross(other.normal);
        let sine_sq = along.length_sq();
        if sine_sq < PARALLEL * PARALLEL {
            return;
        }
        let foot = (other.normal * one.offset - one.normal * other.offset).cross(along) * (1.0 / sine_sq);
        let Some(line) = bounds.within(Ray { start: foot, direction: along * (1.0 / sine_sq.sqrt()) }) else { return };
        let most = self.distance_sq(line.at(0.0)).max(self.distance_sq(line.at(1.0)));
        if self.best.is_some_and(|best| most <= best.distance_sq) {
            return;
        }
        // The wood lies on one side of each plane, or on another of each.
        for (p, q) in [(INTO, INTO), (INTO, -INTO), (-INTO, INTO), (-INTO, -INTO)] {
            let beside = Ray { start: line.start + one.normal * p + other.normal * q, ..line };
            self.take_ends(keeps, line, beside, one.of_bar && other.of_bar);
        }
    }

    /// The lines up every cone.
    fn cones(&mut self, keeps: &[Keep<'_>], bounds: &Bounds) {
        let mut cones: Vec<(f64, Cone<'_>)> = Vec::new();
        for keep in keeps {
            match keep {
                Keep::Bar(stock) => {
                    if let Some(slab) = keep::side_of_round(stock) {
                        self.add_cone(&Axis::A, &slab, bounds, &mut cones);
                    }
                }
                Keep::Turned(turned) => {
                    let lines = turned.slabs.iter().filter(|slab| matches!(slab.side, Side::Under | Side::Over));
                    lines.for_each(|slab| self.add_cone(&turned.axis, slab, bounds, &mut cones));
                }
                Keep::Under(_) | Keep::Before(_) | Keep::Between(..) => {}
            }
        }
        sort_by_number_falling(&mut cones, |cone| cone.0);
        let width = TAU / ARCS as f64;
        // The more is known, the less must be searched.
        for (most, cone) in &cones {
            for turn in 0..ARCS {
                if self.is_known(*most) {
                    break;
                }
                let clock = cone.first_clock + width * turn as f64;
                self.take_ends(keeps, cone.line(clock, 0.0), cone.line(clock, INTO), false);
            }
        }
        let most_arcs = if self.is_station() { MOST_ARCS_OF_STATION } else { MOST_ARCS };
        for (most, cone) in &cones {
            if self.is_known(*most) {
                break;
            }
            let Some(whole) = Whole::new(keeps, cone) else { continue };
            let mut clocks: Vec<f64> = (0..ARCS).map(|turn| cone.first_clock + width * turn as f64).collect();
            let (mut width, mut looked) = (width, 0);
            while !clocks.is_empty() && looked < most_arcs && !self.is_known(*most) {
                looked += clocks.len();
                clocks.retain(|clock| self.may_hold_farther(&whole, *clock, width));
                clocks = clocks.iter().flat_map(|clock| [clock - width / 4.0, clock + width / 4.0]).collect();
                width /= 2.0;
            }
        }
    }

    fn add_cone<'c>(&self, axis: &'c Axis, slab: &Slab, bounds: &Bounds, cones: &mut Vec<(f64, Cone<'c>)>) {
        let Some(cone) = Cone::new(axis, slab, bounds, self.about, (self.from, self.to)) else { return };
        let most = cone.ends.iter().map(|end| end.most_sq).fold(0.0, f64::max);
        if self.best.is_none_or(|best| most > best.distance_sq) {
            cones.push((most, cone));
        }
    }

    /// Looks at the lines up a cone in the directions within half of `width` of `clock`; whether wood farther than what is
    /// known may be left among them.
    fn may_hold_farther(&mut self, whole: &Whole<'_, '_>, clock: f64, width: f64) -> bool {
        let cone = whole.cone;
        let sides = [clock - width / 2.0, clock + width / 2.0].map(f64::sin_cos);
        let places = || whole.kept.iter().flat_map(|(from, to)| [from, to]);
        if self.is_known(places().map(|place| cone.most_sq(place, sides, width)).fold(0.0, f64::max)) {
            return false;
        }
        // No line of the arc is farther than this from the one in its middle.
        let apart = 2.0 * cone.largest_radius() * (width / 4.0).sin();
        let toward = clock.sin_cos();
        let line = cone.line_at(toward, 0.0);
        let near = clipped(&whole.others, line, apart, whole.kept.clone());
        let places = near.iter().flat_map(|(from, to)| [from, to]);
        let Some(most) = places.map(|place| cone.most_sq(place, sides, width)).reduce(f64::max) else { return false };
        if self.is_known(most) || self.is_known(self.most_beside(whole, &near, clock, width)) {
            return false;
        }
        // Wood on the line itself lies within what is near it, and is nowhere farther than at an end of that.
        let ends = near.iter().flat_map(|(from, to)| [line.at(from), line.at(to)]);
        let farthest_sq = ends.map(|end| self.distance_sq(end)).fold(0.0, f64::max);
        if apart < THINNEST || self.best.is_none_or(|best| farthest_sq > best.distance_sq) {
            self.take_ends(whole.keeps, line, cone.line_at(toward, INTO), false);
        }
        apart >= THINNEST && !self.is_known(most)
    }
}

impl Search<'_> {
    /// No wood near some stretches of the lines of an arc has a greater squared distance: distance is convex, so it is
    /// greatest at a corner of what the other cuts leave of the arc's bound.
    fn most_beside(&self, whole: &Whole<'_, '_>, near: &Intervals, clock: f64, width: f64) -> f64 {
        let mut most = 0.0_f64;
        for (from, to) in near.iter() {
            let mut bound = whole.cone.bound((from, to), (clock - width / 2.0, clock + width / 2.0)).to_vec();
            cut_by(&whole.others, &mut bound);
            most = bound.iter().map(|p| self.distance_sq(*p)).fold(most, f64::max);
        }
        most
    }
}

/// A cone and the wood along its lines: what is about its own axis keeps the same places of each of them.
struct Whole<'k, 'c> {
    keeps: &'k [Keep<'k>],
    cone: &'c Cone<'c>,
    /// Kept by all that is about its axis.
    kept: Intervals,
    /// What is about no axis, or another.
    others: Vec<&'k Keep<'k>>,
}

impl<'k, 'c> Whole<'k, 'c> {
    /// `None` where nothing of the cone is kept.
    fn new(keeps: &'k [Keep<'k>], cone: &'c Cone<'c>) -> Option<Self> {
        let (own, others): (Vec<&Keep<'_>>, Vec<&Keep<'_>>) = keeps.iter().partition(|keep| keep.is_about(cone.axis));
        let kept = clipped(&own, cone.line(0.0, INTO), 0.0, Intervals::one(0.0, 1.0));
        (!kept.is_empty()).then_some(Self { keeps, cone, kept, others })
    }
}

/// What all of some kept sets have in common along a line from place 0 to 1.
fn wood_along(keeps: &[Keep<'_>], line: Ray, grow: f64) -> Intervals {
    clipped(keeps, line, grow, Intervals::one(0.0, 1.0))
}
