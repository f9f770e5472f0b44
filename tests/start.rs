//! The nearest start of a later pass, put into the document as it is typed, and the walls measured again.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::{
    AxisChoice, AxisName, Cut, Design, Hollow, HollowShape, Limits, Node, PassProfile, SawCut, SawPath, SawPoint, Shop,
};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::start::{NearestStart, nearest_starts};
use skewline::figures::wall::walls;
use skewline::figures::work_out;
use skewline::form::edit::with_number;
use skewline::form::{Field, nodes_of};
use skewline::geometry::surface::{HollowSurface, WITHIN};
use skewline::geometry::{Pace, at_once};
use skewline::piece::Piece;

mod support;
use support::pieces::{pass, scoop};

const HANDLE: usize = 2;

fn limits(design: &Design) -> Limits {
    design.limits.over(&Shop::default().limits)
}

/// By how much every wall and floor stays over its limit, in mm; negative where one is below it.
fn over_limits(design: &Design) -> f64 {
    let limits = limits(design);
    let piece = Piece::resolve(design, &limits).unwrap();
    let found = walls(&piece, |_| None);
    let least = found.iter().filter_map(|wall| wall.least).map(|least| least.wall_mm - limits.wall_mm);
    let floors = found.iter().filter_map(|wall| wall.floor).filter(|floor| !floor.straight_on);
    least.chain(floors.map(|floor| floor.least.wall_mm - limits.floor_mm)).fold(f64::INFINITY, f64::min)
}

fn starts(design: &Design) -> Vec<NearestStart> {
    let limits = limits(design);
    nearest_starts(design, &Piece::resolve(design, &limits).unwrap(), &limits)
}

/// The start that is offered is taken when it is typed and keeps the walls, and 0.1 mm nearer does not.
fn check(design: &Design) -> Result<(), TestCaseError> {
    for start in starts(design) {
        let typed = |from_mm: f64| with_number(design, Field::PassFrom(start.cut), from_mm);
        let at_start = typed(start.nearest_from_mm);
        prop_assert!(at_start.is_ok(), "{:?} is refused: {:?}", start, at_start);
        let at_start = at_start.unwrap();
        prop_assert_eq!(Field::PassFrom(start.cut).number(&at_start), Some(start.nearest_from_mm));
        let over = over_limits(&at_start);
        prop_assert!(over >= -0.02, "at {:?} the wall is {} over its limit", start, over);
        if let Ok(nearer) = typed(start.nearest_from_mm - 0.1) {
            let over = over_limits(&nearer);
            prop_assert!(over < 0.0, "before {:?} the wall is still {} over its limit", start, over);
        }
    }
    let worked = work_out(design, &Shop::default()).unwrap();
    let shoulder = worked.checks.iter().find(|check| check.name == CheckName::ShoulderClearance).unwrap();
    if shoulder.verdict == Verdict::Ok {
        let thin = |check: &skewline::figures::checks::Check| {
            matches!(check.name, CheckName::Wall | CheckName::Floor) && check.verdict != Verdict::Ok
        };
        let worst: Vec<_> = worked.checks.iter().filter(|c| thin(c)).map(|c| (c.name, c.value, c.place)).collect();
        prop_assert!(worst.is_empty(), "the shoulder is ok where the wall is not: {worst:?}");
    }
    Ok(())
}

/// A scoop with any reasonable bore or two, a mouth that may be sunken, a saw line or none, and a handle whose profile
/// starts with nodes close by; the bowl follows the join or is a plain round.
fn any_scoop() -> impl Strategy<Value = Design> {
    let bore = (25.0..45.0, 25.0..60.0, 0.0..12.0, prop_oneof![2 => Just(0.0), 1 => 0.0..12.0_f64]);
    let second = proptest::option::of((15.0..40.0, 0.5..1.2, -4.0..4.0, -6.0..6.0_f64));
    let axis = (2.0..16.0, 0.0..360.0, 20.0..140.0_f64);
    let handle = (8.0..24.0, 4.0..14.0, 6.0..24.0, -6.0..8.0_f64);
    let cuts = (any::<bool>(), proptest::option::of((-12.0..4.0, 4.0..20.0_f64)));
    (bore, second, axis, handle, cuts).prop_map(|(bore, second, axis, handle, (follows, saw))| {
        let mut design = scoop();
        let (diameter_mm, depth_mm, rounding_mm, mouth_mm) = bore;
        let (tilt_deg, toward_deg, crossing_mm) = axis;
        design.axes[0] = AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm };
        let shape = HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm };
        design.cuts[0] = Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm, shape });
        let (flare, step, neck, behind) = handle;
        let from = mouth_mm + depth_mm + behind;
        let nodes = vec![
            Node::arc(from, neck + flare / 2.0, -0.3),
            Node::line(from + step, neck),
            Node::ogee(from + 2.0 * step, neck + 2.0),
            Node::line(from + 60.0, neck + 6.0),
            Node::line(from + 110.0, neck),
        ];
        let profile = if follows {
            PassProfile::Join
        } else {
            PassProfile::Drawn { nodes: vec![Node::line(0.0, 60.0), Node::line(from + 25.0, 44.0)] }
        };
        design.cuts[1] = pass("bowl", AxisName::A, 0.0, from + 25.0, profile);
        design.cuts[2] = pass("handle", AxisName::B, from, from + 110.0, PassProfile::Drawn { nodes });
        if let Some((wide, share, x, y)) = second {
            design.axes.push(AxisChoice::Marks { tail_x_mm: x, tail_y_mm: y, head_x_mm: 0.0, head_y_mm: 0.0 });
            let shape = HollowShape::RoundEnded { diameter_mm: wide, depth_mm: depth_mm * share, rounding_mm: 0.0 };
            design.cuts.push(Cut::Hollow(Hollow { axis: AxisName::from_index(2).unwrap(), mouth_mm, shape }));
        }
        if let Some((low, high)) = saw {
            let at = |at_mm: f64, height_mm: f64| SawPoint { at_mm, height_mm };
            let points = vec![at(-3.0, low), at(depth_mm * 0.6, low + high / 2.0), at(depth_mm, low + high + 20.0)];
            design.cuts.push(Cut::Saw(SawCut { path: SawPath::Lines { points } }));
        }
        design
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn the_nearest_start_keeps_the_wall_and_no_nearer_one_does(design in any_scoop()) {
        prop_assume!(design.problems().is_empty());
        check(&design)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// The thinnest place of a hollow's end is the same from a few wide patches as from many narrow ones: no search gives
    /// up early where wood is left.
    #[test]
    fn few_wide_patches_find_the_thinnest_end_as_many_narrow_ones_do(design in any_scoop()) {
        prop_assume!(design.problems().is_empty());
        let piece = Piece::resolve(&design, &limits(&design)).unwrap();
        for surface in HollowSurface::all(&piece.solid) {
            let end = (surface.sheet.disc_from(), surface.sheet.length());
            let thinnest = |rows: usize, around: usize| {
                at_once(surface.thinnest(&surface.starts(end, rows, around), None, &Pace::unbroken())).map(|thinnest| thinnest.distance)
            };
            let many = thinnest(12, 24);
            for few in [thinnest(1, 4), thinnest(2, 8)] {
                prop_assert_eq!(few.is_none(), many.is_none());
                prop_assert!((few.unwrap_or(0.0) - many.unwrap_or(0.0)).abs() <= WITHIN, "{few:?} for {many:?}");
            }
        }
    }
}

/// A start past a node takes that node along, in one change.
#[test]
fn a_start_past_a_node_leaves_it_out() {
    let mut design = scoop();
    let nodes =
        vec![Node::line(58.0, 15.0), Node::arc(70.0, 13.0, 0.8), Node::line(90.0, 13.0), Node::line(190.0, 20.0)];
    design.cuts[HANDLE] = pass("handle", AxisName::B, 58.0, 190.0, PassProfile::Drawn { nodes });
    assert_eq!(design.problems(), []);
    for from in [60.0, 69.95, 70.0, 72.0, 89.99, 95.0, 188.0, 30.0] {
        let moved = with_number(&design, Field::PassFrom(HANDLE), from).unwrap();
        let nodes = nodes_of(&moved.cuts[HANDLE]).unwrap();
        assert_eq!((nodes[0].at_mm, nodes[0].diameter_mm), (from, 15.0));
        assert!(nodes[1].at_mm >= from + 0.1 && nodes[nodes.len() - 1] == Node::line(190.0, 20.0));
    }
    for to in [185.0, 90.02, 75.0, 70.0, 65.0, 200.0] {
        let moved = with_number(&design, Field::PassTo(HANDLE), to).unwrap();
        let nodes = nodes_of(&moved.cuts[HANDLE]).unwrap();
        assert_eq!((nodes[0].at_mm, nodes[nodes.len() - 1].at_mm), (58.0, to));
        assert_eq!(nodes[nodes.len() - 1].diameter_mm, 20.0);
    }
    // Back before nodes that stood before the start already, the first diameter is carried on.
    let Cut::Pass(handle) = &mut design.cuts[HANDLE] else { panic!("the handle") };
    handle.from_mm = 62.0;
    let back = with_number(&design, Field::PassFrom(HANDLE), 50.0).unwrap();
    assert_eq!(nodes_of(&back.cuts[HANDLE]).unwrap()[0], Node::line(50.0, 15.0));
}

/// A second hollow deeper than the first has the nearest start to itself.
#[test]
fn every_hollow_counts() {
    let mut design = scoop();
    let alone = starts(&design)[0].nearest_from_mm;
    let shape = HollowShape::RoundEnded { diameter_mm: 12.0, depth_mm: 56.0, rounding_mm: 0.0 };
    design.cuts.push(Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm: 0.0, shape }));
    assert!(starts(&design)[0].nearest_from_mm > alone + 3.0);
    check(&design).unwrap();
}
