//! Moisture and shrinkage against the Wood Handbook's tables and worked examples; woods of one's own.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod support;

use skewline::design::{InUse, OwnSpecies, Shop};
use skewline::figures::tables::Species;
use skewline::figures::wood::moisture::{equilibrium_percent, growth};
use skewline::figures::wood::{Timber, coefficients, own_copy, wood_names};
use skewline::figures::work_out;
use skewline::form::own_woods::add_wood;
use support::pieces::scoop;
use support::solids::assert_within;
use support::table::Table;

fn moisture_table() -> Table {
    Table::read(include_str!("reference/moisture.csv"))
}

/// Wood Handbook Table 4-2, to the tenth of a percent that is printed there; and the formula to the digits of its own
/// value in tests/reference/moisture.csv.
#[test]
fn equilibrium_moisture_is_that_of_the_handbook() {
    let table = moisture_table();
    let number = |row: &[String], head| table.get(row, head).parse::<f64>().unwrap();
    let checks: Vec<_> = table.rows.iter().filter(|row| table.get(row, "kind") == "check").collect();
    assert_eq!(checks.len(), 16);
    for row in checks {
        let found = equilibrium_percent(number(row, "temperature_c"), number(row, "relative_humidity_pct"));
        assert!((found - number(row, "formula_value")).abs() < 6e-5, "{row:?}: {found}");
        if table.get(row, "item") == "EMC" {
            let printed = number(row, "value");
            assert_eq!((found * 10.0).round() / 10.0, printed, "{row:?}: {found}");
        }
    }
    assert_eq!(equilibrium_percent(20.0, 0.0), 0.0);
    assert!(equilibrium_percent(20.0, 1.0e9).is_finite());
}

/// Wood Handbook Table 13-5. The oaks of the table of species are its commercial groups.
#[test]
fn every_coefficient_is_as_in_its_table() {
    let table = moisture_table();
    let mut seen = 0;
    for row in table.rows.iter().filter(|row| table.get(row, "kind") == "coefficient") {
        let name = match table.get(row, "symbol_or_species") {
            "Sugar maple" => "Sugar (hard) maple",
            "Red oak (commercial)" => "Northern red oak",
            "White oak (commercial)" => "White oak",
            name => name,
        };
        assert!(Species::named(name).is_some(), "{name}");
        let place = usize::from(table.get(row, "item") == "CT");
        assert_within(coefficients(name).unwrap()[place], table.get(row, "value").parse().unwrap(), 1e-12);
        seen += 1;
    }
    assert_eq!(seen, 48);
}

/// The worked examples of tests/reference/moisture.csv, to the digits there.
#[test]
fn dimensions_change_as_in_the_worked_examples() {
    let table = moisture_table();
    let (cherry, maple) = (coefficients("Black cherry").unwrap(), coefficients("Sugar (hard) maple").unwrap());
    let change = [
        75.0 * growth(Some(cherry[1]), 7.1, 12.0, 7.0),
        75.0 * growth(Some(cherry[0]), 3.7, 12.0, 7.0),
        50.0 * growth(Some(maple[1]), 9.9, 6.0, 10.0),
        75.0 * growth(None, 7.1, 12.0, 7.0),
    ];
    let examples: Vec<_> = table.rows.iter().filter(|row| table.get(row, "kind") == "worked example").collect();
    assert_eq!(examples.len(), change.len());
    for (row, found) in examples.into_iter().zip(change) {
        let expected: f64 = table.get(row, "value").parse().unwrap();
        assert!((found - expected).abs() < 5.1e-5, "{row:?}: {found}");
    }
    // Green to ovendry is all of it; above fibre saturation nothing moves. Wood Handbook chapter 4.
    assert_within(growth(None, 7.1, 80.0, 0.0), -0.071, 1e-9);
    assert_eq!(growth(Some(0.002), 7.1, 80.0, 30.0), 0.0);
    assert_eq!(growth(None, 0.0, 80.0, 0.0), 0.0);
}

/// Outside 6 to 14 percent the coefficient does not count: same chapter.
#[test]
fn coefficients_count_only_where_they_hold() {
    assert_eq!(growth(Some(0.00248), 7.1, 15.0, 7.0), growth(None, 7.1, 15.0, 7.0));
    assert_eq!(growth(Some(0.00248), 7.1, 14.0, 6.0), -8.0 * 0.00248);
}

/// A bore of 41 mm in black cherry, from 12 to 7 percent: 41 x 0.00126 x 5 across the rings, 41 x 0.00248 x 5 along them,
/// and by the difference it is oval. What it holds shrinks by both.
#[test]
fn a_bore_goes_oval_as_it_dries() {
    let mut design = scoop();
    design.wood.moisture_percent = 12.0;
    design.wood.in_use = InUse::Moisture { moisture_percent: 7.0 };
    let figures = work_out(&design, &Shop::default()).unwrap().figures;
    let wood = &figures.wood;
    let drying = wood.drying.value().unwrap();
    let bore = drying.hollows[0];
    assert_within(bore.least_growth_mm, -41.0 * 0.00126 * 5.0, 1e-6);
    assert_within(bore.most_growth_mm, -41.0 * 0.00248 * 5.0, 1e-6);
    assert_within(bore.oval_mm, 41.0 * 0.00122 * 5.0, 1e-6);
    assert_within(drying.blank_tangential_mm, -64.0 * 0.00248 * 5.0, 1e-9);
    assert_within(1.0 + drying.capacity_share, (1.0 - 0.0063) * (1.0 - 0.0124), 1e-9);
    assert_within(drying.capacity_ml.unwrap(), figures.summary.holds_ml.unwrap() * drying.capacity_share, 1e-9);
    // The dry wood stays: 107 of 112 parts.
    let weight = figures.blank.weight.value().unwrap();
    assert_within(wood.finished_in_use_g.unwrap(), weight.finished_g * 107.0 / 112.0, 1e-9);
    assert!(wood.cautions.iter().all(|caution| caution.ends_with("Check for your own case.")));
    assert_eq!((wood.basis, wood.source.is_empty()), (Some("found"), false));
}

#[test]
fn a_wood_of_ones_own_stands_before_the_tables() {
    let mut design = scoop();
    design.wood.species = "plum".to_owned();
    let unknown = work_out(&design, &Shop::default()).unwrap().figures;
    assert!(unknown.wood.drying.why_not().is_some() && unknown.blank.weight.why_not().is_some());
    let own = OwnSpecies {
        name: "Plum".to_owned(),
        density_kg_m3: 750.0,
        rupture_mpa: Some(90.0),
        shrink_radial_percent: Some(5.0),
        shrink_tangential_percent: Some(9.0),
        note: "From the garden.".to_owned(),
    };
    let shop =
        Shop { own_species: vec![own.clone(), OwnSpecies { name: "teak".to_owned(), ..own }], ..Shop::default() };
    let figures = work_out(&design, &shop).unwrap().figures;
    assert_within(figures.blank.weight.value().unwrap().density_kg_m3, 750.0 * 108.0 / 112.0, 1e-12);
    assert_eq!(figures.strength.rupture_mpa, Some(90.0));
    assert!(figures.wood.drying.value().is_some());
    assert_eq!((figures.wood.basis, figures.wood.note.as_str()), (None, "From the garden."));
    assert_eq!(Timber::named("Teak", &shop).unwrap().density_12_kg_m3, Some(750.0));
    assert_eq!(Timber::named("teak", &Shop::default()).unwrap().density_12_kg_m3, Some(655.0));
}

/// Woods with open pores, a strong taste or an irritant dust say so.
#[test]
fn woods_are_cautioned_about() {
    let said = |species: &str| {
        let mut design = scoop();
        design.wood.species = species.to_owned();
        work_out(&design, &Shop::default()).unwrap().figures.wood.cautions.join(" ")
    };
    assert!(said("White ash").contains("open pores") && said("White ash").contains("irritate"));
    assert!(said("Sassafras").contains("taint"));
    assert!(!said("Pear").contains("open pores") && !said("Pear").contains("irritate"));
}

/// A copy of a table's wood gives the figures of the table, but is the turner's own from then on.
#[test]
fn a_wood_of_ones_own_begins_as_one_of_the_table() {
    for species in Species::all() {
        let copy = own_copy(species.name, &Shop::default());
        assert_eq!(copy.is_some(), species.density_12_kg_m3.is_some(), "{}", species.name);
        let Some(copy) = copy else { continue };
        assert!(copy.note.contains(species.name) && copy.note.contains(species.source));
        let shop = add_wood(&Shop::default(), &format!("My {}", species.name), copy).unwrap();
        let (own, table) =
            (Timber::named(&shop.own_species[0].name, &shop).unwrap(), Timber::named(species.name, &shop).unwrap());
        assert_eq!(own.density_12_kg_m3, table.density_12_kg_m3);
        assert_eq!((own.rupture_mpa, own.shrink_percent), (table.rupture_mpa, table.shrink_percent));
        assert_eq!((own.source, own.basis), ("your own figures", None));
        assert_eq!(own_copy(&own.name.to_uppercase(), &shop).as_ref(), shop.own_species.first());
    }
    assert_eq!(own_copy("Cheese", &Shop::default()), None);
}

#[test]
fn a_wood_of_ones_own_is_chosen_once_under_its_name() {
    let plain = wood_names(&Shop::default());
    assert_eq!(plain.len(), Species::all().count());
    let copy = own_copy("Teak", &Shop::default()).unwrap();
    let shop = add_wood(&Shop::default(), "teak", copy.clone()).unwrap();
    let shop = add_wood(&shop, "Garden plum", copy).unwrap();
    let names = wood_names(&shop);
    assert_eq!(names.len(), plain.len() + 1);
    assert_eq!(names.last().map(String::as_str), Some("Garden plum"));
    assert!(names.iter().any(|name| name == "teak") && !names.iter().any(|name| name == "Teak"));
}
