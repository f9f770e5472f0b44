//! The hollows of an oval bowl: where they stand, and how they keep within the spheroid.

use std::f64::consts::PI;

use super::{Hollows, OvalBowlScoop};
use crate::design::axis_name::AxisName;
use crate::design::cut::{Hollow, HollowShape};
use crate::design::pattern::across::{OVER_OPENING_MM, arcs, egg};
use crate::design::profile::Node;
use crate::geometry::frame::tolerance::SAME_MM;

/// A hollow is at least this wide and this deep, in mm, whatever wall and floor are chosen.
const LEAST_HOLLOW_MM: f64 = 2.0;
/// A hollow narrows over its middle up to this angle; above, it goes straight up to the opening.
const MOST_CLOSED: f64 = PI * 5.0 / 6.0;

impl OvalBowlScoop {
    /// Where the hollows stand, in mm from the middle. At most where the ends of the spheroid are round: a ball that touches
    /// it from within about a station farther out would touch it at its end only.
    pub(super) fn stations_mm(&self) -> Vec<f64> {
        let (along, across) = self.half_axes();
        let most = ((along.powi(2) - across.powi(2)) / along).max(0.0) * self.spread_share;
        match self.hollows {
            Hollows::One => vec![0.0],
            Hollows::Two => vec![-most, most],
            Hollows::Three => vec![-most, 0.0, most],
        }
    }

    /// The radius of the largest ball about this station from the middle that the spheroid holds, in mm.
    fn ball_mm(&self, from: f64) -> f64 {
        let (along, across) = self.half_axes();
        let foci = along.powi(2) - across.powi(2);
        if foci <= 0.0 { along.min(across) } else { across * (1.0 - from.powi(2) / foci).max(0.0).sqrt() }
    }

    /// Half axes of a hollow, down and across, in mm: within the largest ball by the floor and by the wall.
    pub(super) fn hollow_half_axes(&self, from: f64) -> (f64, f64) {
        let ball = self.ball_mm(from);
        ((ball - self.floor_mm).max(LEAST_HOLLOW_MM), (ball - self.wall_mm).max(LEAST_HOLLOW_MM))
    }

    /// A round hollow, or one that is flatter or deeper, about an axis across; its mouth is the opening.
    pub(super) fn hollow(&self, axis: AxisName, from: f64) -> Hollow {
        let (deep, wide) = self.hollow_half_axes(from);
        let mouth_mm = -self.opening_mm() - OVER_OPENING_MM;
        let start = (mouth_mm / deep).max(MOST_CLOSED.cos()).acos();
        let mut nodes = egg(arcs((deep, wide)), -mouth_mm, (deep, wide), (start, 0.0));
        let first = nodes.first().map_or((0.0, 0.0), |node| (node.at_mm, node.diameter_mm));
        if first.0 > SAME_MM {
            nodes.insert(0, Node::line(0.0, first.1));
        }
        Hollow { axis, mouth_mm, shape: HollowShape::Drawn { nodes } }
    }
}
