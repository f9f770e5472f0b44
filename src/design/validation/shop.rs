//! The rules of the shop's settings.

use super::bounds::{self, Bound, MM};
use super::report::Report;
use crate::design::shop::{CarrierJaws, Centres, Chuck, Lathe, Limits, OwnSpecies, Shop};
use crate::design::text::same_name;

/// Judges every setting.
pub(super) fn all(report: &mut Report, shop: &Shop) {
    report.count("bits", "bits", shop.bits.len(), bounds::BITS);
    for (index, bit) in shop.bits.iter().enumerate() {
        let called = format!("of bit {}", index + 1);
        let values = [
            ("diameter_mm", "The diameter", bit.diameter_mm, bounds::BIT_DIAMETER),
            ("point_mm", "The point", bit.point_mm, bounds::BIT_POINT),
            ("reach_mm", "The reach", bit.reach_mm, bounds::MACHINE),
        ];
        for (field, what, value, bound) in values {
            report.number(&format!("bits[{index}].{field}"), &format!("{what} {called}"), value, bound);
        }
    }
    lathe(report, &shop.lathe);
    chuck(report, &shop.chuck);
    carrier(report, &shop.carrier);
    centres(report, &shop.centres);
    limits(report, &shop.limits);
    grits(report, &shop.grits);
    report.count("own_species", "woods of your own", shop.own_species.len(), bounds::OWN_SPECIES);
    for (index, wood) in shop.own_species.iter().enumerate() {
        own_species(report, index, wood);
        let same = |other: &OwnSpecies| same_name(&other.name, &wood.name);
        if shop.own_species.iter().take(index).any(same) {
            let sentence = format!("Two woods of your own are called \u{201c}{}\u{201d}.", wood.name.trim());
            let cure = "Give one of them another name.".to_owned();
            report.problem(&format!("own_species[{index}].name"), None, sentence, cure);
        }
    }
}

/// Grits rise from coarse to fine.
fn grits(report: &mut Report, grits: &[u32]) {
    report.count("grits", "grits", grits.len(), bounds::GRITS);
    for (index, grit) in grits.iter().enumerate() {
        let field = format!("grits[{index}]");
        report.number(&field, &format!("Grit {}", index + 1), f64::from(*grit), bounds::GRIT);
        if let Some(before) = index.checked_sub(1).and_then(|it| grits.get(it)).filter(|before| *before >= grit) {
            let sentence = format!("Grit {grit} comes after grit {before}, and is no finer.");
            report.problem(&field, None, sentence, "List the grits from coarse to fine.".to_owned());
        }
    }
}

fn own_species(report: &mut Report, index: usize, wood: &OwnSpecies) {
    let path = |field: &str| format!("own_species[{index}].{field}");
    let called = format!("of your own wood {}", index + 1);
    report.text(&path("name"), &format!("The name {called}"), &wood.name, bounds::NAME_LETTERS);
    report.text(&path("note"), &format!("The note {called}"), &wood.note, bounds::NOTES_LETTERS);
    if wood.name.trim().is_empty() {
        let sentence = format!("Your own wood {} has no name.", index + 1);
        report.problem(&path("name"), None, sentence, "Give it a name.".to_owned());
    }
    let values = [
        ("density_kg_m3", "The density", Some(wood.density_kg_m3), bounds::DENSITY),
        ("rupture_mpa", "The modulus of rupture", wood.rupture_mpa, bounds::RUPTURE),
        ("shrink_radial_percent", "The radial shrinkage", wood.shrink_radial_percent, bounds::SHRINKAGE),
        ("shrink_tangential_percent", "The tangential shrinkage", wood.shrink_tangential_percent, bounds::SHRINKAGE),
    ];
    for (field, what, value, bound) in values {
        if let Some(value) = value {
            report.number(&path(field), &format!("{what} {called}"), value, bound);
        }
    }
}

/// Judges the numbers of one group; whether all are sound.
fn group<const N: usize>(report: &mut Report, path: &str, values: [(&str, &str, f64, Bound); N]) -> bool {
    let mut sound = true;
    for (field, what, value, bound) in values {
        sound &= report.number(&format!("{path}.{field}"), what, value, bound);
    }
    sound
}

fn lathe(report: &mut Report, lathe: &Lathe) {
    let over_bed = "The swing over the bed";
    let over_rest = "The swing over the rest";
    let sound = group(
        report,
        "lathe",
        [
            ("swing_over_bed_mm", over_bed, lathe.swing_over_bed_mm, bounds::MACHINE),
            ("swing_over_rest_mm", over_rest, lathe.swing_over_rest_mm, bounds::MACHINE),
            ("between_centres_mm", "The length between centres", lathe.between_centres_mm, bounds::MACHINE),
            ("lowest_rpm", "The lowest speed", lathe.lowest_rpm, bounds::SPEED),
            ("highest_rpm", "The highest speed", lathe.highest_rpm, bounds::SPEED),
            ("force_limit_n", "The limit on out-of-balance force", lathe.force_limit_n, bounds::FORCE),
            ("largest_bit_mm", "The largest bit", lathe.largest_bit_mm, bounds::MACHINE),
            ("drill_chuck_mm", "The length of the drill chuck", lathe.drill_chuck_mm, bounds::MACHINE),
        ],
    );
    if sound {
        let (rest, bed) = (lathe.swing_over_rest_mm, lathe.swing_over_bed_mm);
        report.in_order("lathe.swing_over_rest_mm", (over_rest, rest), ("the swing over the bed", bed), MM);
        let (low, high) = (lathe.lowest_rpm, lathe.highest_rpm);
        report.in_order("lathe.lowest_rpm", ("The lowest speed", low), ("the highest", high), " rpm");
    }
}

fn chuck(report: &mut Report, chuck: &Chuck) {
    let sound = group(
        report,
        "chuck",
        [
            ("jaw_from_mm", "The smallest tenon of the chuck", chuck.jaw_from_mm, bounds::MACHINE),
            ("jaw_to_mm", "The largest tenon of the chuck", chuck.jaw_to_mm, bounds::MACHINE),
            ("jaw_depth_mm", "The depth of the jaws", chuck.jaw_depth_mm, bounds::MACHINE),
            ("length_mm", "The length of the chuck", chuck.length_mm, bounds::MACHINE),
            ("overhang_times", "The overhang while boring", chuck.overhang_times, bounds::OVERHANG),
        ],
    );
    if sound {
        let (small, large) = (chuck.jaw_from_mm, chuck.jaw_to_mm);
        report.in_order("chuck.jaw_from_mm", ("The smallest tenon of the chuck", small), ("the largest", large), MM);
    }
}

fn carrier(report: &mut Report, carrier: &CarrierJaws) {
    let sound = group(
        report,
        "carrier",
        [
            ("diameter_mm", "The diameter of the carrier jaws", carrier.diameter_mm, bounds::MACHINE),
            ("screw_circle_mm", "The circle of their screws", carrier.screw_circle_mm, bounds::MACHINE),
            ("reach_mm", "The reach of the carrier jaws", carrier.reach_mm, bounds::MACHINE),
            ("saw_kerf_mm", "The kerf of the saw", carrier.saw_kerf_mm, bounds::KERF),
        ],
    );
    if sound {
        let (circle, over_all) = (carrier.screw_circle_mm, carrier.diameter_mm);
        let across = ("the diameter of the jaws", over_all);
        report.in_order("carrier.screw_circle_mm", ("The circle of their screws", circle), across, MM);
    }
}

fn centres(report: &mut Report, centres: &Centres) {
    group(
        report,
        "centres",
        [
            ("drive_diameter_mm", "The drive centre's footprint", centres.drive_diameter_mm, bounds::FOOTPRINT),
            ("live_diameter_mm", "The live centre's footprint", centres.live_diameter_mm, bounds::FOOTPRINT),
            ("margin_mm", "The margin around a footprint", centres.margin_mm, bounds::LIMIT),
            ("overlap_percent", "The overlap of marks", centres.overlap_percent, bounds::OVERLAP),
        ],
    );
}

fn limits(report: &mut Report, limits: &Limits) {
    group(
        report,
        "limits",
        [
            ("wall_mm", "The wall limit", limits.wall_mm, bounds::LIMIT),
            ("floor_mm", "The floor limit", limits.floor_mm, bounds::LIMIT),
            ("finishing_allowance_mm", "The finishing allowance", limits.finishing_allowance_mm, bounds::LIMIT),
            ("scraping_allowance_mm", "The scraping allowance", limits.scraping_allowance_mm, bounds::LIMIT),
            ("join_spare_mm", "The spare of the join", limits.join_spare_mm, bounds::LIMIT),
            ("flat_width_mm", "The widest flat", limits.flat_width_mm, bounds::LIMIT),
            ("bore_depth_mm", "The deepest bore", limits.bore_depth_mm, bounds::BORE_WARNING),
            ("out_of_round_mm", "The bore out of round", limits.out_of_round_mm, bounds::LIMIT),
            ("usual_error_mm", "The usual error", limits.usual_error_mm, bounds::LIMIT),
            ("strength_factor", "The strength of a neck", limits.strength_factor, bounds::STRENGTH_FACTOR),
        ],
    );
}
