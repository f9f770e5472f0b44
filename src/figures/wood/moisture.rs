//! How moist wood gets in air, and what it does to its size, weight and strength.

use crate::design::InUse;

/// Above this moisture, percent of dry mass, wood neither shrinks nor swells.
/// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4.
const FIBRE_SATURATION_PERCENT: f64 = 30.0;

/// The moisture that wood comes to in air at a temperature (degrees Celsius) and relative humidity (percent), in
/// percent of dry mass: within 0.05 of the handbook's table from 0 to 45 degrees.
///
/// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4, two-hydrate sorption equation; Simpson (1998) FPL-RN-0268.
#[must_use]
pub fn equilibrium_percent(temperature_c: f64, humidity_percent: f64) -> f64 {
    let (t, h) = (temperature_c, (humidity_percent / 100.0).clamp(0.0, 1.0));
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let kh = (0.805 + 0.000_736 * t - 0.000_002_73 * t * t) * h;
    let k1 = 6.27 - 0.009_38 * t - 0.000_303 * t * t;
    let k2 = 1.91 + 0.0407 * t - 0.000_293 * t * t;
    let (first, second) = (k1 * kh, k1 * k2 * kh * kh);
    1800.0 / w * (kh / (1.0 - kh) + (first + 2.0 * second) / (1.0 + first + second))
}

/// The moisture in use, in percent of dry mass.
#[must_use]
pub fn in_use_percent(in_use: &InUse) -> f64 {
    match *in_use {
        InUse::Moisture { moisture_percent } => moisture_percent,
        InUse::Air { temperature_c, humidity_percent } => equilibrium_percent(temperature_c, humidity_percent),
    }
}

/// Moisture between which the coefficients of dimensional change hold, percent. Same source.
const COEFFICIENTS_HOLD: std::ops::RangeInclusive<f64> = 6.0..=14.0;

/// By how much of its size wood grows from one moisture to another (percent); less than 0 when it shrinks.
///
/// `coefficient` is the share for each percent of moisture, used from 6 to 14 percent: Wood Handbook, FPL-GTR-190 (2010),
/// chapter 13, Table 13-5. Beyond, or without one, from `shrink_percent`, green to ovendry: same chapter, calculation
/// based on green dimensions; that formula from memory.
#[must_use]
pub fn growth(coefficient: Option<f64>, shrink_percent: f64, from_percent: f64, to_percent: f64) -> f64 {
    if let Some(coefficient) = coefficient
        && COEFFICIENTS_HOLD.contains(&from_percent)
        && COEFFICIENTS_HOLD.contains(&to_percent)
    {
        return coefficient * (to_percent - from_percent);
    }
    if shrink_percent <= 0.0 {
        return 0.0;
    }
    let (from, to) = (from_percent.min(FIBRE_SATURATION_PERCENT), to_percent.min(FIBRE_SATURATION_PERCENT));
    let size = FIBRE_SATURATION_PERCENT * 100.0 / shrink_percent - FIBRE_SATURATION_PERCENT + from;
    if size > 0.0 { (to - from) / size } else { 0.0 }
}

/// Green wood bends off at about this share of what it bears at 12 percent: from memory of the Wood Handbook's tables of
/// strength, where it lies between 0.5 and 0.7 for most woods.
const GREEN_SHARE: f64 = 0.6;
/// Above this moisture, percent, strength changes no more: Wood Handbook, chapter 5, from memory.
const STRENGTH_CHANGES_TO: f64 = 25.0;

/// The share of its strength at 12 percent that wood has at another moisture (percent): 1 below 12, though dry wood is
/// stronger still.
///
/// Source: Wood Handbook, chapter 5, the exponential formula of moisture and strength; from memory.
#[must_use]
pub fn wet_share(moisture_percent: f64) -> f64 {
    let wet = (moisture_percent.clamp(12.0, STRENGTH_CHANGES_TO) - 12.0) / (STRENGTH_CHANGES_TO - 12.0);
    GREEN_SHARE.powf(wet)
}
