//! A piece that turns about an axis.

use std::f64::consts::TAU;

use crate::geometry::frame::axis::Axis;
use crate::geometry::frame::tolerance::ROUNDING_MM;
use crate::geometry::frame::vector::Vector;
use crate::geometry::region::removed::Region;
use crate::geometry::region::solid::State;
use crate::geometry::spin::farthest_wood::farthest_wood;

/// A piece that turns about an axis.
#[derive(Clone, Copy, Debug)]
pub struct Spin<'a> {
    pub(super) state: State<'a>,
    pub(super) axis: &'a Axis,
    reach: f64,
    span: (f64, f64),
}

/// The farthest wood from an axis at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Farthest {
    /// How far it is from the axis, in mm.
    pub radius: f64,
    /// Its clock direction around the axis, in radians.
    pub clock: f64,
    /// Whether it is an edge of the bar.
    pub is_edge: bool,
}

/// The farthest wood of a stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outermost {
    /// Its station along the axis, in mm.
    pub t: f64,
    /// How far it is and where around the axis.
    pub farthest: Farthest,
}

impl<'a> Spin<'a> {
    /// A state of a piece and the axis it turns about.
    #[must_use]
    pub fn new(state: State<'a>, axis: &'a Axis) -> Self {
        let mut spin = Self { state, axis, reach: 0.0, span: (f64::INFINITY, f64::NEG_INFINITY) };
        let stock = state.stock;
        spin.widen(stock.half_width(), 0.0, stock.length);
        if let Some(plug) = state.plug {
            let body = &plug.body.meridian;
            spin.widen(body.largest_radius(), body.start(), body.end());
        }
        spin
    }

    /// Takes in a box around axis A.
    fn widen(&mut self, half: f64, from: f64, to: f64) {
        for s in [from, to] {
            for (x, y) in [(half, half), (half, -half), (-half, half), (-half, -half)] {
                let seen = self.axis.see(Vector::new(x, y, s));
                self.reach = self.reach.max(seen.radius());
                self.span = (self.span.0.min(seen.t), self.span.1.max(seen.t));
            }
        }
    }

    /// The stations along the axis outside which there is no wood, in mm.
    #[must_use]
    pub fn span(&self) -> (f64, f64) {
        self.span
    }

    /// The axis.
    #[must_use]
    pub fn axis(&self) -> &'a Axis {
        self.axis
    }

    /// The farthest any wood can be from the axis, in mm: the distance of the farthest corner of boxes around the bar and
    /// the plug.
    #[must_use]
    pub fn reach(&self) -> f64 {
        self.reach
    }

    /// The farthest wood between two stations of the axis; `None` where there is none.
    ///
    /// Proven: no wood is farther by more than 0.0001 mm, but for what is thinner than that.
    #[must_use]
    pub fn farthest_between(&self, from: f64, to: f64) -> Option<Outermost> {
        let found = farthest_wood(&self.state, self.axis, from, to)?;
        let seen = self.axis.see(found.point);
        let clock = seen.clock().rem_euclid(TAU);
        let farthest = Farthest { radius: found.radius, clock, is_edge: found.is_edge };
        Some(Outermost { t: seen.t, farthest })
    }

    /// Whether a removal may meet the disc around the axis at `t` that holds all the wood.
    pub(super) fn meets(&self, region: &Region, centre: Vector) -> bool {
        match region {
            Region::Revolved(revolved) => {
                let other = &revolved.axis;
                let lean = other.along().cross(self.axis.along()).length() * self.reach + ROUNDING_MM;
                let (from, to) = revolved.span();
                let t = other.see(centre).t;
                t + lean >= from && t - lean <= to
            }
            Region::Sawn(sawn) => centre.s - self.upright() <= sawn.ends().1,
            Region::HalfSpace(half) => half.signed_distance(centre) <= self.reach,
        }
    }

    /// How far the disc that holds all the wood reaches along the bar.
    pub(super) fn upright(&self) -> f64 {
        let along = self.axis.along();
        along.x.hypot(along.y) * self.reach + ROUNDING_MM
    }
}
