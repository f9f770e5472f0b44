//! Work that spins between two centres: what pulls at it, and the stresses that makes.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use crate::geometry::{Axis, Bending, Revolved};
use crate::piece::Piece;

/// How hard the tail centre presses, in N. Common practice, no source.
pub const TAIL_THRUST_N: f64 = 200.0;
/// How hard a catch pulls, in N: about the weight of 30 kg. A tool that catches is driven by the motor and the spinning
/// mass until something gives, and 100 N is no more than a heavy cut. Common practice, no source.
pub const CATCH_N: f64 = 300.0;

/// How many times the loads the wood should bear while it is turned: a knot or a crack can halve its strength, and then
/// it still bears them once. Common practice, no source.
pub const HALVED: f64 = 2.0;

/// What the figures of the turning rest on.
pub const ASSUMPTIONS: [&str; 6] = [
    "The tail centre presses with 200 N along the axis (common practice, no source).",
    "The out-of-balance force bears on both centres at once, as a pull at either end of the work.",
    "A catch pulls with 300 N, the weight of some 30 kg, at the surface the pass is turning, wherever that is worst \
     (common practice, no source).",
    "All three act at once and in the worst directions; a plug carries nothing, and both centres let the work turn.",
    "Strengths are averages of flawless wood.",
    "A knot, a crack or a blow can halve them: so the least that is ok is 2 times the loads (common practice, no source).",
];

/// What pulls at the work while it is turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loads {
    /// The tail centre's thrust, in N.
    pub thrust_n: f64,
    /// The out-of-balance force on one centre, in N.
    pub balance_n: f64,
    /// The pull of a catch, in N.
    pub catch_n: f64,
}

impl Default for Loads {
    fn default() -> Self {
        Self { thrust_n: TAIL_THRUST_N, balance_n: 0.0, catch_n: CATCH_N }
    }
}

/// Work between two centres on one axis.
pub(super) struct Spinning<'a> {
    pub(super) axis: &'a Axis,
    pub(super) pass: &'a Revolved,
    /// The stations of both centres.
    tail: f64,
    head: f64,
    /// The first and the last station that are wood of the blank.
    pub(super) first: f64,
    pub(super) last: f64,
}

/// The stresses in one section.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Stresses {
    /// From the tail centre's thrust, its offset from the middle of the section included, in MPa.
    pub thrust_mpa: f64,
    /// Bending from the out-of-balance force, in MPa.
    pub balance_mpa: f64,
    /// Bending from a catch, in MPa.
    pub catch_mpa: f64,
    /// Shear from the twist of a catch, in MPa.
    pub twist_mpa: f64,
}

impl Stresses {
    /// What pulls the fibres apart, in MPa.
    #[must_use]
    pub fn bending_mpa(&self) -> f64 {
        self.thrust_mpa + self.balance_mpa + self.catch_mpa
    }

    /// Whether there is wood to bear them.
    pub(super) fn are_finite(&self) -> bool {
        (self.bending_mpa() + self.twist_mpa).is_finite()
    }
}

/// What is this near to a centre, in mm, is its footing and not judged.
const FOOTING: f64 = 1.0;

impl<'a> Spinning<'a> {
    pub(super) fn new(piece: &Piece, axis: &'a Axis, pass: &'a Revolved) -> Option<Self> {
        let station = |s: f64| axis.centre(s).map(|centre| axis.see(centre).t);
        let (tail, head) = (station(piece.tail_face)?, station(piece.head_face)?);
        let (first, last) = (station(0.0)? + FOOTING, head - FOOTING);
        (first < last).then_some(Self { axis, pass, tail, head, first, last })
    }

    /// Bending moments of the out-of-balance force and of a catch at a station, and the twist of a catch, in N mm.
    fn moments(&self, t: f64, loads: &Loads) -> [f64; 3] {
        let (from_tail, from_head) = ((t - self.tail).max(0.0), (self.head - t).max(0.0));
        let (start, end) = (self.pass.meridian.start(), self.pass.meridian.end());
        let tool = t.clamp(start.min(end), end).clamp(self.tail, self.head);
        // A beam on two supports: the pull's share on the far support, times the way to that support.
        let span = self.head - self.tail;
        let catch =
            if t <= tool { from_tail * (self.head - tool) / span } else { from_head * (tool - self.tail) / span };
        // The twist runs from the tool to the drive at the head.
        let tail_ward = self.pass.meridian.points().iter().filter(|p| p.t <= t).map(|p| p.r).fold(0.0, f64::max);
        [loads.balance_n * from_tail.min(from_head), loads.catch_n * catch, loads.catch_n * tail_ward]
    }

    pub(super) fn stresses(&self, section: &Bending, t: f64, loads: &Loads) -> Stresses {
        let [balance, catch, twist] = self.moments(t, loads);
        let modulus = section.least_modulus_mm3();
        // The thrust runs along the axis, which is where the section's plane has its origin.
        Stresses {
            thrust_mpa: section.thrust_mpa(loads.thrust_n, [0.0, 0.0]),
            balance_mpa: balance / modulus,
            catch_mpa: catch / modulus,
            twist_mpa: section.twist_mpa(twist),
        }
    }
}
