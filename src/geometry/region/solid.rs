//! A piece: stock less what the cuts so far have taken, and a plug while it is in.

use crate::geometry::frame::vector::Vector;
use crate::geometry::line::intervals::Intervals;
use crate::geometry::line::pace::spend;
use crate::geometry::region::removed::Region;
use crate::geometry::region::revolved::{Ray, Revolved};
use crate::geometry::region::stock::Stock;

/// What a removed region is to the finished piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// It makes outside surface: passes and partings.
    Outside,
    /// It makes the hollow.
    Inside,
    /// It opens the hollow: saws and facings.
    Opening,
}

/// A region taken away by one cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Removal {
    /// What goes.
    pub region: Region,
    /// What it is to the piece.
    pub role: Role,
    /// The cut it belongs to, by its place in working order from 0.
    pub cut: usize,
}

/// A plug that is wood from one cut to another.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedPlug {
    /// Its wood.
    pub body: Revolved,
    /// The cut that fits it.
    pub fitted: usize,
    /// The cut that takes it out, if any.
    pub taken_out: Option<usize>,
}

/// Stock and cuts in working order.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid {
    /// The wood at the start.
    pub stock: Stock,
    /// What each cut takes, in working order.
    pub removals: Vec<Removal>,
    /// Plugs, in working order.
    pub plugs: Vec<FittedPlug>,
}

/// What limits the wood at a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// A side of the stock.
    StockSide,
    /// The head end of the stock.
    HeadEnd,
    /// The cut with this place in working order.
    Cut(usize),
}

/// A distance to the outside and what limits it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToOutside {
    /// In mm: positive inside the outside shape, where it is the exact nearest distance; negative outside it, where
    /// it is the depth by which the point passes the surface it overruns most, not a distance to wood.
    pub distance: f64,
    /// What is nearest, or overrun most.
    pub limit: Limit,
}

impl Solid {
    /// Distance from a point to the outside shape made by the stock's sides and head end and every pass and parting.
    ///
    /// Saws, facings, hollows, the face s = 0 and the plug do not count.
    #[must_use]
    pub fn to_outside(&self, point: Vector) -> ToOutside {
        let side = ToOutside { distance: self.stock.depth_from_sides(point), limit: Limit::StockSide };
        self.nearer_outside(point, side.distance).unwrap_or(side)
    }

    /// [`Self::to_outside`], or `None` where it is not below `best`: cheaper when it is far.
    #[must_use]
    pub fn to_outside_below(&self, point: Vector, best: f64) -> Option<ToOutside> {
        let distance = self.stock.depth_from_sides(point);
        let side = (distance < best).then_some(ToOutside { distance, limit: Limit::StockSide });
        self.nearer_outside(point, distance.min(best)).or(side)
    }

    /// Distance to what is nearest besides the stock's sides; `None` where it is not below `best`.
    fn nearer_outside(&self, point: Vector, mut best: f64) -> Option<ToOutside> {
        let mut nearest = None;
        let mut consider = |distance: f64, limit: Limit| {
            if distance < best {
                best = distance;
                nearest = Some(ToOutside { distance, limit });
            }
            best
        };
        spend(self.removals.len());
        let mut best = consider(self.stock.length - point.s, Limit::HeadEnd);
        for removal in self.removals.iter().filter(|r| r.role == Role::Outside) {
            let distance = match &removal.region {
                Region::Revolved(revolved) => revolved.signed_distance_below(point, best),
                Region::Sawn(_) | Region::HalfSpace(_) => Some(removal.region.signed_distance(point)),
            };
            if let Some(distance) = distance {
                best = consider(distance, Limit::Cut(removal.cut));
            }
        }
        nearest
    }

    /// Whether it is the same on both sides of the upright plane x = 0, plugs aside.
    #[must_use]
    pub fn is_mirrored(&self) -> bool {
        self.removals.iter().all(|removal| removal.region.is_mirrored())
    }

    /// The removals with a role.
    pub fn with_role(&self, role: Role) -> impl Iterator<Item = &Removal> {
        self.removals.iter().filter(move |r| r.role == role)
    }

    /// The state after the first `cuts` cuts.
    #[must_use]
    pub fn state(&self, cuts: usize) -> State<'_> {
        let taken = self.removals.partition_point(|r| r.cut < cuts);
        let plug = self.plugs.iter().find(|p| p.fitted < cuts && p.taken_out.is_none_or(|out| out >= cuts));
        State { stock: &self.stock, removals: &self.removals[..taken], plug }
    }

    /// The finished piece: after every cut, the plug never in it.
    #[must_use]
    pub fn finished(&self) -> State<'_> {
        State { stock: &self.stock, removals: &self.removals, plug: None }
    }
}

/// The wood after some of the cuts.
#[derive(Clone, Copy, Debug)]
pub struct State<'a> {
    /// The wood at the start.
    pub stock: &'a Stock,
    /// What has gone.
    pub removals: &'a [Removal],
    /// The plug, while it is in.
    pub plug: Option<&'a FittedPlug>,
}

impl State<'_> {
    /// Whether a point is wood.
    #[must_use]
    pub fn contains(&self, point: Vector) -> bool {
        spend(self.removals.len());
        let in_blank = self.stock.contains(point) && !self.removals.iter().any(|r| r.region.contains(point));
        in_blank || self.plug.is_some_and(|plug| self.in_plug(plug, point))
    }

    fn in_plug(&self, plug: &FittedPlug, point: Vector) -> bool {
        plug.body.contains(point) && !self.cut_plug(plug).any(|r| r.region.contains(point))
    }

    /// The passes that cut the plug: those made since it was fitted. Bores and saws do not.
    pub(crate) fn cut_plug<'b>(&'b self, plug: &'b FittedPlug) -> impl Iterator<Item = &'b Removal> {
        self.removals.iter().filter(|r| r.role == Role::Outside && r.cut > plug.fitted)
    }

    /// The stretches of a line that are wood. Exact for the flattened profiles.
    #[must_use]
    pub fn along(&self, ray: Ray) -> Intervals {
        let mut wood = self.stock.along(ray);
        for removal in self.removals {
            if wood.is_empty() {
                break;
            }
            removal.region.take_along(ray, &mut wood);
        }
        let Some(plug) = self.plug else { return wood };
        let mut plug_wood = plug.body.along(ray);
        for removal in self.cut_plug(plug) {
            if plug_wood.is_empty() {
                break;
            }
            removal.region.take_along(ray, &mut plug_wood);
        }
        wood.union(&plug_wood)
    }
}
