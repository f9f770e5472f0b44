//! Figure 1: the centre marks of every axis on both faces, as seen, and whether a centre can bear there.

use std::f64::consts::TAU;

use serde::Serialize;

use super::place::clock_deg;
use crate::design::{AxisName, Centres, Cut, Design};
use crate::geometry::frame::tolerance::{ROUNDING_MM, SAME_MM};
use crate::geometry::{Axis, Ray, State, Vector};
use crate::piece::Piece;

/// An end of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Face {
    /// The tail face, where the live centre bears: the bowl end, or the plug over it.
    Tail,
    /// The head face, where the drive centre bears.
    Head,
}

/// A centre mark on one face.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Mark {
    /// x as held, in mm.
    pub x_mm: f64,
    /// y as held, in mm.
    pub y_mm: f64,
    /// Distance from axis A's mark, in mm.
    pub distance_mm: f64,
    /// To the right of axis A's mark for someone who looks at the face, in mm: the tail face is mirrored.
    pub seen_right_mm: f64,
    /// Above axis A's mark for someone who looks at the face, in mm.
    pub seen_up_mm: f64,
    /// Clock direction for someone who looks at the face, in degrees; absent for a mark on axis A's.
    pub seen_clock_deg: Option<f64>,
    /// The wood around the footprint of the centre that bears here, when the axis is first turned on, in mm; negative
    /// when the footprint overhangs.
    pub margin_mm: f64,
}

/// An axis, its marks, and how it lies to axis A.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AxisMarks {
    /// The axis.
    pub axis: AxisName,
    /// Its angle to axis A, in degrees.
    pub tilt_deg: f64,
    /// The clock direction, as held, toward which it moves on its way to the head end; absent without a tilt.
    pub toward_deg: Option<f64>,
    /// The station where it crosses axis A, in mm; absent when it passes by or is parallel.
    pub crossing_mm: Option<f64>,
    /// The nearest it comes to axis A, in mm.
    pub nearest_approach_mm: f64,
    /// The station of its nearest approach, in mm; absent for parallel axes.
    pub nearest_station_mm: Option<f64>,
    /// The mark on the tail face.
    pub tail: Mark,
    /// The mark on the head face.
    pub head: Mark,
}

/// The marks of every axis that runs from face to face. Exact, but for the margins: 0.05 mm.
///
/// # Units
/// mm and degrees, as named.
#[must_use]
pub fn marks(design: &Design, piece: &Piece, centres: &Centres) -> Vec<AxisMarks> {
    let named = piece.axes.iter().enumerate().filter_map(|(i, axis)| Some((AxisName::from_index(i)?, axis)));
    named.filter_map(|(name, axis)| axis_marks(name, axis, design, piece, centres)).collect()
}

fn axis_marks(name: AxisName, axis: &Axis, design: &Design, piece: &Piece, centres: &Centres) -> Option<AxisMarks> {
    let (tail, head) = (axis.centre(piece.tail_face)?, axis.centre(piece.head_face)?);
    let first_used = first_use(design, name);
    let state = piece.solid.state(first_used);
    // Until its plug is in, the live centre bears on the bowl-end face itself.
    let plug_is_in = piece
        .solid
        .plugs
        .iter()
        .any(|plug| plug.fitted < first_used && plug.taken_out.is_none_or(|taken_out| taken_out >= first_used));
    let bearing = if plug_is_in { tail } else { axis.centre(0.0)? };
    let nearest = axis.nearest(&Axis::A);
    let along = axis.along();
    let tilted = axis.is_tilted();
    let live = centres.live_diameter_mm / 2.0;
    let drive = centres.drive_diameter_mm / 2.0;
    Some(AxisMarks {
        axis: name,
        tilt_deg: axis.tilt().to_degrees(),
        toward_deg: tilted.then(|| clock_deg(along.x, along.y)),
        crossing_mm: (tilted && nearest.gap < SAME_MM).then_some(nearest.there.s),
        nearest_approach_mm: nearest.gap,
        nearest_station_mm: tilted.then_some(nearest.there.s),
        tail: mark(Face::Tail, tail, margin(&state, bearing, INTO_FACE, live)),
        head: mark(Face::Head, head, margin(&state, head, -INTO_FACE, drive)),
    })
}

/// The first cut made on an axis; the end of the list when there is none.
fn first_use(design: &Design, name: AxisName) -> usize {
    let uses = |cut: &Cut| matches!(cut, Cut::Pass(pass) if pass.axis == name);
    design.cuts.iter().position(uses).unwrap_or(design.cuts.len())
}

fn mark(face: Face, at: Vector, margin_mm: f64) -> Mark {
    let seen_right = if face == Face::Tail { -at.x } else { at.x };
    // No minus zero on paper.
    let seen_right = if seen_right == 0.0 { 0.0 } else { seen_right };
    let distance = at.radius();
    Mark {
        x_mm: at.x,
        y_mm: at.y,
        distance_mm: distance,
        seen_right_mm: seen_right,
        seen_up_mm: at.y,
        seen_clock_deg: (distance > SAME_MM).then(|| clock_deg(seen_right, at.y)),
        margin_mm,
    }
}

/// How deep under the face its wood is judged, in mm.
const INTO_FACE: f64 = 0.2;
/// Directions in which the edge of the face is looked for.
const DIRECTIONS: usize = 72;

/// The least wood around a footprint on a face, in mm, in the state given.
fn margin(state: &State<'_>, mark: Vector, into: f64, footprint_radius: f64) -> f64 {
    let start = Vector { s: mark.s + into, ..mark };
    if !state.contains(start) {
        return -footprint_radius;
    }
    let edge = |i: usize| {
        let (sin, cos) = (TAU * i as f64 / DIRECTIONS as f64).sin_cos();
        let wood = state.along(Ray { start, direction: Vector::new(sin, cos, 0.0) });
        wood.iter().find(|(from, to)| *from <= ROUNDING_MM && *to > 0.0).map_or(0.0, |(_, to)| to)
    };
    (0..DIRECTIONS).map(edge).fold(f64::INFINITY, f64::min) - footprint_radius
}
