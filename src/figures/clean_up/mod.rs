//! Figure 3: whether each pass finds wood all the way round, and why where it does not.

mod least;
mod missing;
mod turned;

use std::f64::consts::TAU;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::place::Place;
use crate::design::{Cut, Design, Pass};
use crate::geometry::{Circle, Intervals, Pace, Region, Revolved, at_once};
use crate::piece::Piece;
use missing::{Missing, share};
use turned::Turned;

/// How one pass cleans up.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
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
    /// The greatest share of the circle that other passes of the same part shape, 0 to 1. It counts as wood found: nothing
    /// of it is missing.
    pub share_shaped_with: f64,
}

/// A flat where the blank's own surface stays.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
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

/// Stations on each pass.
const STATIONS: usize = 28;
/// Corners nearer together than this are flattened curves, in mm.
const CLOSEST: f64 = 1.5;
/// An arc narrower than this is rounding, in radians.
const NARROWEST: f64 = 1e-6;
/// Steps are looked at this far to either side, in mm.
const BESIDE: f64 = 1e-6;

/// How every pass cleans up: at 29 even stations, at the profile's corners and where it is widest, on both sides of its
/// steps and of what changes suddenly in earlier cuts. There shares are within 1e-6 of a turn and flats within 0.0001 mm. The
/// least share is proven: no station has less by more than 0.001, but for stretches shorter than 2e-6 mm and what an earlier
/// cut takes by less than 1e-9 mm. The widest flat and the greatest shares cut earlier and in hollows are those of the
/// stations. What other passes of the same part shape is not missing, whatever else took it.
///
/// # Units
/// mm; shares are fractions of a turn.
#[must_use]
pub fn clean_ups(design: &Design, piece: &Piece) -> Vec<CleanUp> {
    at_once(clean_ups_in_slices(design, piece, &Pace::unbroken()))
}

/// As [`clean_ups`], in slices.
pub async fn clean_ups_in_slices(design: &Design, piece: &Piece, pace: &Pace) -> Vec<CleanUp> {
    let passes = design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Pass(pass) => Some((cut, pass)),
        _ => None,
    });
    let mut all = Vec::new();
    for (cut, pass) in passes {
        pace.tell(cut, design.cuts.len());
        let Some(turned) = Turned::of(cut, design, piece) else { continue };
        all.push(clean_up(&turned, pass, pace).await);
    }
    all
}

async fn clean_up(looked_at: &Turned<'_>, pass: &Pass, pace: &Pace) -> CleanUp {
    let turned = looked_at.region;
    let mut result = CleanUp {
        cut: looked_at.cut,
        name: pass.name.clone(),
        least_share: 1.0,
        place: Place::of(turned.axis.point(turned.meridian.start(), 0.0, 0.0)),
        flat: None,
        share_cut_earlier: 0.0,
        share_in_hollow: 0.0,
        share_shaped_with: 0.0,
    };
    let (from, to) = (turned.meridian.start(), turned.meridian.end());
    let even = (0..=STATIONS).map(|i| {
        // Just inside the ends, where the shoulders begin.
        let part = (i as f64 / STATIONS as f64).clamp(1e-6, 1.0 - 1e-6);
        from + (to - from) * part
    });
    let points = turned.meridian.points();
    let within = |t: &f64| *t > from && *t < to;
    let corners = points.iter().map(|p| p.t).filter(within);
    let steps = points.windows(2).filter(|pair| pair[0].t == pair[1].t).map(|pair| pair[0].t).filter(within);
    let mut stations: Vec<f64> = corners.collect();
    stations.dedup_by(|b, a| *b - *a < CLOSEST);
    stations.extend(even);
    let changes = changes(looked_at).into_iter().chain(widest(turned)).filter(within);
    stations.extend(steps.chain(changes).flat_map(|t| [t - BESIDE, t + BESIDE]));
    stations.retain(within);
    stations.sort_unstable_by(f64::total_cmp);
    let mut lowest = (1.0, turned.meridian.start());
    for t in stations {
        let share = station(looked_at, t, &mut result);
        if share < lowest.0 {
            lowest = (share, t);
        }
        pace.pause().await;
    }
    let least = least::least(looked_at, lowest, pace).await;
    if least.1 != lowest.1 {
        station(looked_at, least.1, &mut result);
    }
    result
}

/// The shares of a pass's circle at one station, 0 to 1: what meets wood, and what is missing because of earlier cuts and of
/// hollows, as of a pass that shapes no part with others; `None` without such a pass.
#[must_use]
pub fn shares_at(piece: &Piece, cut: usize, t_mm: f64) -> Option<[f64; 3]> {
    let turned = Turned { cut, region: piece.revolved(cut)?, piece, mates: Vec::new() };
    let radius = turned.region.meridian.radius_before(t_mm);
    let circle = Circle::new(&turned.region.axis, t_mm, radius);
    let missing = Missing::of(&circle, t_mm, radius, &turned);
    Some([missing.present(), share(&missing.earlier), share(&missing.hollow)])
}

/// Where what an earlier cut or one of the same part leaves of a pass's circle changes suddenly: at the cut's ends, its
/// steps and where it is narrowest, and where a leaning end plane first and last meets the circle.
fn changes(looked_at: &Turned<'_>) -> Vec<f64> {
    let turned = looked_at.region;
    let mut all = Vec::new();
    for removal in looked_at.before().chain(looked_at.mates()) {
        let Region::Revolved(earlier) = &removal.region else { continue };
        let chain = earlier.meridian.points();
        let lean = earlier.axis.along().cross(turned.axis.along()).length();
        for (i, point) in chain.iter().enumerate() {
            let beside = |j: Option<usize>| j.and_then(|j| chain.get(j));
            let (before, after) = (beside(i.checked_sub(1)), beside(Some(i + 1)));
            let ends = before.is_none() || after.is_none();
            let is_step = [before, after].into_iter().flatten().any(|other| other.t == point.t);
            let is_narrowest = [before, after].into_iter().flatten().all(|other| other.r >= point.r);
            if ends || is_step || is_narrowest {
                let seen = turned.axis.see(earlier.axis.point(point.t, 0.0, 0.0)).t;
                let reach = turned.meridian.radius_before(seen) * lean;
                all.extend([seen - reach, seen, seen + reach]);
            }
        }
    }
    all.sort_unstable_by(f64::total_cmp);
    all.dedup_by(|b, a| *b - *a < BESIDE);
    all
}

/// Where a pass is wider than on either side: there the blank is too small first.
fn widest(turned: &Revolved) -> impl Iterator<Item = f64> + '_ {
    let points = turned.meridian.points().windows(3);
    points.filter(|three| three[0].r <= three[1].r && three[2].r <= three[1].r).map(|three| three[1].t)
}

/// The share that meets wood at one station, entered into the result.
fn station(looked_at: &Turned<'_>, t: f64, result: &mut CleanUp) -> f64 {
    let turned = looked_at.region;
    let radius = turned.meridian.radius_before(t);
    if radius <= 0.0 {
        return 1.0;
    }
    let circle = Circle::new(&turned.axis, t, radius);
    let missing = Missing::of(&circle, t, radius, looked_at);
    let present = missing.present();
    if present < result.least_share {
        result.least_share = present.max(0.0);
        result.place = Place::of(turned.axis.point(t, 0.0, 0.0));
    }
    result.share_cut_earlier = result.share_cut_earlier.max(share(&missing.earlier));
    result.share_in_hollow = result.share_in_hollow.max(share(&missing.hollow));
    result.share_shaped_with = result.share_shaped_with.max(share(&missing.shared));
    if let Some(flat) = widest_flat(&missing.blank, radius, &circle, looked_at.piece)
        && result.flat.is_none_or(|known| flat.width_mm > known.width_mm)
    {
        result.flat = Some(flat);
    }
    present
}

/// The widest of the arcs outside the blank.
fn widest_flat(outside: &Intervals, radius: f64, circle: &Circle, piece: &Piece) -> Option<Flat> {
    let arcs: Vec<(f64, f64)> = outside.iter().collect();
    let (mut from, mut to) = arcs.iter().copied().max_by(|p, q| (p.1 - p.0).total_cmp(&(q.1 - q.0)))?;
    // One over 12 o'clock counts at both ends of the turn.
    if let ([first, .., last], true) = (arcs.as_slice(), arcs.len() > 1)
        && first.0 <= 0.0
        && last.1 >= TAU
        && first.1 + TAU - last.0 > to - from
    {
        (from, to) = (last.0, first.1 + TAU);
    }
    if to - from < NARROWEST {
        return None;
    }
    let stock = &piece.solid.stock;
    let half = ((to - from) / 2.0).min(TAU / 4.0);
    Some(Flat {
        width_mm: 2.0 * radius * half.sin(),
        depth_mm: circle.most_over_sides(stock, from, to).max(0.0),
        place: Place::of(circle.at(f64::midpoint(from, to))),
        cured_by_mm: 2.0 * (stock.half_width() + circle.most_over_sides(stock, 0.0, TAU)),
    })
}
