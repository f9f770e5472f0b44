//! What is left of a wood's strength where its grain runs at an angle to the work.

use borsh::{BorshDeserialize, BorshSerialize};
use serde::Serialize;

/// Slope of grain (rise over run) and the share of straight-grained modulus of rupture that is left.
/// Source: Wood Handbook, FPL-GTR-190 (2010), Table 5-12.
const TABLE: [(f64, f64); 6] =
    [(0.0, 1.0), (1.0 / 25.0, 0.96), (1.0 / 20.0, 0.93), (1.0 / 15.0, 0.89), (1.0 / 10.0, 0.81), (1.0 / 5.0, 0.55)];

/// The steepest slope of the table.
pub const STEEPEST_OF_TABLE: f64 = 1.0 / 5.0;

/// Strength across the grain over that along it, and the exponent, for which the formula comes near the table's column
/// of modulus of rupture. Source: Wood Handbook, FPL-GTR-190 (2010), chapter 5, text on slope of grain.
const ACROSS_OVER_ALONG: f64 = 0.1;
const EXPONENT: f64 = 1.5;

/// The slope of the grain to the work, and what it leaves of the strength in bending.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, BorshSerialize, BorshDeserialize)]
pub struct Grain {
    /// The angle between the work and the grain, in degrees.
    pub angle_deg: f64,
    /// The slope as n in "1 in n"; absent for straight grain.
    pub one_in: Option<f64>,
    /// The share left by the handbook's table; absent beyond its 1 in 5.
    pub table_share: Option<f64>,
    /// The share left by Hankinson's formula.
    pub hankinson_share: f64,
    /// Which of the two counts: the table as far as it goes, since it was measured; the formula beyond.
    pub governs: Governs,
}

/// What tells the share of strength that is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, BorshSerialize, BorshDeserialize)]
#[serde(rename_all = "snake_case")]
pub enum Governs {
    /// The handbook's table.
    Table,
    /// Hankinson's formula.
    Hankinson,
}

impl Grain {
    /// For an angle between the work and the grain, in radians.
    #[must_use]
    pub fn at(angle: f64) -> Self {
        let slope = angle.tan();
        let table_share = table_share(slope);
        Self {
            angle_deg: angle.to_degrees(),
            one_in: (slope > 1e-6).then(|| 1.0 / slope),
            table_share,
            hankinson_share: hankinson(angle, ACROSS_OVER_ALONG, EXPONENT),
            governs: if table_share.is_some() { Governs::Table } else { Governs::Hankinson },
        }
    }

    /// The share of the strength that counts.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.table_share.unwrap_or(self.hankinson_share)
    }
}

/// The share of modulus of rupture by the table, straight between its rows; `None` beyond 1 in 5.
#[must_use]
pub fn table_share(slope: f64) -> Option<f64> {
    let pair = TABLE.windows(2).find(|pair| pair[0].0 <= slope && slope <= pair[1].0 + 1e-9)?;
    let part = (slope - pair[0].0) / (pair[1].0 - pair[0].0);
    Some(pair[0].1 + (pair[1].1 - pair[0].1) * part)
}

/// Hankinson's formula, as a share of the strength along the grain: `q / (sin^n + q cos^n)` at an angle in radians, with
/// `q` the strength across over that along. Exact.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 5.
#[must_use]
pub fn hankinson(angle: f64, across_over_along: f64, exponent: f64) -> f64 {
    let (sin, cos) = angle.clamp(0.0, std::f64::consts::FRAC_PI_2).sin_cos();
    across_over_along / (sin.powf(exponent) + across_over_along * cos.max(0.0).powf(exponent))
}
