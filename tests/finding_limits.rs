//! The limits of pieces that were found: a hair inside nothing stops, a hair outside the check that was named does.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use skewline::design::{Design, Shop};
use skewline::figures::checks::{Check, Verdict};
use skewline::figures::stop_free::{EndedBy, StopFreeSearch};
use skewline::figures::work_out;
use skewline::finding::{BlankOnHand, TiltWanted, Wants, find_at_once};
use skewline::form::edit::with_number;
use skewline::form::{Field, Group, sections};

/// What a hair is, in mm or degrees.
const HAIR: f64 = 1e-6;
/// How near the number of a check comes to its limit there, in its unit.
const NEAR: f64 = 1e-3;

/// Every check that is as bad as this or worse.
fn faults(design: &Design, field: Field, value: f64, verdict: Verdict) -> Vec<Check> {
    let checks = work_out(&with_number(design, field, value).unwrap(), &Shop::default()).unwrap().checks;
    checks.into_iter().filter(|check| check.verdict >= verdict).collect()
}

/// The choice of this label under this heading.
fn choice(design: &Design, title: &str, label: &str) -> Field {
    let section = sections(design, Group::Whole).into_iter().find(|section| section.title == title).unwrap();
    section.fields.into_iter().find(|field| field.row(design).label == label).unwrap()
}

/// How many ends of the range of a value a check ends, each narrowed down to a hair: that of what stops, and that of what is
/// not ok.
fn ends_to_a_hair(design: &Design, field: Field) -> usize {
    let label = field.row(design).label;
    let now = field.number(design).unwrap();
    let found = StopFreeSearch::new(design, &Shop::default(), field).unwrap().finish().unwrap();
    let mut ends = 0;
    for (end, way) in [(found.low, -1.0), (found.high, 1.0)] {
        let EndedBy::Check(name) = end.ended_by else { continue };
        let past = end.value + way * 0.1;
        assert!(
            faults(design, field, past, Verdict::Stop).iter().any(|check| check.name == name),
            "{name:?} at {past}"
        );
        for (verdict, from) in [(Verdict::Stop, end.value), (Verdict::Tight, now)] {
            let is_good = |value: f64| faults(design, field, value, verdict).is_empty();
            let (mut inside, mut outside) = (from, past);
            assert!(is_good(inside), "{label} at {inside}");
            while (outside - inside).abs() > HAIR {
                let middle = f64::midpoint(inside, outside);
                if is_good(middle) { inside = middle } else { outside = middle }
            }
            assert!(is_good(inside) && !is_good(outside), "{label} at {inside} and {outside}");
            let ending = faults(design, field, outside, verdict);
            assert!(ending.iter().any(meets_its_limit), "{label} at {outside}: {ending:?}");
        }
        ends += 1;
    }
    ends
}

/// Whether the number of a check stands where a verdict changes: at its limit, at half of it, or at nothing.
fn meets_its_limit(check: &Check) -> bool {
    let Some((value, limit)) = check.value.zip(check.limit) else { return false };
    [0.0, 0.5, 1.0].iter().any(|share| (value - share * limit).abs() <= NEAR)
}

#[test]
fn a_hair_inside_the_limits_of_a_found_piece_is_ok_and_a_hair_outside_is_not() {
    let blank = Some(BlankOnHand { side_mm: 66.0, length_mm: None });
    let wants = Wants { blank, tilt: TiltWanted::Degrees(7.5), ..Wants::usual(&Shop::default()) };
    let design = find_at_once(&wants, &Shop::default()).found.unwrap().design;
    for (title, label) in [("Handle", "Tilt"), ("Handle", "Axes cross at"), ("Bowl", "Depth"), ("Handle", "Length")] {
        let ends = ends_to_a_hair(&design, choice(&design, title, label));
        assert!(ends > 0, "nothing ends {label}");
    }
}
