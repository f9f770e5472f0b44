//! The recess of wooden jaws: closed forms of what grips over more than half the girth.

use std::f64::consts::PI;

/// A recess about the axis of the jaws, in mm: as wide as the bowl at its girth, and narrower at its mouth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recess {
    /// Radius at the girth, where it is widest.
    pub girth_mm: f64,
    /// Radius at the mouth, on the front of the jaws.
    pub mouth_mm: f64,
    /// How far the front of the jaws lies past the girth, toward the opening: negative where it does not reach it.
    pub past_girth_mm: f64,
}

impl Recess {
    /// The recess for a ball: sqrt(R^2 - h^2) at the mouth. Exact.
    #[must_use]
    pub fn of_ball(radius_mm: f64, past_girth_mm: f64) -> Self {
        let mouth_mm = (radius_mm * radius_mm - past_girth_mm * past_girth_mm).max(0.0).sqrt();
        Self { girth_mm: radius_mm, mouth_mm, past_girth_mm }
    }

    /// How far past the girth of a ball its jaws have to close to be undercut by so much, in mm: the other way round,
    /// sqrt(u (2 R - u)). Exact.
    #[must_use]
    pub fn past_girth_for_mm(radius_mm: f64, undercut_mm: f64) -> f64 {
        (undercut_mm * (2.0 * radius_mm - undercut_mm)).max(0.0).sqrt()
    }

    /// Whether the jaws close over more than half the girth.
    #[must_use]
    pub fn grips(&self) -> bool {
        self.past_girth_mm > 0.0 && self.undercut_mm() > 0.0
    }

    /// By how much the mouth is narrower than the girth, in mm on the radius.
    #[must_use]
    pub fn undercut_mm(&self) -> f64 {
        self.girth_mm - self.mouth_mm
    }

    /// How far each of `count` jaws has to move outward for the bowl to pass the mouth, in mm.
    ///
    /// Exact: a jaw spans 1/count of a turn and moves along its middle, so that its corners clear last. Those are at the
    /// mouth's radius m, half a span phi from the middle, and have to come to the girth's radius R:
    /// x = sqrt(R^2 - m^2 sin^2 phi) - m cos phi.
    #[must_use]
    pub fn open_by_mm(&self, count: u32) -> f64 {
        let (sin, cos) = (PI / f64::from(count)).sin_cos();
        let across = self.mouth_mm * sin;
        ((self.girth_mm * self.girth_mm - across * across).max(0.0).sqrt() - self.mouth_mm * cos).max(0.0)
    }
}

/// How far each of `count` jaws moves inward while the gap between two of them closes by `gap_mm`, in mm. Exact: neighbours
/// stand 2 pi / count apart and move along their middles, so the gap closes by 2 x sin(pi / count).
#[must_use]
pub fn closes_by_mm(gap_mm: f64, count: u32) -> f64 {
    gap_mm / (2.0 * (PI / f64::from(count)).sin())
}

/// The force along the axis under which the bowl leaves the jaws, in N: they press on it with `press_n` in all, square to
/// the axis, on a lip that leans by `lip` (radians, positive past the girth) with a coefficient of friction.
///
/// A wedge: P tan(lip + atan(friction)); 0 where the lip is steeper the other way than friction holds. Exact for the
/// assumptions.
#[must_use]
pub fn leaves_at_n(press_n: f64, lip: f64, friction: f64) -> f64 {
    let angle = (lip + friction.atan()).clamp(0.0, MOST_LEAN);
    press_n.max(0.0) * angle.tan()
}

/// A lip that leans more does not hold more: a wedge of 60 degrees holds all that wood bears. Radians.
const MOST_LEAN: f64 = PI / 3.0;
