//! The figures of invented pieces against plane geometry.
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use skewline::design::entry::Units;
use skewline::design::{
    AxisChoice, AxisName, BlankSection, Cut, Design, HollowShape, LengthUnit, Node, PassProfile, Rounding, Shop,
};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::{FiguresError, Worked, in_slices, shape, work_out};
use skewline::geometry::MeridianError;
use skewline::piece::PieceError;

mod support;
use support::pieces::{pass, scoop};

fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

fn verdict(worked: &Worked, name: CheckName) -> Verdict {
    worked.checks.iter().find(|c| c.name == name).unwrap().verdict
}

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected} within {tolerance}");
}

/// A screen works them out a slice at a time, the command all at once.
#[test]
fn figures_in_slices_are_those_worked_out_at_once() {
    let (design, shop) = (scoop(), Shop::default());
    let whole = work_out(&design, &shop).unwrap();
    let shape = std::sync::Arc::new(shape(&design, &shop).unwrap());
    let mut work = in_slices(design.clone(), shop.clone(), shape.clone());
    let mut share = 0.0;
    let found = (0..1000).find_map(|_| {
        assert!(work.share_done() >= share, "the share of the work that is done only rises");
        share = work.share_done();
        work.step()
    });
    let found = found.unwrap();
    assert!(share > 0.5, "the work is done bit by bit");
    assert_eq!((&found.design, &found.shop, &found.worked, &found.shape), (&design, &shop, &whole, &shape));
    assert_eq!((&shape.walls, &shape.marks), (&whole.figures.walls, &whole.figures.marks));
}

/// Why there are no figures stands in the unit of the shop, as everything else on the screen.
#[test]
fn a_profile_that_falls_short_is_told_in_the_shops_unit() {
    let source = MeridianError::NotCovered { from: 12.7, to: 254.0 };
    let design = scoop();
    let cut = design.cuts.iter().position(|cut| matches!(cut, Cut::Pass(_))).unwrap();
    let name = design.cut_name(cut);
    let error = FiguresError::from(PieceError::Profile { cut, source });
    let inches = Units { length: LengthUnit::Inches, rounding: Rounding::Decimal };
    assert_eq!(
        error.told(&design, inches),
        format!("the profile of {name} cannot be turned: it does not cover the range from 0.5 to 10 in")
    );
    assert!(error.told(&design, Units::default()).ends_with("from 12.7 to 254 mm"));
    let other = FiguresError::from(PieceError::Blank);
    assert_eq!(other.told(&design, inches), other.to_string());
    let saw = FiguresError::from(PieceError::SawLine { cut });
    assert!(saw.told(&design, inches).starts_with(&format!("the line of {name} needs")));
}

/// mark(face) = (face station - crossing station) tan(tilt), in the direction of tilt; the tail face is seen mirrored.
#[test]
fn marks_follow_from_tilt_and_crossing() {
    let worked = worked(&scoop());
    let b = &worked.figures.marks[1];
    let head = (230.0 - 62.0) * 8.0_f64.to_radians().tan();
    let tail = -62.0 * 8.0_f64.to_radians().tan();
    let (sin, cos) = 30.0_f64.to_radians().sin_cos();
    near(b.head.x_mm, head * sin, 1e-9);
    near(b.head.y_mm, head * cos, 1e-9);
    near(b.tail.x_mm, tail * sin, 1e-9);
    near(b.tail.seen_right_mm, -tail * sin, 1e-9);
    near(b.tail.seen_up_mm, tail * cos, 1e-9);
    near(b.tilt_deg, 8.0, 1e-9);
    near(b.crossing_mm.unwrap(), 62.0, 1e-9);
    // Head mark to the nearest side of a 64 mm square, less the 10 mm footprint.
    near(b.head.margin_mm, 32.0 - head * cos - 10.0, 0.01);
}

/// An axis placed by the marks that a tilt gives is the same axis.
#[test]
fn marks_to_axis_and_back() {
    let by_tilt = worked(&scoop());
    let mark = &by_tilt.figures.marks[1];
    let mut design = scoop();
    design.axes[0] = AxisChoice::Marks {
        tail_x_mm: mark.tail.x_mm,
        tail_y_mm: mark.tail.y_mm,
        head_x_mm: mark.head.x_mm,
        head_y_mm: mark.head.y_mm,
    };
    let by_marks = worked(&design);
    let (a, b) = (by_tilt.piece.axes[1], by_marks.piece.axes[1]);
    near((a.along() - b.along()).length(), 0.0, 1e-12);
    near((a.origin() - b.origin()).length(), 0.0, 1e-9);
}

/// An axis that passes axis A by has no crossing; its nearest approach is |e1 x e2| / |e2 - e1|.
#[test]
fn an_axis_that_passes_by_reports_its_nearest_approach() {
    let mut design = scoop();
    // Offsets 6 and 10 at 120 degrees: the worked example of two marks at different clock directions, L = 230.
    let (sin, cos) = 120.0_f64.to_radians().sin_cos();
    design.axes[0] = AxisChoice::Marks { tail_x_mm: 0.0, tail_y_mm: 6.0, head_x_mm: 10.0 * sin, head_y_mm: 10.0 * cos };
    let mark = &worked(&design).figures.marks[1];
    assert_eq!(mark.crossing_mm, None);
    near(mark.nearest_approach_mm, 3.711537445, 1e-8);
    near(mark.nearest_station_mm.unwrap(), 230.0 * 84.18367347 / 250.0, 1e-6);
    near(mark.tilt_deg, (14.0_f64 / 230.0).atan().to_degrees(), 1e-9);
}

/// Drawing the outside 1 mm tighter than the join is found, and placed, by that much.
#[test]
fn turning_less_than_the_join_is_missing_wood() {
    let loose = worked(&scoop());
    let join = &loose.figures.joins[0];
    assert!(join.least_spare.unwrap().radius_mm >= -0.02);
    let mut design = scoop();
    let nodes = join.tapers.iter().map(|t| Node::line(t.at_mm, t.diameter_mm - 4.0)).collect();
    design.cuts[1] = pass("bowl", AxisName::A, 0.0, 66.0, PassProfile::Drawn { nodes });
    let tight = worked(&design);
    let spare = tight.figures.joins[0].least_spare.unwrap();
    near(spare.radius_mm, join.least_spare.unwrap().radius_mm - 2.0, 0.02);
    assert_ne!(verdict(&tight, CheckName::Join), Verdict::Ok);
}

/// A round of radius r on axis A in a square of half side h < r leaves four flats 2 sqrt(r^2 - h^2) wide.
#[test]
fn flats_of_a_round_in_a_small_square() {
    let mut design = scoop();
    design.blank.section = BlankSection::Square { side_mm: 40.0 };
    design.axes.clear();
    let nodes = vec![Node::line(0.0, 47.0), Node::line(80.0, 47.0)];
    design.cuts = vec![pass("rounding", AxisName::A, 0.0, 80.0, PassProfile::Drawn { nodes })];
    let worked = worked(&design);
    let clean_up = &worked.figures.clean_ups[0];
    let flat = clean_up.flat.unwrap();
    near(flat.width_mm, 2.0 * (23.5_f64.powi(2) - 20.0_f64.powi(2)).sqrt(), 0.02);
    near(flat.depth_mm, 3.5, 0.02);
    near(flat.cured_by_mm, 47.0, 0.02);
    assert_eq!(verdict(&worked, CheckName::Flats), Verdict::Stop);
}

/// Between a plane square to A at s = 66 and one leaning by the tilt, the gap at the blank's edge is
/// radius x tan(tilt) less what the centres are apart.
#[test]
fn a_first_pass_that_stops_short_leaves_a_fin() {
    let mut design = scoop();
    design.axes[0] = AxisChoice::Tilt { tilt_deg: 12.5, toward_deg: 0.0, crossing_mm: 66.0 };
    let Cut::Pass(handle) = &mut design.cuts[2] else { panic!("the handle") };
    let tilt = 12.5_f64.to_radians();
    // The handle's start plane passes through axis A at s = 66.
    handle.from_mm = 66.0 / tilt.cos();
    let short = worked(&design);
    let fin = &short.figures.fins[0];
    // Straight up the square's side is 32 mm away; in its corner 45 mm, of which 32 mm lie in the direction of tilt.
    near(fin.length_mm, 32.0 * tilt.tan(), 0.1);
    let Cut::Pass(bowl) = &mut design.cuts[1] else { panic!("the bowl") };
    bowl.to_mm += 32.0 * tilt.tan() + 0.1;
    assert!(worked(&design).figures.fins.is_empty());
}

/// Common practice, no source: a second bit 1/2 in smaller taken 1/4 in deeper guides a 1/4 in rounding of the floor.
#[test]
fn a_bit_half_an_inch_smaller_goes_a_quarter_inch_deeper() {
    let mut design = scoop();
    let Cut::Hollow(hollow) = &mut design.cuts[0] else { panic!("the hollow") };
    let quarter = 25.4 / 4.0;
    hollow.shape = skewline::design::HollowShape::RoundEnded {
        diameter_mm: 6.5 * quarter,
        depth_mm: 7.5 * quarter,
        rounding_mm: quarter,
    };
    let mut shop = Shop::default();
    shop.limits.scraping_allowance_mm = 0.0;
    // The corners alone: the point of a bit stops it short of the floor besides.
    shop.bits.iter_mut().for_each(|bit| bit.point_mm = 0.0);
    shop.bits.retain(|b| (b.diameter_mm - 6.5 * quarter).abs() < 1e-6 || (b.diameter_mm - 4.5 * quarter).abs() < 1e-6);
    assert_eq!(shop.bits.len(), 2);
    let worked = work_out(&design, &shop).unwrap();
    let steps = &worked.figures.borings[0].steps;
    assert_eq!(steps.len(), 2);
    near(steps[1].diameter_mm, steps[0].diameter_mm - 2.0 * quarter, 1e-9);
    near(steps[1].depth_mm, steps[0].depth_mm + quarter, 0.02);
}

/// A scoop with a flat floor of radius 16.5 mm, 48 mm from its mouth, and its handle on a given axis B.
fn flat_floored(axis: AxisChoice, wall_mm: f64, floor_mm: f64) -> Design {
    let mut design = scoop();
    if let Cut::Hollow(hollow) = &mut design.cuts[0] {
        hollow.shape = HollowShape::RoundEnded { diameter_mm: 41.0, depth_mm: 48.0, rounding_mm: 4.0 };
    }
    design.axes[0] = axis;
    design.limits.wall_mm = Some(wall_mm);
    design.limits.floor_mm = Some(floor_mm);
    design
}

/// A shoulder square to axis A is as far from the floor as the larger of both limits.
#[test]
fn a_pass_may_come_no_nearer_than_the_floor_and_the_wall_allow() {
    let offset = AxisChoice::Marks { tail_x_mm: 1.0, tail_y_mm: 0.0, head_x_mm: 1.0, head_y_mm: 0.0 };
    for (wall, floor) in [(3.0, 9.0), (3.0, 5.0), (8.0, 4.0)] {
        let worked = worked(&flat_floored(offset, wall, floor));
        near(worked.figures.nearest_starts[0].nearest_from_mm, 48.0 + f64::max(wall, floor), 0.02);
    }
}

/// A shoulder that leans by 8 deg is nearest to the floor's rim, which stands radius times sin 8 deg out of its middle.
#[test]
fn a_leaning_pass_may_come_as_near_as_its_shoulder_clears_the_floor() {
    let tilt = AxisChoice::Tilt { tilt_deg: 8.0, toward_deg: 30.0, crossing_mm: 62.0 };
    let (sin, cos) = 8_f64.to_radians().sin_cos();
    let floor_seen = 62.0 / cos + (48.0 - 62.0) * cos;
    let worked = worked(&flat_floored(tilt, 3.0, 9.0));
    near(worked.figures.nearest_starts[0].nearest_from_mm, floor_seen + 16.5 * sin + 9.0, 0.02);
}
