//! Kinds of piece as they are asked for in the form: read, found beside the page, and asked for again.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use std::cell::RefCell;

use skewline::beside::{Part, Work, do_work};
use skewline::design::pattern::{BlankOnHand, HandleEnd, SidedSpindle};
use skewline::design::{Choices, Shop};
use skewline::figures::checks::Verdict;
use skewline::figures::work_out;
use skewline::finding::{Asked, KindAsked, SpreaderAsked, TiltWanted, Wants, find_round_bowls};
use skewline::geometry::at_once;

/// What the worker answers to a search.
fn answer(asked: Asked) -> Part {
    let told = RefCell::new(Vec::new());
    let work = Work::Find { asked, shop: Shop::default() };
    at_once(do_work(work, |part| told.borrow_mut().push(part), async || true));
    let told = told.into_inner();
    assert!(matches!(told.last(), Some(Part::Done)));
    assert!(told.iter().any(|part| matches!(part, Part::Tried(_))), "it says how far it is");
    told.into_iter().find(|part| matches!(part, Part::Answer { .. })).unwrap()
}

fn asked(kind: KindAsked) -> Asked {
    Asked { kind, handle: "100".to_owned(), ..Asked::usual(&Shop::default()) }
}

/// Every kind that is offered is found from its usual lines, every check of it ok, and asks for the same kind again.
#[test]
fn every_kind_that_is_offered_is_found() {
    for kind in KindAsked::ALL {
        let wood = "Sugar (hard) maple".to_owned();
        let Part::Answer { found, why_not, .. } = answer(Asked { species: wood.clone(), ..asked(kind) }) else {
            panic!("no answer")
        };
        let found = found.unwrap_or_else(|| panic!("{}: {why_not}", kind.name()));
        let worked = work_out(&found.design, &Shop::default()).unwrap();
        assert!(worked.checks.iter().all(|check| check.verdict == Verdict::Ok), "{}", kind.name());
        assert_eq!(found.design.wood.species, wood);
        let again = Asked::of_design(&found.design, &Shop::default(), None).unwrap();
        assert_eq!((again.kind, again.species), (kind, wood));
        assert_eq!(KindAsked::of(&found.design.pattern.as_ref().unwrap().choices), Some(kind));
        assert_eq!(KindAsked::named(kind.name()), kind);
        assert!(kind.handle_ends().contains(&HandleEnd::Round));
    }
    assert_eq!(KindAsked::of(&Choices::SidedSpindle(SidedSpindle::default())), None);
}

/// A wrong line of a spreader is named, and what is right is read in the shop's unit.
#[test]
fn the_lines_of_a_spreader_are_read() {
    let shop = Shop::default();
    let usual = asked(KindAsked::Spreader);
    let wants = usual.read_spreader(&shop).unwrap();
    assert_eq!((wants.length_mm, wants.blade_mm), (150.0, 60.0));
    let refused = |lines: SpreaderAsked, line: &str| {
        let why = Asked { spreader: lines, ..usual.clone() }.check(&shop).unwrap_err();
        assert!(why.starts_with(line) && why.ends_with('.'), "{why}");
    };
    refused(SpreaderAsked { length: "long".to_owned(), ..usual.spreader.clone() }, "Length of the whole piece: ");
    refused(SpreaderAsked { blade: String::new(), ..usual.spreader.clone() }, "Length of the blade: ");
    refused(SpreaderAsked { width: "900".to_owned(), ..usual.spreader.clone() }, "Width of the blade: ");
    refused(SpreaderAsked { thickness: "0".to_owned(), ..usual.spreader.clone() }, "Thickness of the blade: ");
    // What only scoops are asked by does not stand in its way.
    assert!(Asked { holds: "lots".to_owned(), tilt: "90".to_owned(), ..usual }.check(&shop).is_ok());
}

/// Where a round bowl cannot be had as wanted, those that work are offered: from another blank, or with another tilt.
#[test]
fn round_bowls_that_work_are_offered_instead() {
    let shop = Shop::default();
    let wants = Wants {
        holds_mm3: 60e3,
        handle_mm: 100.0,
        contents: "sugar, granulated".to_owned(),
        tilt: TiltWanted::Degrees(6.0),
        blank: Some(BlankOnHand { side_mm: 50.0, length_mm: None }),
        ..Wants::usual(&shop)
    };
    let answer = at_once(find_round_bowls(&wants, &shop, async |_| true));
    assert!(answer.found.is_none() && answer.why_not.ends_with('.'), "{}", answer.why_not);
    assert!(!answer.instead.is_empty());
    for offer in &answer.instead {
        assert!(offer.worked.checks.iter().all(|check| check.verdict == Verdict::Ok));
        assert!(offer.scoop.blank_side_mm > 50.0 && offer.words.starts_with("From another blank."), "{}", offer.words);
    }
    // The handle sweeps wider than the bed: the longest that clears it, to 5 mm.
    let long = Wants { handle_mm: 140.0, blank: None, ..wants.clone() };
    let answer = at_once(find_round_bowls(&long, &shop, async |_| true));
    assert!(answer.why_not.contains("Swing"), "{}", answer.why_not);
    let offer = answer.instead.iter().find(|offer| offer.words.starts_with("With a shorter handle")).unwrap();
    let handle_mm = offer.scoop.handle_mm;
    assert!((60.0..140.0).contains(&handle_mm) && offer.worked.checks.iter().all(|check| check.verdict == Verdict::Ok));
    let longer = Wants { handle_mm: handle_mm + 5.0, ..long };
    assert!(at_once(find_round_bowls(&longer, &shop, async |_| true)).found.is_none(), "{handle_mm} is the longest");
    // A search that is stopped offers nothing.
    let stopped = at_once(find_round_bowls(&wants, &shop, async |_| false));
    assert!(stopped.found.is_none() && stopped.instead.is_empty());
}
