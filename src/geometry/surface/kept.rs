//! Which points of a hollow's surface are kept.

use super::beside::{SAME, beside};
use super::coaxial;
use super::sheet::{Sheet, SheetPoint, Spot};
use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::Revolved;
use crate::geometry::region::solid::{Limit, Removal, Role, Solid};
use crate::geometry::region::stock::Stock;

/// Surfaces of two hollows nearer to each other than this, in mm, count as one where the thinnest wall is looked for.
pub(super) const NEARLY: f64 = 0.002;
/// Below this station, in mm, a point lies before the face s = 0: rounding must not take the face itself.
const FACE: f64 = -1e-9;

/// What the kept surface of a hollow ends at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taker {
    /// The face s = 0: what lies before it is no part of the piece.
    Face,
    /// The opening with this place in working order: a saw or a facing.
    Opening(usize),
    /// The hollow with this place in working order. Contents pass over it: it is no rim.
    Hollow(usize),
    /// The outside, where the hollow has broken through.
    Outside(Limit),
}

/// One thing that may take a part of a hollow's surface.
#[derive(Clone, Debug)]
pub struct Ending<'a> {
    /// What it is.
    pub taker: Taker,
    pub(super) shape: Shape<'a>,
}

#[derive(Clone, Debug)]
pub(super) enum Shape<'a> {
    Face,
    HeadEnd(f64),
    Sides(&'a Stock),
    Region(&'a Region),
    /// Another hollow, and whether it keeps what both surfaces share.
    Hollow(&'a Revolved, bool),
    /// Another hollow about the same line, and the stretches of the meridian that it takes.
    Coaxial(&'a Revolved, Intervals),
}

impl Ending<'_> {
    /// How far a point of the sheet is from being taken, in mm: not positive where it is taken.
    ///
    /// It changes by no more than the way between two points along the sheet, and [`SAME`] twice.
    #[must_use]
    pub fn clearance(&self, at: &SheetPoint) -> f64 {
        match &self.shape {
            Shape::Face => at.point.s - FACE,
            Shape::HeadEnd(length) => length - at.point.s - SAME,
            Shape::Sides(stock) => stock.depth_from_sides(at.point) - SAME,
            Shape::Region(region) => region.signed_distance(at.point) - SAME,
            Shape::Hollow(other, is_first) => beside(other, *is_first, at),
            Shape::Coaxial(_, taken) => coaxial::clearance(taken, at.place.u),
        }
    }

    /// [`Self::clearance`], but surfaces of two hollows nearer than [`NEARLY`] are one, and the first of both keeps it.
    fn clearance_nearly(&self, at: &SheetPoint) -> f64 {
        match &self.shape {
            Shape::Hollow(other, keeps) => {
                let clearance = beside(other, *keeps, at);
                // Back to back there is no wood between, and neither keeps it.
                if *keeps || (-SAME..0.0).contains(&clearance) { clearance - NEARLY } else { clearance + NEARLY }
            }
            _ => self.clearance(at),
        }
    }

    /// Whether a point of the sheet is taken: where the clearance is not positive, to [`SAME`].
    #[must_use]
    pub fn takes(&self, at: &SheetPoint) -> bool {
        match &self.shape {
            // Much quicker than the way to it.
            Shape::Region(Region::Sawn(sawn)) => sawn.contains(at.point),
            _ => self.clearance(at) <= 0.0,
        }
    }

    /// The direction in which the clearance grows, of length 1, where that is the same everywhere: for planes.
    pub(super) fn slope(&self) -> Option<Vector> {
        match &self.shape {
            Shape::Face => Some(Vector::new(0.0, 0.0, 1.0)),
            Shape::HeadEnd(_) => Some(Vector::new(0.0, 0.0, -1.0)),
            Shape::Region(Region::HalfSpace(half)) => Some(-half.into),
            _ => None,
        }
    }

    /// The region taken, where it is one of revolution.
    #[must_use]
    pub fn revolved(&self) -> Option<&Revolved> {
        match self.shape {
            Shape::Region(Region::Revolved(revolved)) | Shape::Hollow(revolved, _) | Shape::Coaxial(revolved, _) => {
                Some(revolved)
            }
            _ => None,
        }
    }

    /// Whether it is the outside, which the wall is measured to.
    #[must_use]
    pub fn is_outside(&self) -> bool {
        matches!(self.taker, Taker::Outside(_))
    }
}

/// The surface of one hollow of a solid, and what takes parts of it: what is left is the kept surface.
///
/// A point is kept when it is at or past the face s = 0 and in no opening, not inside another hollow, and inside the
/// outside shape. Hollows that overlap behave as one: of a surface that two of them share, the first in working order
/// keeps it.
#[derive(Clone, Debug)]
pub struct HollowSurface<'a> {
    /// The solid.
    pub solid: &'a Solid,
    /// The hollow, by its place in working order from 0.
    pub cut: usize,
    /// Its whole surface.
    pub sheet: Sheet<'a>,
    endings: Vec<Ending<'a>>,
}

impl<'a> HollowSurface<'a> {
    /// The surface of every hollow, in working order.
    #[must_use]
    pub fn all(solid: &'a Solid) -> Vec<Self> {
        let hollows = solid.removals.iter().enumerate().filter(|(_, removal)| removal.role == Role::Inside);
        hollows.filter_map(|(own, removal)| Self::new(solid, own, removal)).collect()
    }

    fn new(solid: &'a Solid, own: usize, removal: &'a Removal) -> Option<Self> {
        let Region::Revolved(hollow) = &removal.region else { return None };
        let sheet = Sheet::new(hollow, &solid.stock)?;
        let outside = |limit, shape| Ending { taker: Taker::Outside(limit), shape };
        let mut endings = vec![
            Ending { taker: Taker::Face, shape: Shape::Face },
            outside(Limit::HeadEnd, Shape::HeadEnd(solid.stock.length)),
            outside(Limit::StockSide, Shape::Sides(&solid.stock)),
        ];
        let others = solid.removals.iter().enumerate().filter(|(place, _)| *place != own);
        endings.extend(others.map(|(place, removal)| ending(&sheet, place < own, removal)));
        Some(Self { solid, cut: removal.cut, sheet, endings })
    }

    /// All that may take a part of the surface.
    #[must_use]
    pub fn endings(&self) -> &[Ending<'a>] {
        &self.endings
    }

    /// Whether a point of the surface is kept.
    #[must_use]
    pub fn keeps(&self, at: &SheetPoint) -> bool {
        !self.endings.iter().any(|ending| ending.takes(at))
    }

    /// How far a point is from being taken by anything but the outside, in mm: not positive where it is taken. Where it
    /// is positive and the wall is not, the outside has broken through.
    #[must_use]
    pub fn clearance_within(&self, at: &SheetPoint) -> f64 {
        let within = self.endings.iter().filter(|ending| !ending.is_outside());
        let least = within.map(|ending| ending.clearance(at)).fold(f64::INFINITY, f64::min);
        if self.sheet.is_way_out(at.place) { least.min(self.way_out_clearance(at.point)) } else { least }
    }

    /// [`Self::clearance_within`], but surfaces of two hollows nearer than [`NEARLY`] are one, and the first keeps it.
    pub(super) fn clearance_nearly(&self, at: &SheetPoint) -> f64 {
        let within = self.endings.iter().filter(|ending| !ending.is_outside());
        let least = within.map(|ending| ending.clearance_nearly(at)).fold(f64::INFINITY, f64::min);
        if self.sheet.is_way_out(at.place) { least.min(self.way_out_clearance(at.point)) } else { least }
    }

    /// Whether all but the outside keep a point: where the wall is measured.
    #[must_use]
    pub fn keeps_within(&self, at: &SheetPoint) -> bool {
        let mut within = self.endings.iter().filter(|ending| !ending.is_outside());
        !within.any(|ending| ending.takes(at))
            && (!self.sheet.is_way_out(at.place) || self.way_out_clearance(at.point) > 0.0)
    }

    /// Beyond the blank's own surface the way out is no surface at all, and so not broken through there.
    fn way_out_clearance(&self, point: Vector) -> f64 {
        let stock = &self.solid.stock;
        stock.depth_from_sides(point).min(stock.length - point.s) + SAME
    }

    /// The place between a kept and a taken one where a clearance comes to nothing, to 1e-8 mm or 1e-9 of the way, on
    /// the kept side: a point of the rim. Of several between them, any.
    #[must_use]
    pub fn rim_between(&self, kept: Spot, taken: Spot, clearance: impl Fn(&SheetPoint) -> f64) -> Spot {
        let at =
            |part: f64| Spot::new(kept.u + (taken.u - kept.u) * part, kept.clock + (taken.clock - kept.clock) * part);
        let value = |part: f64| clearance(&self.sheet.see(at(part)));
        at(last_positive(value))
    }
}

/// A clearance less than this, in mm, is as good as none.
const CLOSE: f64 = 1e-8;

/// The last place from 0 to 1 where a falling value is positive, to 1e-9: false position, held to bisection.
fn last_positive(value: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = ((0.0, value(0.0)), (1.0, value(1.0)));
    if high.1 > 0.0 {
        return 1.0;
    }
    for step in 0..80 {
        if high.0 - low.0 < 1e-9 {
            break;
        }
        let secant = low.0 - low.1 * (high.0 - low.0) / (high.1 - low.1);
        // Every other step halves, so that a bend cannot hold one end for long.
        let middle = f64::midpoint(low.0, high.0);
        let tried = if step % 2 == 0 && secant > low.0 && secant < high.0 { secant } else { middle };
        let found = value(tried);
        if found > 0.0 {
            low = (tried, found)
        } else {
            high = (tried, found)
        }
        if low.1 < CLOSE {
            break;
        }
    }
    low.0
}

fn ending<'a>(sheet: &Sheet<'_>, is_first: bool, removal: &'a Removal) -> Ending<'a> {
    let (taker, shape) = match (&removal.region, removal.role) {
        (Region::Revolved(other), Role::Inside) if coaxial::on_one_line(&sheet.hollow().axis, &other.axis) => {
            (Taker::Hollow(removal.cut), Shape::Coaxial(other, coaxial::taken(sheet, other, is_first)))
        }
        (Region::Revolved(other), Role::Inside) => (Taker::Hollow(removal.cut), Shape::Hollow(other, is_first)),
        (region, Role::Inside) => (Taker::Hollow(removal.cut), Shape::Region(region)),
        (region, Role::Opening) => (Taker::Opening(removal.cut), Shape::Region(region)),
        (region, Role::Outside) => (Taker::Outside(Limit::Cut(removal.cut)), Shape::Region(region)),
    };
    Ending { taker, shape }
}
