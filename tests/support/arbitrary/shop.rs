//! Arbitrary shops and printers.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use skewline::design::{
    Bit, BitKind, CarrierJaws, Centres, Chuck, Lathe, LengthUnit, Limits, OwnSpecies, Printer, Printers, Rounding, Shop,
};

use super::text::text;

fn carrier() -> impl Strategy<Value = CarrierJaws> {
    (100.0..400.0, 0.2..1.0, 1.0..300.0, 0.1..10.0).prop_map(|(diameter_mm, share, reach_mm, saw_kerf_mm)| {
        CarrierJaws { diameter_mm, screw_circle_mm: diameter_mm * share, reach_mm, saw_kerf_mm }
    })
}

/// An arbitrary shop without problems.
pub fn shop() -> impl Strategy<Value = Shop> {
    (
        select(vec![LengthUnit::Millimetres, LengthUnit::Inches]),
        select(vec![Rounding::Decimal, Rounding::Sixteenths, Rounding::ThirtySeconds, Rounding::SixtyFourths]),
        vec(bit(), 0..6),
        lathe(),
        (1.0..50.0, 50.0..300.0, 1.0..100.0, 1.0..200.0, 0.5..20.0),
        ((0.0..50.0, 0.0..50.0, 0.0..20.0, 0.0..100.0), carrier()),
        (limits(), vec(own_species(), 0..3), prop::collection::btree_set(20_u32..5000, 0..6)),
    )
        .prop_map(
            |(length_unit, rounding, bits, lathe, chuck, (centres, carrier), (limits, own_species, grits))| Shop {
                length_unit,
                rounding,
                bits,
                lathe,
                chuck: Chuck {
                    jaw_from_mm: chuck.0,
                    jaw_to_mm: chuck.1,
                    jaw_depth_mm: chuck.2,
                    length_mm: chuck.3,
                    overhang_times: chuck.4,
                },
                carrier,
                centres: Centres {
                    drive_diameter_mm: centres.0,
                    live_diameter_mm: centres.1,
                    margin_mm: centres.2,
                    overlap_percent: centres.3,
                },
                limits,
                grits: grits.into_iter().collect(),
                own_species: own_species.into_iter().enumerate().map(|(i, wood)| own_name(i, wood)).collect(),
            },
        )
}

/// Arbitrary printers without problems.
pub fn printers() -> impl Strategy<Value = Printers> {
    let printer = (text(), 50.0..150.0, 50.0..150.0);
    (any::<bool>(), text(), vec(printer, 0..4)).prop_map(|(letter, name, known)| Printers {
        letter,
        name,
        known: (0..)
            .zip(known)
            .map(|(number, (name, across_mm, along_mm))| Printer {
                name: format!("{number} {name}"),
                across_mm,
                along_mm,
            })
            .collect(),
    })
}

fn own_species() -> impl Strategy<Value = OwnSpecies> {
    let percent = || option::of(0.0..40.0);
    (text(), 50.0..2000.0, option::of(1.0..500.0), percent(), percent(), text()).prop_map(
        |(name, density_kg_m3, rupture_mpa, shrink_radial_percent, shrink_tangential_percent, note)| OwnSpecies {
            name,
            density_kg_m3,
            rupture_mpa,
            shrink_radial_percent,
            shrink_tangential_percent,
            note,
        },
    )
}

/// Names of their own, lest two be the same.
fn own_name(index: usize, wood: OwnSpecies) -> OwnSpecies {
    OwnSpecies { name: format!("{index} {}", wood.name), ..wood }
}

fn bit() -> impl Strategy<Value = Bit> {
    let kind = select(vec![BitKind::Forstner, BitKind::Sawtooth, BitKind::Spade, BitKind::Twist]);
    (kind, 1.0..150.0, 0.0..100.0, 1.0..500.0).prop_map(|(kind, diameter_mm, point_mm, reach_mm)| Bit {
        kind,
        diameter_mm,
        point_mm,
        reach_mm,
    })
}

fn lathe() -> impl Strategy<Value = Lathe> {
    let drilled = (1.0..100.0, 1.0..200.0);
    (200.0..900.0, 1.0..200.0, 100.0..2000.0, 1.0..500.0, 500.0..5000.0, 0.1..500.0, drilled).prop_map(
        |(bed, rest, length, lowest_rpm, highest_rpm, force_limit_n, (largest_bit_mm, drill_chuck_mm))| Lathe {
            swing_over_bed_mm: bed,
            swing_over_rest_mm: rest,
            between_centres_mm: length,
            lowest_rpm,
            highest_rpm,
            force_limit_n,
            largest_bit_mm,
            drill_chuck_mm,
        },
    )
}

fn limits() -> impl Strategy<Value = Limits> {
    vec(0.0..50.0_f64, 9).prop_map(|values| Limits {
        wall_mm: values[0],
        floor_mm: values[1],
        finishing_allowance_mm: values[2],
        scraping_allowance_mm: values[3],
        join_spare_mm: values[4],
        flat_width_mm: values[5],
        bore_depth_mm: values[6] + 1.0,
        out_of_round_mm: values[8],
        usual_error_mm: values[7],
        strength_factor: 1.0 + values[7] / 10.0,
    })
}
