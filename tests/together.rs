//! Passes that shape one part together: their overlap is meant, and every other overlap is a flaw as ever.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::bored_end_scoop;
use skewline::design::{AxisChoice, AxisName, Blank, BlankSection, Cut, Design, Node, PassProfile, Shop};
use skewline::figures::checks::{Check, CheckName, Verdict};
use skewline::figures::leave::Because;
use skewline::figures::{Worked, work_out};
use skewline::form::edit::accepted;
use skewline::form::{NOTHING_ELSE, shape_together, together_names, together_now};
use skewline::geometry::Axis;
use skewline::piece::Piece;
use skewline::shelf::{Imported, read, write_design};

mod support;
use support::pieces::{pass, scoop};

fn reference(name: &str) -> Design {
    let text = std::fs::read_to_string(format!("tests/reference/pieces/{name}.json")).unwrap();
    let Imported::Design(saved) = read(&text).unwrap() else { panic!("not a design") };
    saved.design
}

/// The design with these cuts said to shape one part.
fn together(design: &Design, cuts: &[usize]) -> Design {
    let mut design = design.clone();
    for cut in cuts {
        let Cut::Pass(pass) = &mut design.cuts[*cut] else { panic!("cut {cut} is no pass") };
        pass.shapes = Some("together".to_owned());
    }
    design
}

fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

fn check(worked: &Worked, name: CheckName) -> Check {
    worked.checks.iter().find(|check| check.name == name).unwrap().clone()
}

/// At how many stations later passes ask a cut for wood.
fn asked_of(worked: &Worked, cut: usize) -> usize {
    let line = worked.piece.joins.iter().find(|line| line.cut == cut);
    line.map_or(0, |line| line.stations.iter().filter(|station| station.leave.is_some()).count())
}

#[test]
fn sides_of_a_spindle_ask_nothing_of_each_other() {
    let spindle = reference("three-sided-spindle");
    let before = check(&worked(&spindle), CheckName::Join);
    assert_eq!(before.verdict, Verdict::Stop, "{before:?}");

    let said = worked(&together(&spindle, &[0, 1, 2, 3]));
    assert_eq!(check(&said, CheckName::Join).verdict, Verdict::Ok, "{:?}", check(&said, CheckName::Join));
    for cut in 0..4 {
        assert_eq!(asked_of(&said, cut), 0, "cut {cut}");
    }
    for found in &said.figures.clean_ups {
        assert!(found.flat.is_none() && found.share_cut_earlier < 1e-6, "{found:?}");
        assert!(found.least_share > 0.999, "{found:?}");
    }
    // Each side is a part of the girth, and the others shape the rest.
    assert!(said.figures.clean_ups.iter().all(|found| found.share_shaped_with > 0.3), "{:?}", said.figures.clean_ups);

    // The first round is none of the sides: what it takes of theirs is a flaw as before.
    let sides = worked(&together(&spindle, &[1, 2, 3]));
    let spare = |worked: &Worked| worked.figures.joins.iter().find(|join| join.cut == 0).unwrap().least_spare.unwrap();
    assert_eq!(spare(&sides), spare(&worked(&spindle)));
    assert_eq!(check(&sides, CheckName::Join).verdict, Verdict::Stop);
    assert_eq!([1, 2, 3].map(|cut| asked_of(&sides, cut)), [0, 0, 0]);
}

#[test]
fn a_hook_over_the_end_of_a_handle_asks_nothing_of_it() {
    let scoop = reference("hooked-arc-scoop");
    let [bowl, handle, hook] = [2, 3, 4];
    let before = worked(&scoop);
    assert!(check(&before, CheckName::Join).sentence.starts_with("The handle pass"), "{:?}", before.checks);
    let said = worked(&together(&scoop, &[handle, hook]));
    assert_eq!(asked_of(&said, handle), 0);
    // The bowl is no part of it.
    let spare = |worked: &Worked| worked.figures.joins.iter().find(|join| join.cut == bowl).unwrap().least_spare;
    assert_eq!(spare(&said), spare(&before));
    let join = check(&said, CheckName::Join);
    assert!(join.sentence.starts_with("The bowl pass turns 1.4 mm too small"), "{join:?}");
}

/// The pattern says it of its own hook, and of nothing else.
#[test]
fn the_hooked_end_of_a_scoop_shapes_the_handle() {
    let design = bored_end_scoop();
    let named = |name: &str| design.cuts.iter().position(|cut| matches!(cut, Cut::Pass(pass) if pass.name == name));
    let (handle, hook) = (named("handle").unwrap(), named("hook").unwrap());
    assert_eq!((design.shaped_with(handle), design.shaped_with(hook)), (vec![hook], vec![handle]));
    let others = (0..design.cuts.len()).filter(|cut| ![handle, hook].contains(cut));
    assert!(others.into_iter().all(|cut| design.shaped_with(cut).is_empty()));
    let said = worked(&design);
    assert!(said.checks.iter().all(|check| check.verdict == Verdict::Ok), "{:?}", said.checks);
    assert_eq!(asked_of(&said, hook), 0);
}

#[test]
fn what_is_said_is_kept_and_judged() {
    let said = together(&scoop(), &[1, 2]);
    let Ok(Imported::Design(saved)) = read(&write_design(&said).unwrap()) else { panic!("not read") };
    assert_eq!(saved.design, said);
    assert!(!write_design(&scoop()).unwrap().contains("shapes"), "what is not said is not written");
    for name in ["", "  ", &"x".repeat(500)] {
        let mut wrong = said.clone();
        if let Cut::Pass(pass) = &mut wrong.cuts[1] {
            pass.shapes = Some(name.to_owned());
        }
        assert_eq!(wrong.problems().len(), 1, "{name:?}");
        assert_eq!(wrong.problems()[0].field, "cuts[1].shapes");
    }
}

/// A pass on an axis: which, where it starts, its length, and its diameters.
type Turned = (usize, f64, f64, Vec<f64>);

/// A bar with passes on axes that are tilted or moved by a little, in a blank large enough for all.
fn bar() -> impl Strategy<Value = Design> {
    let axis = prop_oneof![
        (0.0..10.0, 0.0..360.0, 20.0..220.0_f64).prop_map(|(tilt_deg, toward_deg, crossing_mm)| AxisChoice::Tilt {
            tilt_deg,
            toward_deg,
            crossing_mm
        }),
        (-12.0..12.0, -12.0..12.0_f64).prop_map(|(x, y)| AxisChoice::Marks {
            tail_x_mm: x,
            tail_y_mm: y,
            head_x_mm: x,
            head_y_mm: y
        }),
    ];
    let turned = (0_usize..4, 5.0..200.0, 10.0..90.0, prop::collection::vec(8.0..60.0_f64, 2..5));
    (prop::collection::vec(axis, 3), prop::collection::vec(turned, 2..5)).prop_map(|(axes, passes)| {
        let mut design = scoop();
        design.blank = Blank { section: BlankSection::Square { side_mm: 70.0 }, length_mm: 300.0 };
        design.axes = axes;
        design.cuts = passes.into_iter().enumerate().map(|(place, turned)| cut(place, turned)).collect();
        design
    })
}

fn cut(place: usize, (axis, from_mm, length_mm, diameters): Turned) -> Cut {
    let step = length_mm / (diameters.len() - 1) as f64;
    let nodes: Vec<Node> =
        diameters.iter().enumerate().map(|(i, diameter)| Node::line(from_mm + step * i as f64, *diameter)).collect();
    let to_mm = nodes[nodes.len() - 1].at_mm;
    pass(&format!("pass {place}"), AxisName::from_index(axis).unwrap(), from_mm, to_mm, PassProfile::Drawn { nodes })
}

/// No wood of the bar, and no point of a profile, is farther from axis A than this, in mm.
const FAR: f64 = 130.0;

/// From where to where along axis A a pass reaches within [`FAR`] of it.
fn reach(piece: &Piece, cut: usize) -> (f64, f64) {
    let turned = piece.revolved(cut).unwrap();
    let lean = FAR * turned.axis.along().cross(Axis::A.along()).length() / turned.axis.along().s;
    let at = |t: f64| turned.axis.point(t, 0.0, 0.0).s;
    (at(turned.meridian.start()) - lean, at(turned.meridian.end()) + lean)
}

fn piece_of(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

/// Whether a pass keeps a point; `None` where its span, longer by this at both ends, does not reach it.
fn keeps(piece: &Piece, cut: usize, point: skewline::geometry::Vector, longer: f64) -> Option<bool> {
    let turned = piece.revolved(cut).unwrap();
    let seen = turned.axis.see(point);
    let (from, to) = turned.span();
    let within = (from - longer..=to + longer).contains(&seen.t);
    within.then(|| seen.radius() <= turned.meridian.greatest_at(seen.t.clamp(from, to)))
}

/// Whether passes keep a point between them, whether or not their end planes belong to their spans.
fn keep(piece: &Piece, passes: &[usize], point: skewline::geometry::Vector) -> bool {
    const HAIR: f64 = 1e-6;
    [-HAIR, HAIR].into_iter().all(|longer| {
        let kept: Vec<bool> = passes.iter().filter_map(|cut| keeps(piece, *cut, point, longer)).collect();
        !kept.is_empty() && kept.iter().all(|kept| *kept)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Saying it of passes that do not overlap changes no figure and no check.
    #[test]
    fn passes_that_do_not_overlap_may_be_said_to_shape_one_part(design in bar()) {
        let piece = piece_of(&design);
        let apart = |a: usize, b: usize| {
            let (a, b) = (reach(&piece, a), reach(&piece, b));
            a.1 + 1.0 < b.0 || b.1 + 1.0 < a.0
        };
        let mut said: Vec<usize> = Vec::new();
        for cut in 0..design.cuts.len() {
            if said.iter().all(|other| apart(*other, cut)) {
                said.push(cut);
            }
        }
        prop_assume!(said.len() > 1);
        let (before, after) = (worked(&design), worked(&together(&design, &said)));
        prop_assert_eq!(&before.piece, &after.piece);
        let told = |worked: &Worked| serde_json::to_value((&worked.figures, &worked.checks)).unwrap();
        prop_assert_eq!(told(&before), told(&after));
    }

    /// Where every overlap is said, nothing that a later pass of the part takes is asked for, nor anything else.
    #[test]
    fn where_every_overlap_is_said_nothing_is_asked_for(design in bar()) {
        let all: Vec<usize> = (0..design.cuts.len()).collect();
        let said = worked(&together(&design, &all));
        for cut in all {
            prop_assert_eq!(asked_of(&said, cut), 0);
        }
        prop_assert!(said.figures.joins.iter().flat_map(|join| &join.caliper).all(|row| row.because != Because::LaterPass));
        prop_assert!(said.figures.clean_ups.iter().all(|found| found.share_cut_earlier < 1e-6));
        prop_assert_eq!(check(&said, CheckName::Join).verdict, Verdict::Ok);
    }

    /// What is asked of a pass is what the passes after it need that are not of its part: no point that they keep lies
    /// farther out, and where none of them reaches nothing is asked.
    #[test]
    fn what_is_no_such_part_is_asked_for_as_ever(design in bar(), parts in prop::collection::vec(0_usize..3, 5)) {
        let mut design = design;
        for (cut, part) in design.cuts.iter_mut().zip(parts) {
            if let Cut::Pass(pass) = cut {
                pass.shapes = ["one", "other"].get(part).map(|name| (*name).to_owned());
            }
        }
        let piece = piece_of(&design);
        let allowance = Shop::default().limits.finishing_allowance_mm;
        for line in &piece.joins {
            let axis = piece.revolved(line.cut).unwrap().axis;
            let mates = design.shaped_with(line.cut);
            let later: Vec<usize> = (line.cut + 1..design.cuts.len()).filter(|cut| !mates.contains(cut)).collect();
            for station in line.stations.iter().step_by(3) {
                for i in 0..60 * 24 {
                    let (radius, clock) = (2.0 * f64::from(i / 24), std::f64::consts::TAU * f64::from(i % 24) / 24.0);
                    let point = axis.point(station.t, radius, clock);
                    if keep(&piece, &later, point) {
                        let leave = station.leave.unwrap_or(f64::NEG_INFINITY);
                        prop_assert!(radius <= leave - allowance + 0.02, "cut {} at {}: {radius} of {leave}", line.cut, station.t);
                    }
                }
            }
        }
    }
}

/// On screen: every other pass can be picked, a part is picked as one, and what is left alone shapes nothing with others.
#[test]
fn a_part_is_said_by_hand() {
    let spindle = reference("three-sided-spindle");
    let names = together_names(&spindle, 1);
    let title = |name: &str, axis: char| format!("{name} (axis {axis})");
    let others = [title("Round", 'A'), title("Second side", 'C'), title("Third side", 'D')];
    assert_eq!(names, [vec![NOTHING_ELSE.to_owned()], others.to_vec()].concat());
    assert_eq!(together_now(&spindle, 1), NOTHING_ELSE);
    let pick =
        |design: &Design, cut: usize, name: &str| accepted(design, |design| shape_together(design, cut, name)).unwrap();
    let two = pick(&spindle, 1, &others[1]);
    assert_eq!((two.shaped_with(1), together_now(&two, 1)), (vec![2], others[1].clone()));
    let both = format!("{}, {}", title("First side", 'B'), others[1]);
    assert!(together_names(&two, 3).contains(&both), "{:?}", together_names(&two, 3));
    let three = pick(&two, 3, &both);
    assert_eq!([1, 2, 3].map(|cut| three.shaped_with(cut)), [vec![2, 3], vec![1, 3], vec![1, 2]]);
    assert_eq!(together_now(&three, 3), both);
    // Out of it again: the others stay, and of two neither.
    let out = pick(&three, 3, NOTHING_ELSE);
    assert_eq!(out, two);
    assert_eq!(pick(&out, 2, NOTHING_ELSE), spindle);
    assert_eq!(pick(&spindle, 1, "no such pass"), spindle);
    // A hollow, a parting and a lone pass have nothing to pick.
    assert!(together_names(&spindle, 4).is_empty() && together_names(&spindle, 5).is_empty());
    let mut lone = spindle.clone();
    lone.cuts.truncate(1);
    assert!(together_names(&lone, 0).is_empty());
}

/// Two parts of passes of one name stay two.
#[test]
fn parts_have_names_of_their_own() {
    let mut spindle = reference("three-sided-spindle");
    for cut in &mut spindle.cuts {
        if let Cut::Pass(pass) = cut {
            pass.name = "side".to_owned();
        }
    }
    let names = together_names(&spindle, 0);
    assert!(names[1].starts_with("Side (axis ") && names.iter().all(|name| !name.contains("cut ")), "{names:?}");
    shape_together(&mut spindle, 0, &names[1]);
    let last = together_names(&spindle, 2).pop().unwrap();
    shape_together(&mut spindle, 2, &last);
    assert_eq!([0, 1, 2, 3].map(|cut| spindle.shaped_with(cut)), [vec![1], vec![0], vec![3], vec![2]]);
}
