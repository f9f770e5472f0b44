//! Figures 9 to 12: what happens at the lathe at each step, from the state of the work at that step.

mod air;
mod balance;
mod cure;
mod end;
mod looked;
mod masses;
mod operations;
mod speed;
mod step;
mod swing;

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

pub use air::{AirAt, AirCut, WorstAir};
pub use balance::{Balance, Held, Shaking, Unbalance, radians_per_second};
pub use end::{EndSpeed, end_speeds};
pub use masses::StateMasses;
pub use operations::{BitAtWork, LimitedBy, Operation, OperationSpeed, SpeedRange, Spinning};
pub use speed::Speed;
pub use swing::{REST_GAP_MM, RestLine, Swing, SwingAt};

use super::boring::Boring;
use super::known::Known;
use super::wood::Timber;
use crate::design::{AxisName, Design, Shop};
use crate::geometry::{Pace, Spin, at_once};
use crate::piece::Piece;

/// One step that spins the work: a pass or a hollow.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Turning {
    /// The cut, by its place in working order from 0.
    pub cut: usize,
    /// What the turner calls it.
    pub name: String,
    /// The axis it spins on.
    pub axis: AxisName,
    /// Figure 9: how far the work reaches.
    pub swing: Swing,
    /// Figure 10: the air the tool meets; absent for a hollow.
    pub air: Option<AirCut>,
    /// Figure 11: how far the work is out of balance, when the density of the wood is known.
    pub balance: Known<Balance>,
    /// Figure 12: how fast.
    pub speed: Speed,
}

impl Turning {
    /// The out-of-balance force on the more loaded centre at the highest speed to use, in N; `None` where no speed is
    /// safe or the density is not known.
    #[must_use]
    pub fn force_n(&self) -> Option<f64> {
        Some(self.balance.value()?.worst_n(self.speed.range.value()?.to_rpm))
    }
}

/// Every pass and hollow at the lathe, in working order. Each figure says its accuracy.
///
/// # Units
/// mm, g, N, revolutions per minute, as named. `borings` are the schedules of the hollows. The density is that of the wood as it is worked, in kg/m3, or a sentence
/// that says why it is not known.
#[must_use]
pub fn turnings(
    design: &Design,
    piece: &Piece,
    shop: &Shop,
    density_kg_m3: &Known<f64>,
    masses: &StateMasses,
    borings: &[Boring],
) -> Vec<Turning> {
    at_once(turnings_in_slices(design, piece, shop, density_kg_m3, masses, borings, &Pace::unbroken()))
}

/// As [`turnings`], in slices.
pub async fn turnings_in_slices(
    design: &Design,
    piece: &Piece,
    shop: &Shop,
    density_kg_m3: &Known<f64>,
    masses: &StateMasses,
    borings: &[Boring],
    pace: &Pace,
) -> Vec<Turning> {
    let softwood = Timber::of(design, shop).is_some_and(|wood| wood.softwood);
    let bits = |cut: usize| -> Vec<BitAtWork> {
        let steps = borings.iter().filter(|boring| boring.cut == cut).flat_map(|boring| &boring.steps);
        steps.map(|it| BitAtWork { kind: it.kind, diameter_mm: it.diameter_mm, softwood }).collect()
    };
    let mut all = Vec::new();
    for (done, step) in step::steps(design, piece).enumerate() {
        pace.tell(done, design.cuts.len());
        let state = piece.solid.state(step.cut);
        let spin = Spin::new(state, step.axis);
        let looked = looked::look(&step, &spin, pace).await;
        let swing = swing::swing(&step, &spin, &looked, &shop.lathe, pace).await;
        let air = air::air_cut(&step, &looked, pace).await;
        // Until its plug is in, the live centre bears on the bowl-end face itself.
        let tail_face = if state.plug.is_some() { piece.tail_face } else { 0.0 };
        let held = Held::of(&step, tail_face, piece.head_face);
        let balance = match density_kg_m3 {
            Known::Value(density) => Known::Value(Balance {
                before: Unbalance::of(&masses.after(step.cut), *density, step.axis, held),
                after: Unbalance::of(&masses.after(step.cut + 1), *density, step.axis, held),
            }),
            Known::Missing { why_not } => Known::missing(why_not.as_str()),
        };
        let speed = speed::speed(&step, &swing, balance.value(), &bits(step.cut), shop);
        all.push(Turning { cut: step.cut, name: step.name.into(), axis: step.axis_name, swing, air, balance, speed });
    }
    all
}
