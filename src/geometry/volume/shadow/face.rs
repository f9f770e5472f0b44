//! Surfaces of revolution in patches: whether one may stand out of a hull, and what wood there is along it.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::hull::{Corner, DUST, HAIR, Hull, convex_hull};
use kurbo::Point;

use crate::geometry::frame::station::Station;
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::plane::polygon::clip_convex;
use crate::geometry::region::keep::{Keep, clipped};
use crate::geometry::region::near_half::{ArcBound, cut_by, middle_of};
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Ray, Revolved};
use crate::geometry::region::solid::{Removal, State};
use crate::geometry::region::stock::{Section, Stock};
use crate::geometry::{Axis, Meridian, Sawn};

/// What stands out of the hull by less than this is left, in mm.
const OUT: f64 = 1e-3;
/// Patches narrower than this are not halved, in mm.
const NARROW: f64 = 0.02;
/// No piece of a chain is longer, in mm.
const LONGEST: f64 = 8.0;

/// A surface of revolution: a chain of straight pieces, wood on its right.
pub(super) struct Face<'k> {
    axis: Axis,
    chain: Vec<Station>,
    /// Of each piece, what the cuts about its own axis keep: the same places in every clock direction.
    kept: Vec<Intervals>,
    /// What is kept about another axis, or none.
    others: Vec<&'k Keep<'k>>,
    /// Its place among all.
    place: usize,
    /// The removal it belongs to; absent for the stock's own round.
    removal: Option<usize>,
    /// -1 where wood lies on the left of the chain.
    side: f64,
}

/// Pieces `from..to` of a face's chain, between two clock directions.
#[derive(Clone, Copy)]
pub(super) struct Patch {
    pub(super) face: usize,
    from: usize,
    to: usize,
    /// From where to where along it, from 0 to 1: all of it but for a single piece.
    part: (f64, f64),
    clocks: (f64, f64),
}

impl<'k> Face<'k> {
    /// Every surface of revolution of a state, whose wood is what `keeps` have in common.
    pub(super) fn all(state: &State<'_>, keeps: &'k [Keep<'k>]) -> Vec<Self> {
        let stock = state.stock;
        let mut faces = Vec::new();
        if let Section::Round { radius } = stock.section {
            let chain = vec![
                Station::new(0.0, 0.0),
                Station::new(0.0, radius),
                Station::new(stock.length, radius),
                Station::new(stock.length, 0.0),
            ];
            faces.push(Self::new(Axis::A, &chain, None, 1.0, keeps));
        }
        for (i, removal) in state.removals.iter().enumerate() {
            // Of two cuts that are the same, one.
            let is_first = || state.removals[..i].iter().all(|other| other.region != removal.region);
            if let Region::Revolved(revolved) = &removal.region
                && is_first()
            {
                faces.push(Self::of(revolved, i, stock, keeps));
            }
        }
        for (place, face) in faces.iter_mut().enumerate() {
            face.place = place;
        }
        faces
    }

    /// A region's profile with its shoulders, or its end face and its mouth carried on past the stock.
    fn of(revolved: &Revolved, removal: usize, stock: &Stock, keeps: &'k [Keep<'k>]) -> Self {
        let meridian: &Meridian = &revolved.meridian;
        let reach = stock.largest_radius();
        let corner = |i: u32| {
            let side = |bit: u32| if i & bit == 0 { -reach } else { reach };
            revolved.axis.see(Vector::new(side(1), side(2), if i & 4 == 0 { 0.0 } else { stock.length }))
        };
        // Nothing of the stock is farther from the axis, or before this station.
        let far = (0..8).map(|i| corner(i).radius()).fold(0.0, f64::max);
        let first = (0..8).map(|i| corner(i).t).fold(0.0, f64::min);
        let (start, end) = (meridian.start(), meridian.end());
        let mut chain = Vec::with_capacity(meridian.points().len() + 2);
        match revolved.fill {
            Fill::Beyond => chain.push(Station::new(start, far)),
            Fill::Within => chain.push(Station::new(start, 0.0)),
            Fill::WithinOpen => chain.push(Station::new(start.min(first), meridian.points()[0].r)),
        }
        chain.extend_from_slice(meridian.points());
        chain.push(Station::new(end, if revolved.fill == Fill::Beyond { far } else { 0.0 }));
        let side = if revolved.fill == Fill::Beyond { 1.0 } else { -1.0 };
        Self::new(revolved.axis, &chain, Some(removal), side, keeps)
    }

    fn new(axis: Axis, chain: &[Station], removal: Option<usize>, side: f64, keeps: &'k [Keep<'k>]) -> Self {
        let (own, others): (Vec<&Keep<'_>>, Vec<&Keep<'_>>) = keeps.iter().partition(|keep| keep.is_about(&axis));
        let mut face = Self { axis, chain: divided(chain), kept: Vec::new(), others, place: 0, removal, side };
        let kept = |piece: usize| {
            face.line(piece, 0.0)
                .map_or_else(Intervals::none, |line| clipped(&own, line, 0.0, Intervals::one(0.0, 1.0)))
        };
        face.kept = (0..face.chain.len() - 1).map(kept).collect();
        face
    }

    fn ring(&self, t: f64) -> Option<(usize, f64)> {
        self.removal.map(|removal| (removal, t))
    }

    /// One piece, moved a hair into the wood; `None` for one too short to matter.
    fn inside(&self, piece: usize) -> Option<[Station; 2]> {
        let (a, b) = (self.chain[piece], self.chain[piece + 1]);
        let (dt, dr) = (b.t - a.t, b.r - a.r);
        let length = dt.hypot(dr);
        let (across, down) = (self.side * HAIR * dr / length, -self.side * HAIR * dt / length);
        (length > 10.0 * HAIR).then(|| [a, b].map(|p| Station::new(p.t + across, (p.r + down).max(0.0))))
    }

    /// The line along one piece at a clock direction, a hair inside the wood: from 0 to 1.
    fn line(&self, piece: usize, clock: f64) -> Option<Ray> {
        let [start, end] = self.inside(piece)?.map(|Station { t, r }| self.axis.point(t, r, clock));
        Some(Ray { start, direction: end - start })
    }

    /// The ends of its stretches of wood along the lines straight up and straight down.
    pub(super) fn likely(&self, state: &State<'_>) -> Vec<Corner> {
        (0..self.chain.len() - 1)
            .flat_map(|piece| [0.0, PI].map(|clock| self.stretches(piece, (0.0, 1.0), clock, state)))
            .flatten()
            .collect()
    }

    fn stretches(&self, piece: usize, part: (f64, f64), clock: f64, state: &State<'_>) -> Vec<Corner> {
        let Some(line) = self.line(piece, clock) else { return Vec::new() };
        let (a, b) = (self.chain[piece], self.chain[piece + 1]);
        let length = line.direction.length();
        let mut wood = state.along(line);
        wood.clip(part.0, part.1);
        let corner = |place: f64| {
            let point = line.at(place);
            let off = place.min(1.0 - place) * length;
            let is_end = off < 10.0 * HAIR;
            let ring = if is_end { self.ring(if place < 0.5 { a.t } else { b.t }) } else { None };
            Corner { at: [point.s, point.y], ring, edge: (!is_end).then_some((self.place, point)) }
        };
        let solid = wood.iter().filter(|(from, to)| (to - from) * length > DUST);
        solid.flat_map(|(from, to)| [corner(from), corner(to)]).collect()
    }

    /// The ends of its wood on the line midway between two points around its axis, near where those are along it.
    pub(super) fn between(&self, from: Vector, to: Vector, state: &State<'_>) -> Vec<Corner> {
        let (a, b) = (self.axis.see(from), self.axis.see(to));
        let (first, turn) = (a.clock(), (b.clock() - a.clock()).rem_euclid(TAU));
        let middle = first + if turn > PI { turn - TAU } else { turn } / 2.0;
        let apart = (to - from).length();
        let (low, high) = (a.t.min(b.t) - apart, a.t.max(b.t) + apart);
        let near = |piece: &usize| {
            let (p, q) = (self.chain[*piece].t, self.chain[piece + 1].t);
            p.min(q) <= high && p.max(q) >= low
        };
        let pieces = (0..self.chain.len() - 1).filter(near);
        pieces.flat_map(|piece| self.stretches(piece, (0.0, 1.0), middle, state)).collect()
    }

    /// All of it, a quarter of a turn at a time, each about one of the ways up, down and to the sides.
    pub(super) fn patches(&self, face: usize) -> Vec<Patch> {
        let to = self.chain.len() - 1;
        let quarter = |i: u32| -FRAC_PI_2 / 2.0 + FRAC_PI_2 * f64::from(i);
        (0..4).map(|i| Patch { face, from: 0, to, part: (0.0, 1.0), clocks: (quarter(i), quarter(i + 1)) }).collect()
    }

    /// Rings whose hull holds the patch, a hair inside the wood; none of a patch too small to matter.
    fn rings(&self, patch: &Patch) -> Vec<Station> {
        let pieces: Vec<_> = (patch.from..patch.to).filter_map(|piece| self.inside(piece)).collect();
        if let [[a, b]] = pieces[..] {
            return [patch.part.0, patch.part.1]
                .map(|at| Station::new(a.t + (b.t - a.t) * at, a.r + (b.r - a.r) * at))
                .to_vec();
        }
        if pieces.is_empty() {
            return Vec::new();
        }
        let ends = pieces.as_flattened();
        let range = |value: fn(&Station) -> f64| {
            ends.iter().map(value).fold((f64::INFINITY, f64::NEG_INFINITY), |r, v| (r.0.min(v), r.1.max(v)))
        };
        let ((first, last), (low, high)) = (range(|p| p.t), range(|p| p.r));
        vec![Station::new(first, low), Station::new(first, high), Station::new(last, low), Station::new(last, high)]
    }

    /// Points whose hull holds the patch.
    fn bound(&self, rings: &[Station], clocks: (f64, f64)) -> Vec<Vector> {
        let arc = ArcBound::new(clocks);
        rings.iter().flat_map(|ring| arc.of(&self.axis, *ring)).collect()
    }

    /// The part of a patch that may stand out of the hull; `None` when its bound, less what is above the saws and beyond the
    /// stock and the planes, lies within, and when nothing of it is wood.
    pub(super) fn standing_out(&self, patch: &Patch, state: &State<'_>, hull: &Hull) -> Option<Patch> {
        // What is left of a bound by cutting it does not stand out where the bound does not.
        if self.is_within(&self.bound(&self.rings(patch), patch.clocks), hull) {
            return None;
        }
        let patch = self.of_wood(patch)?;
        let rings = self.rings(&patch);
        let mut bound = self.bound(&rings, patch.clocks);
        if patch.is_piece() {
            cut_by(&self.others, &mut bound);
        }
        if bound.is_empty() {
            return None;
        }
        if self.is_within(&bound, hull) {
            return None;
        }
        let flat = bound.iter().map(|p| Corner { at: [p.s, p.y], ring: None, edge: None }).collect();
        let mut outline: Vec<[f64; 2]> = convex_hull(flat).into_iter().map(|corner| corner.at).collect();
        outline = limited(outline, state);
        if outline.iter().all(|point| hull.holds(*point, OUT)) {
            return None;
        }
        (patch.is_piece() || !self.is_gone(&rings, &bound, state)).then_some(patch)
    }

    /// Whether no point of the hull of some points stands out of the piece's hull, seen from the side: none of the points
    /// does, as what is within is convex.
    fn is_within(&self, points: &[Vector], hull: &Hull) -> bool {
        points.iter().all(|point| hull.holds([point.s, point.y], OUT))
    }

    /// The part of a patch near which there may be wood.
    fn of_wood(&self, patch: &Patch) -> Option<Patch> {
        if !patch.is_piece() {
            let mut pieces = (patch.from..patch.to).filter(|piece| !self.kept[*piece].is_empty());
            let from = pieces.next()?;
            return Some(Patch { from, to: pieces.next_back().unwrap_or(from) + 1, ..*patch });
        }
        let line = self.line(patch.from, f64::midpoint(patch.clocks.0, patch.clocks.1))?;
        let widest = self.chain[patch.from].r.max(self.chain[patch.to].r);
        // No line of the patch is farther than this from the one in its middle.
        let apart = 2.0 * widest * ((patch.clocks.1 - patch.clocks.0) / 4.0).sin();
        let mut wood = self.kept[patch.from].clone();
        wood.clip(patch.part.0, patch.part.1);
        let near = clipped(&self.others, line, apart, wood);
        let part = (near.iter().next()?.0, near.last_end()?);
        Some(Patch { part, ..*patch })
    }

    /// Whether one region has all of a patch.
    fn is_gone(&self, rings: &[Station], bound: &[Vector], state: &State<'_>) -> bool {
        let Some(middle) = middle_of(bound) else { return true };
        let reach = bound.iter().map(|p| (*p - middle).length()).fold(0.0, f64::max);
        let off_ends = (-middle.s).max(middle.s - state.stock.length);
        let gone = |(i, removal): (usize, &Removal)| {
            let far_in = || removal.region.signed_distance(middle) < -reach;
            let all_in = || match &removal.region {
                Region::HalfSpace(plane) => bound.iter().all(|point| plane.signed_distance(*point) < 0.0),
                Region::Revolved(revolved) => self.axis == revolved.axis && holds(revolved, rings),
                Region::Sawn(_) => false,
            };
            Some(i) != self.removal && (far_in() || all_in())
        };
        let beyond = state.stock.depth_from_sides(middle) < -reach || off_ends > reach;
        beyond || state.removals.iter().enumerate().any(gone)
    }

    /// What is wood along the middle line of a patch of one piece.
    pub(super) fn ends(&self, patch: &Patch, state: &State<'_>) -> Vec<Corner> {
        if !patch.is_piece() {
            return Vec::new();
        }
        self.stretches(patch.from, patch.part, f64::midpoint(patch.clocks.0, patch.clocks.1), state)
    }

    /// Both halves of a patch, across its longer way; none of one that is narrow enough.
    pub(super) fn halves(&self, patch: &Patch) -> Vec<Patch> {
        let pieces = &self.chain[patch.from..=patch.to];
        let widest = pieces.iter().map(|p| p.r).fold(0.0, f64::max);
        let lengths = pieces.windows(2).map(|pair| (pair[1].t - pair[0].t).hypot(pair[1].r - pair[0].r));
        let along = lengths.sum::<f64>() * (patch.part.1 - patch.part.0);
        let around = (patch.clocks.1 - patch.clocks.0) * widest;
        let single = patch.is_piece();
        if single && along.max(around) < NARROW {
            return Vec::new();
        }
        if !single && (along > around || around < NARROW) {
            let middle = usize::midpoint(patch.from, patch.to);
            return vec![Patch { to: middle, ..*patch }, Patch { from: middle, ..*patch }];
        }
        if along > around {
            let middle = f64::midpoint(patch.part.0, patch.part.1);
            return vec![
                Patch { part: (patch.part.0, middle), ..*patch },
                Patch { part: (middle, patch.part.1), ..*patch },
            ];
        }
        let middle = f64::midpoint(patch.clocks.0, patch.clocks.1);
        vec![Patch { clocks: (patch.clocks.0, middle), ..*patch }, Patch { clocks: (middle, patch.clocks.1), ..*patch }]
    }
}

impl Patch {
    fn is_piece(&self) -> bool {
        self.to == self.from + 1
    }
}

/// Whether a region has all between rings about its own axis. Shoulders of neighbouring passes lie in one plane: only
/// here is the one proven gone.
fn holds(region: &Revolved, rings: &[Station]) -> bool {
    let range = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |r, v| (r.0.min(v), r.1.max(v)))
    };
    let ((first, last), (low, high)) = (range(&mut rings.iter().map(|p| p.t)), range(&mut rings.iter().map(|p| p.r)));
    let (from, to) = region.span();
    if !(from <= first && last <= to) {
        return false;
    }
    let meridian = &region.meridian;
    let (own_first, own_last) = (first.max(meridian.start()), last.max(meridian.start()));
    let ends = [meridian.radii(own_first), meridian.radii(own_last)];
    let between = meridian.points().iter().filter(|p| own_first <= p.t && p.t <= own_last).map(|p| p.r);
    let (least, most) = range(&mut ends.into_iter().flat_map(|(before, after)| [before, after]).chain(between));
    if region.fill == Fill::Beyond { low > most } else { high < least }
}

/// The chain with points on its longer pieces, so that patches of single pieces are small enough to be proven gone.
fn divided(chain: &[Station]) -> Vec<Station> {
    let mut all = vec![chain[0]];
    for pair in chain.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let parts = ((b.t - a.t).hypot(b.r - a.r) / LONGEST).ceil().clamp(1.0, 200.0);
        let between =
            |i: usize| Station::new(a.t + (b.t - a.t) * i as f64 / parts, a.r + (b.r - a.r) * i as f64 / parts);
        all.extend((1..parts as usize).map(between));
        all.push(b);
    }
    all
}

/// The part of a convex outline within the stock, under the saws and on the kept side of the planes, as far as the side
/// view shows it.
fn limited(mut outline: Vec<[f64; 2]>, state: &State<'_>) -> Vec<[f64; 2]> {
    let (half, length) = (state.stock.half_width(), state.stock.length);
    for side in [[0.0, 1.0, 0.0], [length, -1.0, 0.0], [half, 0.0, 1.0], [half, 0.0, -1.0]] {
        outline = clip_convex(&outline, side);
    }
    for removal in state.removals {
        match &removal.region {
            Region::HalfSpace(plane) => {
                let aside = plane.into.x.abs() * state.stock.half_width();
                outline = clip_convex(&outline, [plane.offset + aside, -plane.into.s, -plane.into.y]);
            }
            Region::Sawn(saw) => {
                if let Some(line) = over(saw, &outline) {
                    outline = clip_convex(&outline, line);
                }
            }
            Region::Revolved(_) => {}
        }
    }
    outline
}

/// A straight line that no point under a saw line stands over, between the ends of an outline; `None` where the cut ends
/// before.
fn over(saw: &Sawn, outline: &[[f64; 2]]) -> Option<[f64; 3]> {
    let (low, high) = outline.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |r, p| (r.0.min(p[0]), r.1.max(p[0])));
    if !(low < high && high <= saw.ends().1) {
        return None;
    }
    let (a, b) = (saw.height(low)?, saw.height(high)?);
    let slope = (b - a) / (high - low);
    let stands = |p: &Point| p.y - a - slope * (p.x - low);
    let within = saw.points().iter().filter(|p| low < p.x && p.x < high);
    let most = within.map(stands).fold(0.0, f64::max);
    Some([a + most - slope * low, slope, -1.0])
}
