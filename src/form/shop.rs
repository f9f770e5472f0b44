//! The numbers of the shop: one table says where each stands in the saved document and how it looks on screen.

use super::row::Row;
use crate::design::units::Quantity;
use crate::design::validation::bounds::{
    BORE_WARNING, Bound, FOOTPRINT, FORCE, KERF, LIMIT, MACHINE, OVERHANG, OVERLAP, SPEED, STRENGTH_FACTOR,
};
use crate::design::{Problem, Shop};

/// One number of the shop.
#[derive(Clone, Copy, Debug)]
pub struct ShopField {
    /// Where it stands in the saved document.
    pub path: &'static str,
    /// How it looks on screen.
    pub row: Row,
    /// Reads it.
    pub get: fn(&Shop) -> f64,
    /// Writes it.
    pub slot: fn(&mut Shop) -> &mut f64,
}

/// Numbers of the shop under one heading.
#[derive(Clone, Debug)]
pub struct ShopSection {
    /// The heading.
    pub title: &'static str,
    /// What they are for; may be empty.
    pub note: &'static str,
    /// The numbers.
    pub fields: Vec<ShopField>,
}

/// A range of this many mm or less is moved through in small steps.
const SMALL_MM: f64 = 10.0;

/// The number that stands at this path of the shop.
macro_rules! field {
    ($group:ident . $name:ident, $label:expr, $bound:expr, $from:expr, $to:expr, $note:expr) => {
        ShopField {
            path: concat!(stringify!($group), ".", stringify!($name)),
            row: row($label, $bound, $from, $to, $note),
            get: |shop| shop.$group.$name,
            slot: |shop| &mut shop.$group.$name,
        }
    };
}

fn row(label: &'static str, bound: Bound, from: f64, to: f64, note: &'static str) -> Row {
    let row = Row::new(label, bound, from, to).note(note);
    Row { fine: to <= SMALL_MM && row.quantity == Quantity::Length, ..row }
}

/// Every number of the shop.
pub(super) fn shop_fields() -> impl Iterator<Item = ShopField> {
    shop_sections().into_iter().flat_map(|section| section.fields)
}

/// The sections of the shop's settings.
#[must_use]
pub fn shop_sections() -> Vec<ShopSection> {
    vec![
        ShopSection {
            title: "Limits and allowances",
            note: "The limits to begin with are common practice, no source. A design may have its own.",
            fields: limits(),
        },
        ShopSection { title: "Lathe", note: "", fields: lathe() },
        ShopSection { title: "Chuck", note: "", fields: chuck() },
        ShopSection {
            title: "Carrier jaws",
            note: "Four flat jaws, to which wooden jaws are screwed.",
            fields: carrier(),
        },
        ShopSection {
            title: "Centres",
            note: "The wood that a centre bears on must reach past its footprint.",
            fields: centres(),
        },
    ]
}

fn limits() -> Vec<ShopField> {
    vec![
        field!(limits.wall_mm, "Thinnest wall", LIMIT, 0.5, 10.0, ""),
        field!(limits.floor_mm, "Thinnest floor", LIMIT, 0.5, 10.0, ""),
        field!(limits.finishing_allowance_mm, "Finishing allowance", LIMIT, 0.0, 3.0, "On the radius."),
        field!(
            limits.scraping_allowance_mm,
            "Scraping allowance",
            LIMIT,
            0.0,
            3.0,
            "Left by the bits for the scraper."
        ),
        field!(limits.join_spare_mm, "Spare over the join", LIMIT, 0.1, 5.0, "On the radius."),
        field!(limits.flat_width_mm, "Widest flat sanded out", LIMIT, 0.0, 5.0, ""),
        field!(limits.bore_depth_mm, "Deepest easy bore", BORE_WARNING, 20.0, 150.0, ""),
        field!(
            limits.out_of_round_mm,
            "Bore out of round",
            LIMIT,
            0.1,
            3.0,
            "What drying may add to one diameter over another."
        ),
        field!(limits.usual_error_mm, "Your usual error", LIMIT, 0.0, 3.0, "In a length you turn or bore."),
        field!(
            limits.strength_factor,
            "Strength of a neck",
            STRENGTH_FACTOR,
            1.0,
            10.0,
            "Times the load in use; the table's strengths are averages of flawless wood."
        ),
    ]
}

fn lathe() -> Vec<ShopField> {
    vec![
        field!(lathe.swing_over_bed_mm, "Swing over the bed", MACHINE, 100.0, 700.0, "Diameter."),
        field!(lathe.swing_over_rest_mm, "Swing over the rest", MACHINE, 100.0, 700.0, "Diameter."),
        field!(lathe.between_centres_mm, "Between centres", MACHINE, 200.0, 1500.0, ""),
        field!(lathe.lowest_rpm, "Lowest speed, rpm", SPEED, 50.0, 1000.0, ""),
        field!(lathe.highest_rpm, "Highest speed, rpm", SPEED, 500.0, 5000.0, ""),
        field!(
            lathe.force_limit_n,
            "Out-of-balance limit, N",
            FORCE,
            5.0,
            300.0,
            "What you accept on one centre: 10 N is about a kilogram."
        ),
        field!(lathe.largest_bit_mm, "Largest bit it drives", MACHINE, 10.0, 100.0, ""),
        field!(lathe.drill_chuck_mm, "Drill chuck", MACHINE, 20.0, 150.0, "How far it reaches out of the tailstock."),
    ]
}

fn chuck() -> Vec<ShopField> {
    vec![
        field!(chuck.jaw_from_mm, "Smallest tenon", MACHINE, 10.0, 150.0, ""),
        field!(chuck.jaw_to_mm, "Largest tenon", MACHINE, 10.0, 150.0, ""),
        field!(chuck.jaw_depth_mm, "Jaw depth", MACHINE, 2.0, 40.0, ""),
        field!(chuck.length_mm, "Length", MACHINE, 20.0, 150.0, "From the spindle's end to the front of the jaws."),
        field!(
            chuck.overhang_times,
            "Overhang while boring",
            OVERHANG,
            1.0,
            10.0,
            "Times the gripped diameter that the work may stand out without support."
        ),
    ]
}

fn carrier() -> Vec<ShopField> {
    vec![
        field!(carrier.diameter_mm, "Diameter, closed", MACHINE, 60.0, 300.0, ""),
        field!(carrier.screw_circle_mm, "Circle of the screws", MACHINE, 40.0, 280.0, "Diameter."),
        field!(carrier.reach_mm, "Reach", MACHINE, 20.0, 150.0, "From the spindle's end to their face."),
        field!(carrier.saw_kerf_mm, "Kerf of your saw", KERF, 0.5, 4.0, ""),
    ]
}

fn centres() -> Vec<ShopField> {
    vec![
        field!(centres.drive_diameter_mm, "Drive centre", FOOTPRINT, 5.0, 50.0, "Diameter of its footprint."),
        field!(centres.live_diameter_mm, "Live centre", FOOTPRINT, 5.0, 50.0, "Diameter of its footprint."),
        field!(centres.margin_mm, "Wood around it", FOOTPRINT, 0.0, 10.0, ""),
        field!(
            centres.overlap_percent,
            "Overlap of marks, percent",
            OVERLAP,
            0.0,
            100.0,
            "Nearer marks let a centre walk back into the old hole."
        ),
    ]
}

impl ShopField {
    /// The shop with this number changed.
    ///
    /// # Errors
    ///
    /// The first problem that the change would bring in.
    pub fn set(&self, shop: &Shop, value: f64) -> Result<Shop, Box<Problem>> {
        accepted(shop, |changed| *(self.slot)(changed) = value)
    }
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

/// The shop after this change.
///
/// # Errors
///
/// The first problem that the change would bring in.
pub fn accepted(shop: &Shop, change: impl FnOnce(&mut Shop)) -> Result<Shop, Box<Problem>> {
    let mut changed = shop.clone();
    change(&mut changed);
    let before = shop.problems();
    match changed.problems().into_iter().find(|problem| !before.contains(problem)) {
        None => Ok(changed),
        Some(problem) => Err(Box::new(problem)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_of_the_shop_stands_where_it_says() {
        let shop = Shop::default();
        let document = serde_json::to_value(&shop).unwrap();
        let fields: Vec<ShopField> = shop_fields().collect();
        assert_eq!(fields.len(), 31);
        for field in fields {
            let pointer = format!("/{}", field.path.replace('.', "/"));
            assert_eq!(document.pointer(&pointer).and_then(serde_json::Value::as_f64), Some((field.get)(&shop)));
            assert!(field.row.bound.holds((field.get)(&shop)) && field.row.from < field.row.to, "{field:?}");
            let changed = field.set(&shop, (field.get)(&shop) + 0.125).unwrap();
            assert_eq!((field.get)(&changed), (field.get)(&shop) + 0.125);
        }
    }

    #[test]
    fn a_setting_that_contradicts_another_is_refused_with_a_sentence() {
        let shop = Shop::default();
        for field in shop_fields().filter(|field| field.path == "lathe.lowest_rpm") {
            let problem = field.set(&shop, 5000.0).unwrap_err();
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
}
