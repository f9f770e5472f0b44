//! How a plan holds the work from the first cut to the last: stated here anew, from the steps a turner reads.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{BoredEndScoop, HandleEnd, bored_end_scoop_straight, demo};
use skewline::design::{AxisName, Cut, Design, Shop, Side};
use skewline::figures::plan::{Plan, Step, StepKind, plan};
use skewline::figures::support::{HeadEnd, TailEnd};
use skewline::figures::{Worked, work_out};

mod support;
use support::arbitrary;
use support::moved::{bored_end_scoops, with_cuts_moved};

fn made(design: &Design) -> (Worked, Option<Plan>) {
    let shop = Shop::default();
    let worked = work_out(design, &shop).unwrap();
    let plan = plan(design, &worked, &shop).ok();
    (worked, plan)
}

fn at(plan: &Plan, kind: StepKind) -> Option<usize> {
    plan.steps.iter().position(|step| step.kind == kind)
}

fn step<'a>(plan: &'a Plan, title: &str) -> &'a Step {
    plan.steps.iter().find(|step| step.title == title).unwrap_or_else(|| panic!("no {title}"))
}

fn number_mm(step: &Step, what: &str) -> f64 {
    let found = step.numbers.iter().find(|number| number.what.contains(what));
    found.unwrap_or_else(|| panic!("{what}: {:?}", step.numbers)).mm.unwrap()
}

/// Its handle ends round on an axis of its own.
fn round_on_b() -> Design {
    BoredEndScoop { handle_end: HandleEnd::Round, ..BoredEndScoop::default() }.design("round end on B")
}

/// Round ends on B, hooks on A, straight handles: down to a nub with the live centre on the plug, the nub sawn with the
/// lathe standing still, and only then the plug out.
#[test]
fn every_end_is_turned_to_its_nub_and_sawn_before_the_plug_comes_out() {
    for (design, axis, head) in [
        (demo(), AxisName::A, HeadEnd::Jaws),
        (round_on_b(), AxisName::B, HeadEnd::DriveCentre),
        (bored_end_scoop_straight(), AxisName::A, HeadEnd::Jaws),
    ] {
        let (worked, plan) = made(&design);
        let plan = plan.unwrap();
        let (part, sawn) = (at(&plan, StepKind::Part).unwrap(), at(&plan, StepKind::SawNub).unwrap());
        let out = at(&plan, StepKind::TakeOutPlug).unwrap();
        assert!(part < sawn && sawn < out, "{}", design.name);
        let step = &plan.steps[part];
        assert_eq!(
            (step.carried.axis, step.carried.head, step.carried.tail),
            (Some(axis), head, TailEnd::LiveCentreOnPlug),
            "{}",
            design.name
        );
        let nub = worked.figures.strength.nubs[0];
        assert_eq!(number_mm(step, "nub"), nub.diameter_mm);
        assert_eq!(number_mm(&plan.steps[sawn], "nub"), nub.diameter_mm);
        assert!(plan.steps[sawn].speeds.is_empty() && plan.steps[sawn].held.contains("the live centre"));
    }
}

/// From the handle to the opening, as a turner reads it.
#[test]
fn endings_in_words() {
    let told = |step: &Step| {
        let numbers = step.numbers.iter().map(|n| format!("  {}: {}", n.what, n.value));
        let until = step.until.iter().map(|until| format!("  > {until}"));
        let head = format!("{}\n  {}\n  {}", step.title, step.what, step.held);
        std::iter::once(head).chain(numbers).chain(until).collect::<Vec<_>>().join("\n")
    };
    let end = |design: &Design| {
        let plan = made(design).1.unwrap();
        let from = plan.steps.iter().position(|step| step.title == "Turn the handle").unwrap();
        let to = at(&plan, StepKind::TakeOutPlug).unwrap();
        let steps = plan.steps[from..=to].iter().map(told).collect::<Vec<_>>().join("\n");
        format!("== {}\n{steps}", design.name)
    };
    insta::assert_snapshot!([round_on_b(), bored_end_scoop_straight()].iter().map(end).collect::<Vec<_>>().join("\n"));
}

/// The nub that the check asks for is the one that the step leaves, and no caliper is set below it.
#[test]
fn the_last_pass_leaves_what_the_strength_asks_for() {
    let mut seen = 0;
    for design in [round_on_b(), bored_end_scoop_straight()] {
        let (worked, plan) = made(&design);
        let plan = plan.unwrap();
        for weakest in &worked.figures.strength.while_turning {
            let Some(last) = weakest.turned_last else { continue };
            seen += 1;
            let turned = plan.steps.iter().find(|step| step.cut == Some(weakest.cut)).unwrap();
            assert_eq!(number_mm(turned, "leave this much until last"), last.leave_mm);
            assert_eq!(worked.figures.strength.nubs[0].diameter_mm, last.leave_mm);
            let diameters = turned.numbers.iter().filter(|number| number.what.starts_with("diameter"));
            assert!(diameters.filter_map(|number| number.mm).all(|mm| mm >= last.leave_mm), "{:?}", turned.numbers);
            assert!(turned.what.contains("until last"));
        }
    }
    assert_eq!(seen, 2);
}

/// The plug in its turns: disc and tenon off the blank's end, the bore finished, the spigot fitted, the plug in, out.
#[test]
fn the_plug_is_made_to_fit_the_finished_bore() {
    let (_, plan) = made(&demo());
    let plan = plan.unwrap();
    let at = |title: &str| plan.steps.iter().position(|step| step.title == title).unwrap_or_else(|| panic!("{title}"));
    let order = [
        "Turn the tenon",
        "Turn the plug's disc",
        "Set the tenon in the chuck",
        "True the bowl end",
        "Bore the hollow",
        "Scrape and sand the hollow",
        "Fit the plug's spigot",
        "Back in the chuck",
        "Fit the plug",
        "Turn the bowl",
    ];
    let places = order.map(at);
    assert!(places.windows(2).all(|pair| pair[0] < pair[1]), "{places:?}");
    let Some(Cut::FitPlug(plug)) = demo().cuts.get(2).cloned() else { panic!("no plug") };
    assert_eq!(number_mm(step(&plan, "Fit the plug's spigot"), "spigot, diameter"), plug.spigot_diameter_mm);
    assert_eq!(number_mm(step(&plan, "Turn the plug's disc"), "plug's tenon, length"), plug.tenon.unwrap().length_mm);
    let blank = step(&plan, "Cut and mark the blank");
    assert_eq!(number_mm(blank, "length"), demo().length_to_cut_mm());
    let fit = step(&plan, "Fit the plug");
    assert!(fit.what.contains("glue") && fit.until.iter().any(|it| it.contains("reference line")));
    // Without a tenon of its own it is turned on the end of a piece of waste, after the bore all the same.
    let mut plain = demo();
    if let Cut::FitPlug(plug) = &mut plain.cuts[2] {
        plug.tenon = None;
    }
    let (_, plan) = made(&plain);
    let plan = plan.unwrap();
    let kinds: Vec<StepKind> = plan.steps.iter().map(|step| step.kind).collect();
    let scraped = kinds.iter().position(|kind| *kind == StepKind::Scrape).unwrap();
    let turned = kinds.iter().position(|kind| *kind == StepKind::MakePlug).unwrap();
    assert!(scraped < turned && !plan.steps.iter().any(|step| step.title == "True the bowl end"));
}

/// Everything along a moved axis is measured from its mark, which is on the plug's end.
#[test]
fn stations_of_a_moved_axis_start_at_its_mark() {
    let design = demo();
    let (worked, plan) = made(&design);
    let axis = worked.piece.axis(AxisName::B).unwrap();
    let mark = axis.centre(worked.piece.tail_face).unwrap();
    let plan = plan.unwrap();
    let handle = step(&plan, "Turn the handle");
    let Some(Cut::Pass(pass)) = handle.cut.and_then(|cut| design.cuts.get(cut)) else { panic!("no pass") };
    let start = axis.point(pass.from_mm, 0.0, 0.0);
    let from = format!("diameter at {:.1} mm from mark B of the plug", (start - mark).length());
    assert!(handle.numbers.iter().any(|number| number.what.starts_with(&from)), "{from}: {:?}", handle.numbers);
}

fn spins(step: &Step) -> bool {
    !step.speeds.is_empty()
}

/// In no step does the work spin without what it needs at both ends, and nothing comes apart before it may.
fn judge(design: &Design) -> Result<bool, TestCaseError> {
    let (_, Some(plan)) = made(design) else { return Ok(false) };
    let mut tenon = false;
    let (mut fitted, mut scraped) = (0_i32, true);
    for (place, step) in plan.steps.iter().enumerate() {
        let carried = &step.carried;
        let of_plug = step.kind == StepKind::MakePlug;
        match step.kind {
            StepKind::Tenon => tenon = true,
            StepKind::Bore if carried.head != HeadEnd::Carrier => {
                scraped = false;
                prop_assert!(carried.head == HeadEnd::Jaws && fitted == 0, "{:?}", step);
            }
            StepKind::Scrape => scraped = true,
            StepKind::FitPlug => {
                prop_assert!(scraped);
                prop_assert!(plan.steps[..place].iter().any(|it| it.kind == StepKind::MakePlug), "{:?}", step);
                fitted += 1;
            }
            StepKind::TakeOutPlug => fitted -= 1,
            _ => {}
        }
        prop_assert!((0..=1).contains(&fitted), "{:?}", step.title);
        if !spins(step) || carried.head == HeadEnd::Carrier || step.held.starts_with("A piece of waste") {
            continue;
        }
        let turned = matches!(
            step.kind,
            StepKind::Turn
                | StepKind::Rough
                | StepKind::Tenon
                | StepKind::Part
                | StepKind::SandTurned
                | StepKind::DepthLine
        );
        if turned {
            prop_assert!(carried.at_both_ends(), "{:?}", step);
        }
        prop_assert!(!matches!(carried.head, HeadEnd::Bench | HeadEnd::Nothing), "{:?}", step);
        // A plug is gripped by its own tenon, or the waste it is turned on.
        prop_assert!(carried.head != HeadEnd::Jaws || tenon || of_plug, "{:?}", step);
        match carried.tail {
            TailEnd::LiveCentreOnPlug => prop_assert!(fitted == 1, "{:?}", step),
            TailEnd::LiveCentreOnWood | TailEnd::Cone => prop_assert!(fitted == 0, "{:?}", step),
            TailEnd::Steady | TailEnd::Nothing => {}
        }
    }
    prop_assert_eq!(fitted, 0, "a plug is left in");
    nubs_come_last(design, &plan)?;
    Ok(true)
}

/// Nubs are sawn after all turning; a plug that may stay comes out after that.
fn nubs_come_last(design: &Design, plan: &Plan) -> Result<(), TestCaseError> {
    let parts = design.cuts.iter().any(|cut| matches!(cut, Cut::Part(plane) if plane.removes == Side::Head));
    let Some(sawn) = at(plan, StepKind::SawNub) else {
        prop_assert!(!parts);
        return Ok(());
    };
    let spinning = |step: &&Step| spins(step) && step.carried.head != HeadEnd::Carrier;
    prop_assert!(plan.steps[sawn..].iter().find(spinning).is_none());
    let number = plan.steps[sawn].numbers.first();
    prop_assert!(number.is_some_and(|nub| nub.mm.is_some_and(|mm| mm > 0.0)), "{:?}", plan.steps[sawn]);
    let out = plan.steps.iter().rposition(|step| step.kind == StepKind::TakeOutPlug);
    // Out earlier only for work that has to be done to the bowl end.
    if let Some(out) = out.filter(|out| *out < sawn) {
        let open = |step: &Step| {
            matches!(step.kind, StepKind::Bore | StepKind::Face)
                || matches!(step.cut.and_then(|cut| design.cuts.get(cut)), Some(Cut::Part(p)) if p.removes == Side::Tail)
        };
        prop_assert!(plan.steps[out..sawn].iter().any(open), "the plug is out at {out}, the nub sawn at {sawn}");
    }
    Ok(())
}

fn scoops() -> impl Strategy<Value = Design> {
    let scoops = (bored_end_scoops(), any::<bool>()).prop_map(|(mut design, plain)| {
        if let (true, Some(Cut::FitPlug(plug))) = (plain, design.cuts.get_mut(2)) {
            plug.tenon = None;
        }
        design
    });
    with_cuts_moved(scoops, 1)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_scoop_is_without_support_in_any_step(design in scoops()) {
        prop_assume!(design.problems().is_empty());
        judge(&design)?;
    }

    #[test]
    fn no_design_is_without_support_in_any_step(design in arbitrary::design()) {
        judge(&design)?;
    }
}

/// The properties judge something.
#[test]
fn the_starters_are_judged() {
    for design in [demo(), round_on_b(), bored_end_scoop_straight()] {
        assert!(judge(&design).unwrap(), "{}", design.name);
    }
}
