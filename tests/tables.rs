//! Contents and measures against the tables they were taken from, and volumes as they are said.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod support;

use skewline::design::LengthUnit;
use skewline::figures::tables::{
    BalanceGrade, Content, Kitchen, Species, balance, boring_speed, lathe_speed,
    measures::{self, say_in_shop, say_ml, say_volume},
};
use support::table::Table;

#[test]
fn every_content_is_as_in_its_table() {
    let table = Table::read(include_str!("reference/bulk_density.csv"));
    assert_eq!(Content::all().count(), table.rows.len());
    for row in &table.rows {
        let get = |head| table.get(row, head);
        let number = |head| get(head).parse::<f64>().unwrap();
        let name = get("material");
        let content = Content::named(name).unwrap_or_else(|| panic!("{name} is missing"));
        let densities = (content.least_kg_m3, content.most_kg_m3, content.typical_kg_m3);
        let expected = (number("density_min_kg_m3"), number("density_max_kg_m3"), number("density_typical_kg_m3"));
        assert_eq!(densities, expected, "{name}");
        assert_eq!((content.form, content.source), (get("form"), get("source")), "{name}");
        assert_eq!((content.basis.word(), content.notes), (get("basis"), get("notes")), "{name}");
        assert_eq!(content.liquid, get("notes").starts_with("liquid"), "{name}");
        assert_eq!(content.repose.is_some(), !get("repose_typical_deg").is_empty(), "{name}");
        if let Some(repose) = content.repose {
            let angles = (repose.least_deg, repose.most_deg, repose.typical_deg);
            let expected = (number("repose_min_deg"), number("repose_max_deg"), number("repose_typical_deg"));
            assert_eq!(angles, expected, "{name}");
            assert_eq!((repose.source, repose.basis.word()), (get("repose_source"), get("repose_basis")), "{name}");
        }
    }
}

#[test]
fn every_measure_is_as_in_its_table() {
    let table = Table::read(include_str!("reference/volumes.csv"));
    for measure in measures::ALL {
        let row = table
            .rows
            .iter()
            .find(|row| table.get(row, "unit") == measure.name && table.get(row, "system") == measure.system)
            .unwrap_or_else(|| panic!("{} ({}) is missing", measure.name, measure.system));
        assert_eq!(table.get(row, "volume_ml").parse::<f64>().unwrap(), measure.volume_ml, "{}", measure.name);
        assert_eq!(table.get(row, "source"), measure.source);
        assert_eq!(table.get(row, "basis"), measure.basis.word());
    }
}

/// A gallon is 231 cubic inches (NIST Handbook 44 Appendix C), an inch 25.4 mm.
#[test]
fn us_measures_follow_from_the_gallon() {
    let gallon_ml = 231.0 * 25.4_f64.powi(3) / 1000.0;
    for (measure, parts) in [
        (measures::US_CUP, 16.0),
        (measures::US_FLUID_OUNCE, 128.0),
        (measures::US_TABLESPOON, 256.0),
        (measures::US_TEASPOON, 768.0),
    ] {
        assert!((measure.volume_ml * parts - gallon_ml).abs() < 1e-9, "{}", measure.name);
    }
}

/// 1 fl oz is 29.5735295625 mL (NIST Handbook 44, Appendix C).
#[test]
fn volumes_are_said_in_the_unit_of_the_shop() {
    assert_eq!(say_in_shop(38_000.0, Kitchen::of(LengthUnit::Inches)), "1.3 fl oz \u{b7} 2 1/2 tbsp");
    assert_eq!(say_in_shop(473_176.473, Kitchen::Us), "16 fl oz \u{b7} 2 cups");
    assert_eq!(say_in_shop(1.0, Kitchen::Us), "0.0 fl oz");
    assert_eq!(say_in_shop(f64::NAN, Kitchen::Us), "\u{2013}");
    assert_eq!(say_in_shop(40_000.0, Kitchen::of(LengthUnit::Millimetres)), "40 mL \u{b7} 2 1/2 tbsp");
}

#[test]
fn volumes_are_said_as_a_cook_says_them() {
    let us = |ml: f64| say_volume(ml * 1000.0, Kitchen::Us);
    assert_eq!(us(38.0), "38 mL \u{b7} 2 1/2 tbsp");
    assert_eq!(us(0.0), "0.0 mL");
    assert_eq!(us(1.3), "1.3 mL \u{b7} 1/4 tsp");
    assert_eq!(us(4.93), "4.9 mL \u{b7} 1 tsp");
    assert_eq!(us(13.4), "13 mL \u{b7} 1 tbsp");
    assert_eq!(us(59.1), "59 mL \u{b7} 1/4 cup");
    assert_eq!(us(78.9), "79 mL \u{b7} 1/3 cup");
    assert_eq!(us(236.6), "237 mL \u{b7} 1 cup");
    assert_eq!(us(355.0), "355 mL \u{b7} 1 1/2 cups");
    assert_eq!(us(1183.0), "1.18 L \u{b7} 5 cups");
    assert_eq!(say_volume(40_000.0, Kitchen::Australian), "40 mL \u{b7} 2 tbsp");
    assert_eq!(say_volume(40_000.0, Kitchen::Metric), "40 mL \u{b7} 2 1/2 tbsp");
    assert_eq!(say_ml(f64::NAN), "\u{2013}");
    assert_eq!(say_volume(f64::INFINITY, Kitchen::Us), "\u{2013}");
}

#[test]
fn a_content_is_weighed_at_its_typical_density() {
    let coffee = Content::named("coffee, ground").unwrap();
    assert_eq!(coffee.say_grams(38_000.0), "12 g");
    assert_eq!(coffee.say_grams(8_000.0), "2.5 g");
    assert_eq!(Content::named("water").unwrap().say_grams(1.0e6), "998 g");
    assert_eq!(Content::named("maple syrup").unwrap().say_grams(1.0e6), "1.32 kg");
    assert_eq!(coffee.say_grams(f64::NAN), "\u{2013}");
    assert_eq!((coffee.repose_deg(), coffee.repose_is_assumed()), (40.0, false));
    let water = Content::named("water").unwrap();
    assert_eq!((water.repose_deg(), water.repose_is_assumed()), (0.0, false));
    assert!(Content::named("millet").unwrap().repose_is_assumed());
}

#[test]
fn every_wood_is_as_in_its_table() {
    let table = Table::read(include_str!("reference/species.csv"));
    assert_eq!(Species::all().count(), table.rows.len());
    for row in &table.rows {
        let get = |head| table.get(row, head);
        let number = |head| get(head).parse::<f64>().ok();
        let name = get("common_name");
        let wood = Species::named(name).unwrap_or_else(|| panic!("{name} is missing"));
        let columns = [
            ("specific_gravity_12pct", wood.gravity_12),
            ("specific_gravity_green", wood.gravity_green),
            ("density_12pct_kg_m3", wood.density_12_kg_m3),
            ("mor_12pct_mpa", wood.rupture_mpa),
            ("moe_12pct_gpa", wood.elasticity_gpa),
            ("compression_parallel_mpa", wood.compression_mpa),
            ("shear_parallel_mpa", wood.shear_mpa),
            ("tension_perp_mpa", wood.tension_across_mpa),
            ("side_hardness_n", wood.hardness_n),
            ("shrink_radial_pct", wood.shrink_radial_percent),
            ("shrink_tangential_pct", wood.shrink_tangential_percent),
            ("shrink_volumetric_pct", wood.shrink_volume_percent),
        ];
        for (head, value) in columns {
            assert_eq!(value, number(head), "{name}: {head}");
        }
        let words = [("latin_name", wood.latin), ("porosity", wood.porosity), ("source", wood.source)];
        let more = [("notes", wood.notes), ("memory_columns", wood.from_memory), ("basis", wood.basis.word())];
        for (head, value) in words.into_iter().chain(more) {
            assert_eq!(value, get(head), "{name}: {head}");
        }
        assert_eq!(wood.softwood, get("hard_soft") == "softwood", "{name}");
        assert_eq!(wood.density_source, get("density_basis"), "{name}");
    }
}

#[test]
fn every_balance_grade_is_as_in_its_table() {
    let table = Table::read(include_str!("reference/balance.csv"));
    let rows: Vec<_> = table.rows.iter().filter(|row| table.get(row, "kind") == "grade").collect();
    assert_eq!(rows.len(), balance::GRADES.len());
    for (row, grade) in rows.into_iter().zip(balance::GRADES) {
        assert_eq!(table.get(row, "item"), grade.name);
        assert_eq!(table.get(row, "g_mm_per_s").parse::<f64>().unwrap(), grade.mm_per_s);
        assert_eq!(table.get(row, "machinery_examples"), grade.machines);
        assert_eq!((table.get(row, "source"), table.get(row, "basis")), (balance::SOURCE, balance::BASIS.word()));
    }
    let name = |mm_per_s| BalanceGrade::of(mm_per_s).map(|grade| grade.name);
    assert_eq!((name(16.0), name(16.1), name(0.0)), (Some("G 16"), Some("G 40"), Some("G 0.4")));
    assert_eq!((name(4000.1), name(f64::NAN)), (None, None));
}

#[test]
fn every_custom_of_speed_is_as_in_its_table() {
    let table = Table::read(include_str!("reference/lathe_speed.csv"));
    let rule = table.rows.iter().find(|row| table.get(row, "value") == "6000-9000").unwrap();
    for (custom, inch_rpm) in [(lathe_speed::ROUGHING, 6000.0), (lathe_speed::FINISHING, 9000.0)] {
        assert_eq!(custom.inch_rpm, inch_rpm);
        assert_eq!(custom.authority, table.get(rule, "authority"));
        assert_eq!((custom.source, custom.basis.word()), (table.get(rule, "source"), table.get(rule, "basis")));
        // Rim speed: pi D n.
        let key = format!("D x rpm = {inch_rpm}");
        let rim = table.rows.iter().find(|row| table.get(row, "operation") == key).unwrap();
        let m_per_s = std::f64::consts::PI * 0.1 * custom.rpm(100.0) / 60.0;
        assert!((m_per_s - table.get(rim, "value").parse::<f64>().unwrap()).abs() < 1e-4);
    }
    let rows: Vec<_> = table.rows.iter().filter(|row| table.get(row, "authority") == "user guide").collect();
    assert_eq!(rows.len(), 3 * lathe_speed::GUIDE.len());
    for row in rows {
        let number = |head| table.get(row, head).parse::<f64>().ok();
        let from = number("diameter_min_in").unwrap();
        let guide = lathe_speed::GUIDE.iter().find(|guide| guide.from_in == from).unwrap();
        assert_eq!(guide.to_in, number("diameter_max_in").unwrap_or(f64::INFINITY));
        let rpm = match table.get(row, "operation") {
            "rounding" => guide.rounding_rpm,
            "shaping" => guide.shaping_rpm,
            _ => guide.sanding_rpm,
        };
        assert_eq!(number("value"), Some(rpm));
        let sources = (lathe_speed::GUIDE_SOURCE, lathe_speed::GUIDE_BASIS.word());
        assert_eq!((table.get(row, "source"), table.get(row, "basis")), sources);
    }
    assert_eq!(lathe_speed::GuideRow::of(90.5).unwrap().rounding_rpm, 850.0);
}

#[test]
fn every_boring_speed_is_as_in_its_table() {
    let table = Table::read(include_str!("reference/boring_speeds.csv"));
    let tables = [
        ("Forstner", boring_speed::FORSTNER),
        ("Forstner or sawtooth", boring_speed::LARGE),
        ("twist drill", boring_speed::TWIST),
    ];
    let number = |row: &[String], head| table.get(row, head).parse::<f64>().ok();
    let mut seen = 0;
    for (kind, here) in tables {
        let rows = |wood: &str| {
            let of = |row: &&Vec<String>| table.get(row, "bit_type") == kind && table.get(row, "wood") == wood;
            table.rows.iter().filter(of).filter(|row| number(row, "rpm_max").is_some()).cloned().collect::<Vec<_>>()
        };
        for (wood, rpm) in [
            ("softwood", (|row| row.softwood_rpm) as fn(&boring_speed::BoringRow) -> f64),
            ("hardwood", |row| row.hardwood_rpm),
        ] {
            let rows = rows(wood);
            assert_eq!(rows.len(), here.rows.len(), "{kind}");
            for (row, known) in rows.iter().zip(here.rows) {
                assert_eq!(number(row, "diameter_min_in"), Some(known.from_in));
                assert_eq!(number(row, "diameter_max_in"), Some(known.to_in));
                assert_eq!(number(row, "rpm_max"), Some(rpm(known)));
                assert_eq!((table.get(row, "source"), table.get(row, "basis")), (here.source, here.basis.word()));
                seen += 1;
            }
        }
    }
    assert_eq!(seen, table.rows.iter().filter(|row| number(row, "rpm_max").is_some()).count());
}

/// Between bands the slower one holds, past the last the rim runs no faster (pi D n), and no bit outruns its row.
#[test]
fn a_bit_between_two_bands_takes_the_slower() {
    use skewline::design::BitKind::{Forstner, Sawtooth, Spade, Twist};
    use skewline::figures::tables::boring_speed::most_rpm;
    assert_eq!(most_rpm(Forstner, 41.3, false), 250.0);
    assert_eq!(most_rpm(Forstner, 41.3, true), 500.0);
    assert_eq!((most_rpm(Forstner, 26.0, true), most_rpm(Forstner, 26.0, false)), (1000.0, 250.0));
    assert_eq!((most_rpm(Spade, 20.0, true), most_rpm(Sawtooth, 20.0, true)), (1500.0, 1500.0));
    assert_eq!(most_rpm(Twist, 10.0, false), 750.0);
    assert_eq!(most_rpm(Forstner, 3.0, true), 2400.0);
    for (kind, last_mm, rpm) in [(Forstner, 101.6, 500.0), (Twist, 15.875, 1500.0)] {
        let rim = last_mm * rpm;
        assert!((most_rpm(kind, 2.0 * last_mm, true) * 2.0 * last_mm - rim).abs() < 1e-6);
    }
    for kind in [Forstner, Sawtooth, Spade, Twist] {
        for softwood in [true, false] {
            let at = |tenth: u32| most_rpm(kind, f64::from(tenth) / 10.0, softwood);
            assert!((10..1500).all(|tenth| at(tenth + 1) <= at(tenth)), "{kind:?}");
        }
    }
}
