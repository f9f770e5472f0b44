//! An end of a pass that parts the piece from its waste.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::spinning::{HALVED, Loads, Spinning};
use crate::design::{Cut, Design, Pass, Side};
use crate::geometry::{Bending, Revolved, Station};

/// An end of a pass that parts the piece from its waste: turned last, with light cuts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct TurnedLast {
    /// Where the pass ends, in mm along the blank.
    pub station_mm: f64,
    /// Its diameter there, in mm.
    pub diameter_mm: f64,
    /// The diameter that bears all of it twice, in mm: leave this much until last.
    pub leave_mm: f64,
}

/// A nub is looked for up to this radius, in mm.
const WIDEST_NUB: f64 = 200.0;

/// An end of a pass that narrows toward where the piece is parted: it starts where it is widest.
pub(super) struct Nub {
    pub(super) start: f64,
    pub(super) end: f64,
    pub(super) radius: f64,
}

/// How far from a pass's end a parting plane may stand to be its own, in mm.
pub(super) const PARTED_NEAR: f64 = 3.0;
/// A pass this thin, in mm of radius, parts the piece itself.
const TO_NOTHING: f64 = 0.5;

pub(super) fn parted_end(design: &Design, pass: &Pass, region: &Revolved) -> Option<Nub> {
    let chain = region.meridian.points();
    let parted = |side: Side, end: Station| {
        let here = |cut: &Cut| match cut {
            Cut::Part(plane) => {
                plane.axis == pass.axis && plane.removes == side && (plane.at_mm - end.t).abs() <= PARTED_NEAR
            }
            _ => false,
        };
        end.r < TO_NOTHING || design.cuts.iter().any(here)
    };
    // From the end inward as long as it widens.
    let widest = |points: &mut dyn Iterator<Item = &Station>| {
        let mut last: Option<Station> = None;
        for point in points {
            if last.is_some_and(|Station { r: radius, .. }| point.r < radius) {
                break;
            }
            last = Some(*point);
        }
        last.map(|Station { t, .. }| t)
    };
    let (first, last) = (*chain.first()?, *chain.last()?);
    if parted(Side::Head, last) {
        return Some(Nub { start: widest(&mut chain.iter().rev())?, end: last.t, radius: last.r });
    }
    if parted(Side::Tail, first) {
        return Some(Nub { start: widest(&mut chain.iter())?, end: first.t, radius: first.r });
    }
    None
}

impl Nub {
    /// The stations to judge of work whose wood goes from `first` to `last`: all but the parted end, on the waste's side of
    /// which nothing is judged either.
    pub(super) fn judged(&self, first: f64, last: f64) -> (f64, f64) {
        if self.end > self.start {
            (first, last.min(self.start).max(first))
        } else {
            (first.max(self.start).min(last), last)
        }
    }

    /// What has to be left here until last; `None` when it bears all of it twice as it is.
    pub(super) fn turned_last(&self, spinning: &Spinning<'_>, loads: &Loads, bears: f64) -> Option<TurnedLast> {
        let enough = |radius: f64| {
            let stresses = spinning.stresses(&Bending::of_round(radius), self.end, loads);
            stresses.bending_mpa() * HALVED <= bears
        };
        if enough(self.radius) || bears <= 0.0 {
            return None;
        }
        let (mut low, mut high) = (self.radius, WIDEST_NUB);
        for _ in 0..30 {
            let middle = f64::midpoint(low, high);
            if enough(middle) { high = middle } else { low = middle }
        }
        let station_mm = spinning.axis.point(self.end, 0.0, 0.0).s;
        Some(TurnedLast { station_mm, diameter_mm: 2.0 * self.radius, leave_mm: 2.0 * high })
    }
}
