//! The speed of every step of a plan, against the tables of `reference/` and over random designs and shops.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{bored_end_scoop_straight, demo};
use skewline::design::{AxisName, BitKind, BlankSection, Cut, Design, Green, Shop};
use skewline::figures::known::Known;
use skewline::figures::plan::{Plan, Step, StepKind, plan};
use skewline::figures::turning::{Operation, OperationSpeed};
use skewline::figures::{Worked, work_out};

mod scoops;
mod support;
use support::arbitrary;
use support::table::Table;

const INCH: f64 = 25.4;

fn planned(design: &Design, shop: &Shop) -> (Worked, Plan) {
    let worked = work_out(design, shop).unwrap();
    let plan = plan(design, &worked, shop).unwrap();
    (worked, plan)
}

/// Whether the work turns under power in a step of this kind.
fn spins(kind: StepKind) -> bool {
    use StepKind::{Bore, DepthLine, Face, MakePlug, Part, Rough, Scrape, Tenon, Turn};
    matches!(kind, Rough | Tenon | MakePlug | Bore | Scrape | Turn | DepthLine | Face | Part)
}

/// The row of tests/reference/boring_speeds.csv for a bit: the first band that is wide enough, else the last.
fn chart_rpm(kind: BitKind, diameter_mm: f64, wood: &str) -> f64 {
    let table = Table::read(include_str!("reference/boring_speeds.csv"));
    let named = |row: &[String]| match kind {
        BitKind::Twist => table.get(row, "bit_type") == "twist drill",
        _ => table.get(row, "bit_type").starts_with("Forstner"),
    };
    let rows: Vec<(f64, f64)> = table
        .rows
        .iter()
        .filter(|row| named(row) && table.get(row, "wood") == wood)
        .map(|row| {
            let number = |head| table.get(row, head).parse::<f64>().unwrap();
            (number("diameter_max_in") * INCH, number("rpm_max"))
        })
        .collect();
    let wide = rows.iter().find(|row| diameter_mm <= row.0 + 0.01);
    wide.or(rows.last()).unwrap().1
}

#[test]
fn a_bore_turns_as_slowly_as_its_bit_asks() {
    let shop = Shop::default();
    let (worked, plan) = planned(&demo(), &shop);
    let step = plan.steps.iter().find(|step| step.kind == StepKind::Bore).unwrap();
    assert_eq!(step.speeds.len(), worked.figures.borings[0].steps.len());
    for (speed, bit) in step.speeds.iter().zip(&worked.figures.borings[0].steps) {
        assert_eq!(speed.operation, Operation::Boring);
        let range = speed.range.value().unwrap();
        // Black cherry is a hardwood.
        assert!(range.to_rpm <= chart_rpm(bit.kind, bit.diameter_mm, "hardwood"), "{speed:?}");
    }
    assert_eq!(step.speeds[0].what, "bit of 41.3 mm");
    assert_eq!(step.speeds[0].words(), "250 rpm, the lathe's lowest");
    assert_eq!(step.speed.unwrap().to_rpm, 250.0);
    // A lathe that cannot go so slowly says so; nothing else stands in the way.
    let mut fast = shop.clone();
    fast.lathe.lowest_rpm = 400.0;
    let (_, plan) = planned(&demo(), &fast);
    let step = plan.steps.iter().find(|step| step.kind == StepKind::Bore).unwrap();
    let why = step.speeds[0].range.why_not().unwrap();
    assert!(why.contains("too fast for a bit of 41.3 mm"), "{why}");
    assert_eq!(step.speed, None);
}

/// tests/reference/lathe_speed.csv: 6000 inches times rpm for roughing, and the guide's row for rounding; D is the diagonal.
#[test]
fn a_square_is_roughed_by_its_diagonal() {
    let shop = Shop::default();
    for side in [40.0, 68.0, 120.0] {
        let mut design = demo();
        design.blank.section = BlankSection::Square { side_mm: side };
        let Ok(worked) = work_out(&design, &shop) else { continue };
        let plan = plan(&design, &worked, &shop).unwrap();
        let rough = plan.steps.iter().find(|step| step.kind == StepKind::Rough).unwrap();
        let most = rough.speed.unwrap().to_rpm;
        assert!(most <= 6000.0 * INCH / (side * std::f64::consts::SQRT_2) + 1e-9, "{side}: {most}");
    }
}

#[test]
fn each_operation_has_its_own_speed() {
    let (_, plan) = planned(&bored_end_scoop_straight(), &Shop::default());
    let bowl = plan.steps.iter().find(|step| step.title == "Turn the bowl").unwrap();
    let most = |operation| {
        let speed = bowl.speeds.iter().find(|it| it.operation == operation).unwrap();
        speed.range.value().unwrap().to_rpm
    };
    assert!(most(Operation::Shaping) < most(Operation::Finishing));
    let operations = |step: &Step| step.speeds.iter().map(|it| it.operation).collect::<Vec<_>>();
    let scrape = plan.steps.iter().find(|step| step.kind == StepKind::Scrape).unwrap();
    assert_eq!(operations(scrape), [Operation::Shaping, Operation::Sanding]);
    let part = plan.steps.iter().find(|step| step.kind == StepKind::Part).unwrap();
    assert!(operations(part).contains(&Operation::Parting));
}

/// Work that is roughed out green spins too: the corners of its blank set the speed.
#[test]
fn roughing_out_green_wood_has_a_speed() {
    let mut design = bored_end_scoop_straight();
    design.wood.green = Green::RoughFirst;
    let (_, plan) = planned(&design, &Shop::default());
    let step = plan.steps.iter().find(|step| step.name == "rough and dry").unwrap();
    let BlankSection::Square { side_mm } = design.blank.section else { panic!("a square blank") };
    let most = step.speeds.iter().find(|it| it.operation == Operation::Roughing).unwrap().range.value().unwrap().to_rpm;
    assert!(most <= 6000.0 * INCH / (side_mm * std::f64::consts::SQRT_2) + 1e-9, "{most}");
    let full_face = step.cautions.iter().filter(|caution| caution.contains("face shield")).count();
    assert_eq!(full_face, 1, "each caution once");
}

fn judge(design: &Design, shop: &Shop) -> Result<(), TestCaseError> {
    let worked = work_out(design, shop).map_err(|error| TestCaseError::fail(error.to_string()))?;
    let Ok(plan) = plan(design, &worked, shop) else { return Ok(()) };
    for step in &plan.steps {
        prop_assert!(!spins(step.kind) || !step.speeds.is_empty(), "{}: no speed and no reason", step.title);
        for speed in &step.speeds {
            match &speed.range {
                Known::Value(range) => {
                    prop_assert_eq!(range.from_rpm, shop.lathe.lowest_rpm);
                    prop_assert!(range.from_rpm <= range.to_rpm && range.to_rpm <= shop.lathe.highest_rpm);
                    // "967 to 967" is no range.
                    let words = range.words();
                    let ends = words.trim_end_matches(" rpm").split(" to ").collect::<Vec<_>>();
                    prop_assert!(ends.len() != 2 || ends[0] != ends[1], "{}", words);
                }
                Known::Missing { why_not } => prop_assert!(why_not.ends_with('.'), "{}", why_not),
            }
        }
        let slowest = step.speeds.iter().filter_map(|it| it.range.value()).map(|it| it.to_rpm).reduce(f64::min);
        prop_assert!(step.speed.is_none_or(|speed| Some(speed.to_rpm) == slowest));
        if step.kind == StepKind::Bore && step.speeds.iter().any(|it| it.operation == Operation::Boring) {
            bored(step, &worked, shop)?;
        }
    }
    for turning in &worked.figures.turning {
        let halved = turning.axis != AxisName::A;
        for speed in &turning.speed.operations {
            slow_enough(speed, 2.0 * turning.swing.radius_mm, halved, shop)?;
            if let (Some(range), Some(balance)) = (speed.range.value(), turning.balance.value()) {
                prop_assert!(balance.worst_n(range.to_rpm) <= shop.lathe.force_limit_n * (1.0 + 1e-9));
            }
        }
    }
    for end in &worked.figures.ends {
        for speed in &end.operations {
            slow_enough(speed, end.swing_at_most_mm, end.axis != AxisName::A, shop)?;
        }
    }
    Ok(())
}

/// No boring step's speed is above its table row.
fn bored(step: &Step, worked: &Worked, shop: &Shop) -> Result<(), TestCaseError> {
    let boring = worked.figures.borings.iter().find(|it| Some(it.cut) == step.cut).unwrap();
    let bits = step.speeds.iter().filter(|it| it.operation == Operation::Boring);
    for (speed, bit) in bits.zip(&boring.steps) {
        prop_assert!(shop.bits.iter().any(|own| own.kind == bit.kind && own.diameter_mm == bit.diameter_mm));
        if let Some(range) = speed.range.value() {
            prop_assert!(range.to_rpm <= chart_rpm(bit.kind, bit.diameter_mm, "softwood") + 1e-9, "{:?}", speed);
        }
    }
    Ok(())
}

/// 9000 inches times rpm at most, 6000 for roughing and parting, half of it on a moved axis; never less than the lathe's
/// lowest where the whole allows that.
fn slow_enough(speed: &OperationSpeed, swing_mm: f64, halved: bool, shop: &Shop) -> Result<(), TestCaseError> {
    let inch_rpm = if matches!(speed.operation, Operation::Roughing | Operation::Parting) { 6000.0 } else { 9000.0 };
    let usual = inch_rpm * INCH / swing_mm;
    prop_assert!(speed.usual_rpm <= usual * (1.0 + 1e-9));
    prop_assert!(!halved || speed.off_centre);
    if let Some(range) = speed.range.value() {
        let most = (if halved { usual / 2.0 } else { usual }).max(shop.lathe.lowest_rpm);
        prop_assert!(range.to_rpm <= most * (1.0 + 1e-9), "{:?}", speed);
        prop_assert!(usual >= shop.lathe.lowest_rpm * (1.0 - 1e-9));
    }
    Ok(())
}

/// Facing and parting are no faster than the wood there allows: no wood of a dense sample swings wider than the bound.
fn swing_is_bounded(design: &Design) -> Result<(), TestCaseError> {
    let worked = work_out(design, &Shop::default()).map_err(|error| TestCaseError::fail(error.to_string()))?;
    for end in &worked.figures.ends {
        let axis = worked.piece.axis(end.axis).unwrap();
        let state = worked.piece.solid.state(end.cut);
        let spin = skewline::geometry::Spin::new(state, axis);
        let (from, to) = spin.span();
        for i in 0..=40 {
            let farthest = spin.farthest_at(from + (to - from) * f64::from(i) / 40.0).map_or(0.0, |it| it.radius);
            prop_assert!(2.0 * farthest <= end.swing_at_most_mm + 0.05, "{} {}", 2.0 * farthest, end.swing_at_most_mm);
        }
    }
    Ok(())
}

fn scoop() -> impl Strategy<Value = Design> {
    let scoops = vec![demo(), bored_end_scoop_straight(), scoops::angled_scoop(), scoops::three_axes()];
    (prop::sample::select(scoops), 0.0..12.0_f64, 0.0..8.0_f64).prop_map(|(mut design, bore, disc)| {
        let changed = design.clone();
        for cut in &mut design.cuts {
            match cut {
                Cut::Pass(pass) if pass.axis == AxisName::A => pass.to_mm += bore / 4.0,
                Cut::FitPlug(plug) => plug.disc_diameter_mm += disc,
                _ => {}
            }
        }
        if design.problems().is_empty() { design } else { changed }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn every_spinning_step_has_a_speed_or_says_why_not(design in arbitrary::design(), shop in arbitrary::shop()) {
        judge(&design, &shop)?;
        swing_is_bounded(&design)?;
    }

    #[test]
    fn so_do_scoops(design in scoop(), shop in arbitrary::shop()) {
        judge(&design, &shop)?;
        judge(&design, &Shop::default())?;
        swing_is_bounded(&design)?;
    }
}
