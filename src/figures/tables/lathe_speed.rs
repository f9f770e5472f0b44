//! How fast wood is turned: customs and one user guide, not standards.

use super::Basis;

/// Millimetres in an inch.
pub const INCH_MM: f64 = 25.4;

/// Diameter times speed, who says it and how it was come by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Custom {
    /// Diameter times speed, in inches times revolutions per minute.
    pub inch_rpm: f64,
    /// Whose word it is.
    pub authority: &'static str,
    /// Where it was read.
    pub source: &'static str,
    /// How it was come by.
    pub basis: Basis,
}

impl Custom {
    /// The speed for a diameter in mm, in revolutions per minute; infinite without a diameter.
    #[must_use]
    pub fn rpm(&self, diameter_mm: f64) -> f64 {
        self.inch_rpm * INCH_MM / diameter_mm.max(0.0)
    }
}

const FORUM: &str = "turners' association forum thread; course worksheet (rpm = 6000/D rough, 9000/D finish)";

/// For roughing.
pub const ROUGHING: Custom =
    Custom { inch_rpm: 6000.0, authority: "common practice", source: FORUM, basis: Basis::Found };

/// For finishing.
pub const FINISHING: Custom =
    Custom { inch_rpm: 9000.0, authority: "common practice", source: FORUM, basis: Basis::Found };

/// The share of the usual speed for work that is turned off centre: "many turners stay at or below about half the centred
/// speed". Common practice, from memory.
pub const OFF_CENTRE_SHARE: f64 = 0.5;

/// What a user guide says of one range of diameters. Off-centre work needs less: [`OFF_CENTRE_SHARE`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GuideRow {
    /// The least diameter, in inches.
    pub from_in: f64,
    /// The greatest, in inches; infinite in the last row.
    pub to_in: f64,
    /// Rounding a blank, in revolutions per minute.
    pub rounding_rpm: f64,
    /// Shaping, in revolutions per minute.
    pub shaping_rpm: f64,
    /// Sanding, in revolutions per minute.
    pub sanding_rpm: f64,
}

impl GuideRow {
    /// The row of a diameter in mm.
    #[must_use]
    pub fn of(diameter_mm: f64) -> Option<&'static Self> {
        GUIDE.iter().find(|row| diameter_mm <= row.to_in * INCH_MM)
    }
}

/// Where the guide's rows come from.
pub const GUIDE_SOURCE: &str = "combination-machine user guide, Table 12-1 Lathe Turning Speed Chart";
/// How they were come by.
pub const GUIDE_BASIS: Basis = Basis::Found;

/// The guide's rows, the smallest diameters first.
#[rustfmt::skip]
pub const GUIDE: &[GuideRow] = &[
    GuideRow { from_in: 0.0, to_in: 2.0, rounding_rpm: 950.0, shaping_rpm: 1300.0, sanding_rpm: 2050.0 },
    GuideRow { from_in: 2.0, to_in: 4.0, rounding_rpm: 850.0, shaping_rpm: 1150.0, sanding_rpm: 1900.0 },
    GuideRow { from_in: 4.0, to_in: 6.0, rounding_rpm: 750.0, shaping_rpm: 1050.0, sanding_rpm: 1600.0 },
    GuideRow { from_in: 6.0, to_in: f64::INFINITY, rounding_rpm: 700.0, shaping_rpm: 750.0, sanding_rpm: 850.0 },
];
