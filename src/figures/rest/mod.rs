//! Figure 7: how the finished piece lies on a table.

mod poses;

use serde::Serialize;

use crate::design::Piece;
use crate::geometry::order::sort_by_number;
use crate::geometry::{Mass, Vector, shadow};

/// How the finished piece lies on a table, without roll.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rest {
    /// Every pose it stays in, the least pitch first.
    pub poses: Vec<Pose>,
    /// The pose with the opening up and the least pitch, by its place in `poses`; absent when it does not lie so.
    pub opening_up: Option<usize>,
    /// The hull of its side view, corners `[s, y]` in mm, counter-clockwise.
    #[serde(skip)]
    pub outline: Vec<[f64; 2]>,
}

/// One pose on a table: a local least of the height of the centre of mass.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
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
    contact: Contact,
}

/// What lies on the table: from `a` to `b` with the piece on its left, or a curve between them that it rocks on.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Contact {
    a: [f64; 2],
    b: [f64; 2],
    /// Down, square to the table: `[s, y]`, of length 1.
    down: [f64; 2],
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
    fn between(a: [f64; 2], b: [f64; 2]) -> Option<Self> {
        let (ds, dy) = (b[0] - a[0], b[1] - a[1]);
        let length = ds.hypot(dy);
        (length > 0.0).then(|| Self { a, b, down: [dy / length, -ds / length] })
    }

    /// How far a point's foot is inside both ends, along the table, in mm; negative outside them.
    fn margin(self, p: [f64; 2]) -> f64 {
        let along = |from: [f64; 2], to: [f64; 2]| -self.down[1] * (to[0] - from[0]) + self.down[0] * (to[1] - from[1]);
        along(self.a, p).min(along(p, self.b))
    }

    /// Whether a point lies on the table, but for what chords stand off their curves.
    fn is_level(self, p: [f64; 2]) -> bool {
        const CHORD_MM: f64 = 0.02;
        (self.down[0] * (p[0] - self.a[0]) + self.down[1] * (p[1] - self.a[1])).abs() < CHORD_MM
    }

    /// The pitch that puts it on the table, in radians: up is (y, s) = (cos pitch, -sin pitch).
    fn pitch(self) -> f64 {
        self.down[0].atan2(-self.down[1])
    }
}

/// How the finished piece lies. Pitches within 0.01 degree and margins within 0.02 mm for pieces over 60 mm long, given the
/// centre of mass; where it lies on an edge between two curved cuts, within 0.03 degree.
///
/// The side view's hull has the piece's own corners, ends and sawn edges; curves of profiles and saw lines are taken as they
/// are drawn, not as chords. On a plane the piece rests as far as there is wood, down to a feather a hundred-thousandth of a
/// mm thick. Rolling to the side is not looked at.
#[must_use]
pub fn rest(piece: &Piece, finished: &Mass) -> Rest {
    let state = piece.solid.finished();
    let hull = shadow(&state);
    let mut poses = poses::poses(&state, &hull, [finished.centroid.s, finished.centroid.y]);
    sort_by_number(&mut poses, |pose| pose.pitch_deg.abs());
    let opening_up = poses.first().filter(|p| p.pitch_deg.abs() < 90.0).map(|_| 0);
    Rest { poses, opening_up, outline: hull.iter().map(|corner| corner.at).collect() }
}
