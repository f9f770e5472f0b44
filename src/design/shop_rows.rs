//! The numbers of the shop, each with a name, a bound and a sensible range.

use super::shop::{Bit, BitKind, Shop};
use super::units::Quantity;
use super::validation::Problem;
use super::validation::bounds::{self, Bound};

/// One number of the shop.
#[derive(Clone, Copy, Debug)]
pub struct ShopRow {
    /// Where it stands in the saved document.
    pub path: &'static str,
    /// Its name on screen.
    pub label: &'static str,
    /// A length or a plain number.
    pub quantity: Quantity,
    /// What may be typed.
    pub bound: Bound,
    /// Where its slider starts.
    pub from: f64,
    /// Where its slider ends.
    pub to: f64,
    /// A small length, moved in small steps.
    pub fine: bool,
    /// What it means, where the name does not say it all.
    pub note: &'static str,
    /// Reads it.
    pub get: fn(&Shop) -> f64,
    /// Writes it.
    pub slot: fn(&mut Shop) -> &mut f64,
}

/// A row for the number that stands at this path of the shop.
macro_rules! row {
    ($group:ident . $name:ident, $label:expr, $bound:expr, $from:expr, $to:expr, $note:expr) => {
        ShopRow {
            path: concat!(stringify!($group), ".", stringify!($name)),
            label: $label,
            quantity: quantity(&$bound),
            bound: $bound,
            from: $from,
            to: $to,
            fine: $to <= SMALL_MM && matches!(quantity(&$bound), Quantity::Length),
            note: $note,
            get: |shop| shop.$group.$name,
            slot: |shop| &mut shop.$group.$name,
        }
    };
}

/// A range of this many mm or less is moved through in small steps.
const SMALL_MM: f64 = 10.0;

fn quantity(bound: &Bound) -> Quantity {
    if bound.unit == " mm" { Quantity::Length } else { Quantity::Number }
}

/// The sections of the shop's settings: heading, what it is for, and the numbers.
#[must_use]
pub fn shop_sections() -> Vec<(&'static str, &'static str, Vec<ShopRow>)> {
    use bounds::{BORE_WARNING, FOOTPRINT, FORCE, LIMIT, MACHINE, OVERHANG, OVERLAP, SPEED, STRENGTH_FACTOR};
    vec![
        (
            "Limits and allowances",
            "The limits to begin with are common practice, no source. A design may have its own.",
            vec![
                row!(limits.wall_mm, "Thinnest wall", LIMIT, 0.5, 10.0, ""),
                row!(limits.floor_mm, "Thinnest floor", LIMIT, 0.5, 10.0, ""),
                row!(limits.finishing_allowance_mm, "Finishing allowance", LIMIT, 0.0, 3.0, "On the radius."),
                row!(
                    limits.scraping_allowance_mm,
                    "Scraping allowance",
                    LIMIT,
                    0.0,
                    3.0,
                    "Left by the bits for the scraper."
                ),
                row!(limits.join_spare_mm, "Spare over the join", LIMIT, 0.1, 5.0, "On the radius."),
                row!(limits.flat_width_mm, "Widest flat sanded out", LIMIT, 0.0, 5.0, ""),
                row!(limits.bore_depth_mm, "Deepest easy bore", BORE_WARNING, 20.0, 150.0, ""),
                row!(
                    limits.out_of_round_mm,
                    "Bore out of round",
                    LIMIT,
                    0.1,
                    3.0,
                    "What drying may add to one diameter over another."
                ),
                row!(limits.usual_error_mm, "Your usual error", LIMIT, 0.0, 3.0, "In a length you turn or bore."),
                row!(
                    limits.strength_factor,
                    "Strength of a neck",
                    STRENGTH_FACTOR,
                    1.0,
                    10.0,
                    "Times the load in use; the table's strengths are averages of flawless wood."
                ),
            ],
        ),
        (
            "Lathe",
            "",
            vec![
                row!(lathe.swing_over_bed_mm, "Swing over the bed", MACHINE, 100.0, 700.0, "Diameter."),
                row!(lathe.swing_over_rest_mm, "Swing over the rest", MACHINE, 100.0, 700.0, "Diameter."),
                row!(lathe.between_centres_mm, "Between centres", MACHINE, 200.0, 1500.0, ""),
                row!(lathe.lowest_rpm, "Lowest speed, rpm", SPEED, 50.0, 1000.0, ""),
                row!(lathe.highest_rpm, "Highest speed, rpm", SPEED, 500.0, 5000.0, ""),
                row!(
                    lathe.force_limit_n,
                    "Out-of-balance limit, N",
                    FORCE,
                    5.0,
                    300.0,
                    "What you accept on one centre: 10 N is about a kilogram."
                ),
                row!(lathe.largest_bit_mm, "Largest bit it drives", MACHINE, 10.0, 100.0, ""),
                row!(
                    lathe.drill_chuck_mm,
                    "Drill chuck",
                    MACHINE,
                    20.0,
                    150.0,
                    "How far it reaches out of the tailstock."
                ),
            ],
        ),
        (
            "Chuck",
            "",
            vec![
                row!(chuck.jaw_from_mm, "Smallest tenon", MACHINE, 10.0, 150.0, ""),
                row!(chuck.jaw_to_mm, "Largest tenon", MACHINE, 10.0, 150.0, ""),
                row!(chuck.jaw_depth_mm, "Jaw depth", MACHINE, 2.0, 40.0, ""),
                row!(
                    chuck.length_mm,
                    "Length",
                    MACHINE,
                    20.0,
                    150.0,
                    "From the spindle's end to the front of the jaws."
                ),
                row!(
                    chuck.overhang_times,
                    "Overhang while boring",
                    OVERHANG,
                    1.0,
                    10.0,
                    "Times the gripped diameter that the work may stand out without support."
                ),
            ],
        ),
        (
            "Centres",
            "The wood that a centre bears on must reach past its footprint.",
            vec![
                row!(centres.drive_diameter_mm, "Drive centre", FOOTPRINT, 5.0, 50.0, "Diameter of its footprint."),
                row!(centres.live_diameter_mm, "Live centre", FOOTPRINT, 5.0, 50.0, "Diameter of its footprint."),
                row!(centres.margin_mm, "Wood around it", FOOTPRINT, 0.0, 10.0, ""),
                row!(
                    centres.overlap_percent,
                    "Overlap of marks, percent",
                    OVERLAP,
                    0.0,
                    100.0,
                    "Nearer marks let a centre walk back into the old hole."
                ),
            ],
        ),
    ]
}

/// The shop with this number changed.
///
/// # Errors
///
/// The first problem that the change would bring in.
pub fn set_number(shop: &Shop, row: &ShopRow, value: f64) -> Result<Shop, Box<Problem>> {
    accepted(shop, |changed| *(row.slot)(changed) = value)
}

/// The shop with these grits, typed one after the other in any way: "120, 180 240".
///
/// # Errors
///
/// What is no grit, or the first problem that the list would bring in.
pub fn set_grits(shop: &Shop, typed: &str) -> Result<Shop, Box<Problem>> {
    let words = typed.split(|c: char| c == ',' || c == ';' || c.is_whitespace()).filter(|word| !word.is_empty());
    let mut grits = Vec::new();
    for word in words {
        let Ok(grit) = word.trim_start_matches(['P', 'p']).parse::<u32>() else {
            return Err(Box::new(Problem {
                field: "grits".to_owned(),
                place: None,
                sentence: format!("\u{201c}{word}\u{201d} is not a grit.").into(),
                cure: "List whole numbers from coarse to fine: 120, 180, 240.".to_owned().into(),
            }));
        };
        grits.push(grit);
    }
    accepted(shop, |changed| changed.grits = grits)
}

pub(super) fn accepted(shop: &Shop, change: impl FnOnce(&mut Shop)) -> Result<Shop, Box<Problem>> {
    let mut changed = shop.clone();
    change(&mut changed);
    let before = shop.problems();
    match changed.problems().into_iter().find(|problem| !before.contains(problem)) {
        None => Ok(changed),
        Some(problem) => Err(Box::new(problem)),
    }
}

/// The numbers of a bit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BitNumber {
    /// Diameter of its cutting edge.
    Diameter,
    /// How far its point reaches past the edge.
    Point,
    /// How deep it can bore.
    Reach,
}

impl BitNumber {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Diameter, Self::Point, Self::Reach];

    /// Its name, bound and slider range, in mm.
    #[must_use]
    pub const fn look(self) -> (&'static str, Bound, f64, f64) {
        match self {
            Self::Diameter => ("Diameter", bounds::BIT_DIAMETER, 3.0, 80.0),
            Self::Point => ("Point past its edge", bounds::BIT_POINT, 0.0, 20.0),
            Self::Reach => ("Reach", bounds::MACHINE, 20.0, 250.0),
        }
    }

    /// The number of a bit, in mm; 0 for a bit that is not there.
    #[must_use]
    pub fn of(self, shop: &Shop, bit: usize) -> f64 {
        shop.bits.get(bit).map_or(0.0, |bit| match self {
            Self::Diameter => bit.diameter_mm,
            Self::Point => bit.point_mm,
            Self::Reach => bit.reach_mm,
        })
    }
}

/// The shop with this number of a bit changed.
///
/// # Errors
///
/// The first problem that the change would bring in.
pub fn set_bit_number(shop: &Shop, bit: usize, number: BitNumber, value: f64) -> Result<Shop, Box<Problem>> {
    accepted(shop, |changed| {
        if let Some(bit) = changed.bits.get_mut(bit) {
            match number {
                BitNumber::Diameter => bit.diameter_mm = value,
                BitNumber::Point => bit.point_mm = value,
                BitNumber::Reach => bit.reach_mm = value,
            }
        }
    })
}

/// Makes a bit one of this kind.
pub fn set_bit_kind(shop: &mut Shop, bit: usize, kind: BitKind) {
    if let Some(bit) = shop.bits.get_mut(bit) {
        bit.kind = kind;
    }
}

/// Adds a bit like the last one, or a 25 mm Forstner bit; nothing when the list is full.
pub fn add_bit(shop: &mut Shop) {
    let new = Bit { kind: BitKind::Forstner, diameter_mm: 25.0, point_mm: 3.0, reach_mm: 90.0 };
    if shop.bits.len() < bounds::BITS {
        shop.bits.push(shop.bits.last().copied().unwrap_or(new));
    }
}

/// What a kind of bit is called.
#[must_use]
pub const fn bit_kind_name(kind: BitKind) -> &'static str {
    match kind {
        BitKind::Forstner => "Forstner",
        BitKind::Sawtooth => "Sawtooth",
        BitKind::Spade => "Spade",
        BitKind::Twist => "Twist",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_of_the_shop_stands_where_it_says() {
        let shop = Shop::default();
        let document = serde_json::to_value(&shop).unwrap();
        let rows: Vec<ShopRow> = shop_sections().into_iter().flat_map(|(_, _, rows)| rows).collect();
        assert_eq!(rows.len(), 27);
        for row in rows {
            let pointer = format!("/{}", row.path.replace('.', "/"));
            assert_eq!(document.pointer(&pointer).and_then(serde_json::Value::as_f64), Some((row.get)(&shop)));
            assert!(row.bound.holds((row.get)(&shop)) && row.from < row.to, "{row:?}");
            let changed = set_number(&shop, &row, (row.get)(&shop) + 0.125).unwrap();
            assert_eq!((row.get)(&changed), (row.get)(&shop) + 0.125);
        }
    }

    #[test]
    fn a_setting_that_contradicts_another_is_refused_with_a_sentence() {
        let shop = Shop::default();
        let rows = shop_sections().into_iter().flat_map(|(_, _, rows)| rows);
        for row in rows.filter(|row| row.path == "lathe.lowest_rpm") {
            let problem = set_number(&shop, &row, 5000.0).unwrap_err();
            assert!(problem.to_string().ends_with('.'));
        }
    }

    #[test]
    fn grits_are_read_from_a_line() {
        let shop = Shop::default();
        assert_eq!(set_grits(&shop, "P80, 120;240  400").unwrap().grits, [80, 120, 240, 400]);
        assert_eq!(set_grits(&shop, "").unwrap().grits, Vec::<u32>::new());
        for wrong in ["120, fine", "240, 120", "120 120", "7"] {
            assert!(set_grits(&shop, wrong).unwrap_err().to_string().contains('.'), "{wrong}");
        }
    }

    #[test]
    fn bits_are_added_and_changed() {
        let mut shop = Shop::default();
        let count = shop.bits.len();
        add_bit(&mut shop);
        assert_eq!(shop.bits.len(), count + 1);
        let changed = set_bit_number(&shop, count, BitNumber::Diameter, 13.0).unwrap();
        assert_eq!(BitNumber::Diameter.of(&changed, count), 13.0);
        assert!(set_bit_number(&shop, 0, BitNumber::Reach, -1.0).is_err());
        set_bit_kind(&mut shop, 0, BitKind::Spade);
        assert_eq!(shop.bits[0].kind, BitKind::Spade);
        for _ in 0..200 {
            add_bit(&mut shop);
        }
        assert_eq!(shop.problems(), []);
    }
}
