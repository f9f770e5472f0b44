//! Any sound design can be worked out, and every number that comes of it is one.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use proptest::prelude::*;
use serde_json::Value;
use skewline::design::Shop;
use skewline::figures::work_out;
use skewline::piece::Piece;

mod support;
use support::arbitrary;

/// The paths at which a number was not finite: JSON has no word for it but null.
fn nulls(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Null => found.push(path.to_owned()),
        Value::Array(items) => items.iter().enumerate().for_each(|(i, v)| nulls(v, &format!("{path}[{i}]"), found)),
        Value::Object(fields) => fields.iter().for_each(|(key, v)| nulls(v, &format!("{path}.{key}"), found)),
        Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

/// Keys that may be absent, and are then null on purpose.
const OPTIONAL: &[&str] = &[
    "toward_deg",
    "crossing_mm",
    "nearest_station_mm",
    "seen_clock_deg",
    "least_spare",
    "flat",
    "value",
    "limit",
    "place",
    "field",
    "clock_deg",
    "rim_edge_deg",
    "least",
    "floor",
    "limited_by_cut",
    "bit_mm",
    "at_bit_point_mm",
    "liquid_lying",
    "struck_level",
    "opening_up",
    "holds_ml",
    "holds_g",
    "wall_min_mm",
    "floor_min_mm",
    "one_in",
    "table_share",
    "rupture_mpa",
    "stress_mpa",
    "bears_mpa",
    "factor",
    "stresses",
    "turned_last",
    "basis",
    "finished_in_use_g",
    "capacity_ml",
    "air",
    "worst",
    "full_cut_mm",
    "rest",
    "over_rest_mm",
    "heavy_clock_deg",
    "between_centres_mm",
    "usual",
    "guide",
    "force_rpm",
    "at_start",
    "at_highest",
    "tail_n",
    "head_n",
    "grade",
    "grip",
    "grip.cut",
    "overhang_mm",
    "boring_length_mm",
    "cured_by",
    "bit_mm",
    "inside_rim_mm",
    "outside_at",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn any_sound_design_has_figures_and_finite_numbers(design in arbitrary::design()) {
        prop_assert_eq!(design.problems(), vec![]);
        let shop = Shop::default();
        let worked = match work_out(&design, &shop) {
            Ok(worked) => worked,
            Err(error) => return Err(TestCaseError::fail(format!("{error}"))),
        };
        let mut found = Vec::new();
        nulls(&serde_json::to_value(&worked.figures).unwrap(), "figures", &mut found);
        nulls(&serde_json::to_value(&worked.checks).unwrap(), "checks", &mut found);
        found.retain(|path| !path.contains(".map.wall_mm") && !OPTIONAL.iter().any(|key| path.ends_with(key)));
        prop_assert!(found.is_empty(), "not finite: {found:?}");
        for check in &worked.checks {
            prop_assert!(check.sentence.ends_with('.'), "{}", check.sentence);
            prop_assert_eq!(check.cure.is_empty(), check.verdict == skewline::figures::checks::Verdict::Ok);
        }
    }

    /// The state after more cuts is inside the state after fewer, but for a plug that has been fitted.
    #[test]
    fn a_cut_never_adds_wood_to_the_blank(design in arbitrary::design(), x in -60.0..60.0, y in -60.0..60.0, s in 0.0..400.0_f64) {
        let piece = Piece::resolve(&design, &design.limits.over(&Shop::default().limits)).unwrap();
        let point = skewline::geometry::Vector::new(x, y, s);
        let mut wood = true;
        for cuts in 0..=design.cuts.len() {
            let mut state = piece.solid.state(cuts);
            state.plug = None;
            prop_assert!(wood || !state.contains(point));
            wood = state.contains(point);
        }
    }
}
