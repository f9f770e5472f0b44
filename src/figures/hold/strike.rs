//! Striking off: how high an upright column may go before it leaves the cavity, where a saw or a facing has taken the wood
//! or, where the hollow is broken through, the outside begins.

use super::elements::Raised;
use super::pitch::Pitch;
use super::support;
use super::vessel::Vessel;
use crate::geometry::frame::tolerance::SAME_MM;
use crate::geometry::{Ray, Region, Role, Solid, Stock};
use kurbo::Point;

/// The ways out of a piece at one pitch.
pub(super) struct Strike<'a> {
    solid: &'a Solid,
    frame: Pitch,
    openings: Vec<Opening<'a>>,
}

enum Opening<'a> {
    /// The bowl-end face: what lies before s = 0. Whether columns that come in by it from below are looked at.
    Face { from_below: bool },
    /// A saw line that rises or falls less than upright at this pitch: heights by level, and past its last end the
    /// height gained per mm of level, infinite where columns pass it by.
    Line { points: Vec<Point>, past: f64 },
    /// Any other region.
    Region(&'a Region),
    /// All beyond the blank's sides and ends.
    Beyond(&'a Stock),
}

/// Where a column leaves by one opening.
struct WayOut {
    /// The lowest height above an element at which it does; infinite where it does not.
    above: f64,
    /// Whether some of what the opening takes may lie under the element.
    below: bool,
}

impl<'a> Strike<'a> {
    /// The ways out at a pitch, of contents that slope by an angle of repose in radians.
    pub(super) fn new(vessel: &'a Vessel<'_>, frame: Pitch, repose: f64) -> Self {
        let solid = &*vessel.solid;
        let mut openings = vec![Opening::Face { from_below: support::comes_in_by_the_face(frame, repose) }];
        openings.extend(solid.with_role(Role::Opening).map(|removal| match &removal.region {
            Region::Sawn(sawn) => saw_line(sawn.points(), frame).unwrap_or(Opening::Region(&removal.region)),
            Region::Revolved(_) | Region::HalfSpace(_) => Opening::Region(&removal.region),
        }));
        if vessel.broken_through {
            openings.extend(solid.with_role(Role::Outside).map(|removal| Opening::Region(&removal.region)));
            openings.push(Opening::Beyond(&solid.stock));
        }
        Self { solid, frame, openings }
    }

    /// How high struck contents in the column of an element go. For a ceiling that a way out parts from the floor under
    /// it, as low as can be: no struck contents reach it.
    pub(super) fn height(&self, element: Raised) -> f64 {
        let none = WayOut { above: f64::INFINITY, below: false };
        let way_out = self.openings.iter().map(|opening| self.by(opening, element));
        let way_out = way_out.fold(none, |a, b| WayOut { above: a.above.min(b.above), below: a.below || b.below });
        let parted = way_out.below && element.area < 0.0 && self.parted_from_floor(element);
        if parted { f64::NEG_INFINITY } else { way_out.above }
    }

    fn by(&self, opening: &Opening, element: Raised) -> WayOut {
        let Pitch { sin, cos } = self.frame;
        match opening {
            Opening::Face { .. } if sin > 1e-9 => WayOut { above: element.level * cos / sin, below: false },
            Opening::Face { from_below } => WayOut { above: f64::INFINITY, below: *from_below },
            Opening::Line { points, past } => {
                let line = height_of_line(points, *past, element.level);
                // With the bowl end lowered a column leaves the saw's end plane upward: it may come to wood over that.
                let over = sin < 0.0 && element.height > line + SAME_MM;
                WayOut { above: if over { f64::INFINITY } else { line }, below: over }
            }
            Opening::Region(region) => {
                let taken = region.along(self.column(element));
                let above = taken.iter().find(|(_, to)| *to > element.height + SAME_MM);
                let below = taken.iter().any(|(_, to)| to <= element.height + SAME_MM);
                WayOut { above: above.map_or(f64::INFINITY, |(from, _)| from.max(element.height)), below }
            }
            Opening::Beyond(stock) => {
                let within = stock.along(self.column(element));
                let above = within.iter().find(|(_, to)| *to > element.height - SAME_MM);
                WayOut { above: above.map_or(element.height, |(_, to)| to), below: true }
            }
        }
    }

    /// The column of an element: heights are its places.
    fn column(&self, element: Raised) -> Ray {
        Ray { start: self.frame.back(element.x, element.level, 0.0), direction: self.frame.up() }
    }

    /// Whether something that is open lies between a ceiling and the wood under it.
    fn parted_from_floor(&self, ceiling: Raised) -> bool {
        let start = self.frame.back(ceiling.x, ceiling.level, ceiling.height);
        let down = Ray { start, direction: -self.frame.up() };
        let wood = self.solid.finished().along(down);
        let Some((floor, _)) = wood.iter().find(|(_, to)| *to > support::START) else { return true };
        let open = self.solid.removals.iter().filter(|removal| removal.role != Role::Inside);
        let between = |(from, to): (f64, f64)| to.min(floor) - from.max(0.0) > support::START;
        open.map(|removal| removal.region.along(down)).any(|taken| taken.iter().any(between))
    }
}

/// A saw line as heights over the level; `None` when it leans past upright.
fn saw_line<'a>(points: &[Point], frame: Pitch) -> Option<Opening<'a>> {
    let tilted = |p: &Point| Point::new(p.y * frame.sin + p.x * frame.cos, p.y * frame.cos - p.x * frame.sin);
    let points: Vec<_> = points.iter().map(tilted).collect();
    let rising = points.windows(2).all(|pair| pair[0].x < pair[1].x);
    // The end plane, square to axis A, leans over the handle when the bowl end is raised.
    let past = if frame.sin > 1e-9 { frame.cos / frame.sin } else { f64::INFINITY };
    rising.then_some(Opening::Line { points, past })
}

fn height_of_line(points: &[Point], past: f64, level: f64) -> f64 {
    let next = points.partition_point(|p| p.x < level).max(1);
    match points.get(next) {
        Some(b) => {
            let a = points[next - 1];
            a.y + (b.y - a.y) * (level - a.x) / (b.x - a.x)
        }
        None => {
            let last = points[points.len() - 1];
            last.y + past * (level - last.x)
        }
    }
}
