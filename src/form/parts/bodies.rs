//! What wood there is for a new part.

use crate::design::{AxisName, Cut, Design, Pass, Shop};
use crate::geometry::{Axis, Role};
use crate::piece::Piece;

/// Clock directions that are looked along, and stations.
const LINES: u32 = 24;
const STATIONS: usize = 41;
/// Wood left at either end for the centres, in mm: common practice, no source.
const ENDS_MM: f64 = 15.0;

/// What beginnings are worked out from.
#[derive(Clone, Copy)]
pub struct Bench<'a> {
    /// The design.
    pub design: &'a Design,
    /// The design resolved.
    pub piece: &'a Piece,
    /// The station along the blank that is looked at, in mm.
    pub here_mm: f64,
    /// The shop, whose jaws grip the tenon.
    pub shop: &'a Shop,
}

impl Bench<'_> {
    /// The wall wanted, in mm.
    pub(super) fn wall_mm(&self) -> f64 {
        self.design.limits.over(&self.shop.limits).wall_mm
    }
}

/// A stretch of an axis, and the least radius of wood about it there, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Room {
    pub from_mm: f64,
    pub to_mm: f64,
    pub radius_mm: f64,
}

impl Bench<'_> {
    /// The axis of a name, where the piece has it.
    pub fn axis(&self, name: AxisName) -> Option<Axis> {
        self.piece.axis(name).copied()
    }

    /// Half the blank's width, in mm.
    pub fn half_mm(&self) -> f64 {
        self.piece.solid.stock.half_width()
    }

    /// The radius of a ball about a point of an axis that is all within the outside of the piece, in mm: none of it is
    /// missing to a pass that leaves no more. Negative outside the wood.
    pub fn radius_mm(&self, axis: &Axis, t: f64) -> f64 {
        self.piece.solid.to_outside(axis.point(t, 0.0, 0.0)).distance
    }

    /// The least of [`Self::radius_mm`] between two stations of an axis, at its ends and between.
    pub fn least_mm(&self, axis: &Axis, from_mm: f64, to_mm: f64) -> f64 {
        let at = |share: usize| from_mm + (to_mm - from_mm) * share as f64 / 8.0;
        (0..=8).map(|share| self.radius_mm(axis, at(share))).fold(f64::INFINITY, f64::min)
    }

    /// Whether a wall stays between a circle about an axis and every hollow.
    pub fn keeps_wall(&self, axis: &Axis, t: f64, radius_mm: f64) -> bool {
        let clock = |line: u32| f64::from(line) * std::f64::consts::TAU / f64::from(LINES);
        let points = || (0..LINES).map(|line| axis.point(t, radius_mm, clock(line)));
        let wall_mm = self.wall_mm();
        let mut hollows = self.piece.solid.with_role(Role::Inside);
        hollows.all(|hollow| points().all(|point| hollow.region.signed_distance(point) >= wall_mm))
    }

    /// The longest stretch of an axis, within the blank, with at least half as much wood about it as it has anywhere, and
    /// more than a bare stick. `None` where there is none.
    pub(super) fn stretch(&self, axis: &Axis) -> Option<Room> {
        let length_mm = self.design.blank.length_mm;
        let ends_mm = ENDS_MM.min(length_mm / 4.0);
        let step_mm = (length_mm - 2.0 * ends_mm) / (STATIONS - 1) as f64;
        let t = |place: usize| (ends_mm + place as f64 * step_mm) / axis.along().s.abs().max(0.1);
        let radii: Vec<f64> = (0..STATIONS).map(|place| self.radius_mm(axis, t(place))).collect();
        let most_mm = radii.iter().copied().fold(0.0, f64::max);
        let is_stout = |place: &usize| radii[*place] >= (most_mm / 2.0).max(LEAST_RADIUS_MM);
        let mut longest = 0..0;
        let mut from = 0;
        while from < STATIONS {
            let to = (from..STATIONS).take_while(is_stout).last().map_or(from, |last| last + 1);
            if to - from > longest.len() {
                longest = from..to;
            }
            from = to + 1;
        }
        let radius_mm = longest.clone().map(|place| radii[place]).fold(f64::INFINITY, f64::min);
        (longest.len() > 2).then(|| Room { from_mm: t(longest.start), to_mm: t(longest.end - 1), radius_mm })
    }

    /// The last pass that covers the station looked at, with the station along its axis.
    fn pass_here(&self) -> Option<(usize, &Pass, f64)> {
        let at = |name: AxisName| {
            let axis = self.axis(name).filter(Axis::is_lengthwise)?;
            Some((self.here_mm - axis.origin().s) / axis.along().s)
        };
        self.design.cuts.iter().enumerate().rev().find_map(|(place, cut)| {
            let Cut::Pass(pass) = cut else { return None };
            let t = at(pass.axis).filter(|t| (pass.from_mm..=pass.to_mm).contains(t))?;
            Some((place, pass, t))
        })
    }

    /// The leaning axis and station where the outside of the piece is turned last at the station looked at; axis A where
    /// none does: a ring round a part of several sides is about its middle.
    pub fn outside_here(&self) -> (AxisName, f64) {
        let is_leaning = |pass: &Pass| self.axis(pass.axis).is_some_and(|axis| axis.is_tilted());
        let leaning = self.pass_here().filter(|(_, pass, _)| is_leaning(pass));
        leaning.map_or((AxisName::A, self.here_mm), |(_, pass, t)| (pass.axis, t))
    }

    /// The place after every pass that covers the station looked at.
    pub fn after_passes_here(&self) -> usize {
        self.pass_here().map_or(0, |(place, ..)| place + 1)
    }
}

/// A stick thinner than this is left alone, in mm.
pub(super) const LEAST_RADIUS_MM: f64 = 3.0;
