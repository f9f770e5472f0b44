//! Figure 12, by operation: the highest speed for each tool, and what sets it.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

use crate::design::Lathe;
use crate::design::entry::Units;
use crate::design::units::Quantity;
use crate::figures::known::Known;
use crate::figures::tables::boring_speed::most_rpm;
use crate::figures::tables::lathe_speed::{FINISHING, GuideRow, OFF_CENTRE_SHARE, ROUGHING};

/// What the work turns for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, BorshSerialize, BorshDeserialize)]
#[serde(rename_all = "snake_case")]
pub enum Operation {
    /// Taking corners off, or the first cuts on a new axis.
    Roughing,
    /// Turning to shape, and scraping.
    Shaping,
    /// Last light cuts.
    Finishing,
    /// Boring with a bit in the tailstock.
    Boring,
    /// Sanding.
    Sanding,
    /// Parting and facing.
    Parting,
    /// Drawing a line around the work with a pencil.
    Marking,
}

impl Operation {
    /// Its name, as a noun, and the tool it is done with.
    #[must_use]
    pub const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Roughing => ("roughing", "roughing gouge"),
            Self::Shaping => ("shaping", "gouge, skew or scraper"),
            Self::Finishing => ("finishing cuts", "sharp gouge or skew"),
            Self::Boring => ("boring", "bit in the tailstock"),
            Self::Sanding => ("sanding", "abrasive"),
            Self::Parting => ("parting", "parting tool"),
            Self::Marking => ("drawing the line", "pencil"),
        }
    }

    /// Highest usual speed on the work's own axis for a diameter in mm, in revolutions per minute: the lower of the
    /// diameter rule and the user guide's row. A bit has a row of its own.
    ///
    /// Roughing and parting go by 6000/D, the rest by 9000/D at most (inches). That parting goes as roughing does and
    /// that sanding is no faster than shaping is common practice, from memory.
    fn usual_rpm(self, diameter_mm: f64) -> f64 {
        let guide = |rpm: fn(&GuideRow) -> f64| GuideRow::of(diameter_mm).map_or(f64::INFINITY, rpm);
        let shaping = || FINISHING.rpm(diameter_mm).min(guide(|row| row.shaping_rpm));
        match self {
            Self::Roughing | Self::Parting | Self::Marking => {
                ROUGHING.rpm(diameter_mm).min(guide(|row| row.rounding_rpm))
            }
            Self::Shaping | Self::Boring => shaping(),
            Self::Finishing => FINISHING.rpm(diameter_mm),
            Self::Sanding => shaping().min(guide(|row| row.sanding_rpm)),
        }
    }
}

/// A bit that bores.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BitAtWork {
    /// Its kind.
    pub kind: crate::design::BitKind,
    /// Its diameter, in mm.
    pub diameter_mm: f64,
    /// Whether it bores softwood; wood that is not in the table counts as hardwood, which is the slower.
    pub softwood: bool,
}

/// What spins, as far as its speed depends on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spinning {
    /// Diameter the work swings, in mm.
    pub diameter_mm: f64,
    /// Whether it turns on a moved axis, or has been turned on one.
    pub off_centre: bool,
    /// The speed at which the out-of-balance force comes to the shop's limit, where that is known and in reach.
    pub force_rpm: Option<f64>,
}

/// The speeds to use, in revolutions per minute.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct SpeedRange {
    /// The lathe's lowest.
    pub from_rpm: f64,
    /// The most.
    pub to_rpm: f64,
    /// What sets the most.
    pub limited_by: LimitedBy,
}

/// What sets the highest speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, BorshSerialize, BorshDeserialize)]
#[serde(rename_all = "snake_case")]
pub enum LimitedBy {
    /// Diameter times speed: common practice.
    Usual,
    /// The out-of-balance force that the shop accepts on a centre.
    Force,
    /// The lathe's highest speed.
    Lathe,
}

/// How fast one operation may go.
#[derive(Clone, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct OperationSpeed {
    /// The operation.
    pub operation: Operation,
    /// The bit's diameter, in mm; absent for other tools.
    pub bit_mm: Option<f64>,
    /// Highest usual speed for the diameter or the bit, on the work's own axis, in revolutions per minute.
    pub usual_rpm: f64,
    /// Whether the work is off centre, for which about half is usual.
    pub off_centre: bool,
    /// The speeds to use, from the lathe's lowest, or why none is safe.
    pub range: Known<SpeedRange>,
}

impl OperationSpeed {
    /// Speeds for an operation; `None` where no wood spins.
    ///
    /// Half the usual speed is for off-centre work (common practice, from memory), but not under the lathe's lowest
    /// speed: that one is taken where the whole usual speed allows it.
    #[must_use]
    pub fn of(
        operation: Operation,
        bit: Option<BitAtWork>,
        work: &Spinning,
        lathe: &Lathe,
        units: Units,
    ) -> Option<Self> {
        if work.diameter_mm <= 0.0 {
            return None;
        }
        let by_bit = bit.map_or(f64::INFINITY, |bit| most_rpm(bit.kind, bit.diameter_mm, bit.softwood));
        let usual_rpm = operation.usual_rpm(work.diameter_mm).min(by_bit);
        let share = if work.off_centre { OFF_CENTRE_SHARE } else { 1.0 };
        let speed = Self {
            operation,
            bit_mm: bit.map(|bit| bit.diameter_mm),
            usual_rpm,
            off_centre: work.off_centre,
            range: Known::missing(""),
        };
        if usual_rpm < lathe.lowest_rpm {
            return Some(Self { range: Known::missing(speed.too_fast(work, lathe, units)), ..speed });
        }
        let range = limited((usual_rpm * share).max(lathe.lowest_rpm), work.force_rpm, lathe);
        Some(Self { range, ..speed })
    }

    /// Why the lathe's lowest speed is too high.
    fn too_fast(&self, work: &Spinning, lathe: &Lathe, units: Units) -> String {
        let length = |mm: f64| units.show_with_unit(mm, Quantity::Length);
        let (lowest, most) = (lathe.lowest_rpm, self.usual_rpm);
        match self.bit_mm {
            Some(bit) => format!(
                "The lathe's lowest speed, {lowest:.0} rpm, is too fast for a bit of {}: {most:.0} rpm at most is usual. \
                 Open the bore with narrower bits and a tool.",
                length(bit)
            ),
            None => format!(
                "No speed is safe for {}: work that swings {} across is turned at {most:.0} rpm at most, and the lathe's \
                 lowest is {lowest:.0} rpm.",
                self.operation.words().0,
                length(work.diameter_mm)
            ),
        }
    }
}

/// From the lathe's lowest speed to the least of what is usual, of the force limit and of the lathe's highest.
fn limited(usual_rpm: f64, force_rpm: Option<f64>, lathe: &Lathe) -> Known<SpeedRange> {
    let force = force_rpm.unwrap_or(f64::INFINITY);
    if force < lathe.lowest_rpm {
        return Known::missing(format!(
            "No speed is safe: at the lathe's lowest, {:.0} rpm, the work pulls harder than the shop's limit of {:.0} N.",
            lathe.lowest_rpm, lathe.force_limit_n
        ));
    }
    let to_rpm = usual_rpm.min(force).min(lathe.highest_rpm);
    let limited_by = if force <= to_rpm {
        LimitedBy::Force
    } else if usual_rpm <= to_rpm {
        LimitedBy::Usual
    } else {
        LimitedBy::Lathe
    };
    Known::Value(SpeedRange { from_rpm: lathe.lowest_rpm, to_rpm, limited_by })
}
