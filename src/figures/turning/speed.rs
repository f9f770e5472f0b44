//! Figure 12: how fast, and what to change when no speed is safe.

use serde::Serialize;

use super::balance::{Balance, Shaking};
use super::cure::cures;
use super::step::Step;
use super::swing::Swing;
use crate::design::Shop;
use crate::design::entry::Units;
use crate::design::units::Quantity;
use crate::figures::known::Known;
use crate::figures::tables::lathe_speed::{FINISHING, GuideRow, ROUGHING};

/// How fast a step may spin, in revolutions per minute.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Speed {
    /// Where to start, always: the lathe's lowest speed.
    pub start_rpm: f64,
    /// The diameter the work swings, in mm.
    pub swing_diameter_mm: f64,
    /// The usual speeds for that diameter, 6000 to 9000 inches times rpm: common practice. Absent without wood.
    pub usual: Option<UsualRange>,
    /// What a user guide gives for round work of that diameter, for scale.
    pub guide: Option<Guide>,
    /// The speed at which the out-of-balance force comes to the shop's limit; absent when it never does in the lathe's
    /// range, or the wood's density is not known.
    pub force_rpm: Option<f64>,
    /// The speeds to use, or why none is safe.
    pub range: Known<SpeedRange>,
    /// What to change, the most telling first; empty while nothing holds the speed under the usual range.
    pub cures: Vec<String>,
    /// How it shakes at the lathe's lowest speed, when the density is known.
    pub at_start: Option<Shaking>,
    /// How it shakes at the highest speed to use.
    pub at_highest: Option<Shaking>,
}

/// From a slower to a faster speed, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct UsualRange {
    /// For roughing.
    pub from_rpm: f64,
    /// For finishing.
    pub to_rpm: f64,
}

/// Speeds of a user guide, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Guide {
    /// Rounding a blank.
    pub rounding_rpm: f64,
    /// Shaping.
    pub shaping_rpm: f64,
    /// Sanding.
    pub sanding_rpm: f64,
}

/// The speeds to use, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SpeedRange {
    /// For roughing, or the lathe's lowest.
    pub from_rpm: f64,
    /// The most.
    pub to_rpm: f64,
    /// What sets the most.
    pub limited_by: LimitedBy,
}

/// What sets the highest speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LimitedBy {
    /// Diameter times speed: common practice.
    Usual,
    /// The out-of-balance force that the shop accepts on a centre.
    Force,
    /// The lathe's highest speed.
    Lathe,
}

/// How fast a step may spin. Without a balance only diameter and lathe count.
///
/// Force at a speed grows with its square, so the limit is found exactly from one speed.
pub(super) fn speed(step: &Step<'_>, swing: &Swing, balance: Option<&Balance>, shop: &Shop) -> Speed {
    let lathe = &shop.lathe;
    let diameter = 2.0 * swing.radius_mm;
    let usual =
        (diameter > 0.0).then(|| UsualRange { from_rpm: ROUGHING.rpm(diameter), to_rpm: FINISHING.rpm(diameter) });
    let force_rpm = balance.map(|balance| balance.rpm_at(lathe.force_limit_n)).filter(|rpm| *rpm <= lathe.highest_rpm);
    let range = range(diameter, usual, force_rpm, balance, shop);
    let highest = range.value().map(|range| range.to_rpm);
    let held_down = highest.is_none_or(|highest| {
        usual.is_some_and(|usual| highest < usual.from_rpm) && force_rpm.is_some_and(|force| force <= highest)
    });
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
        at_start: balance.map(|balance| balance.shaking(lathe.lowest_rpm)),
        at_highest: balance.zip(highest).map(|(balance, rpm)| balance.shaking(rpm)),
    }
}

fn range(
    diameter_mm: f64,
    usual: Option<UsualRange>,
    force_rpm: Option<f64>,
    balance: Option<&Balance>,
    shop: &Shop,
) -> Known<SpeedRange> {
    let lathe = &shop.lathe;
    let Some(usual) = usual else { return Known::missing("No wood is left to turn.") };
    let lowest = lathe.lowest_rpm;
    let force = force_rpm.unwrap_or(f64::INFINITY);
    if force < lowest {
        let load = balance.map_or(0.0, |balance| balance.worst_n(lowest));
        return Known::missing(format!(
            "No speed is safe: at the lathe's lowest, {lowest:.0} rpm, the work pulls with {load:.0} N, and the shop's \
             limit is {:.0} N.",
            lathe.force_limit_n
        ));
    }
    if usual.to_rpm < lowest {
        return Known::missing(format!(
            "No speed is safe: work that swings {} across is turned at {:.0} rpm at most, and the lathe's lowest is \
             {lowest:.0} rpm.",
            Units::from(shop).show_with_unit(diameter_mm, Quantity::Length),
            usual.to_rpm
        ));
    }
    let to_rpm = usual.to_rpm.min(force).min(lathe.highest_rpm);
    let limited_by = if force <= to_rpm {
        LimitedBy::Force
    } else if usual.to_rpm <= to_rpm {
        LimitedBy::Usual
    } else {
        LimitedBy::Lathe
    };
    Known::Value(SpeedRange { from_rpm: usual.from_rpm.clamp(lowest.min(to_rpm), to_rpm), to_rpm, limited_by })
}

impl Speed {
    /// The speeds in a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        let start = format!("Start at the lathe's lowest speed, {:.0} rpm", self.start_rpm);
        match &self.range {
            Known::Value(range) => {
                let why = match range.limited_by {
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
