//! What cuts about one axis keep: slabs between stations, under or over straight lines, that can be grown by a margin.

use smallvec::SmallVec;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::station::Station;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::order::sort_by_number;
use crate::geometry::line::pace::spend;
use crate::geometry::line::quadratic::not_negative;
use crate::geometry::region::removed::HalfSpace;
use crate::geometry::region::revolved::{Beside, Fill, Ray, Revolved, SeenLine};

/// Which side of a slab's line is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    All,
    Under,
    Over,
    Nothing,
}

/// What is kept from one station of an axis to another: radii on one side of a straight line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Slab {
    pub from: f64,
    pub to: f64,
    pub side: Side,
    /// A station where the line has `radius`, and how much that grows per mm.
    pub at: f64,
    pub radius: f64,
    pub slope: f64,
}

impl Slab {
    fn plain(from: f64, to: f64, side: Side) -> Self {
        Self { from, to, side, at: 0.0, radius: 0.0, slope: 0.0 }
    }

    pub fn radius(&self, t: f64) -> f64 {
        self.radius + self.slope * (t - self.at)
    }
}

/// What a cut about an axis keeps: slabs from end to end of it, each starting where the one before ends.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Turned {
    pub axis: Axis,
    pub slabs: Vec<Slab>,
}

/// Shorter stretches of a kept set are rounding, as a share of the line they lie on.
const ROUNDING: f64 = 1e-13;

/// Stretches in any order.
#[derive(Default)]
pub(crate) struct Kept(SmallVec<[(f64, f64); 8]>);

impl Kept {
    pub fn extend(&mut self, stretches: &Intervals) {
        self.0.extend(stretches.iter());
    }

    pub fn clip(mut self, wood: &mut Intervals) {
        if !self.0.is_sorted_by(|a, b| a.0 <= b.0) {
            sort_by_number(&mut self.0, |stretch| stretch.0);
        }
        let mut all = Intervals::none();
        for (from, to) in self.0 {
            // Two slabs that end at one station both have it: rounding must not part them.
            all.push_rising(from - ROUNDING, to);
        }
        *wood = wood.intersection(&all);
    }
}

impl Turned {
    /// What a region leaves.
    pub fn of(revolved: &Revolved) -> Self {
        let (beyond, open) = (revolved.fill == Fill::Beyond, revolved.fill == Fill::WithinOpen);
        let side = if beyond { Side::Under } else { Side::Over };
        let points = revolved.meridian.points();
        let mut slabs = Vec::with_capacity(points.len() + 1);
        let start = points[0];
        slabs.push(Slab {
            side: if open { Side::Over } else { Side::All },
            at: start.t,
            radius: start.r,
            ..Slab::plain(f64::NEG_INFINITY, start.t, Side::All)
        });
        lines(points, side, &mut slabs);
        slabs.push(Slab::plain(revolved.meridian.end(), f64::INFINITY, Side::All));
        Self { axis: revolved.axis, slabs }
    }

    /// A body that is wood within its profile.
    pub fn body(revolved: &Revolved) -> Self {
        let meridian = &revolved.meridian;
        let mut slabs = vec![Slab::plain(f64::NEG_INFINITY, meridian.start(), Side::Nothing)];
        lines(meridian.points(), Side::Under, &mut slabs);
        slabs.push(Slab::plain(meridian.end(), f64::INFINITY, Side::Nothing));
        Self { axis: revolved.axis, slabs }
    }

    /// What lies before or after a plane square to its axis.
    pub fn plane(axis: Axis, half: &HalfSpace) -> Self {
        let forward = half.into.dot(axis.along()) > 0.0;
        let at = if forward { half.offset } else { -half.offset } - axis.origin().dot(axis.along());
        let (before, after) = if forward { (Side::All, Side::Nothing) } else { (Side::Nothing, Side::All) };
        Self { axis, slabs: vec![Slab::plain(f64::NEG_INFINITY, at, before), Slab::plain(at, f64::INFINITY, after)] }
    }

    /// What both of two sets about one axis keep. Neither has slabs that are kept over a line.
    pub fn and(&self, other: &Self) -> Self {
        let mut slabs: Vec<Slab> = Vec::with_capacity(self.slabs.len() + other.slabs.len());
        let (mut i, mut j) = (0, 0);
        let mut from = f64::NEG_INFINITY;
        while let (Some(a), Some(b)) = (self.slabs.get(i), other.slabs.get(j)) {
            let to = a.to.min(b.to);
            if to - from > 1e-12 {
                lower(a, b, from, to, &mut slabs);
            }
            i += usize::from(a.to <= to);
            j += usize::from(b.to <= to);
            from = to;
        }
        Self { axis: self.axis, slabs }
    }

    pub fn clip(&self, ray: Ray, grow: f64, wood: &mut Intervals) {
        let line = SeenLine::new(&self.axis, ray);
        let (p, q) = (line.station(0.0), line.station(1.0));
        let (low, high) = (p.min(q) - grow, p.max(q) + grow);
        let first = self.slabs.partition_point(|slab| slab.to < low);
        let mut kept = Kept::default();
        spend(1);
        for slab in self.slabs[first..].iter().take_while(|slab| slab.from <= high) {
            spend(1);
            if slab.side == Side::Nothing {
                continue;
            }
            let between = line.between(slab.from - grow, slab.to + grow);
            if between.is_empty() {
                continue;
            }
            if slab.side == Side::All {
                if slab.from <= low && slab.to >= high {
                    return;
                }
                kept.extend(&between);
                continue;
            }
            let lean = grow * slab.slope.hypot(1.0);
            let under = slab.side == Side::Under;
            let lean = if under { lean } else { -lean };
            if slab.from.is_finite() {
                // Only what lies from place 0 to 1 of the line is asked for.
                let radii = [slab.from - grow, slab.to + grow].map(|t| slab.radius(t) + lean);
                let radii = (radii[0].min(radii[1]), radii[0].abs().max(radii[1].abs()));
                let (from, to) = between.iter().next().map_or((0.0, 0.0), |it| (it.0.max(0.0), it.1.min(1.0)));
                if from > to {
                    continue;
                }
                match line.beside((from, to), (radii.0.max(0.0), radii.1)) {
                    Beside::Across => {}
                    beside if (beside == Beside::Nearer) == under => {
                        kept.extend(&between);
                        continue;
                    }
                    _ => continue,
                }
            }
            let radius = slab.radius(line.t0) + lean;
            let inside = line.within_cone(radius, slab.slope);
            if under {
                kept.extend(&between.intersection(&inside));
                continue;
            }
            // Where the shrunken radius is negative everything is kept.
            let growth = slab.slope * line.dt;
            let mut taken = inside;
            match not_negative((f64::NEG_INFINITY, f64::INFINITY), radius, growth) {
                Some((from, to)) => taken.clip(from, to),
                None => taken = Intervals::none(),
            }
            kept.extend(&between.minus(&taken));
        }
        kept.clip(wood);
    }
}

fn lines(points: &[Station], side: Side, slabs: &mut Vec<Slab>) {
    for pair in points.windows(2).filter(|pair| pair[1].t > pair[0].t) {
        let (Station { t: from, r: radius }, Station { t: to, r: end }) = (pair[0], pair[1]);
        // Turned to nothing, only the axis itself is kept.
        let side = if side == Side::Under && radius <= 0.0 && end <= 0.0 { Side::Nothing } else { side };
        slabs.push(Slab { from, to, side, at: from, radius, slope: (end - radius) / (to - from) });
    }
}

/// The lower of two slabs from one station to another.
fn lower(a: &Slab, b: &Slab, from: f64, to: f64, slabs: &mut Vec<Slab>) {
    let mut push = |slab: &Slab, from: f64, to: f64| slabs.push(Slab { from, to, ..*slab });
    match (a.side, b.side) {
        (Side::Nothing, _) => push(a, from, to),
        (_, Side::Nothing) => push(b, from, to),
        (Side::All, _) => push(b, from, to),
        (_, Side::All) => push(a, from, to),
        _ => {
            let (at_from, at_to) = (a.radius(from) - b.radius(from), a.radius(to) - b.radius(to));
            if at_from * at_to >= 0.0 {
                return push(if at_from + at_to <= 0.0 { a } else { b }, from, to);
            }
            let crossing = from + (to - from) * at_from / (at_from - at_to);
            let (first, second) = if at_from < 0.0 { (a, b) } else { (b, a) };
            push(first, from, crossing);
            push(second, crossing, to);
        }
    }
}

impl Turned {
    pub fn is_outside(&self) -> bool {
        self.slabs.iter().all(|slab| slab.side != Side::Over)
    }
}

/// Wood ends with the stock: a cut that starts or ends there leaves no disc beside it.
pub(crate) fn past_the_ends(turned: &mut Turned, length: f64) {
    // Past its mouth a hollow takes air.
    if let Some(first) = turned.slabs.first_mut().filter(|slab| slab.side != Side::Under && slab.to <= 0.0) {
        first.side = Side::Nothing;
    }
    if let Some(last) = turned.slabs.last_mut().filter(|slab| slab.side == Side::All && slab.from >= length) {
        last.side = Side::Nothing;
    }
}

impl Slab {
    pub fn is_step(&self, next: &Self) -> bool {
        let is_line = |slab: &Self| matches!(slab.side, Side::Under | Side::Over);
        let meets = (self.radius(self.to) - next.radius(next.from)).abs() < 1e-9;
        !(self.side == next.side && (!is_line(self) || meets))
    }
}

impl Turned {
    /// Half the width of a body about axis A, and where it starts and ends.
    pub fn body_bounds(&self) -> Option<(f64, f64, f64)> {
        let solid = |slab: &&Slab| slab.side == Side::Under;
        let half = self.slabs.iter().filter(solid).map(|s| s.radius(s.from).max(s.radius(s.to))).fold(0.0, f64::max);
        let (first, last) = (self.slabs.iter().find(solid)?, self.slabs.iter().rev().find(solid)?);
        Some((half, first.from, last.to))
    }
}
