//! What ends the kept surface of a hollow: the face at s = 0, saws and facings, the outside, other hollows.

use serde::Serialize;

use crate::geometry::{Axis, Limit, Region, Removal, Role, Solid, Stock, Vector};

/// What the kept surface of a hollow ends at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// The bowl-end face, s = 0.
    Mouth,
    /// A saw or a facing: the cut by its place in working order, from 0.
    Opening(usize),
    /// The outside, which the hollow has broken through; the cut whose outside it is, if it is one.
    Breakthrough(Option<usize>),
    /// Another hollow. Contents pass over it: it is no rim.
    Hollow(usize),
}

/// One thing that ends the kept surface.
pub(super) struct Bound<'a> {
    shape: Shape<'a>,
    pub(super) edge: Edge,
}

enum Shape<'a> {
    Face,
    HeadEnd(f64),
    Sides(&'a Stock),
    Cut(&'a Region),
}

/// A patch of a hollow's surface: its middle, seen from the hollow's axis, and half its size.
#[derive(Clone, Copy)]
pub(super) struct Patch {
    /// The middle.
    pub middle: Vector,
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

impl<'a> Bound<'a> {
    /// Everything that can end the surface of the hollow whose place among the removals is `own`.
    pub(super) fn all(solid: &'a Solid, own: usize) -> Vec<Self> {
        let mut all = vec![
            Self { shape: Shape::Face, edge: Edge::Mouth },
            Self { shape: Shape::HeadEnd(solid.stock.length), edge: breakthrough(Limit::HeadEnd) },
            Self { shape: Shape::Sides(&solid.stock), edge: breakthrough(Limit::StockSide) },
        ];
        let others = solid.removals.iter().enumerate().filter(|(place, _)| *place != own);
        all.extend(others.map(|(_, removal)| Self { shape: Shape::Cut(&removal.region), edge: edge_of(removal) }));
        all
    }

    /// Whether it is the same on both sides of the upright plane x = 0.
    pub(super) fn is_mirrored(&self) -> bool {
        match self.shape {
            Shape::Face | Shape::HeadEnd(_) | Shape::Sides(_) => true,
            Shape::Cut(region) => region.is_mirrored(),
        }
    }

    /// How far a point is from being taken, in mm: negative where it is. It changes by no more than the step taken.
    pub(super) fn clearance(&self, point: Vector) -> f64 {
        match self.shape {
            Shape::Face => point.s,
            Shape::HeadEnd(length) => length - point.s,
            Shape::Sides(stock) => stock.depth_from_sides(point),
            Shape::Cut(region) => region.signed_distance(point),
        }
    }

    /// The most the clearance can differ over a patch from that in its middle, in mm.
    pub(super) fn reach(&self, patch: &Patch, hollow: &Axis) -> f64 {
        let anywhere = patch.anywhere();
        anywhere.min(patch.half_length + patch.half_arc * self.turn_rate(patch, hollow))
    }

    /// The most the clearance changes per mm around the hollow's axis, 0 to 1: nothing when the two are coaxial.
    fn turn_rate(&self, patch: &Patch, hollow: &Axis) -> f64 {
        match self.shape {
            Shape::Face | Shape::HeadEnd(_) => hollow.along().radius(),
            Shape::Sides(_) | Shape::Cut(Region::Sawn(_)) => 1.0,
            Shape::Cut(Region::HalfSpace(half)) => hollow.along().cross(half.into).length(),
            Shape::Cut(Region::Revolved(other)) => {
                // Around the hollow, a point's station along the other axis changes by the sine of the angle between
                // them, and its distance from that axis by how far apart the two middles of turning are.
                let sine = hollow.along().cross(other.axis.along()).length();
                let apart = other.axis.see(patch.centre).radius() + patch.half_length + patch.radius * sine * sine;
                let least_radius = other.axis.see(patch.middle).radius() - patch.anywhere();
                let sideways = apart / least_radius;
                if least_radius <= apart { 1.0 } else { (sine * sine + sideways * sideways).sqrt().min(1.0) }
            }
        }
    }
}

fn edge_of(removal: &Removal) -> Edge {
    match removal.role {
        Role::Outside => breakthrough(Limit::Cut(removal.cut)),
        Role::Inside => Edge::Hollow(removal.cut),
        Role::Opening => Edge::Opening(removal.cut),
    }
}

fn breakthrough(limit: Limit) -> Edge {
    match limit {
        Limit::Cut(cut) => Edge::Breakthrough(Some(cut)),
        Limit::StockSide | Limit::HeadEnd => Edge::Breakthrough(None),
    }
}
