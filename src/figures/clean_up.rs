//! Figure 3: whether each pass finds wood all the way round, and why where it does not.

use std::f64::consts::TAU;

use serde::Serialize;

use super::place::Place;
use crate::design::{Cut, Design, Pass, Piece};
use crate::geometry::{Region, Removal, Revolved, Role, Section, Vector};

/// How one pass cleans up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CleanUp {
    /// The pass, by its place in working order from 0.
    pub cut: usize,
    /// Its name.
    pub name: String,
    /// The least share of the circle that meets wood at any station, 0 to 1.
    pub least_share: f64,
    /// Where that is.
    pub place: Place,
    /// The widest flat left by a blank that is too small, if any.
    pub flat: Option<Flat>,
    /// The greatest share of the circle missing because an earlier pass went deeper, 0 to 1.
    pub share_cut_earlier: f64,
    /// The greatest share of the circle missing because a hollow is there, 0 to 1.
    pub share_in_hollow: f64,
}

/// A flat where the blank's own surface stays.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Flat {
    /// Its width across the piece, in mm.
    pub width_mm: f64,
    /// How deep it is under the wanted surface, in mm.
    pub depth_mm: f64,
    /// Its middle, where it is widest.
    pub place: Place,
    /// The section that would clean up: the side of a square blank or the diameter of a round one, in mm.
    pub cured_by_mm: f64,
}

/// Why a point of the circle finds no wood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Missing {
    Blank,
    Earlier,
    Hollow,
}

/// Stations on each pass.
const STATIONS: usize = 28;
/// Corners nearer together than this are flattened curves, in mm.
const CLOSEST: f64 = 1.5;
/// Directions around each circle; widths of flats are then refined.
const CLOCKS: usize = 72;

/// How every pass cleans up. Shares within 1/72 of a turn, flats within 0.02 mm, at 29 even stations
/// and at the profile's corners.
///
/// # Units
/// mm; shares are fractions of a turn.
#[must_use]
pub fn clean_ups(design: &Design, piece: &Piece) -> Vec<CleanUp> {
    let passes = design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Pass(pass) => Some((cut, pass)),
        _ => None,
    });
    passes.filter_map(|(cut, pass)| clean_up(cut, pass, piece)).collect()
}

fn clean_up(cut: usize, pass: &Pass, piece: &Piece) -> Option<CleanUp> {
    let turned = piece.revolved(cut)?;
    let mut result = CleanUp {
        cut,
        name: pass.name.clone(),
        least_share: 1.0,
        place: Place::of(turned.axis.point(turned.meridian.start(), 0.0, 0.0)),
        flat: None,
        share_cut_earlier: 0.0,
        share_in_hollow: 0.0,
    };
    let (from, to) = (turned.meridian.start(), turned.meridian.end());
    let even = (0..=STATIONS).map(|i| {
        // Just inside the ends, where the shoulders begin.
        let part = (i as f64 / STATIONS as f64).clamp(1e-6, 1.0 - 1e-6);
        from + (to - from) * part
    });
    let corners = turned.meridian.points().iter().map(|p| p.0).filter(|t| *t > from && *t < to);
    let mut stations: Vec<f64> = even.chain(corners).collect();
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|b, a| *b - *a < CLOSEST);
    let directions = turned.axis.directions(CLOCKS);
    for t in stations {
        station(cut, t, turned, &directions, piece, &mut result);
    }
    Some(result)
}

fn station(cut: usize, t: f64, turned: &Revolved, directions: &[Vector], piece: &Piece, result: &mut CleanUp) {
    let radius = turned.meridian.radius_before(t);
    if radius <= 0.0 {
        return;
    }
    let point = |clock: f64| turned.axis.point(t, radius, clock);
    let may_reach = |region: &Region| match region {
        Region::Revolved(other) => other.may_reach_disc(&turned.axis, t, radius),
        Region::Sawn(_) | Region::HalfSpace(_) => true,
    };
    let before: Vec<&Removal> = piece.solid.removals.iter().filter(|r| r.cut < cut && may_reach(&r.region)).collect();
    let around = directions.iter().map(|toward| turned.axis.point_toward(t, radius, *toward));
    let reasons: Vec<Option<Missing>> = around.map(|point| missing(point, piece, &before)).collect();
    let share = |wanted: Missing| reasons.iter().filter(|r| **r == Some(wanted)).count() as f64 / CLOCKS as f64;
    let present = reasons.iter().filter(|r| r.is_none()).count() as f64 / CLOCKS as f64;
    if present < result.least_share {
        result.least_share = present;
        result.place = Place::of(turned.axis.point(t, 0.0, 0.0));
    }
    result.share_cut_earlier = result.share_cut_earlier.max(share(Missing::Earlier));
    result.share_in_hollow = result.share_in_hollow.max(share(Missing::Hollow));
    if share(Missing::Blank) > 0.0
        && let Some(flat) = widest_flat(&reasons, radius, &point, piece)
        && result.flat.is_none_or(|known| flat.width_mm > known.width_mm)
    {
        result.flat = Some(flat);
    }
}

/// Why there is no wood at a point of a pass's circle, of which some earlier cuts may have taken part; `None` where
/// there is.
fn missing(point: Vector, piece: &Piece, before: &[&Removal]) -> Option<Missing> {
    let stock = &piece.solid.stock;
    // Past the ends of the work there is nothing to clean up.
    let past_the_ends = point.s < 0.0 || point.s > stock.length;
    if past_the_ends {
        return None;
    }
    let taken = |role: Role| before.iter().any(|r| r.role == role && r.region.contains(point));
    if taken(Role::Outside) {
        return Some(Missing::Earlier);
    }
    if stock.depth_from_sides(point) < 0.0 {
        return Some(Missing::Blank);
    }
    taken(Role::Inside).then_some(Missing::Hollow)
}

/// The widest run of the circle outside the blank.
fn widest_flat(
    reasons: &[Option<Missing>],
    radius: f64,
    point: &impl Fn(f64) -> Vector,
    piece: &Piece,
) -> Option<Flat> {
    let outside = |i: usize| reasons[i % CLOCKS] == Some(Missing::Blank);
    let stock = &piece.solid.stock;
    let depth = |clock: f64| -stock.depth_from_sides(point(clock));
    let step = TAU / CLOCKS as f64;
    let whole = (0..CLOCKS).all(outside);
    let runs = (0..CLOCKS).filter(|i| outside(*i) && (whole || !outside(i + CLOCKS - 1))).map(|first| {
        let count = (first..first + CLOCKS).take_while(|i| outside(*i)).count();
        let (a, b) = (first as f64 * step, (first + count - 1) as f64 * step);
        // The ends lie between the last point outside and the next inside.
        (edge(a, a - step, &depth), edge(b, b + step, &depth))
    });
    let (a, b) = runs.max_by(|p, q| (p.1 - p.0).total_cmp(&(q.1 - q.0)))?;
    let middle = (a + b) / 2.0;
    let half = ((b - a) / 2.0).min(TAU / 4.0);
    Some(Flat {
        width_mm: 2.0 * radius * half.sin(),
        depth_mm: (0..=16).map(|i| depth(a + (b - a) * f64::from(i) / 16.0)).fold(0.0, f64::max),
        place: Place::of(point(middle)),
        cured_by_mm: cure(stock.section, (0..CLOCKS).map(|i| point(i as f64 * step)).chain([point(middle)])),
    })
}

/// Where the depth changes sign between a point outside the blank and one inside it.
fn edge(outside: f64, inside: f64, depth: &impl Fn(f64) -> f64) -> f64 {
    let (mut out, mut within) = (outside, inside);
    for _ in 0..30 {
        let middle = (out + within) / 2.0;
        if depth(middle) > 0.0 { out = middle } else { within = middle }
    }
    out
}

fn cure(section: Section, circle: impl Iterator<Item = Vector>) -> f64 {
    2.0 * match section {
        Section::Square { .. } => circle.map(|p| p.x.abs().max(p.y.abs())).fold(0.0, f64::max),
        Section::Round { .. } => circle.map(|p| p.radius()).fold(0.0, f64::max),
    }
}
