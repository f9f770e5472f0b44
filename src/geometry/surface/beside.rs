//! The surfaces of two hollows beside each other.

use super::sheet::SheetPoint;
use crate::geometry::region::revolved::Revolved;

/// Surfaces nearer to each other than this, in mm, coincide.
pub const SAME: f64 = 1e-7;
/// How far into the wood another hollow is looked for where its surface coincides, in mm.
const PROBE: f64 = 1e-4;

/// The clearance from another hollow. Where both surfaces coincide the first of both hollows keeps them; where they
/// coincide back to back there is no wood between, and neither does.
pub(super) fn beside(other: &Revolved, is_first: bool, at: &SheetPoint) -> f64 {
    let distance = other.signed_distance(at.point);
    if distance.abs() > SAME {
        return distance;
    }
    let back_to_back = other.signed_distance(at.point + at.into_wood * PROBE) < -PROBE / 2.0;
    if is_first || back_to_back { -SAME } else { SAME }
}
