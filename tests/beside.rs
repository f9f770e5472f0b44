//! Work beside the page: what is asked and answered survives the way there and back, each part comes once, and what is
//! dropped is left.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use std::cell::{Cell, RefCell};
use std::sync::Arc;

use proptest::prelude::*;

use skewline::beside::{Order, Part, Report, Work, do_work};
use skewline::design::{Design, Shop, starters};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::slack::SlackSearch;
use skewline::figures::stop_free::StopFreeSearch;
use skewline::figures::{Whole, outline_within, shape, whole_in_slices, work_out};
use skewline::finding::Asked;
use skewline::form::Field;
use skewline::form::edit::with_number;
use skewline::geometry::at_once;
use support::arbitrary;

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
        let (text, bytes) = Report::Of { number: 7, part }.packed().unwrap();
        let Some(Report::Of { number: 7, part }) = Report::unpacked(&text, &bytes) else { panic!("another: {text}") };
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

/// Every figure of a design, of which the page has the outline and a worker works out what is slow.
fn figured_beside(design: &Design, shop: &Shop) -> Whole {
    let heard = parts(Work::Figures { design: design.clone(), shop: shop.clone(), begun: None }, || true);
    assert!(matches!(heard.last(), Some(Part::Done)));
    let slow = heard.into_iter().find_map(|part| if let Part::Figures(slow) = part { slow } else { None });
    let outline = Arc::new(outline_within(design, shop, 12_000_000).unwrap());
    let mut work = whole_in_slices(design.clone(), shop.clone(), outline, *slow.unwrap());
    loop {
        if let Some(whole) = work.step() {
            return whole;
        }
    }
}

#[test]
fn figures_worked_out_beside_the_page_are_those_worked_out_at_once() {
    let shop = Shop::default();
    for design in [starters::demo(), starters::bored_end_scoop_straight()] {
        let whole = figured_beside(&design, &shop);
        assert_eq!(whole.worked, work_out(&design, &shop).unwrap());
        assert_eq!(*whole.shape, shape(&design, &shop).unwrap());
        assert_eq!((whole.design, whole.shop), (design, shop.clone()));
    }
}

#[test]
fn figures_cut_short_on_their_way_are_none() {
    let slow = parts(Work::Figures { design: starters::demo(), shop: Shop::default(), begun: None }, || true);
    let figures = slow.into_iter().find(|part| matches!(part, Part::Figures(_))).unwrap();
    let (text, bytes) = Report::Of { number: 7, part: figures }.packed().unwrap();
    for length in [0, 1, bytes.len() / 2, bytes.len() - 1] {
        assert!(Report::unpacked(&text, &bytes[..length]).is_none(), "{length} of {} bytes", bytes.len());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever the design: no figure is lost or altered on its way from the worker.
    #[test]
    fn figures_of_a_random_design_cross_whole(design in arbitrary::design()) {
        let shop = Shop::default();
        if let Ok(at_once) = work_out(&design, &shop) {
            prop_assert_eq!(figured_beside(&design, &shop).worked, at_once);
        }
    }
}

#[test]
fn slack_comes_a_row_at_a_time_and_is_that_found_at_once() {
    let (design, shop) = (starters::demo(), Shop::default());
    let heard = parts(Work::Slack { design: design.clone(), shop: shop.clone() }, || true);
    let so_far: Vec<_> = heard
        .iter()
        .filter_map(|part| if let Part::Slack { slack, is_whole } = part { Some((slack, *is_whole)) } else { None })
        .collect();
    assert!(so_far.windows(2).all(|pair| pair[0].0.alone.len() <= pair[1].0.alone.len() && !pair[0].1));
    let piece = shape(&design, &shop).unwrap().piece;
    let at_once = SlackSearch::new(&design, &shop, &piece).unwrap().finish();
    assert_eq!(so_far.last().copied(), Some((&at_once, true)));
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
        Work::Figures { design: design.clone(), shop: shop.clone(), begun: None },
        Work::Slack { design: design.clone(), shop: shop.clone() },
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
        let is_answer =
            |part: &Part| matches!(part, Part::Done | Part::Figures(_) | Part::Answer { .. } | Part::Cures { .. });
        assert!(!heard.iter().any(is_answer), "{heard:?}");
    }
}
