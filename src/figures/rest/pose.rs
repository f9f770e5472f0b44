//! One pose on a table, and what touches it.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use crate::geometry::Vector;

/// One pose on a table: a local least of the height of the centre of mass.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Pose {
    /// The pitch, in degrees: positive with the bowl end raised; beyond 90 either way the opening is down.
    pub pitch_deg: f64,
    /// Where it touches nearer to the bowl end: station, in mm.
    pub from_station_mm: f64,
    /// Where it touches nearer to the head end: station, in mm.
    pub to_station_mm: f64,
    /// How far the centre of mass is inside the two touching places, along the table, in mm; 0 where it rocks on a curve.
    pub margin_mm: f64,
    /// Whether it lies on a curve, and rocks.
    pub rocks: bool,
    #[serde(skip)]
    pub(super) contact: Contact,
}

/// What lies on the table: from `a` to `b` with the piece on its left, or a curve between them that it rocks on.
#[derive(Clone, Copy, Debug, PartialEq, BorshSerialize, BorshDeserialize)]
pub(super) struct Contact {
    pub a: [f64; 2],
    pub b: [f64; 2],
    /// Down, square to the table: `[s, y]`, of length 1.
    pub down: [f64; 2],
}

impl Pose {
    /// Whether it stays in this pose with contents of a mass (in g) about a centre, when the piece itself has `own_g`
    /// about its centre of mass. On a curve it may rock on, but not past the curve's ends.
    #[must_use]
    pub fn stays_with(&self, own_g: f64, own: Vector, contents_g: f64, contents: Vector) -> bool {
        let total = own_g + contents_g;
        if total <= 0.0 {
            return true;
        }
        let middle = (own * own_g + contents * contents_g) * (1.0 / total);
        self.contact.margin([middle.s, middle.y]) >= 0.0
    }
}

impl Contact {
    pub(super) fn between(a: [f64; 2], b: [f64; 2]) -> Option<Self> {
        let (ds, dy) = (b[0] - a[0], b[1] - a[1]);
        let length = ds.hypot(dy);
        (length > 0.0).then(|| Self { a, b, down: [dy / length, -ds / length] })
    }

    /// How far a point's foot is inside both ends, along the table, in mm; negative outside them.
    pub(super) fn margin(self, p: [f64; 2]) -> f64 {
        let along = |from: [f64; 2], to: [f64; 2]| -self.down[1] * (to[0] - from[0]) + self.down[0] * (to[1] - from[1]);
        along(self.a, p).min(along(p, self.b))
    }

    /// Whether a point lies on the table, but for what chords stand off their curves.
    pub(super) fn is_level(self, p: [f64; 2]) -> bool {
        const CHORD_MM: f64 = 0.02;
        (self.down[0] * (p[0] - self.a[0]) + self.down[1] * (p[1] - self.a[1])).abs() < CHORD_MM
    }

    /// The pitch that puts it on the table, in radians: up is (y, s) = (cos pitch, -sin pitch).
    pub(super) fn pitch(self) -> f64 {
        self.down[0].atan2(-self.down[1])
    }
}
