//! The wood around an axis, as it passes a tool held at one station: how far it reaches, and the share of a turn that
//! is air at a radius.

use std::f64::consts::{PI, TAU};

use smallvec::SmallVec;

use super::axis::Axis;
use super::intervals::Intervals;
use super::quadratic::not_positive;
use super::region::Region;
use super::revolved::Ray;
use super::solid::{FittedPlug, Removal, State};
use super::spin::Spin;
use super::stock::Section;
use super::vector::Vector;

/// Even directions around the axis; corners and sides of the bar are looked at besides.
const EVEN: usize = 24;
/// Directions closer than this count as one, in radians.
const SAME: f64 = 1e-5;
/// Narrowings of a stretch of directions around its farthest or nearest point: to 1/2000 of it.
const NARROWINGS: usize = 16;
/// What is within this share of the most is looked at closely.
const NEARLY: f64 = 0.04;

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
        let mut clocks: SmallVec<[(f64, Option<f64>); 64]> =
            (0..EVEN).map(|i| (TAU * i as f64 / EVEN as f64, None)).collect();
        let mut toward = |direction: Vector| {
            let (right, up) = (direction.dot(self.axis.right()), direction.dot(self.axis.up()));
            if right.hypot(up) > 1e-6 {
                let clock = right.atan2(up);
                clocks.extend([(clock.rem_euclid(TAU), None), ((clock + PI).rem_euclid(TAU), None)]);
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
        self.edges(|seen_right, seen_up| {
            clocks.push((seen_right.atan2(seen_up).rem_euclid(TAU), Some(seen_right.hypot(seen_up))));
        });
        clocks.sort_by(|a, b| a.0.total_cmp(&b.0));
        // Of two that are one, that with an edge stays.
        clocks.dedup_by(|b, a| {
            let same = b.0 - a.0 < SAME;
            if same && b.1.is_some() {
                *a = *b;
            }
            same
        });
        let mut looks = Vec::with_capacity(2 * clocks.len());
        for (i, (clock, edge)) in clocks.iter().enumerate() {
            looks.push(Look { clock: *clock, wood: self.outward(*clock), edge: *edge });
            if self.fine {
                let next = clocks.get(i + 1).map_or_else(|| clocks[0].0 + TAU, |n| n.0);
                let middle = (clock + next) / 2.0;
                looks.push(Look { clock: middle, wood: self.outward(middle), edge: None });
            }
        }
        self.looks = looks;
    }

    /// Where the twelve edges of square stock pierce the plane, as seen from the axis.
    fn edges(&self, mut found: impl FnMut(f64, f64)) {
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

    /// The farthest wood from the axis; `None` where there is none. Within 0.01 mm, edges of the bar exactly.
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
            let (clock, radius) =
                self.narrow(self.before(i), self.after(i), &|wood: &Intervals| wood.last_end().unwrap_or(0.0));
            if radius > farthest.radius {
                farthest = Farthest { radius, clock: clock.rem_euclid(TAU), is_edge: false };
            }
        }
        Some(farthest)
    }

    /// The looks that are no lower than their neighbours and at least `least`; at most four.
    fn peaks(&self, values: &[f64], least: f64) -> SmallVec<[usize; 4]> {
        let count = values.len();
        let is_peak = |i: &usize| {
            let here = values[*i];
            here >= least && here >= values[(i + count - 1) % count] && here >= values[(i + 1) % count]
        };
        let mut peaks: SmallVec<[usize; 16]> = (0..count).filter(is_peak).collect();
        peaks.sort_by(|a, b| values[*b].total_cmp(&values[*a]));
        peaks.into_iter().take(4).collect()
    }

    /// The direction and the value where `value` is greatest between two directions, by golden sections.
    fn narrow(&self, low: f64, high: f64, value: &dyn Fn(&Intervals) -> f64) -> (f64, f64) {
        const GOLDEN: f64 = 0.618_033_988_749_894_8;
        let at = |clock: f64| value(&self.outward(clock));
        let (mut a, mut b) = (low, high);
        let (mut p, mut q) = (b - (b - a) * GOLDEN, a + (b - a) * GOLDEN);
        let (mut at_p, mut at_q) = (at(p), at(q));
        for _ in 0..NARROWINGS {
            if at_p >= at_q {
                (b, q, at_q) = (q, p, at_p);
                p = b - (b - a) * GOLDEN;
                at_p = at(p);
            } else {
                (a, p, at_p) = (p, q, at_q);
                q = a + (b - a) * GOLDEN;
                at_q = at(q);
            }
        }
        if at_p >= at_q { (p, at_p) } else { (q, at_q) }
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
                let (_, value) = self.narrow(self.before(i), self.after(i), &|wood| -end_under(wood, from));
                radius = radius.min(-value);
            }
        }
        (radius.is_finite() && radius >= size).then_some(radius)
    }

    /// Whether all that is here is square stock: then its sides are nearest where they were looked at.
    fn bar_only(&self) -> bool {
        self.cuts.is_empty() && self.plug.is_none() && matches!(self.state.stock.section, Section::Square { .. })
    }

    /// The share of a turn that is air at a radius, 0 to 1. Within 0.003 when looked at finely.
    #[must_use]
    pub fn air_share(&self, radius: f64) -> f64 {
        self.panels(|low, middle, high, width| {
            let depths = [low, middle, high].map(|wood| depth(wood, radius));
            width * negative_share(depths)
        }) / TAU
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

/// The share of a stretch where the parabola through values at its start, middle and end is negative.
fn negative_share([low, middle, high]: [f64; 3]) -> f64 {
    let all_one_way = (low < 0.0) == (high < 0.0) && (low < 0.0) == (middle < 0.0);
    let (square, slope) = (2.0 * (low + high - 2.0 * middle), 4.0 * middle - 3.0 * low - high);
    if all_one_way && low.abs().min(high.abs()) > square.abs() {
        return if low < 0.0 { 1.0 } else { 0.0 };
    }
    let mut negative = not_positive(square, slope / 2.0, low);
    negative.clip(0.0, 1.0);
    negative.length()
}
