//! What a plane shows of a piece: outlines of wood, with holes.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

use crate::geometry::Station;
use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::plane::Plane;
use crate::geometry::line::order::sort_by_number_falling;
use crate::geometry::line::pace::spend;
use crate::geometry::plane::polygon::{AreaMoments, Outline, area_moments, clip_convex, encloses, signed_area};
use crate::geometry::plane::trace::{self, CORNER_UNITS, Chains, Window};
use crate::geometry::region::meridian::Meridian;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Fill, Revolved};
use crate::geometry::region::sawn::Sawn;
use crate::geometry::region::solid::State;
use crate::geometry::region::stock::{Section as StockSection, Stock};

/// How far the chords of a section may stand off its curves unless asked otherwise, in mm.
pub const SECTION_TOLERANCE: f64 = 0.005;

/// Finer chords than this are not made, in mm.
const FINEST: f64 = 1e-4;

/// Scraps smaller than this are rounding, in mm2.
const SMALLEST: f64 = 1e-4;

/// The wood in a plane.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutFace {
    /// Its outlines; each hole lies in an outer one.
    pub outlines: Vec<Outline>,
}

impl CutFace {
    /// Area, centroid and second moments about the centroid. Exact for the outlines; those of the true curves within
    /// 0.05 % at [`SECTION_TOLERANCE`].
    #[must_use]
    pub fn moments(&self) -> AreaMoments {
        area_moments(&self.outlines)
    }

    /// Its parts, each an outline with the holes in it, the largest outline first.
    #[must_use]
    pub fn parts(&self) -> Vec<Self> {
        let mut outer: Vec<&Outline> = self.outlines.iter().filter(|outline| !outline.hole).collect();
        sort_by_number_falling(&mut outer, |outline| signed_area(&outline.points));
        let part = |outline: &Outline| {
            let around = std::slice::from_ref(outline);
            let inside =
                |hole: &&Outline| hole.hole && hole.points.first().is_some_and(|point| encloses(around, *point));
            Self { outlines: around.iter().chain(self.outlines.iter().filter(inside)).cloned().collect() }
        };
        outer.into_iter().map(part).collect()
    }

    /// Whether the point `[u, v]` of the plane is wood.
    #[must_use]
    pub fn encloses(&self, point: [f64; 2]) -> bool {
        encloses(&self.outlines, point)
    }
}

/// The section of a piece by a plane, chords within `tolerance` mm of the curves (1e-4 at the finest).
///
/// Corners are set so that areas are true: they may stand off the curves by up to two thirds of the tolerance.
#[must_use]
pub fn section(state: &State<'_>, plane: &Plane, tolerance: f64) -> CutFace {
    section_by(state, plane, tolerance, |_| true)
}

/// As [`section`], by some of the regions that are gone: the others must take nothing more there.
pub(crate) fn section_by(
    state: &State<'_>,
    plane: &Plane,
    tolerance: f64,
    matters: impl Fn(&Region) -> bool,
) -> CutFace {
    let window = window(state, plane, tolerance);
    if !window.reach.is_finite() {
        return CutFace::default();
    }
    let mattering = state.removals.iter().map(|removal| &removal.region).filter(|region| matters(region));
    let gone: Chains = mattering.flat_map(|region| chains(region, plane, window)).collect();
    let blank = difference(stock_chains(state.stock, plane, window), &gone);
    let Some(plug) = state.plug else { return face(blank) };
    let cut: Chains = state.cut_plug(plug).flat_map(|r| chains(&r.region, plane, window)).collect();
    let plug_wood = difference(trace::outlines(&plug.body, plane, window), &cut);
    if plug_wood.is_empty() {
        return face(blank);
    }
    face(blank.overlay(&plug_wood, OverlayRule::Union, FillRule::NonZero).into_iter().flatten().collect())
}

/// The outlines of one region in a plane, as far as the wood of `state` reaches.
#[must_use]
pub fn region_outlines(region: &Region, state: &State<'_>, plane: &Plane, tolerance: f64) -> Vec<Outline> {
    let window = window(state, plane, tolerance);
    if !window.reach.is_finite() {
        return Vec::new();
    }
    let outer = vec![window.square()];
    let within = outer.overlay(&chains(region, plane, window), OverlayRule::Intersect, FillRule::NonZero);
    face(within.into_iter().flatten().collect()).outlines
}

/// A window that holds all the wood, whatever the plane.
fn window(state: &State<'_>, plane: &Plane, tolerance: f64) -> Window {
    let (mut radius, mut start) = (state.stock.largest_radius(), 0.0_f64);
    if let Some(plug) = state.plug {
        radius = radius.max(plug.body.meridian.largest_radius());
        start = start.min(plug.body.meridian.start());
    }
    let sideways = plane.origin.radius() + radius;
    let lengthways = (plane.origin.s - start).abs().max((plane.origin.s - state.stock.length).abs());
    let tolerance = if tolerance.is_finite() { tolerance.max(FINEST) } else { SECTION_TOLERANCE };
    Window { reach: sideways.hypot(lengthways) + 1.0, tolerance }
}

fn difference(wood: Chains, gone: &Chains) -> Chains {
    if wood.is_empty() || gone.is_empty() {
        return wood;
    }
    wood.overlay(gone, OverlayRule::Difference, FillRule::NonZero).into_iter().flatten().collect()
}

fn face(chains: Chains) -> CutFace {
    let outline = |points: Vec<[f64; 2]>| {
        let area = signed_area(&points);
        (area.abs() > SMALLEST).then_some(Outline { hole: area < 0.0, points })
    };
    CutFace { outlines: chains.into_iter().filter_map(outline).collect() }
}

fn stock_chains(stock: &Stock, plane: &Plane, window: Window) -> Chains {
    match stock.section {
        StockSection::Square { half_side } => {
            let s = height_of(plane, |p| p.s);
            let sides = [height_of(plane, |p| p.x), height_of(plane, |p| p.y)];
            let mut limits = vec![s, minus(stock.length, s)];
            for side in sides {
                limits.extend([plus(half_side, side), minus(half_side, side)]);
            }
            convex(window, &limits)
        }
        StockSection::Round { radius } => {
            let Ok(meridian) = Meridian::new(vec![Station::new(0.0, radius), Station::new(stock.length, radius)])
            else {
                return Vec::new();
            };
            trace::outlines(&Revolved { axis: Axis::A, meridian, fill: Fill::Within }, plane, window)
        }
    }
}

fn chains(region: &Region, plane: &Plane, window: Window) -> Chains {
    match region {
        Region::Revolved(revolved) => trace::outlines(revolved, plane, window),
        Region::Sawn(sawn) => sawn_chains(sawn, plane, window),
        Region::HalfSpace(half_space) => {
            let depth = height_of(plane, |p| p.dot(half_space.into));
            convex(window, &[[depth[0] - half_space.offset + OVERLAP, depth[1], depth[2]]])
        }
    }
}

/// Neighbouring pieces of a saw line, and a parting plane and the pass that ends on it, overlap by this much, so that no
/// sliver stays between them, in mm.
const OVERLAP: f64 = 1e-5;

fn sawn_chains(sawn: &Sawn, plane: &Plane, window: Window) -> Chains {
    let (s, y) = (height_of(plane, |p| p.s), height_of(plane, |p| p.y));
    let pieces = sawn.points().windows(2).enumerate();
    // Each is a quadrangle, cut by all the others.
    spend(4 * CORNER_UNITS * sawn.points().len());
    let last = sawn.points().len() - 2;
    pieces
        .flat_map(|(i, pair)| {
            let (a, b) = (pair[0], pair[1]);
            let slope = (b.y - a.y) / (b.x - a.x);
            let end = if i == last { b.x } else { b.x + OVERLAP };
            let over = [y[0] - a.y - slope * (s[0] - a.x), y[1] - slope * s[1], y[2] - slope * s[2]];
            convex(window, &[plus(-a.x, s), minus(end, s), over])
        })
        .collect()
}

/// A length that is linear over the plane: its value at the origin, and its slopes along `u` and `v`.
type Linear = [f64; 3];

fn height_of(plane: &Plane, length: impl Fn(crate::geometry::frame::vector::Vector) -> f64) -> Linear {
    [length(plane.origin), length(plane.right), length(plane.up)]
}

fn plus(constant: f64, l: Linear) -> Linear {
    [constant + l[0], l[1], l[2]]
}

fn minus(constant: f64, l: Linear) -> Linear {
    [constant - l[0], -l[1], -l[2]]
}

/// The part of the window where every length is positive.
fn convex(window: Window, limits: &[Linear]) -> Chains {
    let mut polygon = window.square();
    for limit in limits {
        polygon = clip_convex(&polygon, *limit);
    }
    if polygon.len() < 3 { Vec::new() } else { vec![polygon] }
}
