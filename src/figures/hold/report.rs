//! Figure 6 as it is reported.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::bound::RimEdge;
use super::fill::Contents;
use super::search::{crest, greatest};
use super::vessel::Vessel;
use crate::geometry::{Axis, Pace, Region, Role, Vector, at_once};

/// Dry goods are not carried with the bowl end raised more than this, in degrees.
pub const STEEPEST_CARRIED_DEG: f64 = 30.0;
/// The best pitch for a liquid is found to this, in radians.
const TOLERANCE: f64 = 1e-4;
/// The search for the best pitch for dry goods ends where it gains no more than this share of what they hold.
const DRY_GAIN: f64 = 1e-3;
/// Pitches tried over half a turn before the best is narrowed down.
const LIQUID_STEPS: u32 = 36;
/// Pitches tried for dry goods.
const DRY_STEPS: u32 = 6;

/// The poses and the content the hold is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// The pitch that brings the handle level, in radians: see [`level_pitch`].
    pub handle_level: f64,
    /// The angle of repose of dry contents, in radians.
    pub repose: f64,
}

/// Figure 6: what a piece holds. Pitch is positive with the bowl end raised.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Hold {
    /// A liquid, at the pitch that holds most.
    pub liquid_best: Filled,
    /// A liquid, with the handle level.
    pub liquid_handle_level: Filled,
    /// A liquid, as the piece lies on the table.
    pub liquid_lying: Option<Filled>,
    /// Dry contents, with the handle level.
    pub dry_handle_level: Dry,
    /// Dry contents, at the pitch within 30 degrees that holds most.
    pub dry_best: Dry,
    /// Dry contents struck off with the opening brought level; `None` where the hollow is only broken through, or its
    /// opening cannot be brought level.
    pub struck_level: Option<Filled>,
    /// The hollow under its openings with the mouth dammed, in mm3: not a measure.
    pub cavity_mm3: f64,
    /// The angle of repose of the dry contents, in degrees.
    pub repose_deg: f64,
}

/// Contents at a pitch.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Filled {
    /// The pitch, in degrees.
    pub pitch_deg: f64,
    /// What one filling holds, in mm3: the largest pool.
    pub volume_mm3: f64,
    /// What would lie in other pools that a ridge keeps apart from it, in mm3; not in the volume.
    pub cut_off_mm3: f64,
    /// The middle of all the contents, in the blank's frame, in mm.
    #[serde(skip)]
    pub centroid: Option<Vector>,
}

/// Dry contents at a pitch.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Dry {
    /// Heaped at the angle of repose.
    pub heaped: Filled,
    /// And struck off along the opening.
    pub struck: Filled,
}

/// One point of the curve of hold over pitch.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CurvePoint {
    /// The pitch, in degrees.
    pub pitch_deg: f64,
    /// A liquid, in mm3.
    pub liquid_mm3: f64,
    /// Dry contents, heaped, in mm3.
    pub dry_mm3: f64,
}

/// The pitch that brings an axis level in the side view, in radians.
///
/// The tilt of the axis in the (s, y) plane; an axis that does not run along the blank at all gives a quarter turn.
#[must_use]
pub fn level_pitch(axis: &Axis) -> f64 {
    let along = axis.along();
    let sign = if along.s < 0.0 { -1.0 } else { 1.0 };
    if along.y.hypot(along.s) < 1e-9 { 0.0 } else { (sign * along.y).atan2(sign * along.s) }
}

impl Vessel<'_> {
    /// What the piece holds, in every pose asked for, and as it lies on the table: `lying` gives the pitch of that, in
    /// radians, if it lies at all, and is asked last.
    #[must_use]
    pub fn report(&self, asked: &Asked, lying: impl FnOnce() -> Option<f64>) -> Hold {
        at_once(self.report_in_slices(asked, lying, &Pace::unbroken()))
    }

    /// As [`Self::report`], in slices.
    pub async fn report_in_slices(&self, asked: &Asked, lying: impl FnOnce() -> Option<f64>, pace: &Pace) -> Hold {
        let repose = asked.repose;
        // What is struck is held to it.
        let cavity_mm3 = self.cavity_mm3_in_slices(pace).await;
        let dry_handle_level = self.dry(asked.handle_level, repose, pace).await;
        let best_pitch = self.best_dry_pitch_in_slices(repose, pace).await;
        let best = self.dry(best_pitch, repose, pace).await;
        let liquid_best_pitch = self.best_liquid_pitch();
        pace.pause().await;
        let liquid_best = self.liquid(liquid_best_pitch, pace).await;
        let liquid_handle_level = self.liquid(asked.handle_level, pace).await;
        let struck_level = match self.opening_level_pitch() {
            Some(pitch) => Some(self.dry(pitch, repose, pace).await.struck),
            None => None,
        };
        let liquid_lying = match lying() {
            Some(pitch) => Some(self.liquid(pitch, pace).await),
            None => None,
        };
        let carried = dry_handle_level.heaped.pitch_deg.abs() <= STEEPEST_CARRIED_DEG;
        let level_is_best = carried && dry_handle_level.heaped.volume_mm3 > best.heaped.volume_mm3;
        Hold {
            liquid_best,
            liquid_handle_level,
            dry_handle_level,
            dry_best: if level_is_best { dry_handle_level } else { best },
            struck_level,
            cavity_mm3,
            repose_deg: repose.to_degrees(),
            liquid_lying,
        }
    }

    /// The pitch at which the piece holds most of a liquid, in radians, -90 to 90 degrees.
    #[must_use]
    pub fn best_liquid_pitch(&self) -> f64 {
        let quarter = std::f64::consts::FRAC_PI_2;
        let rough = |pitch| self.liquid_mm3(&self.coarse, pitch);
        greatest((-quarter, quarter), LIQUID_STEPS, TOLERANCE, rough, |pitch| self.liquid_mm3(&self.elements, pitch))
    }

    /// The pitch within 30 degrees at which the piece holds most of dry contents, in radians; the volume there is
    /// within 0.5 % of the greatest and 0.1 % of the cavity.
    #[must_use]
    pub fn best_dry_pitch(&self, repose: f64) -> f64 {
        at_once(self.best_dry_pitch_in_slices(repose, &Pace::unbroken()))
    }

    async fn best_dry_pitch_in_slices(&self, repose: f64, pace: &Pace) -> f64 {
        let steepest = STEEPEST_CARRIED_DEG.to_radians();
        crest((-steepest, steepest), DRY_STEPS, DRY_GAIN, async |pitch| self.roughly(pitch, repose, pace).await).await
    }

    /// Hold over pitch, from -30 to 90 degrees every `step_deg` (at least 1), within 0.1 % of the cavity. For drawing.
    #[must_use]
    pub fn curve(&self, repose: f64, step_deg: f64) -> Vec<CurvePoint> {
        let step = if step_deg >= 1.0 { step_deg.min(60.0) } else { 1.0 };
        let count = (120.0 / step).floor() as u32;
        let point = |i: u32| {
            let pitch_deg = -30.0 + step * f64::from(i);
            let pitch = pitch_deg.to_radians();
            CurvePoint {
                pitch_deg,
                liquid_mm3: self.liquid_mm3(&self.elements, pitch),
                dry_mm3: self.hold(pitch, repose).volume_mm3,
            }
        };
        (0..=count).map(point).collect()
    }

    /// The pitch that brings the opening level, in radians: the saw line's ends on the rim, or the facing. Of several
    /// openings the one with most of the rim counts; without a saw or facing, the face s = 0.
    #[must_use]
    pub fn opening_level_pitch(&self) -> Option<f64> {
        let quarter = std::f64::consts::FRAC_PI_2;
        let openings = self.solid.with_role(Role::Opening).filter(|r| self.rim_of(r.cut) > 0.0);
        let Some(longest) = openings.max_by(|a, b| self.rim_of(a.cut).total_cmp(&self.rim_of(b.cut))) else {
            return self.rim.iter().any(|line| line.edge == RimEdge::Mouth).then_some(quarter);
        };
        let pitch = match &longest.region {
            Region::HalfSpace(half) => (-half.into.s).atan2(half.into.y),
            Region::Sawn(sawn) => {
                let points = self.rim_points(longest.cut).map(|p| p.s);
                let (from, to) = points.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), s| (a.min(s), b.max(s)));
                let rise = sawn.height(to.min(sawn.ends().1))? - sawn.height(from)?;
                rise.atan2(to - from)
            }
            Region::Revolved(_) => return None,
        };
        (pitch.abs() <= quarter).then_some(pitch)
    }

    fn rim_points(&self, cut: usize) -> impl Iterator<Item = &Vector> {
        let lines = self.rim.iter().filter(move |line| line.edge == RimEdge::Opening(cut));
        lines.flat_map(|line| line.points.iter())
    }

    /// Length of the rim along one opening, in mm.
    fn rim_of(&self, cut: usize) -> f64 {
        let lines = self.rim.iter().filter(|line| line.edge == RimEdge::Opening(cut));
        lines.flat_map(|line| line.points.windows(2)).map(|pair| (pair[1] - pair[0]).length()).sum()
    }

    async fn liquid(&self, pitch: f64, pace: &Pace) -> Filled {
        let filling = self.fill(pitch, 0.0, false, pace).await;
        filled(pitch, filling.heaped, &filling.heaped_pools)
    }

    async fn dry(&self, pitch: f64, repose: f64, pace: &Pace) -> Dry {
        let filling = self.fill(pitch, repose, true, pace).await;
        Dry {
            heaped: filled(pitch, filling.heaped, &filling.heaped_pools),
            struck: filled(pitch, filling.struck, &filling.struck_pools),
        }
    }
}

fn filled(pitch: f64, all: Contents, pools: &[f64]) -> Filled {
    let cut_off_mm3: f64 = pools.iter().skip(1).fold(0.0, |sum, pool| sum + pool);
    let volume_mm3 = (all.volume_mm3 - cut_off_mm3).max(0.0);
    Filled { pitch_deg: pitch.to_degrees(), volume_mm3, cut_off_mm3, centroid: all.centroid }
}
