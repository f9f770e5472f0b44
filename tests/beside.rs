//! Work beside the page: what is asked and answered survives the way there and back, each part comes once, and what is
//! dropped is left.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::cell::{Cell, RefCell};

use skewline::beside::{Order, Part, Report, Work, do_work};
use skewline::design::{Design, Shop, starters};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::stop_free::StopFreeSearch;
use skewline::figures::work_out;
use skewline::finding::Asked;
use skewline::form::Field;
use skewline::form::edit::with_number;
use skewline::geometry::at_once;

/// As it comes out at the other end.
fn there_and_back(work: Work) -> Work {
    let text = serde_json::to_string(&Order::Begin { number: 7, work: Box::new(work) }).unwrap();
    let Ok(Order::Begin { number: 7, work }) = serde_json::from_str(&text) else { panic!("another order: {text}") };
    *work
}

/// All parts, each as it comes out at the page, while `wanted` says so.
fn parts(work: Work, wanted: impl Fn() -> bool) -> Vec<Part> {
    let heard = RefCell::new(Vec::new());
    let tell = |part: Part| {
        let text = serde_json::to_string(&Report::Of { number: 7, part }).unwrap();
        let Ok(Report::Of { number: 7, part }) = serde_json::from_str(&text) else { panic!("another report: {text}") };
        heard.borrow_mut().push(part);
    };
    at_once(do_work(there_and_back(work), tell, async || wanted()));
    heard.into_inner()
}

fn all_ok(design: &Design) -> bool {
    work_out(design, &Shop::default()).unwrap().checks.iter().all(|check| check.verdict == Verdict::Ok)
}

#[test]
fn ranges_come_in_the_order_they_are_asked_in_and_are_those_found_at_once() {
    let (design, shop) = (starters::demo(), Shop::default());
    let fields = vec![Field::AxisTilt(0), Field::AxisTilt(9), Field::Moisture];
    let work = Work::StopFree { design: design.clone(), shop: shop.clone(), fields: fields.clone() };
    let heard = parts(work, || true);
    assert_eq!(heard.len(), fields.len() + 1, "one each, and the end");
    for (field, part) in fields.into_iter().zip(&heard) {
        let Part::StopFree(of, range) = part else { panic!("{part:?}") };
        assert_eq!(*of, field);
        let here = StopFreeSearch::new(&design, &shop, field).and_then(StopFreeSearch::finish);
        // A number survives the way to its last digit or so: the page's own text of numbers is exact.
        assert_eq!(*range, here);
    }
    assert!(matches!(heard.last(), Some(Part::Done)));
}

#[test]
fn cures_come_as_designs_that_can_be_opened() {
    let design = with_number(&starters::demo(), Field::AxisTilt(0), 8.6).unwrap();
    assert!(!all_ok(&design));
    let heard = parts(Work::Cures { design, shop: Shop::default(), name: CheckName::Join }, || true);
    let found =
        heard.iter().find_map(|part| if let Part::Cures { found, .. } = part { Some(found) } else { None }).unwrap();
    assert!(!found.is_empty() && found.iter().all(|cure| !cure.words.is_empty()));
    let is_cured = |design: &Design| {
        let worked = work_out(design, &Shop::default()).unwrap();
        worked.checks.iter().all(|check| check.name != CheckName::Join || check.verdict == Verdict::Ok)
    };
    assert!(found.iter().all(|cure| is_cured(&cure.design)));
    assert!(heard.iter().any(|part| matches!(part, Part::Tried(_))), "it says how far it is");
}

#[test]
fn a_search_brings_a_piece_whose_checks_are_all_ok_or_says_what_is_typed_wrong() {
    let (shop, mut asked) = (Shop::default(), Asked::usual(&Shop::default()));
    let heard = parts(Work::Find { asked: asked.clone(), shop: shop.clone() }, || true);
    let found = heard.iter().find_map(|part| if let Part::Answer { found, .. } = part { found.as_ref() } else { None });
    assert!(all_ok(&found.expect("the usual scoop is found").design));
    asked.handle = "long".to_owned();
    let heard = parts(Work::Find { asked, shop }, || true);
    assert!(matches!(&heard[..], [Part::Answer { found: None, why_not, .. }, Part::Done] if why_not.contains("long")));
}

#[test]
fn work_that_is_dropped_is_left_and_says_nothing_more() {
    let (design, shop) = (starters::demo(), Shop::default());
    let works = [
        Work::StopFree {
            design: design.clone(),
            shop: shop.clone(),
            fields: vec![Field::AxisTilt(0), Field::Moisture],
        },
        Work::Cures {
            design: with_number(&design, Field::AxisTilt(0), 8.6).unwrap(),
            shop: shop.clone(),
            name: CheckName::Join,
        },
        Work::Find { asked: Asked::usual(&shop), shop },
    ];
    for work in works {
        let breaths = Cell::new(0);
        let heard = parts(work, || {
            breaths.set(breaths.get() + 1);
            breaths.get() < 3
        });
        assert!(breaths.get() >= 3, "it breathes");
        let is_answer = |part: &Part| matches!(part, Part::Done | Part::Answer { .. } | Part::Cures { .. });
        assert!(!heard.iter().any(is_answer), "{heard:?}");
    }
}
