//! The wood around an axis, as it passes a tool held at one station: how far it reaches, and the share of a turn that
//! is air at a radius.

use std::f64::consts::{PI, TAU};

use smallvec::SmallVec;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::tolerance::PARALLEL;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::search::golden_maximum_within;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Ray, Revolved};
use crate::geometry::region::solid::{FittedPlug, Removal, State};
use crate::geometry::region::stock::Section;
use crate::geometry::spin::circle::Circle;
use crate::geometry::spin::turning::Spin;

/// Even directions around the axis; corners and sides of the bar are looked at besides.
const EVEN: usize = 24;
/// As above, where there is square stock only.
const EVEN_PLAIN: usize = 12;
/// Half the stretch of the axis that counts as one station, in mm: what ends there is in it.
pub(super) const AT_MM: f64 = 1e-6;
/// The circle that is looked at for gaps lies this far inside, in mm.
const WHOLLY: f64 = 0.005;
/// Gaps narrower than this in all are rounding, in radians.
const GAP: f64 = 6e-6;
/// Directions closer than this count as one, in radians.
const SAME: f64 = 1e-5;
/// What of a direction of length 1 is less than this across the axis points nowhere around it.
const AIMLESS: f64 = 1e-6;
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
    /// Whether one of them steps here.
    pub(super) is_step: bool,
    /// No wood is farther from the axis.
    pub(super) reach: f64,
    /// Cuts about other axes, and saws.
    pub(super) cuts: SmallVec<[&'a Removal; 8]>,
    pub(super) plug: Option<&'a FittedPlug>,
    /// In pairs: one from the list of directions, and one midway to the next.
    pub(super) looks: Vec<Look>,
}

/// The wood outward from the axis in one direction.
#[derive(Clone, Debug)]
pub(super) struct Look {
    pub(super) clock: f64,
    pub(super) wood: Intervals,
}

impl<'a> Spin<'a> {
    /// The wood in the plane square to the axis at its station `t`.
    #[must_use]
    pub fn at(&self, t: f64) -> Around<'a> {
        Around::new(self, t)
    }

    /// As [`Self::at`], for lines outward only: quicker, but nothing has been looked at yet.
    #[must_use]
    pub fn at_unlooked(&self, t: f64) -> Around<'a> {
        Around::unlooked(self, t)
    }
}

impl<'a> Around<'a> {
    /// What is around the axis of a spin at its station `t`.
    pub(super) fn new(spin: &Spin<'a>, t: f64) -> Self {
        let mut around = Self::unlooked(spin, t);
        around.look_around();
        around
    }

    pub(super) fn unlooked(spin: &Spin<'a>, t: f64) -> Self {
        let State { removals, plug, .. } = spin.state;
        let centre = spin.axis.point(t, 0.0, 0.0);
        let reached = plug.filter(|plug| {
            let (from, to) = (plug.body.meridian.start(), plug.body.meridian.end());
            centre.s + spin.upright() >= from && centre.s - spin.upright() <= to
        });
        let mut own = (0.0, f64::INFINITY);
        let mut is_step = false;
        let mut cuts = SmallVec::new();
        for removal in removals.iter().filter(|r| spin.meets(&r.region, centre)) {
            match own_cut(&removal.region, spin.axis) {
                Some(cut) => is_step |= narrow_by_own(cut, t, &mut own),
                None => cuts.push(removal),
            }
        }
        let (state, axis) = (spin.state, spin.axis);
        Self { state, axis, centre, own, is_step, reach: spin.reach(), cuts, plug: reached, looks: Vec::new() }
    }

    /// Looks in even directions, at every edge of the bar, square to its sides, and from the other axes outward.
    fn look_around(&mut self) {
        let count = if self.bar_only() { EVEN_PLAIN } else { EVEN };
        let even = (0..count).map(|i| TAU * i as f64 / count as f64);
        let mut clocks: SmallVec<[f64; 64]> = even.collect();
        let mut toward = |direction: Vector| {
            let (right, up) = (direction.dot(self.axis.right()), direction.dot(self.axis.up()));
            if right.hypot(up) > AIMLESS {
                let clock = right.atan2(up);
                clocks.extend([clock.rem_euclid(TAU), (clock + PI).rem_euclid(TAU)]);
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
        self.edges(&mut |right, up| clocks.push(right.atan2(up).rem_euclid(TAU)));
        clocks.sort_unstable_by(f64::total_cmp);
        clocks.dedup_by(|b, a| *b - *a < SAME);
        let mut looks = Vec::with_capacity(2 * clocks.len());
        for (i, clock) in clocks.iter().enumerate() {
            let next = clocks.get(i + 1).map_or_else(|| clocks[0] + TAU, |next| *next);
            let middle = f64::midpoint(*clock, next);
            looks.extend([*clock, middle].map(|clock| Look { clock, wood: self.outward(clock) }));
        }
        self.looks = looks;
    }

    /// Where the twelve edges of square stock pierce the plane, as seen from the axis.
    pub(super) fn edges(&self, found: &mut dyn FnMut(f64, f64)) {
        let Section::Square { half_side: h } = self.state.stock.section else { return };
        let (middle, length) = (self.state.stock.length / 2.0, self.state.stock.length);
        let along = self.axis.along();
        let halves = [(h, along.x), (h, along.y), (middle, along.s)];
        let to_plane = (self.centre - Vector::new(0.0, 0.0, middle)).dot(along);
        for run in 0..3 {
            let (first, second) = ((run + 1) % 3, (run + 2) % 3);
            let (half, slope) = halves[run];
            if slope.abs() < PARALLEL {
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
        golden_maximum_within(low..=high, CLOSELY, at).value.max(values[look])
    }

    /// The largest radius, from `size` up, at which the circle is wood all round: where the tool first cuts without a
    /// break on its way in. `None` when there is none. Within 0.02 mm, and wood all round but for gaps of 1e-6 of a turn.
    #[must_use]
    pub fn wholly_wood(&self, size: f64) -> Option<f64> {
        let mut radius = self.wholly_wood_in_looks(size)?;
        if self.bar_only() {
            return Some(radius);
        }
        let t = self.axis.see(self.centre).t;
        // A notch between two looks leaves a gap in the circle; there the way in goes on.
        for _ in 0..64 {
            let gaps = Intervals::one(0.0, TAU).minus(&Circle::new(self.axis, t, radius - WHOLLY).in_wood(&self.state));
            if gaps.length() < GAP {
                return (radius >= size).then_some(radius);
            }
            let under = |clock: f64| end_under(&self.outward(clock), radius - WHOLLY);
            let lowest = gaps.iter().map(|(from, to)| under(f64::midpoint(from, to))).fold(radius - WHOLLY, f64::min);
            if lowest < size {
                return None;
            }
            radius = lowest;
        }
        None
    }

    fn wholly_wood_in_looks(&self, size: f64) -> Option<f64> {
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

/// A region about this very axis.
fn own_cut<'a>(region: &'a Region, axis: &Axis) -> Option<&'a Revolved> {
    match region {
        Region::Revolved(revolved) if revolved.axis == *axis => Some(revolved),
        _ => None,
    }
}

/// Narrows the wood to what a cut about the axis leaves at its station `t`; whether the cut steps, starts or ends there.
fn narrow_by_own(cut: &Revolved, t: f64, own: &mut (f64, f64)) -> bool {
    let ((from, to), (before, after)) = (cut.span(), cut.meridian.radii(t));
    if from <= t && t <= to {
        match cut.fill {
            Fill::Beyond => own.1 = own.1.min(cut.radius_at(t)),
            Fill::Within | Fill::WithinOpen => own.0 = own.0.max(cut.radius_at(t)),
        }
    }
    let is_end = (t - from).abs() < AT_MM || (t - to).abs() < AT_MM;
    is_end || (before - after).abs() > AT_MM
}
