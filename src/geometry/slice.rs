//! One slice of a piece square to axis A, and the stations and heights at which the wood changes its nature.

use smallvec::SmallVec;

use super::intervals::Intervals;
use super::mass::line_across;
use super::region::Region;
use super::revolved::{Fill, Ray, Revolved};
use super::slice_edges::{CORNER, Heights, SliceEdges, turn};
use super::solid::{Removal, Role, State};
use super::stock::Section;
use super::vector::Vector;

/// Breaks at corners keep this far from other breaks, in mm.
const APART: f64 = 1.0;
/// No panel is longer than this along the blank, in mm.
const LONGEST: f64 = 40.0;

/// The stations between which a slice changes smoothly, rising, from one end of the wood to the other.
pub(crate) fn station_breaks(state: &State<'_>) -> Vec<f64> {
    let mut breaks = Breaks::default();
    let (mut start, end) = (0.0, state.stock.length);
    breaks.hard.extend([0.0, end]);
    if let Some(plug) = state.plug {
        start = plug.body.meridian.start().min(0.0);
        breaks.revolved(&plug.body);
    }
    for removal in state.removals {
        match &removal.region {
            Region::Revolved(revolved) => breaks.revolved(revolved),
            Region::Sawn(sawn) => breaks.hard.extend(sawn.points().iter().map(|p| p.0)),
            Region::HalfSpace(half) => {
                let lean = half.into.x.hypot(half.into.y) * state.stock.largest_radius();
                if half.into.s.abs() > 0.05 {
                    let along = |d: f64| (half.offset + d) / half.into.s;
                    breaks.hard.extend([along(-lean), along(lean)]);
                }
            }
        }
    }
    breaks.finish(start, end)
}

/// Breaks that must stand, and others that may give way to them.
#[derive(Default)]
struct Breaks {
    hard: Vec<f64>,
    soft: Vec<f64>,
}

impl Breaks {
    fn revolved(&mut self, revolved: &Revolved) {
        let points = revolved.meridian.points();
        let lean = revolved.axis.tilt().sin();
        let at = |(t, r): (f64, f64)| {
            let s = revolved.axis.point(t, 0.0, 0.0).s;
            [s - r * lean, s + r * lean]
        };
        let last = points.len() - 1;
        for i in 0..=last {
            if i == 0 || i == last || points[i].0 == points[i - 1].0 || points[i].0 == points[i + 1].0 {
                self.hard.extend(at(points[i]));
            } else if turn(points[i - 1], points[i], points[i + 1]).abs() > CORNER {
                self.soft.extend(at(points[i]));
            }
        }
        if lean > 0.5 {
            // Across the grain it is the widest place that ends it along the blank.
            let widest =
                points.iter().copied().fold((0.0, 0.0), |most: (f64, f64), p| if p.1 > most.1 { p } else { most });
            self.hard.extend(at(widest));
        }
    }

    fn finish(mut self, start: f64, end: f64) -> Vec<f64> {
        let within = |s: &f64| *s > start && *s < end;
        self.hard.retain(within);
        self.hard.extend([start, end]);
        self.hard.sort_by(f64::total_cmp);
        self.hard.dedup_by(|b, a| *b - *a < 1e-6);
        self.soft.retain(within);
        self.soft.sort_by(f64::total_cmp);
        let mut all = self.hard.clone();
        for s in self.soft {
            if all.iter().all(|other| (s - other).abs() > APART) {
                all.push(s);
            }
        }
        all.sort_by(f64::total_cmp);
        let mut cut = Vec::with_capacity(all.len() * 2);
        for pair in all.windows(2) {
            let parts = ((pair[1] - pair[0]) / LONGEST).ceil().clamp(1.0, 1000.0);
            cut.extend((0..parts as usize).map(|i| pair[0] + (pair[1] - pair[0]) * i as f64 / parts));
        }
        cut.extend(all.last());
        cut
    }
}

/// A slice at one station, with the cuts that reach it.
pub(crate) struct Slice<'a> {
    state: &'a State<'a>,
    s: f64,
    cuts: SmallVec<[&'a Removal; 12]>,
    in_stock: bool,
}

impl<'a> Slice<'a> {
    pub fn new(state: &'a State<'a>, s: f64) -> Self {
        let reach = state.stock.largest_radius();
        let reached = || state.removals.iter().filter(|r| reaches(&r.region, s, reach));
        // Passes take most, so they come first.
        let is_pass = |r: &&Removal| r.role == Role::Outside;
        let cuts = reached().filter(is_pass).chain(reached().filter(|r| !is_pass(r))).collect();
        Self { state, s, cuts, in_stock: (0.0..=state.stock.length).contains(&s) }
    }

    /// Its station, in mm.
    pub fn station(&self) -> f64 {
        self.s
    }

    /// Whether a cut that reaches it is about an axis far from both the blank's own and square to it.
    pub fn is_steep(&self) -> bool {
        const STEEP: std::ops::Range<f64> = 0.02..0.93;
        self.cuts.iter().any(|cut| match &cut.region {
            Region::Revolved(revolved) => STEEP.contains(&revolved.axis.along().s.abs()),
            Region::Sawn(_) | Region::HalfSpace(_) => false,
        })
    }

    /// The wood along x at a height.
    pub fn wood_along_x(&self, y: f64) -> Intervals {
        let ray = line_across(y, self.s);
        let mut wood = if self.in_stock { self.state.stock.along(ray) } else { Intervals::none() };
        for cut in &self.cuts {
            if wood.is_empty() {
                break;
            }
            take(&cut.region, ray, &mut wood);
        }
        let Some(plug) = self.state.plug.filter(|p| self.s <= p.body.meridian.end()) else { return wood };
        let mut plug_wood = plug.body.along(ray);
        for cut in self.state.cut_plug(plug) {
            take(&cut.region, ray, &mut plug_wood);
        }
        wood.union(&plug_wood)
    }

    /// The heights between which the wood along x changes smoothly, rising.
    pub fn heights(&self) -> Heights {
        let mut half = if self.in_stock { self.state.stock.half_width() } else { 0.0 };
        let mut edges = SliceEdges::new(self.s, self.state.stock.largest_radius());
        if self.in_stock {
            match self.state.stock.section {
                Section::Square { half_side } => edges.sides(half_side),
                Section::Round { radius } => edges.stock_round(radius),
            }
        }
        if let Some(plug) = self.state.plug.filter(|p| self.s <= p.body.meridian.end()) {
            half = half.max(plug.body.meridian.largest_radius());
            edges.revolved(&plug.body);
        }
        for cut in &self.cuts {
            edges.region(&cut.region);
        }
        edges.heights(half)
    }
}

/// An axis that leans to the side by less than this, in radians, leans by nothing: 1e-8 mm over a metre.
const LEVEL: f64 = 1e-11;

/// Takes a region out of the wood along a line in x.
fn take(region: &Region, ray: Ray, wood: &mut Intervals) {
    match region {
        // The whole line has one station, so what is within the profile is one stretch.
        Region::Revolved(revolved) if revolved.axis.along().x.abs() < LEVEL => take_level(revolved, ray, wood),
        Region::Revolved(revolved) => revolved.take_along(ray, wood),
        Region::Sawn(sawn) => {
            if sawn.contains(ray.start) {
                *wood = Intervals::none();
            }
        }
        _ => *wood = wood.minus(&region.along(ray)),
    }
}

fn take_level(revolved: &Revolved, ray: Ray, wood: &mut Intervals) {
    let axis = &revolved.axis;
    let seen = axis.see(ray.start);
    let (from, to) = revolved.span();
    if !(from <= seen.t && seen.t <= to) {
        return;
    }
    let (before, after) = (revolved.meridian.radius_before(seen.t), revolved.meridian.radius_after(seen.t));
    // Such an axis has its right along x, to one side or the other.
    let centre = -seen.right * axis.right().x;
    let half = |radius: f64| (radius * radius - seen.up * seen.up).max(0.0).sqrt();
    match revolved.fill {
        Fill::Beyond => wood.clip(centre - half(before.min(after)), centre + half(before.min(after))),
        Fill::Within | Fill::WithinOpen => {
            wood.cut_out(centre - half(before.max(after)), centre + half(before.max(after)));
        }
    }
}

/// Whether a region can reach wood at a station.
fn reaches(region: &Region, s: f64, stock_radius: f64) -> bool {
    match region {
        Region::Revolved(revolved) => {
            let axis = &revolved.axis;
            let (from, to) = revolved.span();
            let lean = match revolved.fill {
                Fill::Beyond => {
                    axis.tilt().tan() * (stock_radius + axis.centre(s).map_or(f64::INFINITY, Vector::radius))
                }
                Fill::Within | Fill::WithinOpen => axis.tilt().sin() * revolved.meridian.largest_radius(),
            };
            // Not a number for an open mouth square to the blank: then it may reach.
            let ends = [from, to].map(|t| axis.origin().s + axis.along().s * t);
            let missed = s < ends[0].min(ends[1]) - lean - 1e-9 || s > ends[0].max(ends[1]) + lean + 1e-9;
            !missed || ends[0].is_nan()
        }
        Region::Sawn(sawn) => s <= sawn.ends().1,
        Region::HalfSpace(_) => true,
    }
}
