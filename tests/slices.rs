//! Figures are worked out in slices, none of them long, whatever the design.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout, reason = "tests may stop at once")]

mod support;

use std::sync::Arc;

use proptest::prelude::*;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use skewline::design::validation::bounds;
use skewline::design::validation::weight::too_big;
use skewline::design::{Design, Shop, starters};
use skewline::figures::slices::{MOST_WORK, SLICE};
use skewline::figures::{Extent, Whole, in_slices, shape_within, work_out};
use skewline::form::edit::accepted;
use skewline::geometry::line::pace::spent;
use skewline::geometry::shadow;
use skewline::piece::Piece;
use skewline::shelf::{Imported, read, write_design};
use support::{arbitrary, heavy};

/// Seconds that this thread has had a processor.
fn processor_ms() -> f64 {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    text.split(' ').next().and_then(|ns| ns.parse::<f64>().ok()).unwrap_or(0.0) / 1e6
}

fn timed(name: &str, design: &Design) {
    assert_eq!(design.problems(), vec![], "{name}");
    let (began, before) = (processor_ms(), spent());
    let found = match shape_within(design, &Shop::default(), 300_000) {
        Ok(found) => Arc::new(found),
        Err(error) => return println!("{name}: {error}"),
    };
    let first = ((processor_ms() - began) as u64, spent() - before);
    let before_all = spent();
    let piece = Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap();
    let joins = spent() - before_all;
    let _ = skewline::figures::wall::walls(&piece, |_| None);
    let walls = spent() - before_all - joins;
    let extent = format!("{:?}", found.extent).chars().take(12).collect::<String>();
    let mut work = in_slices(design.clone(), Shop::default(), found);
    let mut all: Vec<(u64, u64, f64)> = Vec::new();
    let start = processor_ms();
    let outcome = loop {
        let (began, before) = (processor_ms(), spent());
        let step = work.step();
        all.push(((processor_ms() - began) as u64, spent() - before, work.share_done()));
        if step.is_some() {
            break "done";
        }
        if processor_ms() - start > 40e3 {
            break "stopped";
        }
    };
    let last = *all.last().unwrap();
    let count = all.len();
    let slowest = *all.iter().max_by_key(|it| it.0).unwrap();
    let most = *all.iter().max_by_key(|it| it.1).unwrap();
    println!(
        "{name}: {outcome} {extent} joins {joins} walls {walls} shape {first:?}; {count} slices, {:.0} ms, {} Munits; slowest {slowest:?} most {most:?} last {last:?}",
        processor_ms() - start,
        work.units() / 1_000_000
    );
}

/// No slice does more work than this, in units. A slice ends with the first item that takes it over `SLICE`; the items
/// that take most are one look along a strip of a piece on many axes, and one section of it.
const MOST_OF_A_SLICE: u64 = 1_500_000;

/// Works a design out in slices; what it comes to, where it is not given up, and how many slices it took.
fn in_bounded_slices(design: &Design, shop: &Shop) -> Result<(Option<Whole>, u64), String> {
    let before = spent();
    let shape = shape_within(design, shop, SLICE).map_err(|error| error.to_string())?;
    let at_once = spent() - before;
    // The joins and the walls each, up to their first pause.
    let bound = 2 * MOST_OF_A_SLICE;
    if at_once > bound {
        return Err(format!("the shape takes {at_once} units at once"));
    }
    let mut work = in_slices(design.clone(), shop.clone(), Arc::new(shape));
    let mut slices = 0;
    loop {
        let before = spent();
        let done = work.step();
        slices += 1;
        let units = spent() - before;
        if units > MOST_OF_A_SLICE {
            return Err(format!("slice {slices} does {units} units, at {}", work.share_done()));
        }
        if done.is_some() || work.units() > MOST_WORK {
            return Ok((done, slices));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Every slice of every sound design does a bounded amount of work, and there are no more slices than the work asks for.
    /// What comes of it is what comes of working it out at once.
    #[test]
    fn no_slice_of_a_random_design_is_long(design in arbitrary::design()) {
        let shop = Shop::default();
        let (whole, slices) = in_bounded_slices(&design, &shop).map_err(TestCaseError::fail)?;
        prop_assert!(slices < MOST_WORK / SLICE);
        if let Some(whole) = whole {
            let at_once = work_out(&design, &shop).unwrap();
            prop_assert_eq!(&whole.worked, &at_once);
            prop_assert_eq!(&whole.shape.walls, &at_once.figures.walls);
        }
    }
}

/// As the property, over designs that no utensil asks for.
#[test]
fn no_slice_of_a_heavy_design_is_long() {
    for design in [heavy::hollows(6), heavy::passes(6, 6, 3), heavy::passes(10, 4, 11)] {
        in_bounded_slices(&design, &Shop::default()).unwrap();
    }
}

/// The heaviest that a document may hold: every cut, every axis, every node for which figures are worked out.
#[test]
#[ignore = "long: up to a minute a design"]
fn no_slice_of_the_heaviest_designs_is_long() {
    let nodes = bounds::NODES_IN_ALL / (bounds::CUTS - 1);
    for design in [heavy::hollows(bounds::CUTS), heavy::passes(bounds::CUTS - 1, nodes, bounds::AXES)] {
        let (whole, slices) = in_bounded_slices(&design, &Shop::default()).unwrap();
        println!("{slices} slices, {}", if whole.is_some() { "worked out" } else { "given up" });
    }
}

/// A document from when there was room for more still opens, is drawn, and can be made smaller, but not greater.
#[test]
fn a_design_with_too_many_nodes_stays_and_its_figures_are_left_out() {
    let shop = Shop::default();
    let design = heavy::passes(58, 200, 11);
    let text = write_design(&design).unwrap();
    let Ok(Imported::Design(saved)) = read(&text) else { panic!("it cannot be read") };
    assert_eq!(saved.design, design);
    let before = spent();
    let shape = shape_within(&design, &shop, SLICE).unwrap();
    assert!(spent() - before < MOST_OF_A_SLICE, "{} units", spent() - before);
    let Extent::TooBig(problem) = &shape.extent else { panic!("{:?}", shape.extent) };
    assert_eq!(
        problem.to_string(),
        "Its profiles and saw lines have 11600 points in all, and figures are worked out for 1200 at most. Take out 10400."
    );
    assert_eq!(shape.piece.solid.removals.len(), design.cuts.len());
    assert!(accepted(&design, |changed| drop(changed.cuts.pop())).is_ok(), "it can be made smaller");
    assert!(accepted(&design, |changed| changed.name.push('!')).is_ok(), "it can be changed");

    let most = heavy::passes(7, 200, 3);
    assert_eq!(too_big(&heavy::passes(6, 200, 3)), None);
    let one_more = accepted(&heavy::passes(6, 200, 3), |changed| *changed = most.clone());
    assert!(one_more.is_err_and(|refused| refused.to_string().starts_with("Its profiles")), "no more is taken in");
}

#[test]
#[ignore = "measures"]
fn measure() {
    timed("demo", &starters::demo());
    for file in std::fs::read_dir("tests/reference/pieces").unwrap() {
        let text = std::fs::read_to_string(file.unwrap().path()).unwrap();
        if let Ok(Imported::Design(saved)) = read(&text) {
            timed(&saved.design.name, &saved.design);
        }
    }
    for n in [5, 15, 60] {
        timed(&format!("hollows {n}"), &heavy::hollows(n));
    }
    for (count, nodes, axes) in
        [(6, 5, 3), (12, 5, 11), (40, 5, 11), (6, 50, 3), (24, 50, 11), (58, 20, 11), (58, 200, 11)]
    {
        timed(&format!("passes {count} of {nodes} on {axes}"), &heavy::passes(count, nodes, axes));
    }
}

#[test]
#[ignore = "measures"]
fn measure_random() {
    let mut runner = TestRunner::deterministic();
    for i in 0..100 {
        timed(&format!("random {i}"), &arbitrary::design().new_tree(&mut runner).unwrap().current());
    }
}

/// A bound that every cut of another axis may square must not grow without end: a spindle on three axes took 9 s.
#[test]
fn a_spindle_on_three_axes_is_quickly_worked_out() {
    let text = std::fs::read_to_string("tests/reference/pieces/three-sided-spindle.json").unwrap();
    let Imported::Design(saved) = read(&text).unwrap() else { panic!("not a design") };
    let piece = Piece::resolve(&saved.design, &Shop::default().limits).unwrap();
    let before = spent();
    assert!(shadow(&piece.solid.finished()).len() > 3);
    let units = spent() - before;
    println!("{units} units");
    assert!(units < 2_000_000, "{units} units");
}
