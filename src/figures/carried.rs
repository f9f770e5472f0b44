//! Whether every piece of work is carried, and whether the tail centre's thrust goes through wood.

use serde::Serialize;

use super::place::Place;
use super::plan::order;
use super::sides::turns_a_side;
use super::support::{TailEnd, first_lack, in_order, supports, works};
use crate::design::{AxisName, Cut, Design, Shop};
use crate::geometry::{Axis, Intervals, Ray, Region, Role, State, Station, Vector};
use crate::piece::Piece;

/// What carries the work from the first step to the last.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Carried {
    /// Why no plan carries the work through, in a sentence; empty where one does.
    pub lack: String,
    /// The thrust of the tail centre on every moved axis, the worst first.
    pub thrusts: Vec<Thrust>,
    /// Plugs that are looser in the bore than they need be.
    pub loose: Vec<LoosePlug>,
}

/// The thrust of the tail centre on one axis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Thrust {
    /// The pass that is turned, by its place in the design from 0.
    pub cut: usize,
    /// Its axis.
    pub axis: AxisName,
    /// How far the mark on the plug, and the line from it to the rim, keep inside the rim's outer edge, in mm: negative
    /// where they lie out over it and the plug tips; absent without a plug.
    pub inside_rim_mm: Option<f64>,
    /// The length of the line from tail to head that lies outside the work, in mm.
    pub outside_mm: f64,
    /// Whether the pass turns one side of a part: beside that the thrust always runs outside.
    #[serde(skip)]
    pub beside_sides: bool,
    /// The middle of the longest stretch outside; absent where there is none.
    pub outside_at: Option<Place>,
}

/// A spigot in a wider bore.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LoosePlug {
    /// The cut that fits it, by its place in the design from 0.
    pub cut: usize,
    /// The least diameter of the bore over the spigot, in mm.
    pub bore_mm: f64,
    /// What the spigot is smaller, in mm.
    pub play_mm: f64,
}

/// How deep under a face its wood is looked for, in mm.
const INTO_FACE: f64 = 0.2;

/// What carries the work. Exact for the flattened profiles.
#[must_use]
pub fn carried(design: &Design, piece: &Piece, shop: &Shop) -> Carried {
    let works = works(design, piece);
    let loose = loose_plugs(design, piece);
    let order = match order(design, &works) {
        Ok(order) => order,
        Err(error) => return Carried { lack: error.to_string(), thrusts: Vec::new(), loose },
    };
    let supports = supports(piece, &works, &order, shop.chuck.overhang_times);
    let lack = first_lack(&supports, &order).map_or_else(String::new, |lack| lack.sentence(design));
    let solid = in_order(&piece.solid, &order);
    let mut thrusts = Vec::new();
    for (done, (support, cut)) in supports.iter().zip(&order).enumerate() {
        let Some(Cut::Pass(pass)) = design.cuts.get(*cut) else { continue };
        let axis = piece.axis(pass.axis).filter(|axis| **axis != Axis::A && support.axis == Some(pass.axis));
        let borne = matches!(support.tail, TailEnd::LiveCentreOnPlug | TailEnd::LiveCentreOnWood);
        if let (Some(axis), true) = (axis, borne) {
            let thrust = thrust(&solid.state(done), piece, axis, *cut, pass.axis);
            let beside_sides = turns_a_side(design, piece, *cut);
            thrusts.extend(thrust.map(|thrust| Thrust { beside_sides, ..thrust }));
        }
    }
    let inside = |thrust: &Thrust| thrust.inside_rim_mm.unwrap_or(f64::MAX).min(-thrust.outside_mm);
    crate::geometry::line::order::sort_by_number(&mut thrusts, inside);
    Carried { lack, thrusts, loose }
}

fn thrust(state: &State<'_>, piece: &Piece, axis: &Axis, cut: usize, name: AxisName) -> Option<Thrust> {
    let rim = piece.rim();
    let (on_rim, on_face) = (axis.centre(rim)?, axis.centre(piece.tail_face)?);
    let inside_rim_mm = state.plug.map(|_| {
        let inside = |mark: Vector| outer_radius(state, rim, mark) - mark.radius();
        inside(on_rim).min(inside(on_face))
    });
    let (longest, outside_mm) = outside(state, piece, axis, rim);
    let outside_at = longest.map(Place::of);
    Some(Thrust { cut, axis: name, inside_rim_mm, outside_mm, beside_sides: false, outside_at })
}

/// The outer radius of the wood at the rim toward a mark, in mm.
fn outer_radius(state: &State<'_>, rim: f64, mark: Vector) -> f64 {
    let direction = Vector::new(mark.x, mark.y, 0.0).unit().unwrap_or(Vector::new(0.0, 1.0, 0.0));
    // The plug itself is no rim.
    let bare = State { plug: None, ..*state };
    let ray = Ray { start: Vector::new(0.0, 0.0, rim + INTO_FACE), direction };
    bare.along(ray).iter().last().map_or(0.0, |(_, to)| to)
}

/// Where the line of thrust between rim and head lies neither in wood nor in the hollow: the middle of the longest stretch,
/// and the length of all of them, in mm.
fn outside(state: &State<'_>, piece: &Piece, axis: &Axis, rim: f64) -> (Option<Vector>, f64) {
    let (Some(start), Some(end)) = (axis.centre(rim), axis.centre(piece.head_face)) else { return (None, 0.0) };
    let ray = Ray { start, direction: axis.along() };
    let mut filled = state.along(ray);
    for hollow in piece.solid.with_role(Role::Inside) {
        if let Region::Revolved(hollow) = &hollow.region {
            filled = filled.union(&hollow.along(ray));
        }
    }
    let line = Intervals::one(0.0, (end - start).length());
    let gaps = line.minus(&filled);
    let longest = gaps.iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
    let middle = longest.map(|(from, to)| ray.at(f64::midpoint(from, to)));
    (middle, gaps.iter().map(|(from, to)| to - from).sum())
}

fn loose_plugs(design: &Design, piece: &Piece) -> Vec<LoosePlug> {
    let mut found = Vec::new();
    for (cut, choice) in design.cuts.iter().enumerate() {
        let Cut::FitPlug(plug) = choice else { continue };
        let rim = piece.rim();
        let bores = piece.solid.with_role(Role::Inside).filter_map(|removal| match &removal.region {
            Region::Revolved(bore) if bore.axis == Axis::A => Some(bore),
            _ => None,
        });
        // The spigot is held where the bore is narrowest over its length.
        let narrowest = |bore: &crate::geometry::Revolved| {
            let profile = &bore.meridian;
            let (from, to) = (rim.max(profile.start()), (rim + plug.spigot_length_mm).min(profile.end()));
            let corners = profile.points().iter().filter(|Station { t, .. }| (from..=to).contains(t)).map(|p| p.r);
            let ends = [profile.radius_after(from), profile.radius_before(to)];
            (from < to).then(|| corners.chain(ends).fold(f64::INFINITY, f64::min))
        };
        if let Some(radius) = bores.filter_map(narrowest).reduce(f64::max) {
            found.push(LoosePlug { cut, bore_mm: 2.0 * radius, play_mm: 2.0 * radius - plug.spigot_diameter_mm });
        }
    }
    found
}
