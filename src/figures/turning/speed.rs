//! Figure 12: how fast, and what to change when no speed is safe.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use super::balance::{Balance, Shaking};
use super::cure::cures;
use super::operations::{BitAtWork, LimitedBy, Operation, OperationSpeed, SpeedRange, Spinning};
use super::step::Step;
use super::swing::Swing;
use crate::design::Shop;
use crate::design::entry::Units;
use crate::figures::known::Known;
use crate::figures::tables::lathe_speed::{FINISHING, GuideRow, ROUGHING};

/// How fast a step may spin, in revolutions per minute.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Speed {
    /// Where to start, always: the lathe's lowest speed.
    pub start_rpm: f64,
    /// The diameter the work swings, in mm.
    pub swing_diameter_mm: f64,
    /// The usual speeds for that diameter on the work's own axis, 6000 to 9000 inches times rpm: common practice. Absent
    /// without wood.
    pub usual: Option<UsualRange>,
    /// What a user guide gives for round work of that diameter, for scale.
    pub guide: Option<Guide>,
    /// The speed at which the out-of-balance force comes to the shop's limit; absent when it never does in the lathe's
    /// range, or the wood's density is not known.
    pub force_rpm: Option<f64>,
    /// From the lathe's lowest speed to the most for any cut of the step, or why none is safe: for a pass its finishing
    /// cuts, for a bore its slowest bit.
    pub range: Known<SpeedRange>,
    /// Speeds for each operation of the step, in the order of the work; empty without wood.
    pub operations: Vec<OperationSpeed>,
    /// What to change, the most telling first; empty while nothing holds the speed under the usual range.
    pub cures: Vec<String>,
    /// How it shakes at the lathe's lowest speed, when the density is known.
    pub at_start: Option<Shaking>,
    /// How it shakes at the highest speed to use.
    pub at_highest: Option<Shaking>,
}

/// From a slower to a faster speed, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct UsualRange {
    /// For roughing.
    pub from_rpm: f64,
    /// For finishing.
    pub to_rpm: f64,
}

/// Speeds of a user guide, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Guide {
    /// Rounding a blank.
    pub rounding_rpm: f64,
    /// Shaping.
    pub shaping_rpm: f64,
    /// Sanding.
    pub sanding_rpm: f64,
}

/// How fast a step may spin. Without a balance only diameter and lathe count. `bits` are those that bore it.
///
/// Force at a speed grows with its square, so the limit is found exactly from one speed.
pub(super) fn speed(
    step: &Step<'_>,
    swing: &Swing,
    balance: Option<&Balance>,
    bits: &[BitAtWork],
    shop: &Shop,
) -> Speed {
    let lathe = &shop.lathe;
    let diameter = 2.0 * swing.radius_mm;
    let usual =
        (diameter > 0.0).then(|| UsualRange { from_rpm: ROUGHING.rpm(diameter), to_rpm: FINISHING.rpm(diameter) });
    let force_rpm = balance.map(|balance| balance.rpm_at(lathe.force_limit_n)).filter(|rpm| *rpm <= lathe.highest_rpm);
    let spinning = Spinning { diameter_mm: diameter, off_centre: step.off_centre, force_rpm };
    let operations = operations(step, bits, &spinning, shop);
    let range = range(&operations, balance, force_rpm, shop);
    let highest = range.value().map(|range| range.to_rpm);
    let held_down = match highest {
        Some(highest) => {
            usual.is_some_and(|usual| highest < usual.from_rpm) && force_rpm.is_some_and(|force| force <= highest)
        }
        None => !only_the_bit(&operations, force_rpm, lathe.lowest_rpm),
    };
    Speed {
        start_rpm: lathe.lowest_rpm,
        swing_diameter_mm: diameter,
        usual,
        guide: GuideRow::of(diameter).filter(|_| diameter > 0.0).map(|row| Guide {
            rounding_rpm: row.rounding_rpm,
            shaping_rpm: row.shaping_rpm,
            sanding_rpm: row.sanding_rpm,
        }),
        force_rpm,
        cures: if held_down && diameter > 0.0 { cures(step, swing, balance, force_rpm, shop) } else { Vec::new() },
        range,
        operations,
        at_start: balance.map(|balance| balance.shaking(lathe.lowest_rpm)),
        at_highest: balance.zip(highest).map(|(balance, rpm)| balance.shaking(rpm)),
    }
}

/// Speeds for what is done in a step, in the order of the work.
fn operations(step: &Step<'_>, bits: &[BitAtWork], spinning: &Spinning, shop: &Shop) -> Vec<OperationSpeed> {
    use Operation::{Boring, Finishing, Roughing, Sanding, Shaping};
    let mut all: Vec<(Operation, Option<BitAtWork>)> = bits.iter().map(|bit| (Boring, Some(*bit))).collect();
    // Across the grain a gouge does most of it; a bit opens the middle.
    let first = if step.axis.is_lengthwise() { all.len() } else { 0 };
    let tools: &[Operation] = if step.is_pass { &[Roughing, Shaping, Finishing, Sanding] } else { &[Shaping, Sanding] };
    all.splice(first..first, tools.iter().map(|operation| (*operation, None)));
    let of = |(operation, bit)| OperationSpeed::of(operation, bit, spinning, &shop.lathe, Units::from(shop));
    all.into_iter().filter_map(of).collect()
}

/// Whether nothing but a bit keeps a bore from being made at the lathe's lowest speed.
fn only_the_bit(operations: &[OperationSpeed], force_rpm: Option<f64>, lowest_rpm: f64) -> bool {
    let others = || operations.iter().filter(|it| it.bit_mm.is_none());
    operations.iter().any(|it| it.bit_mm.is_some())
        && others().all(|it| it.usual_rpm >= lowest_rpm)
        && force_rpm.is_none_or(|force| force >= lowest_rpm)
}

/// The range of the whole step: that of a pass's finishing cuts, of a bore's slowest bit, of a hollow's gouge.
fn range(
    operations: &[OperationSpeed],
    balance: Option<&Balance>,
    force_rpm: Option<f64>,
    shop: &Shop,
) -> Known<SpeedRange> {
    let lowest = shop.lathe.lowest_rpm;
    let bored = operations.iter().take_while(|it| it.operation == Operation::Boring);
    let slowest = bored.min_by(|a, b| a.usual_rpm.total_cmp(&b.usual_rpm));
    let finishing = || operations.iter().find(|it| it.operation == Operation::Finishing);
    let Some(main) = slowest.or_else(finishing).or_else(|| operations.first()) else {
        return Known::missing("No wood is left to turn.");
    };
    if force_rpm.is_some_and(|force| force < lowest) {
        let load = balance.map_or(0.0, |balance| balance.worst_n(lowest));
        return Known::missing(format!(
            "No speed is safe: at the lathe's lowest, {lowest:.0} rpm, the work pulls with {load:.0} N, and the shop's \
             limit is {:.0} N.",
            shop.lathe.force_limit_n
        ));
    }
    main.range.clone()
}

impl Speed {
    /// Whether bits do most of the step.
    #[must_use]
    pub fn is_bored(&self) -> bool {
        self.operations.first().is_some_and(|it| it.operation == Operation::Boring)
    }

    /// The speeds in a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        let start = format!("Start at the lathe's lowest speed, {:.0} rpm", self.start_rpm);
        match &self.range {
            Known::Value(range) => {
                let why = match range.limited_by {
                    LimitedBy::Usual if self.is_bored() => "as is usual for the bit",
                    LimitedBy::Usual if self.operations.iter().any(|it| it.off_centre) => {
                        "about half of what is usual for the swing, off centre as it is"
                    }
                    LimitedBy::Usual => "as is usual for the swing",
                    LimitedBy::Force => "held there by the out-of-balance force",
                    LimitedBy::Lathe => "the lathe's highest",
                };
                // Rounded down: the limit is never passed.
                format!("{start}; when it runs quietly, up to {:.0} rpm, {why}.", (range.to_rpm / 10.0).floor() * 10.0)
            }
            Known::Missing { why_not } => why_not.clone(),
        }
    }
}
