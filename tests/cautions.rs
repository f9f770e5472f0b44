//! Cautions of the steps, each where it is due; what is sanded when; what the lathe is set by.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{bored_end_scoop_straight, demo};
use skewline::design::{AxisName, Cut, Design, OwnSpecies, Shop};
use skewline::figures::checks::{CheckName, Words};
use skewline::figures::plan::{Plan, Step, StepKind, cautions, plan};
use skewline::figures::tables::Species;
use skewline::figures::{Worked, work_out};

mod scoops;
mod support;
use support::{arbitrary, sound_design};

fn planned(design: &Design, shop: &Shop) -> (Worked, Plan) {
    let worked = work_out(design, shop).unwrap();
    let plan = plan(design, &worked, shop).unwrap();
    (worked, plan)
}

fn has(step: &Step, caution: &str) -> bool {
    step.cautions.iter().any(|it| it == caution)
}

/// The notes of tests/reference/species.csv name what each wood is reported to do; every dusty step carries it.
#[test]
fn dusty_steps_carry_what_the_table_notes_of_the_wood() {
    let said = |species: &str| {
        let mut design = demo();
        design.wood.species = species.to_owned();
        let (_, plan) = planned(&design, &Shop::default());
        let dusty: Vec<Step> = plan.steps.into_iter().filter(|step| cautions::is_dusty(step.kind)).collect();
        assert!(dusty.len() >= 5, "{species}");
        let first = dusty[0].cautions.clone();
        let of_the_wood: Vec<String> = first.into_iter().filter(|it| it.starts_with(species)).collect();
        for step in &dusty {
            assert!(of_the_wood.iter().all(|it| step.cautions.contains(it)), "{}", step.title);
        }
        of_the_wood.join(" ")
    };
    assert!(said("Western redcedar").contains("asthma"));
    assert!(
        said("Black walnut").contains("irritate skin and airways") && said("Black walnut").contains("A2: suspected")
    );
    assert!(said("White oak").contains("A1: shown to cause cancer"));
    assert!(said("Teak").contains("sensitiser"));
    assert!(said("Olive").contains("sensitiser"));
    assert_eq!(said("Red alder"), "");
    // Every wood whose note speaks of dust says so in its steps.
    for wood in Species::all().filter(|wood| wood.notes.to_lowercase().contains("dust")) {
        assert!(!said(wood.name).is_empty(), "{}", wood.name);
    }
    // A wood of the turner's own says what its note says, and what the table says of its namesake.
    let mut shop = Shop::default();
    let own = |name: &str, note: &str| OwnSpecies {
        name: name.to_owned(),
        density_kg_m3: 600.0,
        note: note.to_owned(),
        ..OwnSpecies::default()
    };
    shop.own_species = vec![own("Western redcedar", "From the yard."), own("Wenge", "Splinters. Its dust is nasty.")];
    for (name, expected) in
        [("Western redcedar", "asthma"), ("Wenge", "Its dust is nasty"), ("Common yew", "poisonous")]
    {
        let mut design = demo();
        design.wood.species = name.to_owned();
        let (_, plan) = planned(&design, &shop);
        let sand = plan.steps.iter().find(|step| step.kind == StepKind::Sand).unwrap();
        assert!(sand.cautions.iter().any(|it| it.contains(expected)), "{name}: {:?}", sand.cautions);
    }
}

#[test]
fn each_caution_stands_where_it_is_due() {
    let (_, plan) = planned(&demo(), &Shop::default());
    let step = |kind: StepKind| plan.steps.iter().find(|step| step.kind == kind).unwrap();
    assert!(step(StepKind::Bore).cautions.iter().any(|it| it.contains("out of its taper")));
    for kind in [StepKind::Scrape, StepKind::SandTurned, StepKind::Part] {
        assert!(has(step(kind), cautions::REST_AWAY), "{kind:?}");
    }
    assert!(has(step(StepKind::Scrape), cautions::OPEN_RIM));
    assert!(has(step(StepKind::Rough), cautions::GRIP));
    assert!(step(StepKind::Saw).cautions.iter().any(|it| it.contains("flat carrier")));
    assert!(step(StepKind::Finish).cautions.iter().any(|it| it.contains("Rags")));
    // The plug's own step speaks of the plug's out only where there is one.
    let out = |plan: &Plan| plan.steps.iter().any(|step| step.until.iter().any(|it| it == "The plug is out."));
    assert!(out(&plan));
    let mut without = bored_end_scoop_straight();
    without.cuts.retain(|cut| !matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug));
    assert!(!out(&planned(&without, &Shop::default()).1));
}

#[test]
fn grits_are_the_shops_in_its_order() {
    let shop = Shop { grits: vec![80, 150, 400], ..Shop::default() };
    let (_, plan) = planned(&demo(), &shop);
    let sanded: Vec<&Step> =
        plan.steps.iter().filter(|step| step.numbers.iter().any(|it| it.what == "grits")).collect();
    assert_eq!(sanded.len(), 4);
    for step in sanded {
        assert!(step.numbers.iter().any(|it| it.value == "80, 150, 400"), "{}", step.title);
    }
    let raised = plan.steps.iter().find(|step| step.kind == StepKind::RaiseGrain).unwrap();
    assert_eq!(raised.numbers[0].value, "400");
}

/// Wet wood has its ends sealed; dry wood needs no such step.
#[test]
fn ends_of_wet_wood_are_sealed() {
    let sealed = |moisture_percent: f64| {
        let mut design = demo();
        design.wood.moisture_percent = moisture_percent;
        planned(&design, &Shop::default()).1.steps.iter().any(|step| step.kind == StepKind::Seal)
    };
    assert!(sealed(30.0) && !sealed(8.0));
}

/// One name, one number: the swing that a step gives is the check's, and so is its floor.
fn numbers_agree(design: &Design, worked: &Worked, plan: &Plan, shop: &Shop) -> Result<(), TestCaseError> {
    let words = Words::of(shop);
    let check = |name: CheckName| worked.checks.iter().find(|check| check.name == name);
    for step in &plan.steps {
        let Some(turning) = worked.figures.turning.iter().find(|it| Some(it.cut) == step.cut) else { continue };
        let number = |what: &str| step.setting.iter().find(|it| it.what == what).map(|it| it.mm.unwrap());
        prop_assert_eq!(number("swing over the bed, diameter"), Some(2.0 * turning.swing.radius_mm));
        let over_rest = turning.swing.over_rest_mm.map(|_| 2.0 * turning.swing.radius_at_cut_mm);
        prop_assert_eq!(number("swing over the rest, diameter"), over_rest);
    }
    if let Some(swing) = check(CheckName::Swing)
        && let Some(value) = swing.value
    {
        let said = words.length(value);
        let named = plan.steps.iter().flat_map(|step| &step.setting).filter(|it| it.what.starts_with("swing over"));
        prop_assert!(named.into_iter().any(|it| it.value == said), "{} is in no step", said);
    }
    for step in plan.steps.iter().filter(|step| step.kind == StepKind::DepthLine) {
        let floors = || worked.figures.walls.iter().filter_map(|wall| wall.floor);
        let least = floors().map(|floor| floor.least.wall_mm).reduce(f64::min);
        let told =
            step.numbers.iter().find(|it| it.what == "thinnest floor of the finished piece").and_then(|it| it.mm);
        prop_assert_eq!(told, least.filter(|mm| *mm > 0.0));
    }
    prop_assert!(design.cuts.len() >= plan.steps.iter().filter(|step| step.cut.is_some()).count());
    Ok(())
}

fn judge(design: &Design, shop: &Shop) -> Result<(), TestCaseError> {
    let worked = work_out(design, shop).map_err(|error| TestCaseError::fail(error.to_string()))?;
    let Ok(plan) = plan(design, &worked, shop) else { return Ok(()) };
    let mut moved = false;
    for step in &plan.steps {
        let axis = step.cut.and_then(|cut| match &design.cuts[cut] {
            Cut::Pass(pass) => Some(pass.axis),
            Cut::Hollow(hollow) => Some(hollow.axis),
            Cut::Face(plane) | Cut::Part(plane) => Some(plane.axis),
            _ => None,
        });
        // Off-centre work in every step on a moved axis, and in every one after it on any.
        let on_moved = axis.or(step.axis).is_some_and(|axis| axis != AxisName::A);
        if !step.speeds.is_empty() && step.kind != StepKind::MakePlug && (on_moved || (moved && step.axis.is_some())) {
            prop_assert!(has(step, cautions::OFF_CENTRE), "{}: {:?}", step.title, step.axis);
        }
        moved |= step.kind == StepKind::Turn && on_moved;
        if !step.speeds.is_empty() {
            prop_assert!(has(step, cautions::SPINNING[0]), "{}", step.title);
        }
        if step.kind == StepKind::Remount {
            prop_assert!(step.axis.is_some());
            prop_assert!(has(step, cautions::SPINNING[2]), "{}", step.title);
        }
        if cautions::is_dusty(step.kind) {
            prop_assert!(has(step, cautions::DUST) && worked.figures.wood.dust.iter().all(|it| has(step, it)));
        }
        prop_assert!(step.setting.iter().all(|it| it.mm.is_none_or(f64::is_finite)));
    }
    sanded_before_it_is_changed(design, &plan)?;
    numbers_agree(design, &worked, &plan, shop)
}

/// What is turned on an axis is sanded on it, before the work leaves it.
fn sanded_before_it_is_changed(design: &Design, plan: &Plan) -> Result<(), TestCaseError> {
    let mut unsanded: Option<AxisName> = None;
    for step in &plan.steps {
        match (step.kind, step.cut.map(|cut| &design.cuts[cut])) {
            (StepKind::Turn, Some(Cut::Pass(pass))) => {
                prop_assert!(unsanded.is_none_or(|axis| axis == pass.axis), "{}", step.title);
                unsanded = Some(pass.axis);
            }
            (StepKind::SandTurned, _) => {
                prop_assert_eq!(step.axis, unsanded.take());
            }
            (StepKind::DepthLine | StepKind::Tenon | StepKind::Rough, _) => {}
            _ => prop_assert!(unsanded.is_none(), "{}", step.title),
        }
    }
    prop_assert!(unsanded.is_none());
    Ok(())
}

#[test]
fn cautions_and_numbers_of_the_starters() {
    for design in [demo(), bored_end_scoop_straight(), scoops::angled_scoop(), scoops::three_axes(), sound_design()] {
        judge(&design, &Shop::default()).unwrap();
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn cautions_and_numbers_of_any_design(design in arbitrary::design(), shop in arbitrary::shop()) {
        judge(&design, &shop)?;
    }
}
