//! How fast boring bits turn in wood: drill-press charts, no standard. Every Forstner row is from memory.

use super::Basis;
use super::lathe_speed::INCH_MM;
use crate::design::BitKind;

/// One band of diameters of one kind of bit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoringRow {
    /// Smallest diameter, in inches.
    pub from_in: f64,
    /// Largest diameter, in inches.
    pub to_in: f64,
    /// Highest speed in softwood, in revolutions per minute.
    pub softwood_rpm: f64,
    /// Highest speed in hardwood, in revolutions per minute.
    pub hardwood_rpm: f64,
}

/// Rows for one kind of bit, smallest diameters first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoringTable {
    /// The rows.
    pub rows: &'static [BoringRow],
    /// Where they were read.
    pub source: &'static str,
    /// How they were come by.
    pub basis: Basis,
}

/// Forstner bits up to 2 in.
pub const FORSTNER: BoringTable = BoringTable {
    rows: &FORSTNER_ROWS,
    source: "drill-press speed chart widely reprinted from a US woodworking magazine",
    basis: Basis::Memory,
};

/// Forstner and sawtooth bits over 2 in.
pub const LARGE: BoringTable = BoringTable {
    rows: &[BoringRow { from_in: 2.0, to_in: 4.0, softwood_rpm: 500.0, hardwood_rpm: 250.0 }],
    source: "common practice: not above the 2-inch figures; slower for large bits",
    basis: Basis::Memory,
};

/// Twist drills.
pub const TWIST: BoringTable =
    BoringTable { rows: &TWIST_ROWS, source: "general woodworking pages giving the same chart", basis: Basis::Found };

#[rustfmt::skip]
const FORSTNER_ROWS: [BoringRow; 5] = [
    BoringRow { from_in: 0.25, to_in: 0.375, softwood_rpm: 2400.0, hardwood_rpm: 700.0 },
    BoringRow { from_in: 0.5, to_in: 0.625, softwood_rpm: 2400.0, hardwood_rpm: 500.0 },
    BoringRow { from_in: 0.75, to_in: 1.0, softwood_rpm: 1500.0, hardwood_rpm: 500.0 },
    BoringRow { from_in: 1.125, to_in: 1.25, softwood_rpm: 1000.0, hardwood_rpm: 250.0 },
    BoringRow { from_in: 1.375, to_in: 2.0, softwood_rpm: 500.0, hardwood_rpm: 250.0 },
];

#[rustfmt::skip]
const TWIST_ROWS: [BoringRow; 2] = [
    BoringRow { from_in: 0.25, to_in: 0.375, softwood_rpm: 3000.0, hardwood_rpm: 1500.0 },
    BoringRow { from_in: 0.4375, to_in: 0.625, softwood_rpm: 1500.0, hardwood_rpm: 750.0 },
];

/// A diameter may exceed its band by this, in mm: rounding of inches.
const ROUNDING_MM: f64 = 0.01;

/// Highest speed for a bit, in revolutions per minute.
///
/// A diameter between two bands takes the slower, wider band; one under the first band takes the first. Past the last
/// band the speed falls with the diameter, so that the rim runs no faster (computed). The charts have no row for a spade
/// bit or a sawtooth bit under 2 in: those take the slower Forstner rows (our choice, no source).
#[must_use]
pub fn most_rpm(kind: BitKind, diameter_mm: f64, softwood: bool) -> f64 {
    let tables: &[BoringTable] = match kind {
        BitKind::Twist => &[TWIST],
        BitKind::Forstner | BitKind::Sawtooth | BitKind::Spade => &[FORSTNER, LARGE],
    };
    let rows = || tables.iter().flat_map(|table| table.rows);
    let Some(row) = rows().find(|row| diameter_mm <= row.to_in * INCH_MM + ROUNDING_MM).or_else(|| rows().last())
    else {
        return 0.0;
    };
    let rpm = if softwood { row.softwood_rpm } else { row.hardwood_rpm };
    rpm * (row.to_in * INCH_MM / diameter_mm.max(f64::MIN_POSITIVE)).min(1.0)
}
