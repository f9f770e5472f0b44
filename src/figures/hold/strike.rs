//! Striking off: how high an upright column may go before it meets what a saw or a facing has taken.

use super::fill::Raised;
use super::pitch::Pitch;
use crate::geometry::{Ray, Region, Role, Solid};

/// The openings of a piece at one pitch.
pub(super) struct Strike<'a> {
    frame: Pitch,
    openings: Vec<Opening<'a>>,
}

enum Opening<'a> {
    /// The bowl-end face: what lies before s = 0.
    Face,
    /// A saw line that rises or falls less than upright at this pitch: heights by level, and past its last end the
    /// height gained per mm of level, infinite where columns pass it by.
    Line { points: Vec<(f64, f64)>, past: f64 },
    /// Any other region.
    Region(&'a Region),
}

impl<'a> Strike<'a> {
    pub(super) fn new(solid: &'a Solid, frame: Pitch) -> Self {
        let openings = solid.with_role(Role::Opening).map(|removal| match &removal.region {
            Region::Sawn(sawn) => saw_line(sawn.points(), frame).unwrap_or(Opening::Region(&removal.region)),
            Region::Revolved(_) | Region::HalfSpace(_) => Opening::Region(&removal.region),
        });
        Self { frame, openings: std::iter::once(Opening::Face).chain(openings).collect() }
    }

    /// The lowest height at which the column over an element comes up into a region taken by an opening. A region that
    /// the column leaves upward is none of its lids.
    pub(super) fn height(&self, element: Raised) -> f64 {
        self.openings.iter().map(|opening| self.of(opening, element)).fold(f64::INFINITY, f64::min)
    }

    fn of(&self, opening: &Opening, element: Raised) -> f64 {
        match opening {
            Opening::Face if self.frame.sin > 1e-9 => element.level * self.frame.cos / self.frame.sin,
            Opening::Face => f64::INFINITY,
            Opening::Line { points, past } => height_of_line(points, *past, element.level),
            Opening::Region(region) => {
                let start = self.frame.back(element.x, element.level, 0.0);
                let column = Ray { start, direction: self.frame.up() };
                let taken = region.along(column);
                taken.iter().map(|(from, _)| from).find(|from| from.is_finite()).unwrap_or(f64::INFINITY)
            }
        }
    }
}

/// A saw line as heights over the level; `None` when it leans past upright.
fn saw_line<'a>(points: &[(f64, f64)], frame: Pitch) -> Option<Opening<'a>> {
    let points: Vec<_> =
        points.iter().map(|(s, y)| (y * frame.sin + s * frame.cos, y * frame.cos - s * frame.sin)).collect();
    let rising = points.windows(2).all(|pair| pair[0].0 < pair[1].0);
    // The end plane, square to axis A, leans over the handle when the bowl end is raised.
    let past = if frame.sin > 1e-9 { frame.cos / frame.sin } else { f64::INFINITY };
    rising.then_some(Opening::Line { points, past })
}

fn height_of_line(points: &[(f64, f64)], past: f64, level: f64) -> f64 {
    let next = points.partition_point(|p| p.0 < level).max(1);
    match points.get(next) {
        Some(b) => {
            let a = points[next - 1];
            a.1 + (b.1 - a.1) * (level - a.0) / (b.0 - a.0)
        }
        None => {
            let last = points[points.len() - 1];
            last.1 + past * (level - last.0)
        }
    }
}
