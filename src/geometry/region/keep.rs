//! What each cut keeps, as sets that can be grown by a margin: wood is what the stock and every cut keep.
//!
//! A point within the margin of the wood is within it of every kept set. So where the grown sets have nothing in
//! common there is no wood within the margin: that bound proves a search complete.

use std::borrow::Borrow;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::quadratic::not_negative;
use crate::geometry::region::removed::{HalfSpace, Region};
use crate::geometry::region::revolved::{Ray, SeenLine};
use crate::geometry::region::sawn::Sawn;
use crate::geometry::region::solid::{FittedPlug, Removal, State};
use crate::geometry::region::stock::{Section, Stock};
use crate::geometry::region::turned::{Kept, Side, Slab, Turned, past_the_ends};

/// A set that some wood lies within.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Keep<'a> {
    Bar(&'a Stock),
    Turned(Turned),
    Under(&'a Sawn),
    Before(HalfSpace),
    /// Between two stations of an axis.
    Between(Axis, f64, f64),
}

impl Keep<'_> {
    /// Clips `wood`, stretches of a line from place 0 to 1, to the places that may be within `grow` mm of the set. With no
    /// growth, to the set itself.
    pub fn clip(&self, line: Ray, grow: f64, wood: &mut Intervals) {
        match self {
            Self::Bar(stock) => clip_to_bar(stock, line, grow, wood),
            Self::Turned(turned) => turned.clip(line, grow, wood),
            Self::Under(sawn) => clip_under(sawn, line, grow, wood),
            Self::Before(half) => {
                let (value, slope) = (half.signed_distance(line.start), -line.direction.dot(half.into));
                clip_linear(wood, value + grow, slope);
            }
            Self::Between(axis, from, to) => {
                let (t, dt) = (axis.see(line.start).t, line.direction.dot(axis.along()));
                clip_linear(wood, t - from + grow, dt);
                clip_linear(wood, to - t + grow, -dt);
            }
        }
    }
}

impl Keep<'_> {
    /// Whether it is the same all around an axis.
    pub fn is_about(&self, axis: &Axis) -> bool {
        match self {
            Self::Bar(stock) => matches!(stock.section, Section::Round { .. }) && *axis == Axis::A,
            Self::Turned(turned) => turned.axis == *axis,
            Self::Between(between, ..) => between == axis,
            Self::Under(_) | Self::Before(_) => false,
        }
    }
}

/// What all of some kept sets, grown, leave of some places along a line.
pub(crate) fn clipped<'k, K: Borrow<Keep<'k>>>(keeps: &[K], line: Ray, grow: f64, mut wood: Intervals) -> Intervals {
    for keep in keeps {
        keep.borrow().clip(line, grow, &mut wood);
        if wood.is_empty() {
            break;
        }
    }
    wood
}

/// Clips to where `value + slope p >= 0`.
fn clip_linear(wood: &mut Intervals, value: f64, slope: f64) {
    match not_negative((0.0, 1.0), value, slope) {
        Some((low, high)) => wood.clip(low, high),
        None => *wood = Intervals::none(),
    }
}

fn clip_to_bar(stock: &Stock, line: Ray, grow: f64, wood: &mut Intervals) {
    let (p, d) = (line.start, line.direction);
    clip_linear(wood, p.s + grow, d.s);
    clip_linear(wood, stock.length - p.s + grow, -d.s);
    match stock.section {
        Section::Square { half_side } => {
            for (value, slope) in [(p.x, d.x), (-p.x, -d.x), (p.y, d.y), (-p.y, -d.y)] {
                clip_linear(wood, half_side + grow - value, -slope);
            }
        }
        Section::Round { radius } => {
            *wood = wood.intersection(&SeenLine::new(&Axis::A, line).within_cone(radius + grow, 0.0));
        }
    }
}

fn clip_under(sawn: &Sawn, line: Ray, grow: f64, wood: &mut Intervals) {
    let (p, d) = (line.start, line.direction);
    let (low, high) = (p.s.min(p.s + d.s) - grow, p.s.max(p.s + d.s) + grow);
    let mut kept = Kept::default();
    let mut part = |from: f64, to: f64, height: f64, slope: f64| {
        let mut here = Intervals::one(0.0, 1.0);
        clip_linear(&mut here, p.s - from + grow, d.s);
        clip_linear(&mut here, to - p.s + grow, -d.s);
        clip_linear(&mut here, height - p.y + grow * slope.hypot(1.0), slope * d.s - d.y);
        kept.extend(&here);
    };
    for pair in sawn.points().windows(2).filter(|pair| pair[1].x >= low && pair[0].x <= high) {
        let (a, b) = (pair[0], pair[1]);
        let slope = (b.y - a.y) / (b.x - a.x);
        part(a.x, b.x, a.y + slope * (p.s - a.x), slope);
    }
    part(sawn.ends().1, f64::INFINITY, f64::INFINITY, 0.0);
    kept.clip(wood);
}

/// What the stock less its cuts lies within. Outside cuts about one axis are one set, since two of them that
/// meet in a plane, grown, would seem to leave a disc between them.
pub(crate) fn of_stock<'a>(state: &State<'a>) -> Vec<Keep<'a>> {
    let mut keeps = vec![Keep::Bar(state.stock)];
    add_cuts(state.removals.iter(), &mut keeps);
    // What starts or ends with the stock goes on past it.
    for keep in &mut keeps {
        if let Keep::Turned(turned) = keep
            && turned.axis == Axis::A
        {
            past_the_ends(turned, state.stock.length);
        }
    }
    keeps
}

/// What a plug less its cuts lies within.
pub(crate) fn of_plug<'a>(state: &'a State<'a>, plug: &'a FittedPlug) -> Vec<Keep<'a>> {
    let mut body = Turned::body(&plug.body);
    let mut keeps = Vec::new();
    add_cuts(state.cut_plug(plug), &mut keeps);
    let about_it = |keep: &Keep<'_>| matches!(keep, Keep::Turned(t) if t.axis == body.axis && t.is_outside());
    if let Some(Keep::Turned(cuts)) = keeps.iter().position(about_it).map(|place| keeps.swap_remove(place)) {
        body = body.and(&cuts);
    }
    keeps.insert(0, Keep::Turned(body));
    keeps
}

fn add_cuts<'a>(removals: impl Iterator<Item = &'a Removal>, keeps: &mut Vec<Keep<'a>>) {
    for removal in removals {
        let keep = match &removal.region {
            Region::Revolved(revolved) => Keep::Turned(Turned::of(revolved)),
            Region::Sawn(sawn) => Keep::Under(sawn),
            Region::HalfSpace(half) => along_a_known_axis(half, keeps),
        };
        match keep {
            Keep::Turned(turned) if turned.is_outside() => add_outside(turned, keeps),
            other => keeps.push(other),
        }
    }
}

/// A plane square to an axis that other cuts are about counts with them.
fn along_a_known_axis<'a>(half: &HalfSpace, keeps: &[Keep<'a>]) -> Keep<'a> {
    let square = |axis: &Axis| half.into.cross(axis.along()).length() < 1e-12;
    let known = keeps.iter().find_map(|keep| match keep {
        Keep::Turned(turned) if square(&turned.axis) => Some(turned.axis),
        _ => square(&Axis::A).then_some(Axis::A),
    });
    known.map_or(Keep::Before(*half), |axis| Keep::Turned(Turned::plane(axis, half)))
}

fn add_outside(turned: Turned, keeps: &mut Vec<Keep<'_>>) {
    for keep in keeps.iter_mut() {
        if let Keep::Turned(known) = keep
            && known.axis == turned.axis
            && known.is_outside()
        {
            *known = known.and(&turned);
            return;
        }
    }
    keeps.push(Keep::Turned(turned));
}

/// A plane that bounds a kept set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Face {
    /// Square to it, of length 1.
    pub normal: Vector,
    /// Its distance from the origin along `normal`, in mm.
    pub offset: f64,
    /// Whether it is a side or an end of square stock.
    pub of_bar: bool,
}

impl Keep<'_> {
    /// The planes that bound it.
    pub fn faces(&self, found: &mut impl FnMut(Face)) {
        let mut face = |normal: Vector, offset: f64, of_bar: bool| found(Face { normal, offset, of_bar });
        match self {
            Self::Bar(stock) => {
                let is_square = matches!(stock.section, Section::Square { .. });
                face(Axis::A.along(), 0.0, is_square);
                face(Axis::A.along(), stock.length, is_square);
                if let Section::Square { half_side } = stock.section {
                    for side in [Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0)] {
                        face(side, half_side, true);
                        face(side, -half_side, true);
                    }
                }
            }
            Self::Turned(turned) => {
                let along = turned.axis.along();
                let start = turned.axis.origin().dot(along);
                for pair in turned.slabs.windows(2).filter(|pair| pair[0].is_step(&pair[1])) {
                    face(along, start + pair[1].from, false);
                }
            }
            Self::Under(sawn) => {
                for pair in sawn.points().windows(2) {
                    let run = Vector::new(0.0, pair[1].y - pair[0].y, pair[1].x - pair[0].x);
                    let normal = Vector::new(0.0, run.s, -run.y) * (1.0 / run.length());
                    face(normal, normal.dot(Vector::new(0.0, pair[1].y, pair[1].x)), false);
                }
                face(Axis::A.along(), sawn.ends().1, false);
            }
            Self::Before(half) => face(half.into, half.offset, false),
            Self::Between(axis, from, to) => {
                let start = axis.origin().dot(axis.along());
                for at in [*from, *to].iter().filter(|at| at.is_finite()) {
                    face(axis.along(), start + at, false);
                }
            }
        }
    }
}

/// The side of round stock, as a slab about axis A.
pub(crate) fn side_of_round(stock: &Stock) -> Option<Slab> {
    match stock.section {
        Section::Round { radius } => {
            Some(Slab { from: 0.0, to: stock.length, side: Side::Under, at: 0.0, radius, slope: 0.0 })
        }
        Section::Square { .. } => None,
    }
}
