//! Figure 13: whether the neck bears its use, and the thinnest wood its turning.

mod beside;
mod grain;
mod neck;
mod nub;
mod spinning;
mod weakest;
mod while_turning;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

pub use grain::{Governs, Grain, STEEPEST_OF_TABLE, hankinson, table_share};
pub use neck::{Neck, lip_load_n, neck, neck_in_slices};
pub use nub::TurnedLast;
pub use spinning::{ASSUMPTIONS, CATCH_N, HALVED, Loads, Stresses, TAIL_THRUST_N};
pub use while_turning::{
    PartingNub, WhileTurning, parting_nub, while_turning, while_turning_at, while_turning_in_slices,
};

use super::handle::handle_axis;
use super::known::Known;
use super::rest::Rest;
use super::wood::Timber;
use super::wood::moisture::{in_use_percent, wet_share};
use crate::design::{AxisName, Cut, Design, Shop};
use crate::geometry::{Axis, Pace, at_once};
use crate::piece::Piece;

/// How strong a piece is in use and while it is turned.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
#[borsh(init = assume)]
pub struct Strength {
    /// The grain along the handle.
    pub grain: Grain,
    /// What the wood bears in bending before it breaks, straight-grained at 12 percent moisture, in MPa; absent when it
    /// is not known.
    pub rupture_mpa: Option<f64>,
    /// The share of it left by the moisture in use: 1 up to 12 percent.
    pub wet_share: f64,
    /// The weakest section in use.
    pub neck: Known<Neck>,
    /// The weakest section while turning, after the last pass on each axis along the blank.
    #[serde(rename = "wastes")]
    pub while_turning: Vec<WhileTurning>,
    /// The nub that each parting leaves until the lathe stands still.
    pub nubs: Vec<PartingNub>,
    /// What the figures of the turning rest on, in sentences.
    #[borsh(skip)]
    pub assumptions: [&'static str; 6],
}

impl Strength {
    /// Fills in the sentences, which are the same for every design.
    fn assume(&mut self) {
        self.assumptions = ASSUMPTIONS;
    }
}

/// How the wood of a design bears bending along the handle.
struct Bearing {
    grain: Grain,
    rupture_mpa: Option<f64>,
    wet_share: f64,
}

impl Bearing {
    fn of(design: &Design, handle: &Axis, timber: Option<&Timber<'_>>) -> Self {
        Self {
            grain: Grain::at(handle.tilt()),
            rupture_mpa: timber.and_then(|timber| timber.rupture_mpa),
            wet_share: wet_share(in_use_percent(&design.wood.in_use)),
        }
    }

    /// In MPa, as far as it is known.
    fn mpa(&self) -> Option<f64> {
        self.rupture_mpa.map(|mpa| mpa * self.grain.share() * self.wet_share)
    }
}

/// The weakest section of a piece in use.
#[must_use]
pub fn in_use(design: &Design, shop: &Shop, piece: &Piece, rest: &Rest) -> Known<Neck> {
    at_once(in_use_in_slices(design, shop, piece, rest, &Pace::unbroken()))
}

/// As [`in_use`], in slices.
pub async fn in_use_in_slices(design: &Design, shop: &Shop, piece: &Piece, rest: &Rest, pace: &Pace) -> Known<Neck> {
    let handle = handle_axis(design, piece);
    let bears_mpa = Bearing::of(design, handle, Timber::of(design, shop).as_ref()).mpa();
    match neck_in_slices(piece, handle, rest, lip_load_n(design.duty), bears_mpa, pace).await {
        Some(neck) => Known::Value(neck),
        None => Known::missing("The piece is too short to be held and loaded at its lip."),
    }
}

/// The strength of a piece, of which that [`in_use`] is known. `force_n` gives the out-of-balance force on one centre, in
/// N, at a pass (by its cut).
#[must_use]
pub fn strength(
    design: &Design,
    shop: &Shop,
    piece: &Piece,
    in_use: Known<Neck>,
    force_n: impl Fn(usize) -> f64,
) -> Strength {
    at_once(strength_in_slices(design, shop, piece, in_use, force_n, &Pace::unbroken()))
}

/// As [`strength`], in slices.
pub async fn strength_in_slices(
    design: &Design,
    shop: &Shop,
    piece: &Piece,
    in_use: Known<Neck>,
    force_n: impl Fn(usize) -> f64,
    pace: &Pace,
) -> Strength {
    let timber = Timber::of(design, shop);
    let Bearing { grain, rupture_mpa, wet_share } = Bearing::of(design, handle_axis(design, piece), timber.as_ref());
    let loads = |cut: usize| Loads { balance_n: force_n(cut), ..Loads::default() };
    let passes = last_passes(design);
    let mut while_turning = Vec::with_capacity(passes.len());
    for (done, cut) in passes.iter().enumerate() {
        pace.tell(done, passes.len());
        while_turning.extend(while_turning_in_slices(design, piece, *cut, &loads(*cut), timber.as_ref(), pace).await);
    }
    let nubs = design.cuts.iter().enumerate().filter_map(|(cut, choice)| {
        let (Cut::Part(plane) | Cut::Face(plane)) = choice else { return None };
        let on_axis = |pass: &&usize| matches!(&design.cuts[**pass], Cut::Pass(pass) if pass.axis == plane.axis);
        let pass = passes.iter().find(on_axis)?;
        parting_nub(design, piece, cut, &loads(*pass), timber.as_ref())
    });
    let nubs = nubs.collect();
    Strength { grain, rupture_mpa, wet_share, neck: in_use, while_turning, nubs, assumptions: ASSUMPTIONS }
}

/// The last pass on each axis, in working order: what it spins is the least wood that spins on that axis.
fn last_passes(design: &Design) -> Vec<usize> {
    let axis_of = |cut: &Cut| match cut {
        Cut::Pass(pass) => Some(pass.axis),
        _ => None,
    };
    let later = |cut: usize, axis: AxisName| design.cuts.iter().skip(cut + 1).any(|it| axis_of(it) == Some(axis));
    let passes = design.cuts.iter().enumerate().filter_map(|(cut, it)| Some((cut, axis_of(it)?)));
    passes.filter(|(cut, axis)| !later(*cut, *axis)).map(|(cut, _)| cut).collect()
}
