//! The wood around an axis, as it passes a tool held at one station: how far it reaches, and the share of a turn that
//! is air at a radius.

use std::f64::consts::{PI, TAU};

use smallvec::SmallVec;

use super::axis::Axis;
use super::intervals::Intervals;
use super::order::sort_pairs;
use super::region::Region;
use super::revolved::Ray;
use super::search::narrow;
use super::solid::{FittedPlug, Removal, State};
use super::spin::Spin;
use super::stock::Section;
use super::vector::Vector;

/// Even directions around the axis; corners and sides of the bar are looked at besides.
const EVEN: usize = 24;
/// Directions closer than this count as one, in radians.
const SAME: f64 = 1e-5;
/// How closely the direction of a farthest or nearest point is looked for, in radians.
const CLOSELY: f64 = 4e-4;
/// Lines along which the edge of air is looked for between two directions, at most.
const SECANTS: u32 = 2;
/// What is within this share of the most is looked at closely.
const NEARLY: f64 = 0.15;

/// The wood in the plane square to an axis at one station, looked at outward from the axis all round.
#[derive(Clone, Debug)]
pub struct Around<'a> {
    state: State<'a>,
    axis: &'a Axis,
    centre: Vector,
    cuts: SmallVec<[&'a Removal; 8]>,
    plug: Option<&'a FittedPlug>,
    looks: Vec<Look>,
    fine: bool,
}

/// The wood outward from the axis in one direction.
#[derive(Clone, Debug)]
struct Look {
    clock: f64,
    wood: Intervals,
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
    /// What is around the axis of a spin at its station `t`; `fine` looks twice as closely.
    pub(super) fn new(spin: &Spin<'a>, t: f64, fine: bool) -> Self {
        let State { removals, plug, .. } = spin.state;
        let centre = spin.axis.point(t, 0.0, 0.0);
        let reached = plug.filter(|plug| {
            let (from, to) = (plug.body.meridian.start(), plug.body.meridian.end());
            centre.s + spin.upright() >= from && centre.s - spin.upright() <= to
        });
        let cuts = removals.iter().filter(|r| spin.meets(&r.region, centre)).collect();
        let (state, axis) = (spin.state, spin.axis);
        let mut around = Self { state, axis, centre, cuts, plug: reached, looks: Vec::new(), fine };
        around.look_around();
        around
    }

    /// Looks in even directions, at every edge of the bar, square to its sides, and from the other axes outward.
    fn look_around(&mut self) {
        let even = (0..EVEN).map(|i| (TAU * i as f64 / EVEN as f64, 0));
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
            if self.fine {
                let next = clocks.get(i + 1).map_or_else(|| clocks[0].0 + TAU, |n| n.0);
                let middle = (clock + next) / 2.0;
                looks.push(Look { clock: middle, wood: self.outward(middle), edge: None });
            }
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
        wood.clip(0.0, f64::INFINITY);
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

    fn after(&self, i: usize) -> f64 {
        self.looks.get(i + 1).map_or_else(|| self.looks[0].clock + TAU, |look| look.clock)
    }

    /// The farthest wood from the axis; `None` where there is none. Within 0.01 mm, edges of the bar exactly; a
    /// point that is narrower than 15 degrees, or 7.5 when looked at finely, may be missed.
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
            if self.looks[i].edge.is_some_and(|edge| (edge - ends[i]).abs() < 1e-6) {
                continue;
            }
            let (clock, radius) = self.narrow(i, &|wood| wood.last_end().unwrap_or(0.0));
            if radius > farthest.radius {
                farthest = Farthest { radius, clock: clock.rem_euclid(TAU), is_edge: false };
            }
        }
        Some(farthest)
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

    /// The direction and the value where `value` is greatest near a look.
    fn narrow(&self, look: usize, value: &dyn Fn(&Intervals) -> f64) -> (f64, f64) {
        let mut at = |clock: f64| value(&self.outward(clock));
        let clock = narrow((self.before(look), self.after(look)), CLOSELY, &mut at);
        (clock, at(clock))
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
                continue;
            }
            for i in self.peaks(&ends, -lowest * (1.0 + NEARLY / 4.0) - 0.05) {
                let (_, value) = self.narrow(i, &|wood| -end_under(wood, from));
                radius = radius.min(-value);
            }
        }
        (radius.is_finite() && radius >= size).then_some(radius)
    }

    /// Whether all that is here is square stock: then its sides are nearest where they were looked at.
    fn bar_only(&self) -> bool {
        self.cuts.is_empty() && self.plug.is_none() && matches!(self.state.stock.section, Section::Square { .. })
    }

    /// The share of a turn that is air at a radius, 0 to 1. Within 0.003 when looked at finely; what is narrower than
    /// 7.5 degrees may be missed.
    #[must_use]
    pub fn air_share(&self, radius: f64) -> f64 {
        let mut air = 0.0;
        for (i, look) in self.looks.iter().enumerate() {
            let next = &self.looks[(i + 1) % self.looks.len()];
            let (from, to) = (depth(&look.wood, radius), depth(&next.wood, radius));
            air += self.air_between((look.clock, from), (self.after(i), to), radius, SECANTS);
        }
        (air / TAU).clamp(0.0, 1.0)
    }

    /// The air at a radius between two directions with the depths found in them, in radians. Where there may be an edge
    /// it is looked for along a few lines.
    fn air_between(&self, from: (f64, f64), to: (f64, f64), radius: f64, secants: u32) -> f64 {
        let width = to.0 - from.0;
        let (share, whole) = if (from.1 < 0.0) == (to.1 < 0.0) {
            // Between two that are both near an edge there may be a notch or a point.
            let near = from.1.abs() + to.1.abs() < radius * width;
            (if near { 0.5 } else { 0.0 }, if from.1 < 0.0 { width } else { 0.0 })
        } else {
            let share = from.1 / (from.1 - to.1);
            (share, width * if from.1 < 0.0 { share } else { 1.0 - share })
        };
        if secants == 0 || !(0.02..=0.98).contains(&share) {
            return whole;
        }
        let edge = from.0 + width * share;
        let middle = (edge, depth(&self.outward(edge), radius));
        self.air_between(from, middle, radius, secants - 1) + self.air_between(middle, to, radius, secants - 1)
    }

    /// The mean share of a turn that is air over radii from `low` to `high`, 0 to 1: that met at constant infeed.
    #[must_use]
    pub fn mean_air_share(&self, low: f64, high: f64) -> f64 {
        if high - low < 1e-9 {
            return self.air_share(high);
        }
        let air = |wood: &Intervals| {
            let within = |(from, to): (f64, f64)| (to.min(high) - from.max(low)).max(0.0);
            (high - low) - wood.iter().map(within).sum::<f64>()
        };
        // Simpson's rule.
        let sum = self.panels(|a, b, c, width| width * (air(a) + 4.0 * air(b) + air(c)) / 6.0);
        (sum / (TAU * (high - low))).clamp(0.0, 1.0)
    }

    /// Sums over stretches of directions: the wood at the start, in the middle and at the end of each, and its width.
    fn panels(&self, part: impl Fn(&Intervals, &Intervals, &Intervals, f64) -> f64) -> f64 {
        let count = self.looks.len();
        let step = if self.fine { 2 } else { 1 };
        let mut sum = 0.0;
        for i in (0..count).step_by(step) {
            let next = &self.looks[(i + step) % count];
            let width = (next.clock - self.looks[i].clock).rem_euclid(TAU);
            if self.fine {
                sum += part(&self.looks[i].wood, &self.looks[i + 1].wood, &next.wood, width);
            } else {
                let middle = self.outward(self.looks[i].clock + width / 2.0);
                sum += part(&self.looks[i].wood, &middle, &next.wood, width);
            }
        }
        sum
    }
}

/// The end of the last stretch that starts below a radius, or the radius where that goes on past it; 0 without one.
fn end_under(wood: &Intervals, radius: f64) -> f64 {
    wood.iter().rev().find(|(from, _)| *from < radius).map_or(0.0, |(_, to)| to.min(radius))
}

/// How far a radius is inside the wood along a line outward: negative in air.
fn depth(wood: &Intervals, radius: f64) -> f64 {
    let mut nearest = f64::NEG_INFINITY;
    for (from, to) in wood.iter() {
        // The axis itself is no surface.
        let inside = (to - radius).min(if from <= 0.0 { f64::INFINITY } else { radius - from });
        nearest = nearest.max(inside);
    }
    nearest.max(-2.0 * radius - 1.0)
}
