//! What the jaws of the chuck grip at the head end, and how far the work stands out of them.

use serde::Serialize;

use super::support::{Work, works};
use crate::design::tenon::is_called_tenon;
use crate::design::{AxisName, BlankSection, Chuck, Cut, Design, Pass};
use crate::geometry::{Axis, Revolved, Station, Vector};
use crate::piece::Piece;

/// What the jaws close on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Gripped {
    /// A tenon, whose shoulder seats on the front of the jaws.
    Tenon,
    /// A turned round without a shoulder.
    Round,
    /// The rough corners of square stock, or stock beyond the end of a tenon.
    Rough,
    /// Nothing: the blank ends before the tenon starts.
    Nothing,
}

/// The grip of the chuck.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Grip {
    /// What the jaws close on.
    pub what: Gripped,
    /// The pass that turned it, by its place in working order from 0; absent for the blank itself.
    pub cut: Option<usize>,
    /// The least diameter that is gripped, in mm.
    pub least_mm: f64,
    /// The greatest diameter that is gripped, in mm.
    pub greatest_mm: f64,
    /// Length of the tenon, in mm; for what has no shoulder, the depth of the jaws.
    pub length_mm: f64,
    /// How far the work stands out of the jaws, in mm, while it is bored from its end without support; absent where
    /// nothing is bored along axis A.
    pub overhang_mm: Option<f64>,
}

/// How far a tenon may stop short of the head face, in mm.
const SHORT_MM: f64 = 1.0;
/// The least width of a shoulder that seats on the jaws, in mm on the radius: common practice, no source.
const SHOULDER_MM: f64 = 1.0;
/// A step off a plane, in mm, to be on one side of it.
const ASIDE_MM: f64 = 1e-3;

/// What the chuck grips; `None` for work that is never held in it. Exact for the flattened profiles.
#[must_use]
pub fn grip(design: &Design, piece: &Piece, chuck: &Chuck) -> Option<Grip> {
    let on_a = |axis: AxisName| piece.axis(axis) == Some(&Axis::A);
    let bored = design.cuts.iter().position(|cut| matches!(cut, Cut::Hollow(hollow) if on_a(hollow.axis)));
    let faced = design.cuts.iter().any(|cut| matches!(cut, Cut::Face(plane) if on_a(plane.axis)));
    let tenon = tenon(design, piece);
    if bored.is_none() && !faced && tenon.is_none() {
        return None;
    }
    // A tenon is turned before all else; another pass holds what is bored after it.
    let before = bored.unwrap_or(design.cuts.len());
    let turned = tenon.or_else(|| {
        let over_the_end = |(cut, choice): (usize, &Cut)| match choice {
            Cut::Pass(pass) => (on_a(pass.axis) && ends_at_the_head(pass, piece)).then_some(cut),
            _ => None,
        };
        design.cuts.iter().enumerate().take(before).rev().find_map(over_the_end)
    });
    let found = match turned.and_then(|cut| Some((cut, piece.revolved(cut)?))) {
        Some((cut, turned)) => of_a_pass(cut, turned, piece, chuck),
        None => of_the_blank(design, chuck),
    };
    let front = if found.what == Gripped::Tenon { found.length_mm } else { chuck.jaw_depth_mm };
    let overhang_mm = bored.map(|_| (piece.head_face - front - piece.rim()).max(0.0));
    Some(Grip { overhang_mm, ..found })
}

/// The tenon of a design, by its place in working order; one that is called so counts wherever it ends.
fn tenon(design: &Design, piece: &Piece) -> Option<usize> {
    let called = |cut: &Cut| matches!(cut, Cut::Pass(pass) if pass.axis == AxisName::A && is_called_tenon(pass));
    let works = works(design, piece);
    works.iter().position(|work| *work == Work::Tenon).or_else(|| design.cuts.iter().position(called))
}

fn ends_at_the_head(pass: &Pass, piece: &Piece) -> bool {
    pass.to_mm >= piece.head_face - SHORT_MM && pass.from_mm < piece.head_face
}

fn of_a_pass(cut: usize, turned: &Revolved, piece: &Piece, chuck: &Chuck) -> Grip {
    let (profile, head) = (&turned.meridian, piece.head_face);
    let length_mm = head.min(profile.end()) - profile.start();
    let shouldered = shoulder_mm(cut, turned, piece) >= SHOULDER_MM;
    let what = match () {
        () if profile.start() >= head => Gripped::Nothing,
        () if profile.end() < head - SHORT_MM => Gripped::Rough,
        () if shouldered => Gripped::Tenon,
        () => Gripped::Round,
    };
    let from = profile.start().max(head - chuck.jaw_depth_mm);
    let corners = profile.points().iter().filter(|Station { t, .. }| (from..=head).contains(t)).map(|p| p.r);
    let ends = [profile.radius_after(from), profile.radius_before(head.min(profile.end()))];
    let width = piece.solid.stock.half_width();
    let (mut least, mut greatest) = (width, 0.0);
    for radius in corners.chain(ends) {
        least = f64::min(least, radius);
        greatest = f64::max(greatest, radius);
    }
    Grip {
        what,
        cut: Some(cut),
        least_mm: 2.0 * least,
        // What is left of square stock under a wider tenon has flats, and corners as wide as the tenon.
        greatest_mm: 2.0 * greatest.min(piece.solid.stock.largest_radius()),
        length_mm: if what == Gripped::Round { chuck.jaw_depth_mm } else { length_mm },
        overhang_mm: None,
    }
}

/// How much wider the work is just before a tenon than the tenon, in mm on the radius, where it is widest.
fn shoulder_mm(cut: usize, turned: &Revolved, piece: &Piece) -> f64 {
    let (start, radius) = (turned.meridian.start(), turned.meridian.radius_after(turned.meridian.start()));
    let before = start - ASIDE_MM;
    if before <= piece.rim() {
        return 0.0;
    }
    let state = piece.solid.state(cut);
    let reach = piece.solid.stock.largest_radius();
    let widest = (0..CLOCKS).map(|i| {
        let (sin, cos) = (std::f64::consts::TAU * i as f64 / CLOCKS as f64).sin_cos();
        let ray = crate::geometry::Ray { start: Vector::new(0.0, 0.0, before), direction: Vector::new(sin, cos, 0.0) };
        state.along(ray).iter().last().map_or(0.0, |(_, to)| to.min(reach))
    });
    widest.fold(0.0, f64::max) - radius
}

/// Directions in which the shoulder is looked for; the corners of a square are among them.
const CLOCKS: usize = 24;

fn of_the_blank(design: &Design, chuck: &Chuck) -> Grip {
    let (what, least, greatest) = match design.blank.section {
        BlankSection::Round { diameter_mm } => (Gripped::Round, diameter_mm, diameter_mm),
        BlankSection::Square { side_mm } => (Gripped::Rough, side_mm, side_mm * std::f64::consts::SQRT_2),
    };
    Grip { what, cut: None, least_mm: least, greatest_mm: greatest, length_mm: chuck.jaw_depth_mm, overhang_mm: None }
}
