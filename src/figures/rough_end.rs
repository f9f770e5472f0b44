//! Rough wood that no pass reaches between the last pass and the end of the piece.

use serde::Serialize;

use super::place::Place;
use crate::design::{Cut, Design, Side};
use crate::geometry::{Ray, Region, Revolved, Section, Vector};
use crate::piece::Piece;

/// Rough wood at the head end of the finished piece.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RoughEnd {
    /// Its greatest length along the blank, in mm: how far the last pass must run on.
    pub length_mm: f64,
    /// How far it stands out from axis A, in mm.
    pub radius_mm: f64,
    /// The middle of its longest stretch.
    pub place: Place,
    /// The last pass before it, by its place in working order from 0.
    pub after_cut: usize,
}

/// Directions around the blank.
const CLOCKS: usize = 72;
/// Depths under the blank's surface, as shares of its radius there.
const DEPTHS: [f64; 3] = [0.999, 0.75, 0.5];
/// Stretches shorter than this come off with the first stroke of sandpaper, in mm.
const NOTHING: f64 = 0.05;

/// The rough wood between the last pass and the end of a piece that is parted off; `None` where there is none. Lengths
/// within 0.05 mm, along lines beside axis A on the surface of the blank, where a leaning plane leaves most, and deeper.
#[must_use]
pub fn rough_end(design: &Design, piece: &Piece) -> Option<RoughEnd> {
    let parted = |cut: &Cut| matches!(cut, Cut::Part(plane) | Cut::Face(plane) if plane.removes == Side::Head);
    if !design.cuts.iter().any(parted) {
        return None;
    }
    let passes = design.cuts.iter().enumerate().filter(|(_, cut)| matches!(cut, Cut::Pass(_)));
    let passes: Vec<(usize, &Revolved)> = passes.filter_map(|(cut, _)| Some((cut, piece.revolved(cut)?))).collect();
    let mut worst: Option<RoughEnd> = None;
    for share in DEPTHS {
        for i in 0..CLOCKS {
            let clock = std::f64::consts::TAU * i as f64 / CLOCKS as f64;
            let found = beyond_the_last(&passes, piece, clock, share);
            if let Some(found) = found.filter(|it| worst.is_none_or(|known| it.length_mm > known.length_mm)) {
                worst = Some(found);
            }
        }
    }
    worst
}

/// The wood along one line beyond the last pass whose span the line crosses.
fn beyond_the_last(passes: &[(usize, &Revolved)], piece: &Piece, clock: f64, share: f64) -> Option<RoughEnd> {
    let (sin, cos) = clock.sin_cos();
    let radius = share
        * match piece.solid.stock.section {
            Section::Round { radius } => radius,
            Section::Square { half_side } => half_side / sin.abs().max(cos.abs()),
        };
    let start = Vector::new(radius * sin, radius * cos, 0.0);
    let ray = Ray { start, direction: Vector::new(0.0, 0.0, 1.0) };
    let end = parted_at(piece, ray);
    // What starts beyond the end of the piece turns waste: the tenon.
    let turned = passes.iter().filter_map(|(cut, pass)| Some((pass.span_along(ray).iter().next()?, *cut)));
    let before = turned.filter(|((start, _), _)| *start < end).map(|((_, end), cut)| (end, cut));
    let (last, after_cut) = before.max_by(|a, b| a.0.total_cmp(&b.0))?;
    // On most lines the last pass reaches the end: the wood along them need not be looked at.
    if last >= end - NOTHING {
        return None;
    }
    let (from, to) = piece.solid.finished().along(ray).iter().last()?;
    let from = from.max(last);
    (to - from > NOTHING).then(|| RoughEnd {
        length_mm: to - from,
        radius_mm: radius,
        place: Place::of(ray.at(f64::midpoint(from, to))),
        after_cut,
    })
}

/// Where the first parting or facing of the head end takes the rest of a line along the blank; infinite where none does.
fn parted_at(piece: &Piece, ray: Ray) -> f64 {
    let planes = piece.solid.removals.iter().filter_map(|removal| match &removal.region {
        Region::HalfSpace(half) if half.into.s > 0.0 => removal.region.along(ray).iter().next(),
        _ => None,
    });
    planes.map(|(from, _)| from).fold(f64::INFINITY, f64::min)
}
