//! The weakest section in use: a load at the lip, held by the handle.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::weakest;
use crate::design::Duty;
use crate::figures::place::Place;
use crate::figures::rest::Rest;
use crate::geometry::{Axis, Bending, Limit, Pace, Plane, Vector, at_once, square_section};
use crate::piece::Piece;

/// The load at the lip, in N: common practice, no source. 10 N is about the weight of a kilogram.
#[must_use]
pub const fn lip_load_n(duty: Duty) -> f64 {
    match duty {
        Duty::Light => 20.0,
        Duty::Ordinary => 50.0,
        Duty::Heavy => 120.0,
    }
}

/// How far from its end the hand holds the handle, in mm: half a hand. Common practice, no source.
const HAND_MM: f64 = 40.0;

/// The weakest section of the finished piece under a load at the lip.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Neck {
    /// The load at the lip, in N.
    pub load_n: f64,
    /// From the lip to the section, along the handle, in mm.
    pub lever_mm: f64,
    /// Where the section's middle is.
    pub place: Place,
    /// Its area, square to the handle, in mm2.
    pub area_mm2: f64,
    /// Its section modulus against the load, in mm3.
    pub modulus_mm3: f64,
    /// Whether a load to the side is worse than one up or down.
    pub sideways: bool,
    /// The greatest bending stress, in MPa; absent where nothing is left of the piece.
    pub stress_mpa: Option<f64>,
    /// What the wood bears there, its grain and moisture allowed for, in MPa; absent when it is not known.
    pub bears_mpa: Option<f64>,
    /// How many times the load it bears; 0 where nothing is left of the piece.
    pub factor: Option<f64>,
    /// The cut that made the section what it is, by its place in working order from 0; absent for the blank's own side.
    pub limited_by_cut: Option<usize>,
}

const UPRIGHT: [f64; 2] = [0.0, 1.0];
const SIDEWAYS: [f64; 2] = [1.0, 0.0];

/// The weakest section: the load at the lip, up or down or to the side, against the real section square to the handle
/// everywhere from the lip to the hand. `None` for a piece that is too short to be held.
///
/// Nearer to the lip than the section is deep the piece is no beam, and is not judged. The stress is exact for the
/// section, and the factor within 2 % of the least of 400 sections (a property on random pieces).
#[must_use]
pub fn neck(piece: &Piece, handle: &Axis, rest: &Rest, load_n: f64, bears_mpa: Option<f64>) -> Option<Neck> {
    at_once(neck_in_slices(piece, handle, rest, load_n, bears_mpa, &Pace::unbroken()))
}

/// As [`neck`], in slices.
pub async fn neck_in_slices(
    piece: &Piece,
    handle: &Axis,
    rest: &Rest,
    load_n: f64,
    bears_mpa: Option<f64>,
    pace: &Pace,
) -> Option<Neck> {
    let along = |p: &[f64; 2]| handle.see(Vector::new(0.0, p[1], p[0])).t;
    let ends = rest.outline.iter().map(along);
    let (lip, end) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |r, t| (r.0.min(t), r.1.max(t)));
    let hand = end - HAND_MM;
    if hand.is_nan() || hand <= lip {
        return None;
    }
    let state = piece.solid.finished();
    // A moment over a modulus, where the piece is a beam.
    let stress = |section: &Bending, t: f64, load: [f64; 2]| {
        let lever = t - lip;
        if lever < section.depth_mm(load) { 0.0 } else { load_n * lever / section.modulus_mm3(load) }
    };
    let worst = |section: &Bending, t: f64| stress(section, t, UPRIGHT).max(stress(section, t, SIDEWAYS));
    let stations = weakest::stations(&state, handle, lip, hand);
    let quick = |t: f64| 1.0 / worst(&weakest::look(&state, handle, t), t);
    let exact = |t: f64| 1.0 / worst(&square_section(&state, handle, t), t);
    let t = weakest::least(&stations, quick, exact, pace).await?;
    let section = square_section(&state, handle, t);
    if worst(&section, t) <= 0.0 {
        return None;
    }
    let sideways = stress(&section, t, SIDEWAYS) > stress(&section, t, UPRIGHT);
    let modulus_mm3 = section.modulus_mm3(if sideways { SIDEWAYS } else { UPRIGHT });
    let [u, v] = section.moments.centroid;
    let middle = Plane::square_to(handle, t).at(u, v);
    let stress_mpa = (modulus_mm3 > 0.0).then(|| load_n * (t - lip) / modulus_mm3);
    Some(Neck {
        load_n,
        lever_mm: t - lip,
        place: Place::of(middle),
        area_mm2: section.moments.area_mm2,
        modulus_mm3,
        sideways,
        stress_mpa,
        bears_mpa,
        factor: match stress_mpa {
            Some(stress) => bears_mpa.map(|bears| bears / stress),
            None => Some(0.0),
        },
        limited_by_cut: match piece.solid.to_outside(middle).limit {
            Limit::Cut(cut) => Some(cut),
            Limit::StockSide | Limit::HeadEnd => None,
        },
    })
}
