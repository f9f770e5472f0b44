//! What ends the kept surface of a hollow, and how far it can be told from the middle of a patch.

use serde::Serialize;

use crate::geometry::surface::{Ending, SAME, SheetPoint, Taker};
use crate::geometry::{Axis, Limit, Region, Solid, Vector};

/// What the kept surface of a hollow ends at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RimEdge {
    /// The bowl-end face, s = 0.
    Mouth,
    /// A saw or a facing: the cut by its place in working order, from 0.
    Opening(usize),
    /// The outside, which the hollow has broken through; the cut whose outside it is, if it is one.
    Breakthrough(Option<usize>),
    /// Another hollow. Contents pass over it: it is no rim.
    Hollow(usize),
}

impl RimEdge {
    fn of(taker: Taker) -> Self {
        match taker {
            Taker::Face => Self::Mouth,
            Taker::Opening(cut) => Self::Opening(cut),
            Taker::Hollow(cut) => Self::Hollow(cut),
            Taker::Outside(Limit::Cut(cut)) => Self::Breakthrough(Some(cut)),
            Taker::Outside(Limit::StockSide | Limit::HeadEnd) => Self::Breakthrough(None),
        }
    }
}

/// One thing that ends the kept surface.
pub(super) struct SheetEnd<'a> {
    ending: &'a Ending<'a>,
    turning: Turning<'a>,
    pub(super) edge: RimEdge,
    /// Whether it is the same on both sides of the upright plane x = 0.
    pub(super) is_mirrored: bool,
}

/// How the clearance changes around the hollow's axis.
enum Turning<'a> {
    /// By no more than this per mm.
    AtMost(f64),
    /// As that of a region about this axis.
    About(&'a Axis),
}

/// A patch of a hollow's surface: its middle, seen from the hollow's axis, and half its size.
#[derive(Clone, Copy)]
pub(super) struct Patch {
    /// The middle.
    pub middle: SheetPoint,
    /// The point of the hollow's axis abreast of the middle.
    pub centre: Vector,
    /// The greatest radius about the hollow's axis.
    pub radius: f64,
    /// Half its length along the meridian.
    pub half_length: f64,
    /// Half its greatest length around the axis.
    pub half_arc: f64,
}

impl Patch {
    /// As far as any of it is from its middle, in mm.
    fn anywhere(&self) -> f64 {
        (self.half_length * self.half_length + self.half_arc * self.half_arc).sqrt()
    }
}

impl<'a> SheetEnd<'a> {
    /// One of the endings of the surface of a hollow about an axis.
    pub(super) fn new(solid: &Solid, ending: &'a Ending<'a>, hollow: &Axis) -> Self {
        let along = hollow.along();
        let region = |cut: usize| solid.removals.iter().find(|removal| removal.cut == cut).map(|it| &it.region);
        let (turning, is_mirrored) = match (ending.revolved(), ending.taker) {
            (Some(other), _) => (Turning::About(&other.axis), other.axis.is_in_upright_plane()),
            (None, Taker::Face | Taker::Outside(Limit::HeadEnd)) => (Turning::AtMost(along.radius()), true),
            (None, Taker::Outside(Limit::StockSide)) => (Turning::AtMost(1.0), true),
            (None, Taker::Opening(cut) | Taker::Hollow(cut) | Taker::Outside(Limit::Cut(cut))) => match region(cut) {
                Some(Region::HalfSpace(half)) => (Turning::AtMost(along.cross(half.into).length()), half.is_mirrored()),
                Some(region) => (Turning::AtMost(1.0), region.is_mirrored()),
                None => (Turning::AtMost(1.0), false),
            },
        };
        Self { ending, turning, edge: RimEdge::of(ending.taker), is_mirrored }
    }

    /// How far a point is from being taken, in mm: not positive where it is. It changes by no more than the step taken.
    ///
    /// A bore's sheet may begin on the face s = 0 itself: the face takes a hair of it, so that its edge is a rim.
    pub(super) fn clearance(&self, at: &SheetPoint) -> f64 {
        let clearance = self.ending.clearance(at);
        if self.edge == RimEdge::Mouth { clearance - SAME } else { clearance }
    }

    /// The most the clearance can differ over a patch from that in its middle, in mm.
    pub(super) fn reach(&self, patch: &Patch, hollow: &Axis) -> f64 {
        let anywhere = patch.anywhere();
        anywhere.min(patch.half_length + patch.half_arc * self.turn_rate(patch, hollow))
    }

    /// The most the clearance changes per mm around the hollow's axis, 0 to 1: nothing when the two are coaxial.
    fn turn_rate(&self, patch: &Patch, hollow: &Axis) -> f64 {
        match self.turning {
            Turning::AtMost(rate) => rate,
            Turning::About(other) => {
                // Around the hollow, a point's station along the other axis changes by the sine of the angle between
                // them, and its distance from that axis by how far apart the two middles of turning are.
                let sine = hollow.along().cross(other.along()).length();
                let apart = other.see(patch.centre).radius() + patch.half_length + patch.radius * sine * sine;
                let least_radius = other.see(patch.middle.point).radius() - patch.anywhere();
                let sideways = apart / least_radius;
                if least_radius <= apart { 1.0 } else { (sine * sine + sideways * sideways).sqrt().min(1.0) }
            }
        }
    }
}
