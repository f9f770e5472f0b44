//! One pass over the kept surface: column by column, up to the envelope.

use serde::Serialize;

use super::elements::{Elements, Raised};
use super::envelope::Envelope;
use super::pitch::Pitch;
use super::strike::Strike;
use super::support::Support;
use super::vessel::Vessel;
use crate::geometry::Vector;
use crate::geometry::at_once;
use crate::geometry::line::pace::{Pace, spend};

/// Contents in one pose.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Contents {
    /// How much, in mm3.
    pub volume_mm3: f64,
    /// The middle of its mass, in the blank's frame, in mm; `None` when there is none.
    #[serde(skip)]
    pub centroid: Option<Vector>,
}

/// Heaped and struck contents, and the pools they lie in, the largest first.
pub(super) struct Filling {
    pub heaped: Contents,
    pub struck: Contents,
    pub heaped_pools: Vec<f64>,
    pub struck_pools: Vec<f64>,
}

impl Vessel<'_> {
    /// What stays in the hollow at a pitch (radians, positive with the bowl end raised, no roll) when it is filled
    /// until the contents slope off at the angle of repose (radians; 0 for a liquid).
    ///
    /// The volume, in mm3, between the hollow and the lower envelope, over every point q of the rim, of the height of
    /// q plus tan(repose) times the level distance to q; within 0.1 % of the cavity for hollows up to 200 mm. In each
    /// upright column contents stand on a kept floor of the hollow and reach up to the envelope or to the wood next
    /// above: where a column enters through an opening from below, nothing in it counts. Pools that a ridge keeps
    /// apart all count: see [`Self::pools_mm3`]. The pitch is held to -90 to 90 degrees, the repose to 0 to 89.
    #[must_use]
    pub fn hold(&self, pitch: f64, repose: f64) -> Contents {
        at_once(self.fill(pitch, repose, false, &Pace::unbroken())).heaped
    }

    /// As [`Self::hold`], and struck off: besides, in each upright column nothing above the lowest place where it comes
    /// up into what a saw or a facing has taken, or out past the face s = 0. Never more than the cavity.
    #[must_use]
    pub fn struck(&self, pitch: f64, repose: f64) -> Contents {
        at_once(self.fill(pitch, repose, true, &Pace::unbroken())).struck
    }

    /// The volumes of contents that ridges keep apart, in mm3, the largest first; heaped, or struck off.
    ///
    /// A single hollow that bulges nowhere inward holds one pool. In any other, covered surface is followed from element
    /// to element: a ridge that stays bare over less than about a tenth of the hollow is not seen.
    #[must_use]
    pub fn pools_mm3(&self, pitch: f64, repose: f64, struck: bool) -> Vec<f64> {
        let Filling { heaped_pools, struck_pools, .. } = at_once(self.fill(pitch, repose, struck, &Pace::unbroken()));
        if struck { struck_pools } else { heaped_pools }
    }

    /// Fills the piece in one pose; struck contents only count when asked for.
    pub(super) async fn fill(&self, pitch: f64, repose: f64, asked_struck: bool, pace: &Pace) -> Filling {
        let (pitch, repose) = in_range(pitch, repose);
        let frame = Pitch::new(pitch);
        let strike = asked_struck.then(|| Strike::new(self, frame, repose));
        let support = Support::needed(self, frame, repose);
        let mut by_group = self.neighbours.as_ref().map(|_| vec![(0.0, 0.0); self.elements.groups.len()]);
        let (mut heaped, mut struck) = (Sum::default(), Sum::default());
        let rim = self.rim.iter().map(|line| line.points.as_slice());
        let each = |group: usize, i, element: Raised, top: f64| {
            if element.area < 0.0 && support.as_ref().is_some_and(|s| s.hangs(i)) {
                return;
            }
            let whole = heaped.add(element, top);
            let under = strike.as_ref().map_or(0.0, |s| struck.add(element, top.min(s.height(element))));
            if let Some(volumes) = by_group.as_mut().and_then(|all| all.get_mut(group)) {
                *volumes = (volumes.0 + whole, volumes.1 + under);
            }
        };
        self.visit(rim, &self.elements, frame, repose, each, pace).await;
        let pools = |sum: &Sum, of: fn(&(f64, f64)) -> f64| match (&self.neighbours, &by_group) {
            (Some(neighbours), Some(volumes)) => neighbours.pools(volumes.iter().map(of)),
            _ => vec![sum.volume.max(0.0)],
        };
        let (heaped_pools, struck_pools) = (pools(&heaped, |v| v.0), pools(&struck, |v| v.1));
        let (mut heaped, mut struck) = (self.mirrored(heaped.contents(frame)), self.mirrored(struck.contents(frame)));
        // Each is within its accuracy: what cannot be must not come of that.
        let is_liquid = repose <= 0.0;
        if is_liquid || asked_struck {
            let cavity = self.cavity_mm3_in_slices(pace).await;
            if is_liquid {
                heaped.volume_mm3 = heaped.volume_mm3.min(cavity);
            }
            struck.volume_mm3 = struck.volume_mm3.min(heaped.volume_mm3).min(cavity);
        }
        Filling { heaped_pools, struck_pools, heaped, struck }
    }

    /// Volume only, from the coarse surface and rim, in mm3: for comparing poses.
    pub(super) async fn roughly(&self, pitch: f64, repose: f64, pace: &Pace) -> f64 {
        let (pitch, repose) = in_range(pitch, repose);
        let mut sum = Sum::default();
        let rim = self.coarse_rim.iter().map(Vec::as_slice);
        let each = |_, _, element, top| {
            sum.add(element, top);
        };
        self.visit(rim, &self.coarse, Pitch::new(pitch), repose, each, pace).await;
        sum.volume.max(0.0)
    }

    /// Volume of a liquid only, in mm3.
    pub(super) fn liquid_mm3(&self, elements: &Elements, pitch: f64) -> f64 {
        let frame = Pitch::new(in_range(pitch, 0.0).0);
        let top = self.lowest_rim(frame);
        spend(elements.len() / 4);
        let columns = elements.y.iter().zip(&elements.s).zip(elements.area_y.iter().zip(&elements.area_s));
        let volume: f64 = columns
            .map(|((y, s), (area_y, area_s))| {
                let depth = (top - (y * frame.cos - s * frame.sin)).max(0.0);
                depth * (area_y * frame.cos - area_s * frame.sin)
            })
            .sum();
        volume.max(0.0)
    }

    /// Contents found from one side of the upright plane x = 0 only lie evenly about it.
    fn mirrored(&self, mut contents: Contents) -> Contents {
        if let Some(centroid) = contents.centroid.as_mut().filter(|_| self.one_side) {
            centroid.x = 0.0;
        }
        contents
    }

    /// Calls `each` with every element under the envelope: its group, its place, itself and the envelope's height.
    async fn visit<'r>(
        &self,
        rim: impl Iterator<Item = &'r [Vector]>,
        elements: &Elements,
        frame: Pitch,
        repose: f64,
        mut each: impl FnMut(usize, usize, Raised, f64),
        pace: &Pace,
    ) {
        let slope = repose.tan();
        let mut envelope = (repose > 0.0).then(|| Envelope::new(rim, frame, slope));
        let level_top = self.lowest_rim(frame);
        spend(elements.groups.len());
        for (at, group) in elements.groups.iter().enumerate() {
            let (x, level) = (group.middle.x, frame.level(group.middle));
            let lowest = frame.height(group.middle) - group.radius - slope * group.radius;
            let under = match &mut envelope {
                Some(envelope) => envelope.near(x, level, group.radius, lowest),
                None => level_top > lowest,
            };
            if !under {
                continue;
            }
            spend(group.to - group.from);
            for i in group.from..group.to {
                let element = Raised::new(elements.position(i), elements.area(i), frame);
                let top = envelope.as_ref().map_or(level_top, |e| e.height(element.x, element.level));
                if top > element.height {
                    each(at, i, element, top);
                }
            }
            pace.pause().await;
        }
    }
}

/// Contents that slope by less than this, in radians, lie level.
const LEVEL: f64 = 1e-6;

/// A pitch from -90 to 90 degrees and a repose from 0 to 89; what is not a number is none.
fn in_range(pitch: f64, repose: f64) -> (f64, f64) {
    let quarter = std::f64::consts::FRAC_PI_2;
    let steepest = quarter * (89.0 / 90.0);
    let sound = |v: f64| if v.is_nan() { 0.0 } else { v };
    let repose = sound(repose).clamp(0.0, steepest);
    (sound(pitch).clamp(-quarter, quarter), if repose < LEVEL { 0.0 } else { repose })
}

/// Columns added up: volume and its first moments.
#[derive(Clone, Copy, Debug, Default)]
struct Sum {
    volume: f64,
    x: f64,
    level: f64,
    height: f64,
}

impl Sum {
    /// Adds the column from an element up to `top`, below nothing over a ceiling; gives its volume.
    fn add(&mut self, element: Raised, top: f64) -> f64 {
        let depth = top - element.height;
        if depth <= 0.0 {
            return 0.0;
        }
        let volume = element.area * depth;
        self.volume += volume;
        self.x += volume * element.x;
        self.level += volume * element.level;
        self.height += volume * (top + element.height) / 2.0;
        volume
    }

    fn contents(&self, frame: Pitch) -> Contents {
        if self.volume.is_nan() || self.volume <= 1e-9 {
            return Contents { volume_mm3: 0.0, centroid: None };
        }
        let middle = |moment: f64| moment / self.volume;
        let centroid = frame.back(middle(self.x), middle(self.level), middle(self.height));
        Contents { volume_mm3: self.volume, centroid: Some(centroid) }
    }
}
