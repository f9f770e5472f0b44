//! Softwoods of the Wood Handbook's Table 5-3b.

use super::row::{COPIED, HANDBOOK, Species};
use crate::figures::tables::Basis;

#[rustfmt::skip]
pub(super) const SOFTWOODS: &[Species] = &[
    Species {
        name: "Alaska yellow-cedar", latin: "Callitropsis nootkatensis", softwood: true, porosity: "none",
        gravity_12: Some(0.44), gravity_green: Some(0.42), density_12_kg_m3: Some(493.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(76.5), elasticity_gpa: Some(9.79), compression_mpa: Some(43.5), shear_mpa: Some(7.8), tension_across_mpa: Some(2.5), hardness_n: Some(2580.0),
        shrink_radial_percent: Some(2.8), shrink_tangential_percent: Some(6.0), shrink_volume_percent: Some(9.2),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Distinct odour; can irritate skin and airways.",
    },
    Species {
        name: "Port-Orford-cedar", latin: "Chamaecyparis lawsoniana", softwood: true, porosity: "none",
        gravity_12: Some(0.43), gravity_green: Some(0.39), density_12_kg_m3: Some(482.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(87.6), elasticity_gpa: Some(11.72), compression_mpa: Some(43.1), shear_mpa: Some(9.4), tension_across_mpa: Some(2.8), hardness_n: Some(2800.0),
        shrink_radial_percent: Some(4.6), shrink_tangential_percent: Some(6.9), shrink_volume_percent: Some(10.1),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Strong gingery odour.",
    },
    Species {
        name: "Incense-cedar", latin: "Calocedrus decurrens", softwood: true, porosity: "none",
        gravity_12: Some(0.37), gravity_green: Some(0.35), density_12_kg_m3: Some(414.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(55.2), elasticity_gpa: Some(7.17), compression_mpa: Some(35.9), shear_mpa: Some(6.1), tension_across_mpa: Some(1.9), hardness_n: Some(2090.0),
        shrink_radial_percent: Some(3.3), shrink_tangential_percent: Some(5.2), shrink_volume_percent: Some(7.7),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Strong odour; very soft.",
    },
    Species {
        name: "Western redcedar", latin: "Thuja plicata", softwood: true, porosity: "none",
        gravity_12: Some(0.32), gravity_green: Some(0.31), density_12_kg_m3: Some(358.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(51.7), elasticity_gpa: Some(7.65), compression_mpa: Some(31.4), shear_mpa: Some(6.8), tension_across_mpa: Some(1.5), hardness_n: Some(1560.0),
        shrink_radial_percent: Some(2.4), shrink_tangential_percent: Some(5.0), shrink_volume_percent: Some(6.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Known respiratory sensitiser (occupational asthma); ACGIH TLV 0.5 mg/m3. Strong odour.",
    },
    Species {
        name: "Eastern redcedar", latin: "Juniperus virginiana", softwood: true, porosity: "none",
        gravity_12: Some(0.47), gravity_green: Some(0.44), density_12_kg_m3: Some(526.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(60.7), elasticity_gpa: Some(6.07), compression_mpa: Some(41.5), shear_mpa: None, tension_across_mpa: None, hardness_n: Some(4000.0),
        shrink_radial_percent: Some(3.1), shrink_tangential_percent: Some(4.7), shrink_volume_percent: Some(7.8),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Strong odour and taste. Side hardness taken from the metric printing (Table 5-3a: 4000 N); the inch-pound printing shows a dash. No shear or tension-perpendicular figure printed.",
    },
    Species {
        name: "Douglas-fir (coast)", latin: "Pseudotsuga menziesii", softwood: true, porosity: "none",
        gravity_12: Some(0.48), gravity_green: Some(0.45), density_12_kg_m3: Some(538.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(85.5), elasticity_gpa: Some(13.44), compression_mpa: Some(49.8), shear_mpa: Some(7.8), tension_across_mpa: Some(2.3), hardness_n: Some(3160.0),
        shrink_radial_percent: Some(4.8), shrink_tangential_percent: Some(7.6), shrink_volume_percent: Some(12.4),
        source: HANDBOOK,
        basis: Basis::Found, from_memory: "",
        notes: "Resinous; hard latewood and soft earlywood bands. Splinters commonly said to fester.",
    },
    Species {
        name: "Eastern white pine", latin: "Pinus strobus", softwood: true, porosity: "none",
        gravity_12: Some(0.35), gravity_green: Some(0.34), density_12_kg_m3: Some(392.0), density_source: "1120 x specific_gravity_12pct",
        rupture_mpa: Some(59.3), elasticity_gpa: Some(8.55), compression_mpa: Some(33.1), shear_mpa: Some(6.2), tension_across_mpa: Some(2.1), hardness_n: Some(1690.0),
        shrink_radial_percent: Some(2.1), shrink_tangential_percent: Some(6.1), shrink_volume_percent: Some(8.2),
        source: COPIED,
        basis: Basis::Found, from_memory: "",
        notes: "Soft; resin odour.",
    },
];
