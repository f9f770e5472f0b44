//! The bar across a wall: from a point of the hollow to the nearest point of the outside.

use super::frame::Point;
use crate::figures::checks::Verdict;
use crate::figures::wall::WallPoint;
use crate::geometry::{Solid, Vector};

/// How serious something marked on a drawing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// As it should be.
    Good,
    /// It can be done, with care or with a loss.
    Tight,
    /// It goes wrong.
    Stop,
}

impl Grade {
    /// A thickness against the least that is wanted: what the checks say of it.
    #[must_use]
    pub fn of_thickness(mm: f64, limit_mm: f64) -> Self {
        match Verdict::of_thickness(mm, limit_mm) {
            Verdict::Ok => Self::Good,
            Verdict::Tight => Self::Tight,
            Verdict::Stop => Self::Stop,
        }
    }
}

/// A wall across which a bar is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct WallBar {
    /// On the hollow.
    pub inside: Point,
    /// On the outside.
    pub outside: Point,
    /// Its thickness, in mm.
    pub thickness_mm: f64,
    /// How it compares with the limit.
    pub grade: Grade,
}

/// Step for finding which way the outside lies, in mm.
const STEP: f64 = 1e-4;

/// The bar at a point of the hollow, as `seen` in a view.
#[must_use]
pub fn wall_bar(solid: &Solid, wall: &WallPoint, limit_mm: f64, seen: impl Fn(Vector) -> Point) -> WallBar {
    let outside = wall.point + toward_outside(solid, wall.point) * wall.wall_mm;
    WallBar {
        inside: seen(wall.point),
        outside: seen(outside),
        thickness_mm: wall.wall_mm,
        grade: Grade::of_thickness(wall.wall_mm, limit_mm),
    }
}

/// The direction in which the distance to the outside shrinks fastest, of length 1; nothing where it is the same all
/// round.
fn toward_outside(solid: &Solid, point: Vector) -> Vector {
    let slope = |step: Vector| solid.to_outside(point - step).distance - solid.to_outside(point + step).distance;
    let [x, y, s] = [Vector::new(STEP, 0.0, 0.0), Vector::new(0.0, STEP, 0.0), Vector::new(0.0, 0.0, STEP)].map(slope);
    Vector::new(x, y, s).unit().unwrap_or(Vector::ZERO)
}
