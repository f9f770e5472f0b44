//! The wood around an axis, as it passes a tool held at one station: how far it reaches, and the share of a turn that
//! is air at a radius.

use std::f64::consts::{PI, TAU};

use smallvec::SmallVec;

use super::axis::Axis;
use super::intervals::Intervals;
use super::order::sort_pairs;
use super::region::Region;
use super::revolved::{Fill, Ray};
use super::search::narrow;
use super::solid::{FittedPlug, Removal, State};
use super::spin::Spin;
use super::stock::Section;
use super::vector::Vector;

/// Even directions around the axis; corners and sides of the bar are looked at besides.
const EVEN: usize = 24;
/// As above, where there is square stock only.
const EVEN_PLAIN: usize = 12;
/// Directions closer than this count as one, in radians.
const SAME: f64 = 1e-5;
/// How closely the direction of a farthest or nearest point is looked for, in radians.
const CLOSELY: f64 = 4e-4;
/// A parabola that foretells a value within this is good enough, in mm.
const FORETOLD: f64 = 0.004;
/// What is within this share of the most is looked at closely.
const NEARLY: f64 = 0.15;

/// The wood in the plane square to an axis at one station, looked at outward from the axis all round.
#[derive(Clone, Debug)]
pub struct Around<'a> {
    pub(super) state: State<'a>,
    pub(super) axis: &'a Axis,
    pub(super) centre: Vector,
    /// The nearest and the farthest that cuts about this axis leave wood, but for the plug's.
    pub(super) own: (f64, f64),
    /// Cuts about other axes, and saws.
    cuts: SmallVec<[&'a Removal; 8]>,
    plug: Option<&'a FittedPlug>,
    /// In pairs: one from the list of directions, and one midway to the next.
    pub(super) looks: Vec<Look>,
}

/// The wood outward from the axis in one direction.
#[derive(Clone, Debug)]
pub(super) struct Look {
    pub(super) clock: f64,
    pub(super) wood: Intervals,
    /// How far an edge of the bar is, when it lies in this direction.
    edge: Option<f64>,
}

impl Look {
    fn end(&self) -> f64 {
        self.wood.last_end().unwrap_or(0.0)
    }
}

/// The farthest wood from an axis at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Farthest {
    /// How far it is from the axis, in mm.
    pub radius: f64,
    /// Its clock direction around the axis, in radians.
    pub clock: f64,
    /// Whether it is an edge of the bar.
    pub is_edge: bool,
}

impl<'a> Around<'a> {
    /// What is around the axis of a spin at its station `t`.
    pub(super) fn new(spin: &Spin<'a>, t: f64) -> Self {
        let mut around = Self::unlooked(spin, t);
        around.look_around();
        around
    }

    fn unlooked(spin: &Spin<'a>, t: f64) -> Self {
        let State { removals, plug, .. } = spin.state;
        let centre = spin.axis.point(t, 0.0, 0.0);
        let reached = plug.filter(|plug| {
            let (from, to) = (plug.body.meridian.start(), plug.body.meridian.end());
            centre.s + spin.upright() >= from && centre.s - spin.upright() <= to
        });
        let mut own = (0.0, f64::INFINITY);
        let mut cuts = SmallVec::new();
        for removal in removals.iter().filter(|r| spin.meets(&r.region, centre)) {
            if !narrow_by_own(&removal.region, spin.axis, centre, &mut own) {
                cuts.push(removal);
            }
        }
        let (state, axis) = (spin.state, spin.axis);
        Self { state, axis, centre, own, cuts, plug: reached, looks: Vec::new() }
    }

    /// The farthest wood of a spin at its station `t`; quicker than all that is around where that is square stock only.
    pub(super) fn farthest_at(spin: &Spin<'a>, t: f64) -> Option<Farthest> {
        let mut around = Self::unlooked(spin, t);
        if !around.bar_only() {
            around.look_around();
            return around.farthest();
        }
        // A plane cuts a square bar in a polygon with its corners on the bar's edges.
        let mut farthest: Option<Farthest> = None;
        around.edges(&mut |right, up| {
            let radius = right.hypot(up);
            if farthest.is_none_or(|known| radius > known.radius) {
                farthest = Some(Farthest { radius, clock: right.atan2(up).rem_euclid(TAU), is_edge: true });
            }
        });
        farthest.filter(|farthest| farthest.radius > around.own.0)
    }

    /// Looks in even directions, at every edge of the bar, square to its sides, and from the other axes outward.
    fn look_around(&mut self) {
        let count = if self.bar_only() { EVEN_PLAIN } else { EVEN };
        let even = (0..count).map(|i| (TAU * i as f64 / count as f64, 0));
        let mut clocks: SmallVec<[(f64, usize); 64]> = even.collect();
        let mut toward = |direction: Vector| {
            let (right, up) = (direction.dot(self.axis.right()), direction.dot(self.axis.up()));
            if right.hypot(up) > 1e-6 {
                let clock = right.atan2(up);
                clocks.extend([(clock.rem_euclid(TAU), 0), ((clock + PI).rem_euclid(TAU), 0)]);
            }
        };
        toward(Vector::new(1.0, 0.0, 0.0));
        toward(Vector::new(0.0, 1.0, 0.0));
        toward(Vector::new(0.0, 0.0, 1.0));
        toward(Vector { s: 0.0, ..self.centre });
        for cut in &self.cuts {
            if let Region::Revolved(revolved) = &cut.region {
                let from = revolved.axis.see(self.centre).t;
                toward(self.centre - revolved.axis.point(from, 0.0, 0.0));
            }
        }
        // An edge goes by its number from 1.
        let mut edges: SmallVec<[f64; 8]> = SmallVec::new();
        self.edges(&mut |right, up| {
            edges.push(right.hypot(up));
            clocks.push((right.atan2(up).rem_euclid(TAU), edges.len()));
        });
        sort_pairs(&mut clocks);
        // Of two directions that are one, that with an edge stays.
        clocks.dedup_by(|b, a| {
            let same = b.0 - a.0 < SAME;
            if same && b.1 > 0 {
                *a = *b;
            }
            same
        });
        let mut looks = Vec::with_capacity(2 * clocks.len());
        for (i, (clock, edge)) in clocks.iter().enumerate() {
            let edge = edge.checked_sub(1).and_then(|edge| edges.get(edge).copied());
            looks.push(Look { clock: *clock, wood: self.outward(*clock), edge });
            let next = clocks.get(i + 1).map_or_else(|| clocks[0].0 + TAU, |n| n.0);
            let middle = (clock + next) / 2.0;
            looks.push(Look { clock: middle, wood: self.outward(middle), edge: None });
        }
        self.looks = looks;
    }

    /// Where the twelve edges of square stock pierce the plane, as seen from the axis.
    fn edges(&self, found: &mut dyn FnMut(f64, f64)) {
        let Section::Square { half_side: h } = self.state.stock.section else { return };
        let (middle, length) = (self.state.stock.length / 2.0, self.state.stock.length);
        let along = self.axis.along();
        let halves = [(h, along.x), (h, along.y), (middle, along.s)];
        let to_plane = (self.centre - Vector::new(0.0, 0.0, middle)).dot(along);
        for run in 0..3 {
            let (first, second) = ((run + 1) % 3, (run + 2) % 3);
            let (half, slope) = halves[run];
            if slope.abs() < 1e-9 {
                continue;
            }
            for (p, q) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
                let (p, q) = (p * halves[first].0, q * halves[second].0);
                let place = (to_plane - p * halves[first].1 - q * halves[second].1) / slope;
                if place.abs() <= half {
                    let mut at = [0.0; 3];
                    (at[run], at[first], at[second]) = (place, p, q);
                    let seen = self.axis.see(Vector::new(at[0], at[1], at[2] + length / 2.0));
                    found(seen.right, seen.up);
                }
            }
        }
    }

    /// The wood outward from the axis in a clock direction (radians), as stretches of distance from it. Exact.
    #[must_use]
    pub fn outward(&self, clock: f64) -> Intervals {
        let (sin, cos) = clock.sin_cos();
        let ray = Ray { start: self.centre, direction: self.axis.right() * sin + self.axis.up() * cos };
        let mut wood = self.state.stock.along(ray);
        wood.clip(self.own.0, self.own.1);
        for cut in &self.cuts {
            if wood.is_empty() {
                break;
            }
            cut.region.take_along(ray, &mut wood);
        }
        let Some(plug) = self.plug else { return wood };
        let mut plug_wood = plug.body.along(ray);
        plug_wood.clip(0.0, f64::INFINITY);
        for cut in self.state.cut_plug(plug) {
            cut.region.take_along(ray, &mut plug_wood);
        }
        wood.union(&plug_wood)
    }

    fn before(&self, i: usize) -> f64 {
        if i == 0 { self.looks[self.looks.len() - 1].clock - TAU } else { self.looks[i - 1].clock }
    }

    pub(super) fn after(&self, i: usize) -> f64 {
        self.looks.get(i + 1).map_or_else(|| self.looks[0].clock + TAU, |look| look.clock)
    }

    /// The farthest wood from the axis; `None` where there is none. Within 0.01 mm, edges of the bar exactly; a
    /// point that is narrower than 7.5 degrees may be missed.
    #[must_use]
    pub fn farthest(&self) -> Option<Farthest> {
        let ends: SmallVec<[f64; 64]> = self.looks.iter().map(Look::end).collect();
        let (mut best, mut most) = (0, 0.0);
        for (i, end) in ends.iter().enumerate() {
            if *end > most {
                (best, most) = (i, *end);
            }
        }
        let look = self.looks.get(best).filter(|_| most > 0.0)?;
        let is_edge = look.edge.is_some_and(|edge| (edge - most).abs() < 1e-6);
        let mut farthest = Farthest { radius: most, clock: look.clock, is_edge };
        let least = ends.iter().copied().fold(most, f64::min);
        let other_edge = self.looks.iter().filter_map(|look| look.edge).fold(0.0, f64::max);
        // No wood of a bar is farther than its farthest edge; and what is round already needs no closer look.
        let is_exact = is_edge && self.plug.is_none() && other_edge <= most + 1e-6;
        if is_exact || most - least < 1e-9 {
            return Some(farthest);
        }
        for i in self.peaks(&ends, most * (1.0 - NEARLY)) {
            if self.looks[i].edge.is_none_or(|edge| (edge - ends[i]).abs() > 1e-6) {
                self.look_between(self.before(i), self.after(i), &mut farthest);
            }
        }
        // Where wood ends at once it may be farthest right there, though neither look beside is a peak.
        for i in 0..ends.len() {
            let (here, next, after) = (ends[i], ends[(i + 1) % ends.len()], self.after(i));
            let across = most * (after - self.looks[i].clock);
            if (here - next).abs() > across / 4.0 && here.max(next) + across / 4.0 > farthest.radius {
                self.look_between(self.looks[i].clock, after, &mut farthest);
            }
        }
        Some(farthest)
    }

    /// Looks for farther wood between two directions. The farthest point is often a corner, of which no parabola tells;
    /// past an edge it may fall at once, so the best place tried counts.
    fn look_between(&self, low: f64, high: f64, farthest: &mut Farthest) {
        narrow((low, high), CLOSELY, &mut |clock| {
            let radius = self.outward(clock).last_end().unwrap_or(0.0);
            if radius > farthest.radius {
                *farthest = Farthest { radius, clock: clock.rem_euclid(TAU), is_edge: false };
            }
            radius
        });
    }

    /// The looks that are no lower than their neighbours and at least `least`: the four highest.
    fn peaks(&self, values: &[f64], least: f64) -> SmallVec<[usize; 4]> {
        let count = values.len();
        let mut peaks: SmallVec<[usize; 4]> = SmallVec::new();
        for i in 0..count {
            let here = values[i];
            if here < least || here < values[(i + count - 1) % count] || here < values[(i + 1) % count] {
                continue;
            }
            let place = peaks.iter().position(|other| values[*other] < here).unwrap_or(peaks.len());
            peaks.truncate(3.max(place));
            if place < 4 {
                peaks.insert(place, i);
            }
        }
        peaks
    }

    /// The greatest value near a look, given the values of all looks: that at the top of a parabola where it foretells it,
    /// else by golden sections.
    fn greatest_near(&self, look: usize, values: &[f64], value: &dyn Fn(&Intervals) -> f64) -> f64 {
        let at = |clock: f64| value(&self.outward(clock));
        let (low, here, high) = (self.before(look), self.looks[look].clock, self.after(look));
        let count = values.len();
        let drops = [values[(look + count - 1) % count], values[(look + 1) % count]].map(|side| side - values[look]);
        let (p, q) = (low - here, high - here);
        let bend = (drops[0] / p - drops[1] / q) / (p - q);
        let slope = drops[0] / p - bend * p;
        let top = -slope / (2.0 * bend);
        if bend < 0.0 && p <= top && top <= q {
            let found = at(here + top);
            if (found - values[look] - (slope + bend * top) * top).abs() < FORETOLD {
                return found.max(values[look]);
            }
        }
        let mut greatest = values[look];
        narrow((low, high), CLOSELY, &mut |tried| {
            let value = at(tried);
            greatest = greatest.max(value);
            value
        });
        greatest
    }

    /// The largest radius, from `size` up, at which the circle is wood all round: where the tool first cuts without a
    /// break on its way in. `None` when there is none. Within 0.02 mm.
    #[must_use]
    pub fn wholly_wood(&self, size: f64) -> Option<f64> {
        let mut radius = f64::INFINITY;
        // Each round comes down to the end of a stretch, of which there are few.
        for _ in 0..32 {
            let ends: SmallVec<[f64; 64]> = self.looks.iter().map(|look| -end_under(&look.wood, radius)).collect();
            let lowest = -ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            if lowest < size {
                return None;
            }
            if lowest >= radius {
                break;
            }
            let from = radius;
            radius = lowest;
            if self.bar_only() {
                // Its sides are nearest where they were looked at.
                continue;
            }
            for i in self.peaks(&ends, -lowest * (1.0 + NEARLY / 4.0) - 0.05) {
                let value = self.greatest_near(i, &ends, &|wood| -end_under(wood, from));
                radius = radius.min(-value);
            }
        }
        (radius.is_finite() && radius >= size).then_some(radius)
    }

    /// Whether all that is here is square stock, but for a hollow about the axis itself.
    pub(super) fn bar_only(&self) -> bool {
        let uncut = self.cuts.is_empty() && self.own.1 == f64::INFINITY;
        uncut && self.plug.is_none() && matches!(self.state.stock.section, Section::Square { .. })
    }
}

/// The end of the last stretch that starts below a radius, or the radius where that goes on past it; 0 without one.
fn end_under(wood: &Intervals, radius: f64) -> f64 {
    wood.iter().rev().find(|(from, _)| *from < radius).map_or(0.0, |(_, to)| to.min(radius))
}

/// Narrows the wood to what a cut about this very axis leaves at its station with this centre; whether it is such a cut.
fn narrow_by_own(region: &Region, axis: &Axis, centre: Vector, own: &mut (f64, f64)) -> bool {
    let Region::Revolved(revolved) = region else { return false };
    if revolved.axis != *axis {
        return false;
    }
    let (t, profile) = (axis.see(centre).t, &revolved.meridian);
    let (from, to) = revolved.span();
    let (before, after) = (profile.radius_before(t), profile.radius_after(t));
    if from <= t && t <= to {
        match revolved.fill {
            Fill::Beyond => own.1 = own.1.min(before.min(after)),
            Fill::Within | Fill::WithinOpen => own.0 = own.0.max(before.max(after)),
        }
    }
    true
}
