//! One name, one number, one verdict: what drawings, headline, log and calipers say of the figures.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{bored_end_scoop_straight, demo};
use skewline::design::units::marks_explained;
use skewline::design::{
    AxisChoice, AxisName, Cut, Design, Hollow, HollowShape, LengthUnit, MeasuredWhat, Node, Rounding, Shop,
};
use skewline::drawings::bar::Grade;
use skewline::drawings::scene::SideScene;
use skewline::drawings::templates::{SheetLine, bench_sheet};
use skewline::figures::checks::{CheckName, Verdict, Words};
use skewline::figures::leave::Because;
use skewline::figures::plan::plan;
use skewline::figures::support::{Work, works};
use skewline::figures::to_measure::to_measure;
use skewline::figures::{Worked, shape, work_out};
use skewline::form::{Group, group_of_cut};

mod scoops;
mod support;
use support::{arbitrary, sound_design};

fn inches() -> Shop {
    Shop { length_unit: LengthUnit::Inches, rounding: Rounding::ThirtySeconds, ..Shop::default() }
}

/// The bar on the drawing is graded as the check of the same wall is judged.
fn one_verdict(design: &Design, worked: &Worked, shop: &Shop) -> Result<(), TestCaseError> {
    let shape = shape(design, shop).unwrap();
    let scene = SideScene::of(design, &shape, shop);
    let words = shape.wall_in_words(Words::of(shop));
    prop_assert!(words.iter().all(|it| !it.starts_with('-')), "{:?}", words);
    let Some(bar) = scene.thin_wall else { return Ok(()) };
    let check = worked.checks.iter().find(|it| it.name == CheckName::Wall && it.value == Some(bar.thickness_mm));
    let verdict = check.unwrap().verdict;
    let grade = match verdict {
        Verdict::Ok => Grade::Good,
        Verdict::Tight => Grade::Tight,
        Verdict::Stop => Grade::Stop,
    };
    prop_assert_eq!(bar.grade, grade);
    let sheet = bench_sheet(design, worked, shop, &plan(design, worked, shop));
    let piece = sheet.sections.iter().find(|section| section.heading == "The piece").unwrap();
    let negative = |line: &SheetLine| matches!(line, SheetLine::Value(_, value) if value.starts_with('-'));
    prop_assert!(!piece.lines.iter().any(negative), "{:?}", piece.lines);
    if bar.thickness_mm < 0.0 {
        prop_assert!(words.unwrap().starts_with("broken through, "));
    }
    Ok(())
}

/// A diameter that the log asks for can be measured: two opposite places of the circle are on the finished piece.
fn log_can_be_measured(design: &Design, worked: &Worked, unit: LengthUnit) -> Result<(), TestCaseError> {
    let finished = worked.piece.solid.finished();
    for line in to_measure(design, worked, unit).iter().filter(|line| line.what == MeasuredWhat::Diameter) {
        let axis = worked.piece.axis(line.axis).unwrap();
        let on_surface = |degrees: u32| {
            let wood = |off: f64| {
                finished.contains(axis.point(line.at_mm, line.planned_mm / 2.0 + off, f64::from(degrees).to_radians()))
            };
            wood(-0.06) && !wood(0.06)
        };
        let pair = (0..180).any(|degrees| on_surface(degrees) && on_surface(degrees + 180));
        prop_assert!(pair, "{:?}", line);
    }
    Ok(())
}

/// In inches calipers stand at half inches, and each is what the step asks for.
fn calipers_are_round(worked: &Worked) -> Result<(), TestCaseError> {
    for join in &worked.figures.joins {
        let round = join.caliper.iter().filter(|it| it.is_round(LengthUnit::Inches));
        for it in round.clone() {
            let halves = it.at_mm / 12.7;
            prop_assert!((halves - halves.round()).abs() < 1e-6);
        }
        if let (Some(first), Some(last)) = (join.caliper.first(), join.caliper.last()) {
            let expected = (last.at_mm / 12.7).floor() - (first.at_mm / 12.7).ceil();
            prop_assert!(round.count() as f64 >= expected, "{:?}", join.caliper);
        }
    }
    Ok(())
}

fn judge(design: &Design) -> Result<(), TestCaseError> {
    for shop in [Shop::default(), inches()] {
        let worked = work_out(design, &shop).map_err(|error| TestCaseError::fail(error.to_string()))?;
        one_verdict(design, &worked, &shop)?;
        log_can_be_measured(design, &worked, shop.length_unit)?;
        if shop.length_unit == LengthUnit::Inches {
            calipers_are_round(&worked)?;
        }
    }
    Ok(())
}

#[test]
fn the_starters_agree_with_themselves() {
    for design in [demo(), bored_end_scoop_straight(), scoops::angled_scoop(), scoops::three_axes(), sound_design()] {
        judge(&design).unwrap();
    }
}

/// A wall between the limit and a tenth over it was amber on the drawing while its check said ok.
/// A hollow leans from the blank: from 45 degrees on the plan hollows it across, and its floor lies straight on.
#[test]
fn the_plan_and_the_floor_agree_on_what_goes_across() {
    for tilt_deg in [0.0, 30.0, 44.0, 46.0, 55.0, 60.0] {
        let mut design = scoops::angled_scoop();
        design.axes.push(AxisChoice::Tilt { tilt_deg, toward_deg: 180.0, crossing_mm: 20.0 });
        let shape = HollowShape::RoundEnded { diameter_mm: 18.0, depth_mm: 40.0, rounding_mm: 3.0 };
        let axis = AxisName::from_index(design.axes.len()).unwrap();
        design.cuts = vec![Cut::Hollow(Hollow { axis, mouth_mm: -15.0, shape })];
        assert_eq!(design.problems(), []);
        let worked = work_out(&design, &Shop::default()).unwrap();
        let is_across = works(&design, &worked.piece)[0] == Work::Across;
        let floor = worked.figures.walls[0].floor.as_ref().unwrap();
        assert_eq!((is_across, floor.straight_on), (tilt_deg > 45.0, tilt_deg > 45.0), "{tilt_deg} degrees");
    }
}

/// A handle that is turned to the head face without a tenon is no tenon: neither on screen nor at the lathe.
#[test]
fn the_form_and_the_plan_agree_on_the_tenon() {
    let mut design = scoops::angled_scoop();
    let length_mm = design.blank.length_mm;
    let nodes = [Node::line(length_mm / 2.0 + 10.0, 24.0), Node::line(length_mm, 24.0)];
    design.cuts.truncate(1);
    design.cuts.push(scoops::pass("handle", AxisName::A, &nodes));
    for (name, is_tenon) in [("handle", false), (" Tenon", true)] {
        if let Some(Cut::Pass(pass)) = design.cuts.last_mut() {
            pass.name = name.to_owned();
        }
        let piece = work_out(&design, &Shop::default()).unwrap().piece;
        assert_eq!(works(&design, &piece)[1] == Work::Tenon, is_tenon, "{name}");
        assert_eq!(group_of_cut(&design, 1) == Some(Group::Outside), is_tenon, "{name}");
    }
}

#[test]
fn a_wall_a_little_over_its_limit_is_no_warning() {
    for (mm, verdict) in [(3.1, Verdict::Ok), (3.0, Verdict::Ok), (2.5, Verdict::Tight), (1.4, Verdict::Stop)] {
        assert_eq!(Verdict::of_thickness(mm, 3.0), verdict, "{mm}");
    }
    assert_eq!(Grade::of_thickness(3.1, 3.0), Grade::Good);
    assert_eq!(Grade::of_thickness(f64::NAN, 3.0), Grade::Stop);
}

#[test]
fn steps_in_inches_ask_for_round_stations() {
    let shop = inches();
    let design = demo();
    let worked = work_out(&design, &shop).unwrap();
    let plan = plan(&design, &worked, &shop).unwrap();
    let bowl = plan.steps.iter().find(|step| step.title == "Turn the bowl").unwrap();
    let asked: Vec<&String> = bowl.until.iter().filter(|it| it.starts_with("Caliper")).collect();
    assert!(!asked.is_empty());
    let needed = worked.figures.joins.iter().flat_map(|join| &join.caliper).filter(|it| it.because != Because::Nothing);
    let words = Words::of(&shop);
    let round: Vec<String> =
        needed.filter(|it| it.is_round(shop.length_unit)).map(|it| words.length(it.at_mm)).collect();
    for line in asked {
        assert!(round.iter().any(|at| line.contains(&format!(" at {at} "))), "{line}: {round:?}");
        assert!(!line.split(" at ").nth(1).unwrap().split(" in").next().unwrap().ends_with(['+', '-']), "{line}");
    }
}

#[test]
fn the_marks_after_a_fraction_are_explained() {
    let said = marks_explained(LengthUnit::Inches, Rounding::ThirtySeconds).unwrap();
    assert!(said.contains("1/32 in") && said.contains("1/128 to 1/64"), "{said}");
    assert_eq!(marks_explained(LengthUnit::Inches, Rounding::Decimal), None);
    assert_eq!(marks_explained(LengthUnit::Millimetres, Rounding::ThirtySeconds), None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn any_design_agrees_with_itself(design in arbitrary::design()) {
        judge(&design)?;
    }
}
