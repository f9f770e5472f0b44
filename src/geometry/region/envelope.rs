//! How wide a profile about one axis must stay, for what other axes still need.

use std::f64::consts::TAU;

use smallvec::SmallVec;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::tolerance::{FLAT, ROUNDING_MM};
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::order::sort_by_number_falling;
use crate::geometry::region::revolved::{Fill, Ray, Revolved, SeenLine};
use crate::geometry::region::special_clocks::special_clocks;
use crate::geometry::spin::farthest::{Farthest, farthest_within};

/// Directions tried around the axis before the widest are searched more finely.
const COARSE: usize = 20;
/// Refinements halve the step: the last is TAU / 20 / 2^10, 0.0003 rad, or 0.01 mm at 35 mm even across a sudden end.
const REFINEMENTS: u32 = 10;

/// The least radius about `about`, at station `t`, that contains every point which lies between the end planes of at
/// least one of `later` and outside all of them: what later outside turning still needs there.
///
/// `None` where no later region reaches. In mm, within 0.01 mm.
#[must_use]
pub fn kept_radius(about: &Axis, t: f64, later: &[&Revolved]) -> Option<f64> {
    let mut farthest: Option<(Farthest, usize)> = None;
    for (place, region) in later.iter().enumerate() {
        if let Some(found) = farthest_within(about, t, region)
            && farthest.is_none_or(|(best, _)| found.distance > best.distance)
        {
            farthest = Some((found, place));
        }
    }
    let (farthest, owner) = farthest?;
    // Nothing lies farther out. Only where another region takes that point is it worth looking for one that is kept.
    let taken = later.iter().enumerate().any(|(place, region)| place != owner && takes(region, farthest.inside));
    if !taken {
        return Some(farthest.distance);
    }
    let near: Vec<&Revolved> = later.iter().copied().filter(|r| may_touch(about, t, r, farthest.distance)).collect();
    widest(&special_clocks(about, t, &near), f64::INFINITY, |clock, floor| kept_reach(about, t, (clock, floor), &near))
}

/// Whether a point lies between a region's end planes and outside its profile.
fn takes(region: &Revolved, point: Vector) -> bool {
    let seen = region.axis.see(point);
    let meridian = &region.meridian;
    meridian.start() <= seen.t && seen.t <= meridian.end() && seen.radius() > meridian.greatest_at(seen.t)
}

/// Whether the plane at `t` meets the span of a region anywhere within `radius` of the axis.
fn may_touch(about: &Axis, t: f64, region: &Revolved, radius: f64) -> bool {
    let station = region.axis.see(about.point(t, 0.0, 0.0)).t;
    let lean = radius * region.axis.along().cross(about.along()).length();
    station + lean >= region.meridian.start() - ROUNDING_MM && station - lean <= region.meridian.end() + ROUNDING_MM
}

/// The farthest kept point along one direction, in mm; `None` when nothing is kept there, or nothing past `floor`.
///
/// A point between a region's end planes is kept by it when it is within its profile; so what is kept is within some
/// profile and not taken by another region.
fn kept_reach(about: &Axis, t: f64, (clock, floor): (f64, f64), later: &[&Revolved]) -> Option<f64> {
    let start = about.point(t, 0.0, 0.0);
    let ray = Ray { start, direction: about.point(t, 1.0, clock) - start };
    let kept = match later {
        [region] => region.within_along(ray),
        _ => {
            let seen: SmallVec<[(SeenLine, Intervals); 8]> = later
                .iter()
                .map(|region| {
                    let line = region.seen(ray);
                    let inside = region.within(&line);
                    (line, inside)
                })
                .collect();
            // Nothing is kept past the last end of what is within.
            if !seen.iter().any(|(_, inside)| inside.last_end().is_some_and(|end| end > floor)) {
                return None;
            }
            let (mut within, mut gone) = (Intervals::none(), Intervals::none());
            for (region, (line, inside)) in later.iter().zip(&seen) {
                let (from, to) = region.span();
                gone = gone.union(&line.between(from, to).minus(inside));
                within = within.union(inside);
            }
            within.minus(&gone)
        }
    };
    let end = kept.last_end()?;
    (end >= 0.0 && end.is_finite()).then_some(end)
}

/// The least radius about `about`, at station `t`, beyond which every point is at least `gap` from each of `solids`.
///
/// Zero where the solids are far. In mm, within 0.01 mm. Hollows about the same axis are exact.
#[must_use]
pub fn radius_clear_of(about: &Axis, t: f64, solids: &[&Revolved], gap: f64) -> f64 {
    let mut clear: f64 = 0.0;
    for solid in solids {
        if is_past(about, t, solid, gap) {
            continue;
        }
        let radius = if same_line(about, &solid.axis) && solid.fill != Fill::Beyond {
            let t = solid.axis.see(about.point(t, 0.0, 0.0)).t;
            Some(parallel_radius(solid, t, gap.max(0.0)))
        } else {
            let far = outer_bound(about, solid, gap);
            let gap = gap.max(0.0);
            widest(&[], far, |clock, floor| reach_clear_of(&Outward::new(about, t, clock, solid, gap), (floor, far)))
        };
        clear = clear.max(radius.unwrap_or(0.0));
    }
    clear
}

/// The radius at station `t` of the curve that stands `gap` off a solid's profile, on the outside: 0 where the solid is
/// farther along. Exact for the chain.
fn parallel_radius(solid: &Revolved, t: f64, gap: f64) -> f64 {
    let chain = solid.meridian.points();
    let (low, high) = (t - gap, t + gap);
    if low > solid.meridian.end() {
        return 0.0;
    }
    // The radius over a point of the profile that lies `along` from the station.
    let over = |along: f64, radius: f64| radius + (gap * gap - along * along).max(0.0).sqrt();
    let mut widest: f64 = 0.0;
    if solid.fill == Fill::WithinOpen && low <= chain[0].t {
        widest = over((chain[0].t - t).min(0.0), chain[0].r);
    }
    let first = solid.meridian.piece_at(low);
    for piece in chain[first..].windows(2).take_while(|piece| piece[0].t <= high) {
        let (from, to) = (piece[0], piece[1]);
        if to.t <= from.t {
            widest = widest.max(over(from.t - t, from.r.max(to.r)));
            continue;
        }
        let slope = (to.r - from.r) / (to.t - from.t);
        // The circle around the station touches the piece's line where that is as steep.
        let touched = t + gap * slope / slope.hypot(1.0);
        let at = touched.clamp(from.t, to.t);
        widest = widest.max(over(at - t, from.r + slope * (at - from.t)));
    }
    widest
}

/// Whether the plane at `t` lies past the solid by more than the gap, on the side where the solid ends.
pub(super) fn is_past(about: &Axis, t: f64, solid: &Revolved, gap: f64) -> bool {
    let along = solid.axis.along().dot(about.along());
    let lean = solid.meridian.largest_radius() * (1.0 - along * along).max(0.0).sqrt();
    let ends = [solid.meridian.start(), solid.meridian.end()].map(|e| about.see(solid.axis.point(e, 0.0, 0.0)).t);
    let (low, high) = (ends[0].min(ends[1]) - lean - gap, ends[0].max(ends[1]) + lean + gap);
    let open = solid.fill == Fill::WithinOpen;
    // An open mouth goes on without end, toward where the solid starts.
    (t > high && !(open && along <= 0.0)) || (t < low && !(open && along >= 0.0))
}

/// A radius about `about` that the solid and its gap cannot pass; open mouths count to 1 m before their start.
fn outer_bound(about: &Axis, solid: &Revolved, gap: f64) -> f64 {
    let start = solid.meridian.start() - if solid.fill == Fill::WithinOpen { 1000.0 } else { 0.0 };
    [start, solid.meridian.end()].iter().map(|t| about.see(solid.axis.point(*t, 0.0, 0.0)).radius()).fold(0.0, f64::max)
        + solid.meridian.largest_radius()
        + gap.max(0.0)
        + 1.0
}

/// Steps at least this far, in mm: less would crawl along an end face that is only just clear.
const SHORTEST_STEP: f64 = 0.01;
/// More steps than this only an absurd solid takes; the radius reached by then is on the safe side.
const MOST_STEPS: u32 = 6000;

/// A line outward from an axis, seen from the axis of a solid to stay clear of.
struct Outward<'a> {
    solid: &'a Revolved,
    gap: f64,
    line: SeenLine,
}

impl<'a> Outward<'a> {
    fn new(about: &Axis, t: f64, clock: f64, solid: &'a Revolved, gap: f64) -> Self {
        let start = about.point(t, 0.0, 0.0);
        let line = SeenLine::new(&solid.axis, Ray { start, direction: about.point(t, 1.0, clock) - start });
        Self { solid, gap, line }
    }

    /// How much farther from the solid than the gap the point at a radius is.
    fn free_at(&self, radius: f64) -> f64 {
        self.solid.signed_distance_seen(self.line.station(radius), self.line.distance(radius)) - self.gap
    }

    /// The radius beyond which the line is outside the cylinder around the solid and its gap, if it enters that at all.
    fn outermost(&self) -> Option<f64> {
        if self.solid.fill == Fill::Beyond {
            return Some(f64::INFINITY);
        }
        let (from, to) = self.solid.span();
        let about = self.line.within_radius(self.solid.meridian.largest_radius() + self.gap + ROUNDING_MM);
        about.intersection(&self.line.between(from - self.gap - ROUNDING_MM, to + self.gap + ROUNDING_MM)).last_end()
    }
}

/// A walk has arrived where the free distance is less than this, in mm.
const ARRIVED_MM: f64 = 1e-4;
/// How closely a boundary is halved to, in mm.
const BOUNDARY_MM: f64 = 1e-5;

/// Walks in from `far`, or from where the solid may begin, by the free distance each time, so that it cannot step over the
/// solid by more than [`SHORTEST_STEP`]. `None` once it is at `floor` or farther in, and still free.
fn reach_clear_of(outward: &Outward<'_>, (floor, far): (f64, f64)) -> Option<f64> {
    let free_at = |radius: f64| outward.free_at(radius);
    let from = outward.outermost().unwrap_or(0.0).min(far);
    if from <= 0.0 {
        return Some(0.0);
    }
    if from <= floor {
        return None;
    }
    let (mut radius, mut before) = (from, from);
    for _ in 0..MOST_STEPS {
        let free = free_at(radius);
        if free < ARRIVED_MM {
            return if free < 0.0 { boundary((radius, before), floor, &free_at) } else { Some(radius) };
        }
        if radius <= floor {
            return None;
        }
        before = radius;
        radius -= free.max(SHORTEST_STEP);
        if radius <= 0.0 {
            return Some(0.0);
        }
    }
    Some(radius)
}

/// Where the free distance comes to nothing between a radius without room and one with; `None` where that is no farther
/// out than `floor`.
fn boundary((mut p, mut q): (f64, f64), floor: f64, free_at: &impl Fn(f64) -> f64) -> Option<f64> {
    while q - p > BOUNDARY_MM && q > floor {
        let middle = (p + q) / 2.0;
        if free_at(middle) < 0.0 { p = middle } else { q = middle }
    }
    (q > floor).then_some(q)
}

/// Whether two axes are one line.
pub(super) fn same_line(a: &Axis, b: &Axis) -> bool {
    a.along().cross(b.along()).length() < FLAT && a.see(b.origin()).radius() < ROUNDING_MM
}

/// The largest value over the clock, none of which is over `most`: coarse steps and special directions first, then closer
/// around the two best. `reach` is given what it has to be over: less need not be told.
fn widest(special: &[f64], most: f64, reach: impl Fn(f64, f64) -> Option<f64>) -> Option<f64> {
    /// Coarse directions are looked at in this stride, so that a high one is soon met.
    const STRIDE: usize = 7;
    let step = TAU / COARSE as f64;
    let mut coarse = Highest { values: [None; COARSE], best: 0 };
    for turn in 0..COARSE {
        let place = turn * STRIDE % COARSE;
        let value = reach(place as f64 * step, coarse.floor());
        if let Some(r) = value.filter(|r| *r >= most) {
            return Some(r);
        }
        coarse.put(place, value);
    }
    let floor = coarse.floor();
    let mut seen: Vec<(f64, f64)> = Vec::with_capacity(COARSE + special.len());
    seen.extend(coarse.values.iter().enumerate().filter_map(|(place, r)| Some(((*r)?, place as f64 * step))));
    for &clock in special {
        let Some(r) = reach(clock, floor) else { continue };
        if r >= most {
            return Some(r);
        }
        seen.push((r, clock));
    }
    sort_by_number_falling(&mut seen, |(r, _)| *r);
    let best = seen.first()?;
    let runner_up = seen.iter().find(|s| angle_between(s.1, best.1) > 1.5 * step);
    let refined = [Some(best), runner_up].into_iter().flatten().map(|start| refine(*start, step, &reach));
    refined.reduce(f64::max)
}

/// The values of the coarse directions so far.
struct Highest {
    values: [Option<f64>; COARSE],
    /// Where the greatest is.
    best: usize,
}

impl Highest {
    fn put(&mut self, place: usize, value: Option<f64>) {
        self.values[place] = value;
        if value > self.values[self.best] {
            self.best = place;
        }
    }

    /// What is no greater than this is neither the best of all nor the runner-up: two directions are higher that are more
    /// than three steps apart, and one of them is more than one step and a half from whichever is the best.
    fn floor(&self) -> f64 {
        let is_apart = |place: &usize| (4..=COARSE - 4).contains(&((place + COARSE - self.best) % COARSE));
        let second =
            (0..COARSE).filter(is_apart).filter_map(|place| self.values[place]).fold(f64::NEG_INFINITY, f64::max);
        // Equal ones still count: the first of them wins.
        second.next_down()
    }
}

fn angle_between(a: f64, b: f64) -> f64 {
    let apart = (a - b).rem_euclid(TAU);
    apart.min(TAU - apart)
}

fn refine(start: (f64, f64), coarse_step: f64, reach: &impl Fn(f64, f64) -> Option<f64>) -> f64 {
    let (mut best, mut clock) = start;
    let mut step = coarse_step;
    for _ in 0..REFINEMENTS {
        step /= 2.0;
        let centre = clock;
        for tried in [centre - step, centre + step] {
            if let Some(r) = reach(tried, best).filter(|r| *r > best) {
                (best, clock) = (r, tried);
            }
        }
    }
    best
}
