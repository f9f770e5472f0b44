//! A hollowed piece made ready to be filled: its kept surface, its rim, and what it holds in any pose.

use std::borrow::Cow;
use std::cell::OnceCell;

use thiserror::Error;

use super::bound::RimEdge;
use super::cavity;
use super::coaxial::as_one;
use super::elements::Elements;
use super::pitch::Pitch;
use super::pools::{Neighbours, bulges_nowhere};
use super::rim::{self, RimLine};
use super::sheet::area;
use super::trace::{Chord, Traced, Tracer};
use crate::geometry::surface::HollowSurface;
use crate::geometry::{Pace, Region, Revolved, Role, Solid, Vector, at_once};

/// Elements aimed at for each hollow, on the average over the whole surface of all: four times fewer than there are.
const ELEMENTS: f64 = 450.0;
/// The most that may be asked for.
const MOST_ELEMENTS: f64 = 20_000.0;
/// For comparing poses, points are left out of the rim that lie this near to what is left, in mm.
const COARSE: f64 = 0.25;

/// A hollowed piece made ready to be filled.
pub struct Vessel<'a> {
    /// The piece, its hollows on one line as one.
    pub(super) solid: Cow<'a, Solid>,
    pub(super) elements: Elements,
    pub(super) coarse: Elements,
    /// The rim, or the part of it on the side looked at.
    pub(super) rim: Vec<RimLine>,
    /// The rim in few straight pieces.
    pub(super) coarse_rim: Vec<Vec<Vector>>,
    /// Which elements touch; `None` where contents can only lie in one pool.
    pub(super) neighbours: Option<Neighbours>,
    pub(super) broken_through: bool,
    /// Only the side x >= 0 was looked at, because the other is its mirror image: the elements' areas are doubled.
    pub(super) one_side: bool,
    /// What the rim is made of.
    chords: Vec<Chord>,
    flux_of_x: f64,
    element_size: f64,
    cavity_mm3: OnceCell<f64>,
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
    /// A hole of less than half a millimetre may be missed; see [`Self::broken_at`].
    ///
    /// # Errors
    /// [`HoldError`]: there is no hollow, nothing of it is kept, or it has no rim.
    pub fn new(solid: &'a Solid) -> Result<Self, HoldError> {
        Self::broken_at(solid, &[])
    }

    /// As [`Self::new`], of a piece that is known to be broken through at some points of the hollow's surface, one at
    /// least in each hole (as the wall finds them): however small the holes are, they are ways out.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn broken_at(solid: &'a Solid, holes: &[Vector]) -> Result<Self, HoldError> {
        at_once(Self::in_slices(solid, holes, &Pace::unbroken()))
    }

    /// As [`Self::broken_at`], in slices.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub async fn in_slices(solid: &'a Solid, holes: &[Vector], pace: &Pace) -> Result<Self, HoldError> {
        Self::followed(solid, holes, ELEMENTS, pace).await
    }

    /// As [`Self::new`], with about so many elements for each hollow (450 by itself; 50 to 20000 in all): slower and nearer.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn with_elements(solid: &'a Solid, elements: f64) -> Result<Self, HoldError> {
        at_once(Self::followed(solid, &[], elements, &Pace::unbroken()))
    }

    async fn followed(solid: &'a Solid, holes: &[Vector], elements: f64, pace: &Pace) -> Result<Self, HoldError> {
        let solid = as_one(solid);
        let surfaces = HollowSurface::all(&solid);
        if surfaces.is_empty() {
            return Err(HoldError::NoHollow);
        }
        let area: f64 = surfaces.iter().map(|surface| area(&surface.sheet)).sum();
        // Hollows that meet keep a part of their surfaces only, and meet in ridges.
        let elements = elements * if surfaces.len() > 1 { 2.0 * surfaces.len() as f64 } else { 1.0 };
        let count = if elements > 50.0 { elements.min(MOST_ELEMENTS) } else { 50.0 };
        let size = (area / count).sqrt().max(1e-3);
        let mut traced = Traced::default();
        for surface in &surfaces {
            let mut tracer = Tracer::new(surface, size, &mut traced);
            // Pools are told apart on the whole surface only.
            if surfaces.len() == 1 && bulges_nowhere(surface.sheet.hollow()) && tracer.is_mirrored() {
                tracer.run_one_side(holes, pace).await;
            } else {
                tracer.run(holes, pace).await;
            }
        }
        Self::from_traced(solid, traced, size)
    }

    fn from_traced(solid: Cow<'a, Solid>, traced: Traced, element_size: f64) -> Result<Self, HoldError> {
        let Traced { elements, chords, seams, flux_of_x, one_side } = traced;
        if elements.len() == 0 {
            return Err(HoldError::NothingKept);
        }
        let rim = rim::lines(&chords, element_size);
        if rim.is_empty() {
            return Err(HoldError::Closed);
        }
        Ok(Self {
            broken_through: rim.iter().any(|line| matches!(line.edge, RimEdge::Breakthrough(_))),
            coarse: elements.coarse(element_size),
            coarse_rim: rim.iter().map(|line| rim::simpler(&line.points, COARSE)).collect(),
            neighbours: Neighbours::needed(hollows(&solid), &elements, &seams, element_size),
            solid,
            elements,
            rim,
            one_side,
            chords,
            flux_of_x,
            element_size,
            cavity_mm3: OnceCell::new(),
        })
    }

    /// The hollows.
    pub(super) fn hollows(&self) -> impl Iterator<Item = &Revolved> {
        hollows(&self.solid)
    }

    /// The rim: every line along which the kept surface of the hollow ends in the open.
    #[must_use]
    pub fn rim(&self) -> Vec<RimLine> {
        if !self.one_side {
            return self.rim.clone();
        }
        let both: Vec<Chord> = self.chords.iter().flat_map(|chord| [*chord, chord.mirrored()]).collect();
        rim::lines(&both, self.element_size)
    }

    /// The hollow under every saw and facing, within the outside and past s = 0, as if its mouth were dammed: not a
    /// measure, because contents run out at the lowest point of the rim. In mm3, within 0.1 %.
    #[must_use]
    pub fn cavity_mm3(&self) -> f64 {
        at_once(self.cavity_mm3_in_slices(&Pace::unbroken()))
    }

    /// As [`Self::cavity_mm3`], in slices.
    pub async fn cavity_mm3_in_slices(&self, pace: &Pace) -> f64 {
        if let Some(known) = self.cavity_mm3.get() {
            return *known;
        }
        let open_across = self.solid.with_role(Role::Opening).all(|r| match &r.region {
            Region::Sawn(_) => true,
            Region::HalfSpace(half) => half.is_mirrored(),
            Region::Revolved(_) => false,
        });
        let by_flux = open_across && !self.broken_through;
        let found = if by_flux { self.flux_of_x.max(0.0) } else { cavity::in_parts(&self.solid, pace).await };
        *self.cavity_mm3.get_or_init(|| found)
    }

    /// Height of the lowest point of the rim at a pitch, in mm over the origin of the blank's frame.
    pub(super) fn lowest_rim(&self, frame: Pitch) -> f64 {
        let points = self.rim.iter().flat_map(|line| line.points.iter());
        points.map(|p| frame.height(*p)).fold(f64::INFINITY, f64::min)
    }
}

fn hollows(solid: &Solid) -> impl Iterator<Item = &Revolved> {
    solid.with_role(Role::Inside).filter_map(|removal| match &removal.region {
        Region::Revolved(revolved) => Some(revolved),
        Region::Sawn(_) | Region::HalfSpace(_) => None,
    })
}
