//! The fin: rough wood left between the end plane of one pass and the leaning start plane of the next.

use std::f64::consts::TAU;

use serde::Serialize;
use smallvec::SmallVec;

use super::place::Place;
use crate::design::{Cut, Design};
use crate::geometry::line::order::{sort_by_number_falling, sort_pairs};
use crate::geometry::{Ray, Revolved, Section, Vector};
use crate::piece::Piece;

/// Rough wood that no pass reaches, between passes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fin {
    /// Its greatest length along the blank, in mm: how far the pass before it must run on.
    pub length_mm: f64,
    /// The middle of its longest stretch.
    pub place: Place,
    /// The share of the way around the blank on which rough wood is left, 0 to 1.
    pub share: f64,
    /// The pass that ends before it, by its place in working order from 0.
    pub after_cut: usize,
    /// The pass that starts after it.
    pub before_cut: usize,
}

/// Directions around the blank.
const CLOCKS: usize = 120;
/// Stretches shorter than this come off with the first stroke of sandpaper, in mm.
const NO_FIN: f64 = 0.05;

/// A step into a gap from either end, in mm.
const JUST_INSIDE: f64 = 0.01;

/// Every fin, the longest first. Lengths within 0.05 mm.
///
/// Looked for along lines beside axis A on the surface of the blank, where a leaning plane gapes most, and at half its
/// depth.
#[must_use]
pub fn fins(design: &Design, piece: &Piece) -> Vec<Fin> {
    let cuts = design.cuts.iter().enumerate().filter(|(_, cut)| matches!(cut, Cut::Pass(_)));
    let passes: Vec<(usize, &Revolved)> = cuts.filter_map(|(cut, _)| Some((cut, piece.revolved(cut)?))).collect();
    let mut found: Vec<Fin> = Vec::new();
    for depth in [0.999, 0.75, 0.5] {
        let mut at_depth: Vec<Fin> = Vec::new();
        for i in 0..CLOCKS {
            let clock = TAU * i as f64 / CLOCKS as f64;
            for gap in gaps(&passes, piece, clock, depth) {
                add(&mut at_depth, gap);
            }
        }
        for fin in at_depth {
            match found.iter_mut().find(|f| f.after_cut == fin.after_cut && f.before_cut == fin.before_cut) {
                Some(known) if known.length_mm >= fin.length_mm => {}
                Some(known) => *known = fin,
                None => found.push(fin),
            }
        }
    }
    sort_by_number_falling(&mut found, |fin| fin.length_mm);
    found
}

fn add(fins: &mut Vec<Fin>, gap: Gap) {
    let share = 1.0 / CLOCKS as f64;
    let length_mm = gap.to - gap.from;
    match fins.iter_mut().find(|f| f.after_cut == gap.after_cut && f.before_cut == gap.before_cut) {
        Some(fin) => {
            fin.share += share;
            if length_mm > fin.length_mm {
                (fin.length_mm, fin.place) = (length_mm, gap.place);
            }
        }
        None => {
            fins.push(Fin { length_mm, place: gap.place, share, after_cut: gap.after_cut, before_cut: gap.before_cut })
        }
    }
}

/// A stretch along the blank that no pass spans and that is still wood in the finished piece.
struct Gap {
    from: f64,
    to: f64,
    place: Place,
    after_cut: usize,
    before_cut: usize,
}

fn gaps(passes: &[(usize, &Revolved)], piece: &Piece, clock: f64, depth: f64) -> Vec<Gap> {
    let radius = depth * surface_radius(piece, clock);
    let start = Vector::new(radius * clock.sin(), radius * clock.cos(), 0.0);
    let ray = Ray { start, direction: Vector::new(0.0, 0.0, 1.0) };
    let spans: SmallVec<[Option<(f64, f64)>; 8]> =
        passes.iter().map(|(_, pass)| pass.span_along(ray).iter().next()).collect();
    let starts = spans.iter().enumerate().filter_map(|(place, span)| Some((span.as_ref()?.0, place)));
    let mut starts: SmallVec<[(f64, usize); 8]> = starts.collect();
    sort_pairs(&mut starts);
    let mut found = Vec::new();
    // The end that reaches farthest so far, and whose it is.
    let mut last: Option<(f64, usize)> = None;
    for (start, place) in starts {
        if let Some((end, after)) = last.filter(|(end, _)| start - end > NO_FIN) {
            let middle = ray.at(f64::midpoint(end, start));
            // Where the piece is parted in between, what stays is rough wood before its end, not a fin between passes.
            let stays = [end + JUST_INSIDE, f64::midpoint(end, start), start - JUST_INSIDE];
            if stays.iter().all(|s| piece.solid.finished().contains(ray.at(*s))) {
                let (after_cut, before_cut) = (passes[after].0, passes[place].0);
                found.push(Gap { from: end, to: start, place: Place::of(middle), after_cut, before_cut });
            }
        }
        let end = spans[place].map_or(f64::NEG_INFINITY, |span| span.1);
        if last.is_none_or(|(farthest, _)| end > farthest) {
            last = Some((end, place));
        }
    }
    found
}

/// Distance from axis A to the blank's surface in a direction, in mm.
fn surface_radius(piece: &Piece, clock: f64) -> f64 {
    match piece.solid.stock.section {
        Section::Round { radius } => radius,
        Section::Square { half_side } => half_side / clock.sin().abs().max(clock.cos().abs()),
    }
}
