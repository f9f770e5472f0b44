//! Kitchen measures, and a volume as a cook says it.

use super::contents::Basis;
use crate::design::LengthUnit;

/// mm3 in a millilitre. Exact.
pub const MM3_PER_ML: f64 = 1000.0;

/// One kitchen measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Its name, in the singular.
    pub name: &'static str,
    /// As it is written after a number.
    pub short: &'static str,
    /// Whose measure it is.
    pub system: &'static str,
    /// What it holds, in mL.
    pub volume_ml: f64,
    /// Where that comes from.
    pub source: &'static str,
    /// How it was come by.
    pub basis: Basis,
}

const US_SOURCE: &str = "definition in NIST Handbook 44 Appendix C; decimal value seen in secondary unit tables";
const METRIC_SOURCE: &str = "secondary cooking-measure pages";

const fn us(name: &'static str, short: &'static str, volume_ml: f64) -> Measure {
    Measure { name, short, system: "US customary", volume_ml, source: US_SOURCE, basis: Basis::Found }
}

const fn metric(name: &'static str, short: &'static str, system: &'static str, volume_ml: f64) -> Measure {
    Measure { name, short, system, volume_ml, source: METRIC_SOURCE, basis: Basis::Found }
}

/// 1/16 of a US gallon. Exact by definition.
pub const US_CUP: Measure = us("cup", "cup", 236.588_236_5);
/// 1/128 of a US gallon. Exact by definition.
pub const US_FLUID_OUNCE: Measure = us("fluid ounce", "fl oz", 29.573_529_562_5);
/// Half a US fluid ounce. Exact by definition.
pub const US_TABLESPOON: Measure = us("tablespoon", "tbsp", 14.786_764_781_25);
/// A third of a US tablespoon. Exact by definition.
pub const US_TEASPOON: Measure = us("teaspoon", "tsp", 4.928_921_593_75);
/// Customary.
const METRIC_CUP: Measure = metric("cup", "cup", "metric (Australia, NZ, Canada, UK usage)", 250.0);
/// Customary.
const METRIC_TABLESPOON: Measure = metric("tablespoon", "tbsp", "metric (UK, Canada, NZ)", 15.0);
/// Customary.
const METRIC_TEASPOON: Measure = metric("teaspoon", "tsp", "metric", 5.0);
/// Four metric teaspoons; differs from every other tablespoon.
const AUSTRALIAN_TABLESPOON: Measure = metric("tablespoon", "tbsp", "Australia", 20.0);

/// Every measure.
pub const ALL: [Measure; 8] = [
    US_CUP,
    US_FLUID_OUNCE,
    US_TABLESPOON,
    US_TEASPOON,
    METRIC_CUP,
    METRIC_TABLESPOON,
    METRIC_TEASPOON,
    AUSTRALIAN_TABLESPOON,
];

/// Whose spoons and cups a volume is told in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Kitchen {
    /// US customary.
    #[default]
    Us,
    /// Cup 250 mL, tablespoon 15 mL, teaspoon 5 mL.
    Metric,
    /// Cup 250 mL, tablespoon 20 mL, teaspoon 5 mL.
    Australian,
}

/// The fractions a set of spoons or cups comes in, as parts of one and as text.
type Fractions = &'static [(f64, &'static str)];

const OF_A_CUP: Fractions =
    &[(0.0, ""), (0.25, "1/4"), (1.0 / 3.0, "1/3"), (0.5, "1/2"), (2.0 / 3.0, "2/3"), (0.75, "3/4"), (1.0, "")];
const OF_A_TABLESPOON: Fractions = &[(0.0, ""), (0.5, "1/2"), (1.0, "")];
const OF_A_TEASPOON: Fractions = &[(0.0, ""), (0.25, "1/4"), (0.5, "1/2"), (0.75, "3/4"), (1.0, "")];

/// From this share of a measure on, a volume is told in it.
const CUP_FROM: f64 = 0.24;
const TABLESPOON_FROM: f64 = 0.9;
/// A volume smaller than this share of a teaspoon has no spoon.
const TEASPOON_FROM: f64 = 0.125;

impl Kitchen {
    /// The kitchen that goes with a shop's unit of length: US with inches, metric with millimetres.
    #[must_use]
    pub const fn of(unit: LengthUnit) -> Self {
        match unit {
            LengthUnit::Millimetres => Self::Metric,
            LengthUnit::Inches => Self::Us,
        }
    }

    /// Its cup.
    #[must_use]
    pub const fn cup(self) -> Measure {
        match self {
            Self::Us => US_CUP,
            Self::Metric | Self::Australian => METRIC_CUP,
        }
    }

    /// Its tablespoon.
    #[must_use]
    pub const fn tablespoon(self) -> Measure {
        match self {
            Self::Us => US_TABLESPOON,
            Self::Metric => METRIC_TABLESPOON,
            Self::Australian => AUSTRALIAN_TABLESPOON,
        }
    }

    /// Its teaspoon.
    #[must_use]
    pub const fn teaspoon(self) -> Measure {
        match self {
            Self::Us => US_TEASPOON,
            Self::Metric | Self::Australian => METRIC_TEASPOON,
        }
    }

    /// A volume given in mm3 in the nearest fraction of the largest fitting measure: `2 1/2 tbsp`; `None` below an
    /// eighth of a teaspoon and when it is not finite.
    #[must_use]
    pub fn say(self, volume_mm3: f64) -> Option<String> {
        let ml = volume_mm3 / MM3_PER_ML;
        if !ml.is_finite() {
            return None;
        }
        let (cup, tablespoon, teaspoon) = (self.cup(), self.tablespoon(), self.teaspoon());
        if ml >= CUP_FROM * cup.volume_ml {
            Some(in_measure(ml, cup, OF_A_CUP))
        } else if ml >= TABLESPOON_FROM * tablespoon.volume_ml {
            Some(in_measure(ml, tablespoon, OF_A_TABLESPOON))
        } else if ml >= TEASPOON_FROM * teaspoon.volume_ml {
            Some(in_measure(ml, teaspoon, OF_A_TEASPOON))
        } else {
            None
        }
    }
}

/// The nearest of the fractions, as text, and the measure's short name; cups have a plural.
fn in_measure(ml: f64, measure: Measure, fractions: Fractions) -> String {
    let amount = ml / measure.volume_ml;
    let whole = amount.floor();
    let off = |part: f64| (amount - whole - part).abs();
    let nearest = fractions.iter().copied().min_by(|a, b| off(a.0).total_cmp(&off(b.0)));
    let (part, text) = nearest.unwrap_or((0.0, ""));
    let whole = if part == 1.0 { whole + 1.0 } else { whole };
    let number = match (whole > 0.0, text) {
        (true, "") | (false, "") => format!("{whole:.0}"),
        (true, _) => format!("{whole:.0} {text}"),
        (false, _) => text.to_owned(),
    };
    let plural = if measure.short == "cup" && amount > 1.1 { "s" } else { "" };
    format!("{number} {}{plural}", measure.short)
}

/// A volume given in mm3 in mL, or in L from one litre on: `4.6 mL`, `38 mL`, `1.25 L`. A dash when it is not finite.
#[must_use]
pub fn say_ml(volume_mm3: f64) -> String {
    let ml = volume_mm3 / MM3_PER_ML;
    if !ml.is_finite() || ml < 0.0 {
        "\u{2013}".to_owned()
    } else if ml < 9.95 {
        format!("{ml:.1} mL")
    } else if ml < 999.5 {
        format!("{ml:.0} mL")
    } else {
        format!("{:.2} L", ml / 1000.0)
    }
}

/// A volume given in mm3 as a turner and a cook say it: `38 mL · 2 1/2 tbsp`.
#[must_use]
pub fn say_volume(volume_mm3: f64, kitchen: Kitchen) -> String {
    let ml = say_ml(volume_mm3);
    match kitchen.say(volume_mm3) {
        Some(spoons) => format!("{ml} \u{b7} {spoons}"),
        None => ml,
    }
}

/// A volume given in mm3 as [`say_volume`] does, in the unit of the shop: US fluid ounces with a US kitchen, `2.0 fl oz ·
/// 1/4 cup`.
#[must_use]
pub fn say_in_shop(volume_mm3: f64, kitchen: Kitchen) -> String {
    let ounces = fluid_ounces(volume_mm3);
    let unit = match kitchen {
        Kitchen::Metric | Kitchen::Australian => return say_volume(volume_mm3, kitchen),
        Kitchen::Us if !ounces.is_finite() || ounces < 0.0 => return "\u{2013}".to_owned(),
        Kitchen::Us if ounces < 9.95 => format!("{ounces:.1} fl oz"),
        Kitchen::Us => format!("{ounces:.0} fl oz"),
    };
    match kitchen.say(volume_mm3) {
        Some(spoons) => format!("{unit} \u{b7} {spoons}"),
        None => unit,
    }
}

/// A volume given in mm3 in US fluid ounces.
#[must_use]
fn fluid_ounces(volume_mm3: f64) -> f64 {
    volume_mm3 / MM3_PER_ML / US_FLUID_OUNCE.volume_ml
}
