//! One slice of a piece square to axis A, and the stations and heights at which the wood changes its nature.

use smallvec::SmallVec;

use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::pace::spend;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Ray, Revolved};
use crate::geometry::region::solid::{FittedPlug, Removal, Role, State};
use crate::geometry::region::stock::{Section, Stock};
use crate::geometry::volume::slice_edges::{CORNER, Heights, SQUARE, SliceEdges, turn};

/// Breaks at corners keep this far from other breaks, in mm.
const APART: f64 = 1.0;
/// No panel is longer than this along the blank, in mm.
const LONGEST: f64 = 40.0;

/// The stations between which a slice of every state changes smoothly, rising, from one end of the wood to the other.
pub(crate) fn station_breaks(states: &States<'_>) -> Vec<f64> {
    let state = states.last();
    let mut breaks = Breaks::default();
    let (mut start, end) = (0.0, state.stock.length);
    breaks.hard.extend([0.0, end]);
    for plug in states.plugs() {
        start = plug.body.meridian.start().min(start);
        breaks.revolved(&plug.body);
    }
    for removal in state.removals {
        match &removal.region {
            Region::Revolved(revolved) => {
                breaks.revolved(revolved);
                if removal.role == Role::Outside {
                    breaks.shoulders(revolved, state.stock.largest_radius());
                }
            }
            Region::Sawn(sawn) => breaks.hard.extend(sawn.points().iter().map(|p| p.x)),
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
        let at = |Station { t, r }: Station| {
            let s = revolved.axis.point(t, 0.0, 0.0).s;
            [s - r * lean, s + r * lean]
        };
        let last = points.len() - 1;
        for i in 0..=last {
            if i == 0 || i == last || points[i].t == points[i - 1].t || points[i].t == points[i + 1].t {
                self.hard.extend(at(points[i]));
            } else if turn(points[i - 1], points[i], points[i + 1]).abs() > CORNER {
                self.soft.extend(at(points[i]));
            }
        }
        if lean > 0.5 {
            // Across the grain it is the widest place that ends it along the blank.
            let widest = points.iter().copied().fold(Station::default(), |most, p| if p.r > most.r { p } else { most });
            self.hard.extend(at(widest));
        }
    }

    /// Where the shoulders of a pass leave the stock: on a leaning axis the rough wood beside them is a wedge.
    fn shoulders(&mut self, pass: &Revolved, stock_radius: f64) {
        let reach = stock_radius * pass.axis.tilt().tan();
        for t in [pass.meridian.start(), pass.meridian.end()] {
            let s = pass.axis.point(t, 0.0, 0.0).s;
            self.hard.extend([s - reach, s + reach]);
        }
    }

    fn finish(mut self, start: f64, end: f64) -> Vec<f64> {
        let within = |s: &f64| *s > start && *s < end;
        self.hard.retain(within);
        self.hard.extend([start, end]);
        self.hard.sort_unstable_by(f64::total_cmp);
        self.hard.dedup_by(|b, a| *b - *a < 1e-6);
        self.soft.retain(within);
        self.soft.sort_unstable_by(f64::total_cmp);
        let mut all = self.hard.clone();
        for s in self.soft {
            if all.iter().all(|other| (s - other).abs() > APART) {
                all.push(s);
            }
        }
        all.sort_unstable_by(f64::total_cmp);
        let mut cut = Vec::with_capacity(all.len() * 2);
        for pair in all.windows(2) {
            let parts = ((pair[1] - pair[0]) / LONGEST).ceil().clamp(1.0, 1000.0);
            cut.extend((0..parts as usize).map(|i| pair[0] + (pair[1] - pair[0]) * i as f64 / parts));
        }
        cut.extend(all.last());
        cut
    }
}

/// States of one piece in working order: each has the cuts of the one before it, and perhaps more.
#[derive(Clone, Copy)]
pub(crate) struct States<'a> {
    first: &'a State<'a>,
    all: &'a [State<'a>],
}

impl<'a> States<'a> {
    /// `None` when there is no state.
    pub fn new(all: &'a [State<'a>]) -> Option<Self> {
        all.first().map(|first| Self { first, all })
    }

    /// How many.
    pub fn count(&self) -> usize {
        self.all.len()
    }

    /// The one with every cut.
    fn last(&self) -> &'a State<'a> {
        self.all.last().unwrap_or(self.first)
    }

    /// The plugs that are in at any of them, each once.
    fn plugs(&self) -> impl Iterator<Item = &'a FittedPlug> {
        let all = self.all;
        let is_new = move |i: usize| {
            let plug = all[i].plug?;
            let known = all[..i].iter().any(|state| state.plug.is_some_and(|other| std::ptr::eq(other, plug)));
            (!known).then_some(plug)
        };
        (0..all.len()).filter_map(is_new)
    }
}

/// Whether a cut is about an axis far from both the blank's own and square to it.
fn is_steep(cut: &Removal) -> bool {
    const STEEP: std::ops::Range<f64> = SQUARE..0.93;
    match &cut.region {
        Region::Revolved(revolved) => STEEP.contains(&revolved.axis.along().s.abs()),
        Region::Sawn(_) | Region::HalfSpace(_) => false,
    }
}

/// A slice at one station, with the cuts that reach it.
pub(crate) struct Slice<'a> {
    states: States<'a>,
    s: f64,
    /// The cuts, each with the first state that has it.
    cuts: SmallVec<[(usize, &'a Removal); 12]>,
    /// How many of the states show nothing here but the stock's own section.
    plain: usize,
    in_stock: bool,
}

impl<'a> Slice<'a> {
    pub fn new(states: States<'a>, s: f64) -> Self {
        let stock = states.last().stock;
        let reach = stock.largest_radius();
        let mut cuts = SmallVec::new();
        let mut taken = 0;
        for (i, state) in states.all.iter().enumerate() {
            let new = || state.removals.iter().skip(taken).filter(|r| reaches(&r.region, s, reach)).map(|r| (i, r));
            // Passes take most, so they come first.
            let is_pass = |cut: &(usize, &Removal)| cut.1.role == Role::Outside;
            cuts.extend(new().filter(is_pass));
            cuts.extend(new().filter(|cut| !is_pass(cut)));
            taken = taken.max(state.removals.len());
        }
        let first_cut = cuts.first().map_or(states.count(), |cut: &(usize, &Removal)| cut.0);
        let plugged = |state: &State<'_>| state.plug.is_some_and(|plug| s <= plug.body.meridian.end());
        let plain = states.all.iter().position(plugged).unwrap_or(first_cut).min(first_cut);
        Self { states, s, cuts, plain, in_stock: (0.0..=stock.length).contains(&s) }
    }

    /// The stock here, for the states that show nothing else: how many of them there are.
    pub fn plain_stock(&self) -> (Option<&'a Stock>, usize) {
        (self.in_stock.then_some(self.states.first.stock), self.plain)
    }

    /// Its station, in mm.
    pub fn station(&self) -> f64 {
        self.s
    }

    /// Whether a cut that reaches it is steep.
    pub fn is_steep(&self) -> bool {
        self.cuts.iter().any(|cut| is_steep(cut.1))
    }

    /// The wood along x at a height, of each state in turn that does not show plain stock; with whether it may differ from
    /// that of the state before.
    pub fn woods_along_x(&self, y: f64, mut each: impl FnMut(usize, &Intervals, bool)) {
        spend(self.cuts.len() + self.states.count());
        let ray = line_across(y, self.s);
        let mut wood = if self.in_stock { self.states.first.stock.along(ray) } else { Intervals::none() };
        let mut cuts = self.cuts.iter().peekable();
        let mut plugged: Option<Plugged<'_>> = None;
        for (i, state) in self.states.all.iter().enumerate().skip(self.plain) {
            let mut changed = i == self.plain;
            while let Some((_, cut)) = cuts.next_if(|cut| cut.0 == i) {
                if !wood.is_empty() {
                    take(&cut.region, ray, &mut wood);
                    changed = true;
                }
            }
            let Some(plug) = state.plug.filter(|p| self.s <= p.body.meridian.end()) else {
                changed |= plugged.take().is_some();
                each(i, &wood, changed);
                continue;
            };
            let mut with = match plugged.take() {
                Some(known) if std::ptr::eq(known.plug, plug) => known,
                _ => Plugged { plug, wood: plug.body.along(ray), seen: 0, whole: None },
            };
            let fresh = state.removals.iter().skip(with.seen);
            for cut in fresh.filter(|r| r.role == Role::Outside && r.cut > plug.fitted) {
                if !with.wood.is_empty() {
                    take(&cut.region, ray, &mut with.wood);
                    changed = true;
                }
            }
            with.seen = state.removals.len();
            let known = with.whole.take().filter(|_| !changed);
            changed |= known.is_none();
            let whole = known.unwrap_or_else(|| wood.union(&with.wood));
            each(i, &whole, changed);
            plugged = Some(Plugged { whole: Some(whole), ..with });
        }
    }

    /// The heights between which the wood along x changes smoothly, rising.
    pub fn heights(&self) -> Heights {
        let stock = self.states.first.stock;
        let mut half = if self.in_stock { stock.half_width() } else { 0.0 };
        let mut edges = SliceEdges::new(self.s, stock.largest_radius());
        if self.in_stock {
            match stock.section {
                Section::Square { half_side } => edges.sides(half_side),
                Section::Round { radius } => edges.stock_round(radius),
            }
        }
        for plug in self.states.plugs().filter(|p| self.s <= p.body.meridian.end()) {
            half = half.max(plug.body.meridian.largest_radius());
            edges.revolved(&plug.body);
        }
        for cut in &self.cuts {
            edges.region(&cut.1.region);
        }
        edges.heights(half)
    }
}

/// A plug along a line, as it goes from state to state.
struct Plugged<'a> {
    plug: &'a FittedPlug,
    /// Its wood.
    wood: Intervals,
    /// How many of the piece's cuts it has had.
    seen: usize,
    /// All the wood at the state before.
    whole: Option<Intervals>,
}

/// An axis that leans to the side by less than this, in radians, leans by nothing: 1e-8 mm over a metre.
const LEVEL: f64 = 1e-11;

/// Takes a region out of the wood along a line in x.
fn take(region: &Region, ray: Ray, wood: &mut Intervals) {
    match region {
        // The whole line has one station, so what is within the profile is one stretch.
        Region::Revolved(revolved) if revolved.axis.along().x.abs() < LEVEL => take_level(revolved, ray, wood),
        Region::Sawn(sawn) => {
            if sawn.contains(ray.start) {
                *wood = Intervals::none();
            }
        }
        _ => region.take_along(ray, wood),
    }
}

fn take_level(revolved: &Revolved, ray: Ray, wood: &mut Intervals) {
    let axis = &revolved.axis;
    let seen = axis.see(ray.start);
    let (from, to) = revolved.span();
    if !(from <= seen.t && seen.t <= to) {
        return;
    }
    // Such an axis has its right along x, to one side or the other.
    let centre = -seen.right * axis.right().x;
    let radius = revolved.radius_at(seen.t);
    let half = (radius * radius - seen.up * seen.up).max(0.0).sqrt();
    match revolved.fill {
        Fill::Beyond => wood.clip(centre - half, centre + half),
        Fill::Within | Fill::WithinOpen => wood.cut_out(centre - half, centre + half),
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

/// The line in x at height `y` and station `s`.
fn line_across(y: f64, s: f64) -> Ray {
    Ray { start: Vector::new(0.0, y, s), direction: Vector::new(1.0, 0.0, 0.0) }
}
