//! Which ceilings have nothing under them: columns that enter the hollow through an opening from below.

use super::pitch::Pitch;
use super::vessel::Vessel;
use crate::geometry::{Ray, Region, Role};

/// Finds ceilings with nothing of the hollow under them, at one pitch.
pub(super) struct Support<'a> {
    vessel: &'a Vessel<'a>,
    frame: Pitch,
}

/// How far below a ceiling the search for wood starts, in mm.
pub(super) const START: f64 = 1e-4;
/// How near to a hollow's surface wood is its floor, in mm.
const ON_SURFACE: f64 = 1e-3;

impl<'a> Support<'a> {
    /// A finder, where one is needed.
    ///
    /// Straight down an opening's surface is the rim, as low or lower than the opening by the slope. So where every
    /// opening looks up, or looks down more steeply than contents lie, the envelope never rises past an opening seen
    /// from below, and every ceiling under the envelope has contents under it.
    pub(super) fn needed(vessel: &'a Vessel<'a>, frame: Pitch, repose: f64) -> Option<Self> {
        let up = frame.up();
        let limit = -repose.cos();
        let mouth = comes_in_by_the_face(frame, repose);
        let openings = vessel.solid.with_role(Role::Opening).any(|removal| match &removal.region {
            Region::HalfSpace(half) => half.into.dot(up) < 0.0,
            Region::Revolved(_) => true,
            Region::Sawn(sawn) => sawn.points().windows(2).any(|pair| {
                let (ds, dy) = (pair[1].x - pair[0].x, pair[1].y - pair[0].y);
                (ds * up.y - dy * up.s) / ds.hypot(dy) < limit
            }),
        });
        let hole = vessel.broken_through && repose > 0.0;
        (mouth || openings || hole).then_some(Self { vessel, frame })
    }

    /// Whether the ceiling at an element hangs over nothing of the hollow.
    pub(super) fn hangs(&self, element: usize) -> bool {
        let down = -self.frame.up();
        let start = self.vessel.elements.position(element) + down * START;
        let ray = Ray { start, direction: down };
        let wood = self.vessel.solid.finished().along(ray);
        let Some((from, _)) = wood.iter().find(|(_, to)| *to > 0.0) else { return true };
        let below = ray.at(from.max(0.0));
        !self.vessel.hollows().any(|hollow| hollow.signed_distance(below).abs() < ON_SURFACE)
    }
}

/// Whether columns under the envelope may come in by the face s = 0 from below: it looks toward -s.
pub(super) fn comes_in_by_the_face(frame: Pitch, repose: f64) -> bool {
    -frame.up().s < -repose.cos()
}
