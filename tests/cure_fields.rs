//! Every check leads to a value that is on screen.

#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use skewline::design::Design;
use skewline::figures::checks::{Check, Verdict};
use skewline::figures::work_out;
use skewline::form::{Field, Movable, Shown, group_of_cut, sections, shop_sections, shown};
use support::arbitrary;

/// Choices of a list, which stand in the group of the wood.
const CHOICES: [&str; 3] = ["wood.species", "contents", "duty"];

/// Whether the page has a row for it once the group is open and the thing is picked.
fn is_on_screen(design: &Design, row: &Shown) -> bool {
    let Some(group) = row.group else {
        let paths =
            shop_sections().into_iter().flat_map(|section| section.fields).map(|it| format!("shop.{}", it.path));
        return paths.collect::<Vec<_>>().contains(&row.path);
    };
    let of_picked: Vec<Field> = match row.picked {
        Some(Movable::PassNode { cut, node } | Movable::HollowNode { cut, node }) => {
            assert_eq!(group_of_cut(design, cut), Some(group));
            Field::of_node(design, cut, node)
        }
        Some(Movable::SawPoint { cut, point }) => Field::of_point(design, cut, point),
        _ => Vec::new(),
    };
    let of_group = sections(design, group).into_iter().flat_map(|section| section.fields);
    CHOICES.contains(&&*row.path) || of_group.chain(of_picked).any(|field| field.path(design) == row.path)
}

fn leads_nowhere(design: &Design, check: &Check) -> bool {
    let Some(field) = &check.field else { return false };
    let row = shown(design, field, check.place.map(|place| place.station_mm));
    row.is_none_or(|row| !is_on_screen(design, &row))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn the_value_that_cures_a_check_is_on_screen(design in arbitrary::design(), shop in arbitrary::shop()) {
        let Ok(worked) = work_out(&design, &shop) else { return Ok(()) };
        for check in worked.checks.iter().filter(|check| check.verdict != Verdict::Ok) {
            prop_assert!(!leads_nowhere(&design, check), "{check:?}");
        }
    }

    #[test]
    fn any_path_that_a_check_could_name_leads_somewhere(
        design in arbitrary::design(), cut in 0..8_usize, part in 0..6_usize, near in -50.0..400.0,
    ) {
        let part = ["profile", "shape", "path", "shape.depth_mm", "at_mm", "from_mm"][part];
        if let Some(row) = shown(&design, &format!("cuts[{cut}].{part}"), Some(near)) {
            prop_assert!(is_on_screen(&design, &row), "{row:?}");
        }
    }
}

#[test]
fn the_blank_and_the_use_lead_to_the_wood() {
    let design = skewline::design::starters::demo();
    for path in ["blank.section", "blank.length_mm", "wood.species", "duty"] {
        let row = shown(&design, path, None).unwrap();
        assert_eq!(row.group, Some(skewline::form::Group::Wood), "{path}");
        assert!(is_on_screen(&design, &row), "{row:?}");
    }
}
