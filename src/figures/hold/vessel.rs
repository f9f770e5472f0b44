//! A hollowed piece made ready to be filled: its kept surface, its rim, and what it holds in any pose.

use serde::Serialize;
use thiserror::Error;

use super::bound::{Bound, Edge};
use super::cavity;
use super::elements::Elements;
use super::envelope::Envelope;
use super::pitch::Pitch;
use super::rim::{self, RimLine};
use super::sheet::Sheet;
use super::strike::Strike;
use super::support::Support;
use super::trace::{Traced, Tracer};
use crate::geometry::{Region, Revolved, Role, Solid, Vector};

/// Elements of the kept surface aimed at, over the whole of every hollow.
const ELEMENTS: f64 = 450.0;
/// For comparing poses, points are left out of the rim that lie this near to what is left, in mm.
const COARSE: f64 = 0.25;

/// A hollowed piece made ready to be filled.
pub struct Vessel<'a> {
    pub(super) solid: &'a Solid,
    pub(super) hollows: Vec<&'a Revolved>,
    pub(super) elements: Elements,
    pub(super) coarse: Elements,
    pub(super) rim: Vec<RimLine>,
    /// The rim in few straight pieces.
    coarse_rim: Vec<Vec<Vector>>,
    flux_of_x: f64,
    pub(super) broken_through: bool,
    /// About how long an element is, in mm.
    pub(super) element_size: f64,
}

/// Contents in one pose.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Contents {
    /// How much, in mm3.
    pub volume_mm3: f64,
    /// The middle of its mass, in the blank's frame, in mm; `None` when there is none.
    #[serde(skip)]
    pub centroid: Option<Vector>,
}

/// Why a piece holds nothing that can be measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum HoldError {
    /// There is no hollow.
    #[error("nothing is hollowed out yet: add a bore or another hollow")]
    NoHollow,
    /// The other cuts have taken all of the hollow's surface.
    #[error("the cuts have left nothing of the hollow: raise the saw line or deepen the hollow")]
    NothingKept,
    /// No cut opens the hollow.
    #[error("the hollow is closed all round: saw or face it open, or start it at the bowl end")]
    Closed,
}

impl<'a> Vessel<'a> {
    /// Follows the kept surface and the rim of every hollow of a piece.
    ///
    /// # Errors
    /// [`HoldError`]: there is no hollow, nothing of it is kept, or it has no rim.
    pub fn new(solid: &'a Solid) -> Result<Self, HoldError> {
        let sheets: Vec<_> = hollows(solid)
            .filter_map(|(own, hollow)| Sheet::new(hollow, &solid.stock).map(|sheet| (own, sheet)))
            .collect();
        if sheets.is_empty() {
            return Err(HoldError::NoHollow);
        }
        let area: f64 = sheets.iter().map(|(_, sheet)| sheet.area()).sum();
        let size = (area / ELEMENTS).sqrt().max(1e-3);
        let mut traced = Traced::default();
        for (own, sheet) in &sheets {
            let bounds = Bound::all(solid, *own);
            Tracer::new(sheet, &bounds, solid.removals[*own].cut, size, &mut traced).run();
        }
        if traced.elements.len() == 0 {
            return Err(HoldError::NothingKept);
        }
        let rim = rim::lines(&traced.chords);
        if rim.is_empty() {
            return Err(HoldError::Closed);
        }
        let broken_through = rim.iter().any(|line| matches!(line.edge, Edge::Breakthrough(_)));
        let hollows = sheets.iter().map(|(_, sheet)| sheet.hollow).collect();
        let Traced { elements, flux_of_x, .. } = traced;
        let coarse = elements.coarse();
        let coarse_rim = rim.iter().map(|line| rim::simpler(&line.points, COARSE)).collect();
        Ok(Self { solid, hollows, elements, coarse, rim, coarse_rim, flux_of_x, broken_through, element_size: size })
    }

    /// The rim: every line along which the kept surface of the hollow ends in the open.
    #[must_use]
    pub fn rim(&self) -> &[RimLine] {
        &self.rim
    }

    /// The hollow under every saw and facing, within the outside and past s = 0, as if its mouth were dammed: not a
    /// measure, because contents run out at the lowest point of the rim. In mm3, within 0.1 %.
    #[must_use]
    pub fn cavity_mm3(&self) -> f64 {
        let open_across = self.solid.with_role(Role::Opening).all(|r| match &r.region {
            Region::Sawn(_) => true,
            Region::HalfSpace(half) => half.into.x.abs() < 1e-9,
            Region::Revolved(_) => false,
        });
        if open_across && !self.broken_through {
            self.flux_of_x.max(0.0)
        } else {
            cavity::by_lines(self.solid, &self.hollows, &self.elements, self.element_size)
        }
    }

    /// What stays in the hollow at a pitch (radians, positive with the bowl end raised, no roll) when it is filled
    /// until the contents slope off at the angle of repose (radians; 0 for a liquid).
    ///
    /// The volume, in mm3, between the hollow and the lower envelope, over every point q of the rim, of the height of
    /// q plus tan(repose) times the level distance to q; within 0.1 % for hollows up to 200 mm. In each upright column
    /// contents stand on a kept floor of the hollow and reach up to the envelope or to the wood next above: where a
    /// column enters through an opening from below, nothing in it counts. Pools that a ridge keeps apart all count:
    /// see [`Self::pools_mm3`]. The pitch is held to -90 to 90 degrees, the repose to 0 to 89.
    #[must_use]
    pub fn hold(&self, pitch: f64, repose: f64) -> Contents {
        self.fill(&self.elements, pitch, repose, false).0
    }

    /// As [`Self::hold`], and struck off: besides, in each upright column nothing above the lowest place where it comes
    /// up into what a saw or a facing has taken, or out past the face s = 0. Never more than the cavity.
    #[must_use]
    pub fn struck(&self, pitch: f64, repose: f64) -> Contents {
        self.fill(&self.elements, pitch, repose, true).1
    }

    /// Heaped and struck contents in one pass.
    pub(super) fn heaped_and_struck(&self, pitch: f64, repose: f64) -> (Contents, Contents) {
        self.fill(&self.elements, pitch, repose, true)
    }

    /// Volume only, from the coarse surface, in mm3: for comparing poses.
    pub(super) fn roughly(&self, pitch: f64, repose: f64) -> f64 {
        let (pitch, repose) = in_range(pitch, repose);
        if repose == 0.0 {
            return self.liquid_mm3(&self.coarse, pitch);
        }
        let frame = Pitch::new(pitch);
        let mut sum = Sum::default();
        let lines = self.coarse_rim.iter().map(Vec::as_slice);
        self.visit_under(lines, &self.coarse, frame, repose, &mut |_, element, top| sum.add(element, top));
        sum.volume.max(0.0)
    }

    /// Volume of a liquid only, in mm3.
    pub(super) fn liquid_mm3(&self, elements: &Elements, pitch: f64) -> f64 {
        let frame = Pitch::new(in_range(pitch, 0.0).0);
        let top = self.lowest_rim(frame);
        let columns = elements.y.iter().zip(&elements.s).zip(elements.area_y.iter().zip(&elements.area_s));
        let volume: f64 = columns
            .map(|((y, s), (area_y, area_s))| {
                let depth = (top - (y * frame.cos - s * frame.sin)).max(0.0);
                depth * (area_y * frame.cos - area_s * frame.sin)
            })
            .sum();
        volume.max(0.0)
    }

    /// Height of the lowest point of the rim at a pitch, in mm over the origin of the blank's frame.
    fn lowest_rim(&self, frame: Pitch) -> f64 {
        let points = self.rim.iter().flat_map(|line| line.points.iter());
        points.map(|p| frame.height(*p)).fold(f64::INFINITY, f64::min)
    }

    fn fill(&self, elements: &Elements, pitch: f64, repose: f64, strike: bool) -> (Contents, Contents) {
        let (pitch, repose) = in_range(pitch, repose);
        let frame = Pitch::new(pitch);
        let strike = strike.then(|| Strike::new(self.solid, frame));
        let support = Support::needed(self, frame, repose);
        let (mut heaped, mut struck) = (Sum::default(), Sum::default());
        self.visit(elements, frame, repose, |i, element, top| {
            if element.area < 0.0 && top > element.height && support.as_ref().is_some_and(|s| s.hangs(i)) {
                return;
            }
            heaped.add(element, top);
            if let Some(strike) = &strike {
                struck.add(element, top.min(strike.height(element)));
            }
        });
        (heaped.contents(frame), struck.contents(frame))
    }

    /// Calls `each` with every element under the envelope, and the envelope's height over it.
    pub(super) fn visit(
        &self,
        elements: &Elements,
        frame: Pitch,
        repose: f64,
        mut each: impl FnMut(usize, Raised, f64),
    ) {
        let lines = self.rim.iter().map(|line| line.points.as_slice());
        self.visit_under(lines, elements, frame, repose, &mut each);
    }

    fn visit_under<'r>(
        &self,
        rim: impl Iterator<Item = &'r [Vector]>,
        elements: &Elements,
        frame: Pitch,
        repose: f64,
        each: &mut impl FnMut(usize, Raised, f64),
    ) {
        let slope = repose.tan();
        let mut envelope = (repose > 0.0).then(|| Envelope::new(rim, frame, slope));
        let level_top = self.lowest_rim(frame);
        for group in &elements.groups {
            let middle = group.middle;
            let top = match &mut envelope {
                Some(envelope) => envelope.near(middle.x, frame.level(middle), group.radius),
                None => level_top,
            };
            if elements.is_above(group, frame, top + slope * group.radius) {
                continue;
            }
            for i in group.from..group.to {
                let element = Raised::new(elements.position(i), elements.area(i), frame);
                let top = envelope.as_ref().map_or(level_top, |e| e.height(element.x, element.level));
                if top > element.height {
                    each(i, element, top);
                }
            }
        }
    }
}

/// The hollows of a piece, each with its place among the removals.
fn hollows(solid: &Solid) -> impl Iterator<Item = (usize, &Revolved)> {
    solid.removals.iter().enumerate().filter_map(|(place, removal)| match &removal.region {
        Region::Revolved(revolved) if removal.role == Role::Inside => Some((place, revolved)),
        _ => None,
    })
}

/// A pitch from -90 to 90 degrees and a repose from 0 to 89; what is not a number is none.
pub(super) fn in_range(pitch: f64, repose: f64) -> (f64, f64) {
    let quarter = std::f64::consts::FRAC_PI_2;
    let steepest = quarter * (89.0 / 90.0);
    let sound = |v: f64| if v.is_nan() { 0.0 } else { v };
    (sound(pitch).clamp(-quarter, quarter), sound(repose).clamp(0.0, steepest))
}

/// An element in the frame of a pitched piece.
#[derive(Clone, Copy)]
pub(super) struct Raised {
    pub x: f64,
    pub level: f64,
    pub height: f64,
    /// Its area seen from above, in mm2: positive on a floor, negative on a ceiling.
    pub area: f64,
}

impl Raised {
    fn new(position: Vector, area: Vector, frame: Pitch) -> Self {
        Self { x: position.x, level: frame.level(position), height: frame.height(position), area: frame.height(area) }
    }
}

/// Columns added up: volume and its first moments.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Sum {
    pub volume: f64,
    x: f64,
    level: f64,
    height: f64,
}

impl Sum {
    /// Adds the column from an element up to `top`; takes it away again over a ceiling.
    pub(super) fn add(&mut self, element: Raised, top: f64) {
        let depth = top - element.height;
        if depth <= 0.0 {
            return;
        }
        let volume = element.area * depth;
        self.volume += volume;
        self.x += volume * element.x;
        self.level += volume * element.level;
        self.height += volume * (top + element.height) / 2.0;
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
