//! What carries the work: stated here anew from the design's cuts and the wood itself.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::starters::{BoredEndScoop, HandleEnd, bored_end_scoop_straight, demo};
use skewline::design::{AxisName, Cut, Design, Shop, Side};
use skewline::figures::plan::{Plan, PlanError, plan};
use skewline::figures::support::{HeadEnd, LackKind, Support, TailEnd, in_order, supports, works};
use skewline::figures::work_out;
use skewline::geometry::Vector;
use skewline::piece::Piece;

mod support;
use support::arbitrary;
use support::moved::{bored_end_scoops, with_cuts_moved};

fn planned(design: &Design) -> Result<Plan, PlanError> {
    let shop = Shop::default();
    plan(design, &work_out(design, &shop).unwrap(), &shop)
}

fn resolved(design: &Design) -> Piece {
    Piece::resolve(design, &design.limits.over(&Shop::default().limits)).unwrap()
}

fn cut(design: &Design, wanted: impl Fn(&Cut) -> bool) -> usize {
    design.cuts.iter().position(wanted).unwrap()
}

fn named<'a>(name: &'a str) -> impl Fn(&Cut) -> bool + 'a {
    move |cut| matches!(cut, Cut::Pass(pass) if pass.name == name)
}

/// What carries each cut of the demonstration scoop, in the plan's order.
#[test]
fn the_demonstration_scoop_is_carried_throughout() {
    let design = demo();
    let (piece, order) = (resolved(&design), planned(&design).unwrap().order);
    let carried = supports(&piece, &works(&design, &piece), &order, Shop::default().chuck.overhang_times);
    let ends: Vec<(Option<AxisName>, HeadEnd, TailEnd)> = carried.iter().map(|s| (s.axis, s.head, s.tail)).collect();
    let (a, b) = (Some(AxisName::A), Some(AxisName::B));
    let expected = [
        (a, HeadEnd::DriveCentre, TailEnd::LiveCentreOnWood),
        (a, HeadEnd::Jaws, TailEnd::Nothing),
        (a, HeadEnd::Jaws, TailEnd::Nothing),
        (a, HeadEnd::Jaws, TailEnd::LiveCentreOnPlug),
        (a, HeadEnd::Jaws, TailEnd::LiveCentreOnPlug),
        (b, HeadEnd::DriveCentre, TailEnd::LiveCentreOnPlug),
        (a, HeadEnd::Jaws, TailEnd::LiveCentreOnPlug),
        (None, HeadEnd::Bench, TailEnd::Nothing),
        (None, HeadEnd::Bench, TailEnd::Nothing),
    ];
    assert_eq!(ends, expected);
    // The neck of the handle is the thinnest wood from then on.
    let handle = cut(&design, named("handle"));
    let at = order.iter().position(|cut| *cut == handle).unwrap();
    let thinnest = carried[at].thinnest.unwrap();
    let nodes = skewline::form::nodes_of(&design.cuts[handle]).unwrap();
    let neck_mm = nodes.iter().map(|node| node.diameter_mm).fold(f64::INFINITY, f64::min);
    assert_eq!((thinnest.diameter_mm, thinnest.cut), (neck_mm, Some(handle)));
    assert!(carried[at - 1].thinnest.unwrap().diameter_mm > neck_mm);
}

/// The live centre may not bear on an open bore, nor may a bore be made with nothing in the jaws.
#[test]
fn what_nothing_carries_is_not_planned() {
    let mut design = demo();
    design.cuts.retain(|cut| !matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug));
    let PlanError::NothingCarries { lack, sentence } = planned(&design).unwrap_err() else { panic!("another error") };
    assert_eq!((lack.cut, lack.kind), (cut(&design, named("handle")), LackKind::OpenBore(AxisName::B)));
    let expected = "Nothing carries the tail end in the handle pass: the bore is open where the live centre bears \
                    on axis B. Fit a plug after the bore, and take it out after this cut.";
    assert_eq!(sentence, expected);
    let mut design = demo();
    design.cuts.retain(|cut| !named("tenon")(cut));
    let PlanError::NothingCarries { lack, sentence } = planned(&design).unwrap_err() else { panic!("another error") };
    assert_eq!((lack.cut, lack.kind), (0, LackKind::NoTenon));
    assert!(sentence.ends_with("Add a tenon at the head end."), "{sentence}");
    // A plug too narrow for the mark on its face.
    let mut design = demo();
    for cut in &mut design.cuts {
        if let Cut::FitPlug(plug) = cut {
            plug.disc_diameter_mm = 42.0;
            (plug.thickness_mm, plug.tenon) = (80.0, None);
        }
    }
    let PlanError::NothingCarries { lack, .. } = planned(&design).unwrap_err() else { panic!("another error") };
    assert_eq!(lack.kind, LackKind::PlugMark(AxisName::B));
}

/// The plug stays in until the piece hangs on its nub, wherever the design takes it out.
#[test]
fn the_plug_stays_until_the_piece_is_parted() {
    let round = BoredEndScoop { handle_end: HandleEnd::Round, ..BoredEndScoop::default() }.design("round end on B");
    for mut design in [demo(), round, bored_end_scoop_straight()] {
        let (part, out) =
            (cut(&design, |cut| matches!(cut, Cut::Part(_))), cut(&design, |cut| matches!(cut, Cut::TakeOutPlug)));
        assert!(part < out, "{}", design.name);
        // As designs of earlier versions have it.
        design.cuts.swap(part, out);
        let order = planned(&design).unwrap().order;
        let place = |cut: usize| order.iter().position(|at| *at == cut).unwrap();
        assert!(place(out) < place(part), "{}: {order:?}", design.name);
        assert!(matches!(design.cuts[order[place(out)]], Cut::Part(_)));
    }
}

/// What must carry a cut, from the cuts before it and the wood itself.
fn judge(design: &Design) -> Result<bool, TestCaseError> {
    let Ok(plan) = planned(design) else { return Ok(false) };
    let piece = resolved(design);
    let (works, solid) = (works(design, &piece), in_order(&piece.solid, &plan.order));
    let carried = supports(&piece, &works, &plan.order, Shop::default().chuck.overhang_times);
    let tenon_like = |cut: &usize| matches!(design.cuts.get(*cut), Some(Cut::Pass(p)) if p.axis == AxisName::A && p.to_mm >= design.blank.length_mm - 1.0);
    for (done, (cut, support)) in plan.order.iter().zip(&carried).enumerate() {
        let before = &plan.order[..done];
        let tenon = before.iter().any(tenon_like);
        let plug = before.iter().rev().find_map(|cut| match design.cuts.get(*cut) {
            Some(Cut::FitPlug(plug)) => Some(Some(*plug)),
            Some(Cut::TakeOutPlug) => Some(None),
            _ => None,
        });
        let plug = plug.flatten();
        match design.cuts.get(*cut) {
            Some(Cut::Pass(pass)) if piece.axes[pass.axis.index()].centre(0.0).is_some() => {
                prop_assert!(support.at_both_ends(), "cut {}: {:?}", cut, support);
            }
            Some(Cut::Part(_)) => prop_assert!(support.at_both_ends(), "cut {}: {:?}", cut, support),
            Some(Cut::Hollow(hollow)) if hollow.axis == AxisName::A => {
                prop_assert!(support.head == HeadEnd::Jaws && plug.is_none(), "cut {}: {:?}", cut, support);
            }
            _ => {}
        }
        let open = before.iter().any(|cut| matches!(design.cuts.get(*cut), Some(Cut::Hollow(_))));
        match support.tail {
            TailEnd::LiveCentreOnPlug => prop_assert!(plug.is_some()),
            TailEnd::Cone => prop_assert!(plug.is_none() && open && support.axis == Some(AxisName::A)),
            TailEnd::LiveCentreOnWood => prop_assert!(plug.is_none()),
            TailEnd::Steady | TailEnd::Nothing => {}
        }
        if support.head == HeadEnd::Jaws {
            prop_assert!(tenon, "cut {}", cut);
        }
        thinnest_holds(&piece, &solid, done, support)?;
    }
    Ok(true)
}

/// No wood that a pass left is thinner than the thinnest: sampled along every pass made so far.
fn thinnest_holds(
    piece: &Piece,
    solid: &skewline::geometry::Solid,
    done: usize,
    support: &Support,
) -> Result<(), TestCaseError> {
    let Some(thinnest) = support.thinnest else { return Ok(()) };
    let mut least = 2.0 * piece.solid.stock.half_width();
    for removal in solid.removals.iter().filter(|removal| removal.cut <= done) {
        let skewline::geometry::Region::Revolved(pass) = &removal.region else { continue };
        if removal.role != skewline::geometry::Role::Outside {
            continue;
        }
        let (from, to) = (pass.meridian.start(), pass.meridian.end());
        for i in 0..=500 {
            let t = from + (to - from) * f64::from(i) / 500.0;
            if (0.0..=piece.head_face).contains(&pass.axis.point(t, 0.0, 0.0).s) && pass.axis.centre(0.0).is_some() {
                let (before, after) = pass.meridian.radii(t);
                least = least.min(2.0 * before.min(after));
            }
        }
    }
    prop_assert!(thinnest.diameter_mm <= least + 1e-9, "{} over {}", thinnest.diameter_mm, least);
    if let Some(cut) = thinnest.cut {
        let pass = piece.revolved(cut).unwrap();
        let t = pass.axis.see(pass.axis.centre(thinnest.station_mm).unwrap_or(Vector::ZERO)).t;
        // A step stands at its station only to rounding.
        let about = [-1e-6, 0.0, 1e-6].map(|off| pass.meridian.radii(t + off)).map(|(a, b)| 2.0 * a.min(b));
        let attained = about.into_iter().fold(f64::INFINITY, f64::min);
        prop_assert!((attained - thinnest.diameter_mm).abs() < 1e-3, "{:?}, {}", thinnest, attained);
    }
    Ok(())
}

fn scoops() -> impl Strategy<Value = Design> {
    let scoops = (bored_end_scoops(), 0..3_u8).prop_map(|(mut design, without)| {
        match without {
            0 => design.cuts.retain(|cut| !matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug)),
            1 => design.cuts.push(Cut::Face(skewline::design::EndPlane {
                axis: AxisName::A,
                at_mm: 0.5,
                removes: Side::Tail,
            })),
            _ => {}
        }
        design
    });
    with_cuts_moved(scoops, 1)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn every_scoop_that_is_planned_is_carried(design in scoops()) {
        prop_assume!(design.problems().is_empty());
        judge(&design)?;
    }

    #[test]
    fn any_design_that_is_planned_is_carried(design in arbitrary::design()) {
        judge(&design)?;
    }
}

/// The properties judge something: scoops as they start are planned.
#[test]
fn scoops_as_they_start_are_planned() {
    for (tilt_deg, handle_end) in [(0.0, HandleEnd::Round), (4.0, HandleEnd::Round), (9.0, HandleEnd::Hooked)] {
        let design = BoredEndScoop { tilt_deg, handle_end, ..BoredEndScoop::default() }.design("scoop");
        assert!(judge(&design).unwrap(), "{tilt_deg}");
    }
}
