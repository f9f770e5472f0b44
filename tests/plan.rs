//! The plan: its order against rules stated here anew, its steps, and its sentences.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{bored_end_scoop_straight, demo};
use skewline::design::{AxisChoice, AxisName, Cut, Design, Node, Shop, Side};
use skewline::figures::plan::{Plan, PlanError, Rule, Step, StepKind, plan};
use skewline::figures::work_out;
use skewline::form::nodes_of;
use skewline::geometry::{Axis, Vector};
use skewline::piece::Piece;

mod scoops;
mod support;
use support::moved::with_cuts_moved;
use support::{arbitrary, sound_design};

fn planned(design: &Design) -> Result<Plan, PlanError> {
    let shop = Shop::default();
    plan(design, &work_out(design, &shop).unwrap(), &shop)
}

/// A design with a tenon at its head end, turned first.
fn with_tenon(mut design: Design) -> Design {
    let end = design.blank.length_mm;
    let nodes = [Node::line(end - 7.0, 54.0), Node::line(end, 54.0)];
    design.cuts.insert(0, scoops::pass("tenon", AxisName::A, &nodes));
    design
}

fn titles(plan: &Plan) -> Vec<&str> {
    plan.steps.iter().map(|step| step.title.as_str()).collect()
}

#[test]
fn the_steps_of_the_demonstration_scoop() {
    let plan = planned(&demo()).unwrap();
    let expected = [
        "Cut and mark the blank",
        "Rough the corners off",
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
        "Draw the depth line",
        "Turn the hook",
        "Sand the bowl and the hook",
        "Mark axis B",
        "Set the work on axis B",
        "Turn the handle",
        "Sand the handle",
        "Back on axis A",
        "Part down to the nub",
        "Saw the nub through",
        "Take the plug out",
        "Saw the opening",
        "Sand",
        "Wet it and sand again (optional)",
        "Sign it (optional)",
        "Put the finish on",
        "Buff it (optional)",
    ];
    assert_eq!(titles(&plan), expected);
    let told = |step: &Step| {
        let numbers: Vec<String> = step.numbers.iter().map(|n| format!("  {}: {}", n.what, n.value)).collect();
        let until: Vec<String> = step.until.iter().map(|until| format!("  > {until}")).collect();
        let head = format!(
            "{} [{}] ({})\n  {}\n  {}\n  {}",
            step.title, step.name, step.state, step.what, step.held, step.tool
        );
        [vec![head], numbers, until].concat().join("\n")
    };
    insta::assert_snapshot!(plan.steps.iter().map(told).collect::<Vec<_>>().join("\n"));
}

#[test]
fn without_its_plug_the_scoop_is_turned_in_the_chuck_with_its_end_open() {
    let mut design = bored_end_scoop_straight();
    let with = planned(&design).unwrap();
    design.cuts.retain(|cut| !matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug));
    let without = planned(&design).unwrap();
    let plug = [
        "Turn the plug's disc",
        "True the bowl end",
        "Fit the plug's spigot",
        "Back in the chuck",
        "Fit the plug",
        "Take the plug out",
    ];
    let kept: Vec<&str> = titles(&with).into_iter().filter(|title| !plug.contains(title)).collect();
    assert_eq!(titles(&without), kept);
    let bowl = |plan: &Plan| plan.steps.iter().find(|step| step.title == "Turn the bowl").unwrap().clone();
    assert_eq!(bowl(&with).held, "In the chuck by its tenon, the live centre in mark A of the plug.");
    assert_eq!(bowl(&without).held, "In the chuck by its tenon, a cone in the mouth of the bore.");
    assert!(bowl(&without).cautions.len() > bowl(&with).cautions.len());
}

/// A plug that the design leaves in comes out before the bowl is sawn all the same.
#[test]
fn a_plug_is_never_left_in() {
    let mut design = demo();
    design.cuts.retain(|cut| !matches!(cut, Cut::TakeOutPlug));
    let plan = planned(&design).unwrap();
    let at = |title: &str| titles(&plan).iter().position(|t| *t == title).unwrap();
    assert!(at("Turn the handle") < at("Take the plug out") && at("Take the plug out") < at("Saw the opening"));
    assert_eq!(plan.steps[at("Take the plug out")].cut, None);
    let piece = Piece::resolve(&design, &design.limits.over(&Shop::default().limits)).unwrap();
    let solid = plan.in_order(&piece.solid);
    assert!(solid.state(plan.steps[at("Turn the handle")].state).plug.is_some());
    assert!(solid.state(plan.steps[at("Take the plug out")].state).plug.is_none());
}

#[test]
fn a_bore_added_last_is_made_before_the_handle_and_before_its_plug() {
    let mut design = demo();
    let bore = design.cuts.iter().position(|cut| matches!(cut, Cut::Hollow(_))).unwrap();
    let cut = design.cuts.remove(bore);
    design.cuts.push(cut);
    // The plug comes out before it in the list, so it has nothing to stand in.
    assert!(matches!(planned(&design), Err(PlanError::Circle { .. } | PlanError::PlugWithoutBore { .. })));
    // Without any plug nothing carries the handle over the open bore.
    let mut without = design.clone();
    without.cuts.retain(|cut| !matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug));
    assert!(matches!(planned(&without), Err(PlanError::NothingCarries { .. })));
    let plugs = design.cuts.extract_if(.., |cut| matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug)).collect::<Vec<_>>();
    design.cuts.extend(plugs);
    let plan = planned(&design).unwrap();
    let kinds: Vec<StepKind> = plan.steps.iter().map(|step| step.kind).collect();
    let bored = kinds.iter().position(|kind| *kind == StepKind::Bore).unwrap();
    let sawn = kinds.iter().position(|kind| *kind == StepKind::Saw).unwrap();
    let handle = plan.steps.iter().position(|step| step.title == "Turn the handle").unwrap();
    let fitted = kinds.iter().position(|kind| *kind == StepKind::FitPlug).unwrap();
    assert!(bored < fitted && fitted < handle && handle < sawn);
}

#[test]
fn what_cannot_be_ordered_says_why() {
    // The handle comes to nothing, and a hook is turned after it.
    let mut design = demo();
    let handle = design.cuts.iter_mut().find_map(|cut| match cut {
        Cut::Pass(pass) if pass.name == "bowl" => Some(pass),
        _ => None,
    });
    let bowl = handle.unwrap();
    (bowl.from_mm, bowl.to_mm) = (0.0, 80.0);
    let nodes = vec![Node::line(0.0, 50.0), Node::line(79.0, 0.0), Node::line(80.0, 0.0)];
    bowl.profile = skewline::design::PassProfile::Drawn { nodes };
    let error = planned(&design).unwrap_err();
    let expected = "The cuts cannot be put in order: the bowl pass has to come before the hook pass, because \
                    each pass leaves what the next one of the design needs; and the hook pass has to come before \
                    the bowl pass, because nothing would hold the work any more. Change or move one of them.";
    assert_eq!(error.to_string(), expected);
    // A plug in an end that is not bored.
    let mut design = demo();
    design.cuts.retain(|cut| !matches!(cut, Cut::Hollow(_)));
    let expected = "The plug has no bore to go into: bore the end before it, or leave the plug out.";
    assert_eq!(planned(&design).unwrap_err().to_string(), expected);
    // A second bore after the handle was turned on the plug.
    let mut design = demo();
    let bore = design.cuts.iter().find(|cut| matches!(cut, Cut::Hollow(_))).unwrap().clone();
    design.cuts.push(bore);
    let error = planned(&design).unwrap_err();
    let PlanError::Circle { links, sentence } = error else { panic!("{error}") };
    let rules: Vec<Rule> = links.iter().map(|link| link.rule).collect();
    assert_eq!(rules, [Rule::PlugCarries, Rule::PlugOutFirst, Rule::BoredWhileStout], "{sentence}");
}

#[test]
fn numbers_are_the_figures_own() {
    let (design, shop) = (demo(), Shop::default());
    let worked = work_out(&design, &shop).unwrap();
    let plan = plan(&design, &worked, &shop).unwrap();
    let step = |title: &str| -> &Step { plan.steps.iter().find(|step| step.title == title).unwrap() };
    let number = |title: &str, what: &str| {
        let found = step(title).numbers.iter().find(|n| n.what == what);
        found.unwrap_or_else(|| panic!("{what}: {:?}", step(title).numbers)).mm.unwrap()
    };
    let b = &worked.figures.marks[1];
    assert_eq!(number("Mark axis B", "B on the head end, up"), b.head.seen_up_mm);
    assert_eq!(number("Mark axis B", "B on the plug, down"), -b.tail.seen_up_mm);
    let boring = &worked.figures.borings[0];
    let depths: Vec<f64> = step("Bore the hollow").numbers.iter().filter_map(|n| n.mm).collect();
    assert_eq!(depths, boring.steps.iter().map(|s| s.depth_mm).collect::<Vec<_>>());
    assert_eq!(number("Draw the depth line", "line from the bowl end"), 48.0);
    let drawn = design.cuts.iter().find_map(|cut| match cut {
        Cut::Pass(pass) if pass.name == "bowl" => nodes_of(cut),
        _ => None,
    });
    let drawn: Vec<f64> = drawn.unwrap().iter().map(|node| node.diameter_mm).collect();
    let turned: Vec<f64> = step("Turn the bowl").numbers.iter().filter_map(|n| n.mm).collect();
    assert_eq!(turned, drawn);
    assert!(
        step("Turn the bowl").until.iter().any(|until| until.starts_with("Caliper ")),
        "{:?}",
        step("Turn the bowl")
    );
}

/// What has to come before what, stated from the design's cuts alone: the same promises as the program's, made anew.
fn must_precede(design: &Design, piece: &Piece, first: usize, then: usize) -> bool {
    let cuts = &design.cuts;
    let along =
        |axis: AxisName| axis == AxisName::A || !matches!(design.axes[axis.index() - 1], AxisChoice::Across { .. });
    // A hollow at more than 45 degrees to axis A is made across the grain, however its axis is given.
    let bored = |axis: AxisName| piece.axis(axis).is_some_and(Axis::is_lengthwise);
    let plug_in = |at: usize| {
        let before = cuts[..at].iter().rev().find(|c| matches!(c, Cut::FitPlug(_) | Cut::TakeOutPlug));
        matches!(before, Some(Cut::FitPlug(_)))
    };
    let next_out =
        |fit: usize| cuts.iter().skip(fit).position(|c| matches!(c, Cut::TakeOutPlug)).map_or(cuts.len(), |i| fit + i);
    match (cuts.get(first), cuts.get(then)) {
        // No turning or boring along the blank once an end is parted off or the bowl is open.
        (Some(Cut::Pass(_)), Some(Cut::Part(_) | Cut::Saw(_))) => true,
        (Some(Cut::Part(_)), Some(Cut::Saw(_))) => true,
        (Some(Cut::Hollow(h)), Some(Cut::Saw(_))) => bored(h.axis),
        (Some(Cut::Hollow(h)), Some(Cut::Part(p))) => bored(h.axis) && p.removes == Side::Head,
        // The inside before the plug, unless the design bores after that plug is out.
        (Some(Cut::Hollow(h)), Some(Cut::FitPlug(_))) => bored(h.axis) && first < next_out(then),
        // The plug out before sawing.
        (Some(Cut::TakeOutPlug), Some(Cut::Saw(_))) => true,
        (Some(Cut::TakeOutPlug), Some(Cut::Hollow(h))) => bored(h.axis) && first < then,
        // What is turned while a plug is in stays so.
        (Some(Cut::FitPlug(_)), Some(Cut::Pass(p))) => {
            along(p.axis) && !tenon_like(design, p) && plug_in(then) && first < then && then < next_out(first)
        }
        (Some(Cut::Pass(p)), Some(Cut::TakeOutPlug)) => along(p.axis) && plug_in(first) && next_out(first) == then,
        // Bored before another axis thins the neck.
        (Some(Cut::Hollow(h)), Some(Cut::Pass(p))) => {
            bored(h.axis) && along(p.axis) && p.axis != h.axis && !tenon_like(design, p)
        }
        (Some(Cut::FitPlug(_)), Some(Cut::TakeOutPlug)) | (Some(Cut::TakeOutPlug), Some(Cut::FitPlug(_))) => {
            first < then
        }
        // Passes in the design's own order, but for a tenon at the head end.
        (Some(Cut::Pass(p)), Some(Cut::Pass(q))) => first < then && !tenon_like(design, p) && !tenon_like(design, q),
        _ => false,
    }
}

fn tenon_like(design: &Design, pass: &skewline::design::Pass) -> bool {
    pass.axis == AxisName::A && pass.to_mm >= design.blank.length_mm - 1.0
}

fn judge(design: &Design) -> Result<bool, TestCaseError> {
    let shop = Shop::default();
    let worked = work_out(design, &shop).map_err(|error| TestCaseError::fail(error.to_string()))?;
    let plan = match plan(design, &worked, &shop) {
        Ok(plan) => plan,
        Err(error) => {
            refused_with_reason(design, &error)?;
            return Ok(false);
        }
    };
    let mut sorted = plan.order.clone();
    sorted.sort_unstable();
    let with_plug_out = sorted.len() > design.cuts.len();
    prop_assert_eq!(sorted, (0..design.cuts.len() + usize::from(with_plug_out)).collect::<Vec<_>>());
    for (at, then) in plan.order.iter().enumerate() {
        for later in &plan.order[at + 1..] {
            prop_assert!(
                !must_precede(design, &worked.piece, *later, *then),
                "cut {} is made before cut {}",
                then,
                later
            );
        }
    }
    steps_hold(design, &plan)?;
    same_wood(&worked.piece, &plan)?;
    Ok(true)
}

/// Every link of a circle is one that is promised here too, or one about a tenon or a pass that comes to nothing.
fn refused_with_reason(design: &Design, error: &PlanError) -> Result<(), TestCaseError> {
    let sentence = error.to_string();
    prop_assert!(sentence.ends_with('.'), "{}", sentence);
    let piece = Piece::resolve_drawn(design).unwrap();
    match error {
        PlanError::Circle { links, .. } => {
            prop_assert!(links.len() >= 2);
            for (i, link) in links.iter().enumerate() {
                prop_assert_eq!(link.then, links[(i + 1) % links.len()].first);
                let of_geometry =
                    !matches!(link.rule, Rule::BoredWhileStout | Rule::InsideBeforePlug | Rule::PlugsInTurn);
                prop_assert!(of_geometry || must_precede(design, &piece, link.first, link.then), "{:?}", link);
            }
        }
        PlanError::NothingCarries { lack, .. } => prop_assert!(lack.cut < design.cuts.len()),
        PlanError::PlugWithoutBore { cut } => {
            let along = |h: &skewline::design::Hollow| piece.axis(h.axis).is_some_and(Axis::is_lengthwise);
            let bored = design.cuts[..*cut].iter().any(|c| matches!(c, Cut::Hollow(h) if along(h)));
            prop_assert!(!bored);
        }
    }
    Ok(())
}

fn steps_hold(design: &Design, plan: &Plan) -> Result<(), TestCaseError> {
    let mut names: Vec<&str> = plan.steps.iter().map(|step| step.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    prop_assert_eq!(names.len(), plan.steps.len());
    let mut state = 0;
    for step in &plan.steps {
        prop_assert!(step.state >= state && step.state <= plan.order.len());
        state = step.state;
        if let Some(cut) = step.cut {
            prop_assert_eq!(plan.order[step.state - 1], cut);
        }
        prop_assert!(step.what.ends_with('.') && step.held.ends_with('.') && !step.tool.is_empty(), "{:?}", step);
        prop_assert!(step.until.iter().all(|until| until.ends_with('.')));
        prop_assert!(step.cautions.iter().all(|caution| caution.ends_with('.')));
        prop_assert!(step.numbers.iter().all(|number| number.mm.is_none_or(f64::is_finite)));
    }
    prop_assert_eq!(state, plan.order.len());
    // Every cut has its step, and the ticks of all steps can be kept.
    for cut in 0..design.cuts.len() {
        prop_assert!(plan.steps.iter().any(|step| step.cut == Some(cut)), "cut {}", cut);
    }
    let ticked = Design { done: plan.steps.iter().map(|step| step.name.clone()).collect(), ..design.clone() };
    prop_assert_eq!(ticked.problems(), vec![]);
    // The inside of every bore is sanded before a plug closes it, and plugs are turned before they are fitted.
    let mut open = false;
    let mut turned = 0;
    for step in &plan.steps {
        match step.kind {
            StepKind::Bore => open = true,
            StepKind::Scrape => open = false,
            StepKind::MakePlug => turned += 1,
            StepKind::FitPlug => prop_assert!(!open && turned > 0),
            _ => {}
        }
    }
    // Nothing is turned before its axis is marked.
    for (at, step) in plan.steps.iter().enumerate() {
        if let Some(Cut::Pass(pass)) = step.cut.and_then(|cut| design.cuts.get(cut)) {
            let mark = format!("Mark axis {}", pass.axis);
            prop_assert!(pass.axis == AxisName::A || plan.steps[..at].iter().any(|s| s.title == mark));
        }
    }
    Ok(())
}

/// The cuts in the plan's order make the same piece.
fn same_wood(piece: &Piece, plan: &Plan) -> Result<(), TestCaseError> {
    let solid = plan.in_order(&piece.solid);
    let (made, designed) = (solid.finished(), piece.solid.finished());
    for i in 0..60 {
        let at = f64::from(i);
        let point = Vector::new(30.0 * (at * 0.7).sin(), 30.0 * (at * 1.3).cos(), at * piece.head_face / 60.0);
        prop_assert_eq!(made.contains(point), designed.contains(point));
    }
    prop_assert!(solid.removals.windows(2).all(|pair| pair[0].cut < pair[1].cut));
    Ok(())
}

fn shuffled() -> impl Strategy<Value = Design> {
    let scoops = vec![
        demo(),
        bored_end_scoop_straight(),
        scoops::angled_scoop(),
        with_tenon(scoops::angled_scoop()),
        scoops::three_axes(),
        sound_design(),
    ];
    with_cuts_moved(prop::sample::select(scoops), 2)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn every_rule_holds_for_any_design(design in arbitrary::design()) {
        judge(&design)?;
    }

    #[test]
    fn every_rule_holds_for_scoops_whose_cuts_are_moved(design in shuffled()) {
        judge(&design)?;
    }
}

/// Most scoops whose cuts are moved about can still be made: the rules refuse only what they must.
#[test]
fn the_starters_are_planned_in_their_own_order() {
    // The plug comes out last of all that is done at the lathe.
    let mut angled = with_tenon(scoops::angled_scoop());
    let out = angled.cuts.iter().position(|cut| matches!(cut, Cut::TakeOutPlug)).unwrap();
    angled.cuts.swap(out, out + 1);
    for design in [demo(), bored_end_scoop_straight(), angled, scoops::three_axes()] {
        assert!(judge(&design).unwrap(), "{}", design.name);
        assert_eq!(planned(&design).unwrap().order, (0..design.cuts.len()).collect::<Vec<_>>(), "{}", design.name);
    }
}
