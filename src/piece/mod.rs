//! From the document to geometry: a design's axes, regions and states.

mod error;
pub mod join;
mod regions;

use std::pin::pin;
use std::task::Poll;

pub use self::error::PieceError;
use self::join::JoinLine;
pub use self::regions::pass_region;
use self::regions::{fitted_plugs, region, stock};
use crate::design::axes::placed_axes;
use crate::design::plug::tail_face;
use crate::design::{AxisName, Design, Limits};
use crate::geometry::line::pace::poll_once;
use crate::geometry::{Axis, Pace, Region, Removal, Revolved, Solid, at_once};

/// A design with everything resolved that geometry needs.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Stock, removals and plugs in working order.
    pub solid: Solid,
    /// The axes; A first.
    pub axes: Vec<Axis>,
    /// Station of the tail face, where the live centre bears, in mm: as far as the plug stands out, its tenon included, or 0.
    pub tail_face: f64,
    /// Station of the head face, where the drive centre bears, in mm.
    pub head_face: f64,
    /// The join proposed for each pass on axis A that has a later pass on another axis or a hollow under it.
    pub joins: Vec<JoinLine>,
}

impl Piece {
    /// Resolves a design.
    ///
    /// # Errors
    /// The first thing that has no geometry; see [`PieceError`].
    pub fn resolve(design: &Design, limits: &Limits) -> Result<Self, PieceError> {
        at_once(Self::resolve_in_slices(design, limits, &Pace::unbroken()))
    }

    /// As [`resolve`](Self::resolve), in slices.
    ///
    /// # Errors
    /// As [`resolve`](Self::resolve).
    pub async fn resolve_in_slices(design: &Design, limits: &Limits, pace: &Pace) -> Result<Self, PieceError> {
        Self::with_joins(design, Some(limits), pace).await
    }

    /// As [`resolve`](Self::resolve), where that takes no more than about so many units of
    /// [work](crate::geometry::Pace); else as [`resolve_drawn`](Self::resolve_drawn). And whether the joins are proposed.
    ///
    /// # Errors
    /// As [`resolve`](Self::resolve).
    pub fn resolve_within(design: &Design, limits: &Limits, units: u64) -> Result<(Self, bool), PieceError> {
        let pace = Pace::in_slices(units);
        match poll_once(pin!(Self::resolve_in_slices(design, limits, &pace))) {
            Poll::Ready(piece) => Ok((piece?, true)),
            Poll::Pending => Ok((Self::resolve_drawn(design)?, false)),
        }
    }

    /// Resolves a design whose passes are all drawn, without proposing joins: quicker. A pass that follows the join is
    /// left out.
    ///
    /// # Errors
    /// The first thing that has no geometry; see [`PieceError`].
    pub fn resolve_drawn(design: &Design) -> Result<Self, PieceError> {
        at_once(Self::with_joins(design, None, &Pace::unbroken()))
    }

    async fn with_joins(design: &Design, limits: Option<&Limits>, pace: &Pace) -> Result<Self, PieceError> {
        let stock = stock(design)?;
        let tail_face = tail_face(design);
        let axes = placed_axes(design)?;
        let mut regions = Vec::with_capacity(design.cuts.len());
        for (cut, choice) in design.cuts.iter().enumerate() {
            regions.push(region(cut, choice, &axes)?);
        }
        let joins = match limits {
            Some(limits) => join::propose_all(design, &axes, &mut regions, limits, pace).await?,
            None => Vec::new(),
        };
        let removals = regions
            .into_iter()
            .enumerate()
            .filter_map(|(cut, region)| region.map(|(region, role)| Removal { region, role, cut }))
            .collect();
        let plugs = fitted_plugs(design)?;
        let solid = Solid { stock, removals, plugs };
        Ok(Self { solid, axes, tail_face, head_face: stock.length, joins })
    }

    /// An axis by name.
    #[must_use]
    pub fn axis(&self, name: AxisName) -> Option<&Axis> {
        self.axes.get(name.index())
    }

    /// Where the finished piece begins at its bowl end, along axis A, in mm: past what is faced off there.
    #[must_use]
    pub fn rim(&self) -> f64 {
        let faced = self.solid.removals.iter().filter_map(|removal| match &removal.region {
            Region::HalfSpace(half) if half.into.s < 0.0 => Some(half.offset / half.into.s),
            _ => None,
        });
        faced.fold(0.0, f64::max)
    }

    /// The region a cut takes, when it is one of revolution.
    #[must_use]
    pub fn revolved(&self, cut: usize) -> Option<&Revolved> {
        self.solid.removals.iter().find(|r| r.cut == cut).and_then(|r| match &r.region {
            Region::Revolved(revolved) => Some(revolved),
            Region::Sawn(_) | Region::HalfSpace(_) => None,
        })
    }
}
