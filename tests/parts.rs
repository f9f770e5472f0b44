//! Adding, removing, copying, ordering and switching off the parts of a design.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use proptest::prelude::*;
use skewline::design::following::choose;
use skewline::design::history::History;
use skewline::design::starters::{demo, free_spindle};
use skewline::design::{AxisChoice, AxisName, Cut, Design, Shop, Units};
use skewline::figures::checks::{CheckName, Verdict};
use skewline::figures::{Worked, work_out};
use skewline::form::parts::{
    Beginning, Bench, Change, Offer, PartId, Way, beginnings, changed, leaves_pattern, offers, parts,
};
use skewline::piece::Piece;
use skewline::shelf::{Imported, read, write_design};

mod support;
use support::arbitrary;

fn begun(design: &Design, here_mm: f64) -> Vec<Beginning> {
    let limits = design.limits.over(&Shop::default().limits);
    let Ok(piece) = Piece::resolve(design, &limits) else { return Vec::new() };
    beginnings(Bench { design, piece: &piece, here_mm, shop: &Shop::default() })
}

/// What may be added: what it is called, and the change.
fn may_be_added(design: &Design, here_mm: f64) -> Vec<(String, Change)> {
    begun(design, here_mm).into_iter().filter_map(|it| Some((it.label, it.change.ok()?))).collect()
}

fn add(design: &Design, label: &str, here_mm: f64) -> Design {
    let all = begun(design, here_mm);
    let found = all.iter().find(|it| it.label.starts_with(label));
    let labels: Vec<_> = all.iter().map(|it| &it.label).collect();
    let found = found.unwrap_or_else(|| panic!("{label} in {labels:?}"));
    changed(design, found.change.as_ref().unwrap()).unwrap()
}

fn worked(design: &Design) -> Worked {
    work_out(design, &Shop::default()).unwrap()
}

fn all_parts(design: &Design) -> Vec<PartId> {
    let axes = (0..design.axes.len()).map(PartId::Axis);
    axes.chain((0..design.cuts.len()).map(PartId::Cut)).chain((0..design.off.len()).map(PartId::Off)).collect()
}

fn all_offers(design: &Design) -> Vec<Offer> {
    all_parts(design).into_iter().flat_map(|id| offers(design, id)).filter(|it| it.why_not.is_none()).collect()
}

/// Every cut, switched on or off, as text without its axis and its name: what the turner made.
fn bodies(design: &Design) -> Vec<String> {
    let plain = |cut: &Cut| {
        let mut cut = cut.clone();
        match &mut cut {
            Cut::Pass(pass) => (pass.axis, pass.name, pass.shapes) = (AxisName::A, String::new(), None),
            Cut::Hollow(hollow) => hollow.axis = AxisName::A,
            Cut::Face(plane) | Cut::Part(plane) => plane.axis = AxisName::A,
            _ => {}
        }
        format!("{cut:?}")
    };
    let mut all: Vec<String> = design.cuts.iter().chain(design.off.iter().map(|off| &off.cut)).map(plain).collect();
    all.sort_unstable();
    all
}

/// The axis that a cut stands on, itself: the letter may change.
fn stands_on(design: &Design, cut: &Cut) -> Option<Option<AxisChoice>> {
    let axis = match cut {
        Cut::Pass(pass) => pass.axis,
        Cut::Hollow(hollow) => hollow.axis,
        Cut::Face(plane) | Cut::Part(plane) => plane.axis,
        _ => return None,
    };
    Some(axis.index().checked_sub(1).map(|place| design.axes[place]))
}

fn bodies_on_axes(design: &Design) -> Vec<String> {
    let mut all: Vec<String> = design
        .cuts
        .iter()
        .map(|cut| format!("{:?}", stands_on(design, cut)))
        .zip(bodies_in_order(design))
        .map(|(axis, body)| axis + &body)
        .collect();
    all.sort_unstable();
    all
}

fn bodies_in_order(design: &Design) -> Vec<String> {
    design
        .cuts
        .iter()
        .flat_map(|cut| bodies(&Design { cuts: vec![cut.clone()], off: Vec::new(), ..design.clone() }))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Whatever is offered gives a design without new problems, and one step back is the design before.
    #[test]
    fn what_is_offered_is_sound_and_undone_in_one_step(design in arbitrary::design()) {
        for offer in all_offers(&design) {
            let after = changed(&design, &offer.change);
            let after = after.unwrap_or_else(|why| panic!("{offer:?}: {why}"));
            prop_assert!(after.problems().is_empty(), "{:?}", after.problems());
            let mut history = History::default();
            history.before_change(&design, None);
            // Two parts alike may change places.
            if after != design {
                prop_assert_eq!(history.undo(&after), Some(design.clone()));
            }
            let Ok(Imported::Design(saved)) = read(&write_design(&after).unwrap()) else { panic!("not read") };
            prop_assert_eq!(&saved.design, &after);
        }
    }

    /// Nothing but removing takes away what the turner made, and every cut stays on its axis.
    #[test]
    fn nothing_is_lost(design in arbitrary::design()) {
        let before = bodies(&design);
        for offer in all_offers(&design) {
            let after = changed(&design, &offer.change).unwrap();
            let is_there = |body: &String| bodies(&after).contains(body);
            if !matches!(offer.change, Change::Remove(_)) {
                prop_assert!(before.iter().all(is_there), "{offer:?}");
            }
            if matches!(offer.change, Change::Move(..) | Change::Rename(..)) {
                prop_assert_eq!(bodies_on_axes(&design), bodies_on_axes(&after));
            }
        }
    }

    /// A cut that is switched off and on again is where it was; and so is one of several, whichever comes back first.
    #[test]
    fn switching_off_and_on_changes_nothing(design in arbitrary::design(), twice in any::<bool>()) {
        let design = Design { pattern: None, ..design };
        for cut in 0..design.cuts.len() {
            let Ok(off) = changed(&design, &Change::SwitchOff(PartId::Cut(cut))) else { continue };
            let again = if twice && !off.cuts.is_empty() {
                let at = cut.min(off.cuts.len() - 1);
                let Ok(both) = changed(&off, &Change::SwitchOff(PartId::Cut(at))) else { continue };
                let last = (0..both.off.len()).rev().find(|place| !matches!(both.off[*place].cut, Cut::TakeOutPlug));
                let Ok(one) = changed(&both, &Change::SwitchOn(PartId::Off(last.unwrap()))) else { continue };
                changed(&one, &Change::SwitchOn(PartId::Off(0)))
            } else {
                changed(&off, &Change::SwitchOn(PartId::Off(0)))
            };
            if let Ok(again) = again {
                prop_assert_eq!(&again, &design);
            }
        }
    }

    /// A cut that is switched off is as one that is not there.
    #[test]
    fn what_is_off_is_in_no_figure(design in arbitrary::design(), which in any::<prop::sample::Index>()) {
        prop_assume!(!design.cuts.is_empty());
        let cut = PartId::Cut(which.index(design.cuts.len()));
        let (Ok(off), Ok(gone)) = (changed(&design, &Change::SwitchOff(cut)), changed(&design, &Change::Remove(cut))) else {
            return Ok(());
        };
        prop_assert_eq!(&off.cuts, &gone.cuts);
        let told = |design: &Design| {
            let worked = work_out(design, &Shop::default()).map_err(|why| why.to_string())?;
            Ok::<_, String>(serde_json::to_string(&(&worked.figures, &worked.checks)).unwrap())
        };
        prop_assert_eq!(told(&off), told(&gone));
    }

    /// What is added can be removed, and then the design is as it was.
    #[test]
    fn removing_what_was_added_gives_the_design_back(design in arbitrary::design(), share in 0.0..1.0_f64) {
        let design = Design { pattern: None, ..design };
        for (label, change) in may_be_added(&design, share * design.blank.length_mm) {
            let Change::Add(addition) = &change else { panic!("{change:?}") };
            let mut after = changed(&design, &change).unwrap();
            prop_assert!(after.problems().is_empty());
            if addition.together_with.is_some() {
                continue;
            }
            let is_pass = |cut: &Cut| matches!(cut, Cut::Pass(_));
            if !design.cuts.iter().any(is_pass) {
                // The last pass stays while there are other cuts.
                continue;
            }
            for (place, cut) in addition.cuts.iter().rev().filter(|it| !matches!(it.1, Cut::TakeOutPlug)) {
                prop_assert_eq!(&after.cuts[*place], cut);
                after = changed(&after, &Change::Remove(PartId::Cut(*place))).unwrap();
            }
            if addition.axis.is_some() {
                after = changed(&after, &Change::Remove(PartId::Axis(design.axes.len()))).unwrap();
            }
            prop_assert_eq!(&after, &design, "{}", label);
        }
    }

    /// A change of the choices of a pattern leaves every part alone that the turner added or copied.
    #[test]
    fn a_pattern_keeps_what_was_added(scoop in arbitrary::bored_end_scoop(), bowl_mm in 20.0..60.0_f64, share in 0.1..0.9_f64) {
        let design = scoop.design("scoop");
        prop_assume!(design.problems().is_empty());
        let added = may_be_added(&design, share * design.blank.length_mm).into_iter().map(|it| it.1);
        let copied = (0..design.cuts.len()).map(Change::Copy);
        for change in added.chain(copied).collect::<Vec<_>>() {
            let Ok(mut after) = changed(&design, &change) else { continue };
            let extra: Vec<String> = bodies(&after).into_iter().filter(|it| !bodies(&design).contains(it)).collect();
            let count = after.cuts.len() - design.cuts.len();
            prop_assert_eq!(after.pattern.is_none(), leaves_pattern(&design, &change));
            choose(&mut after, |choices| *choices.number_mut(0).unwrap() = bowl_mm);
            prop_assert!(extra.iter().all(|body| bodies(&after).contains(body)), "{change:?}");
            let mut plain = design.clone();
            choose(&mut plain, |choices| *choices.number_mut(0).unwrap() = bowl_mm);
            if after.pattern.is_some() {
                prop_assert_eq!(after.cuts.len(), plain.cuts.len() + count, "{:?}", change);
            }
        }
    }
}

/// From a bare blank to a spindle of three sides, each step as on screen.
fn spindle() -> Design {
    let design = add(&free_spindle(), "Round the whole blank", 100.0);
    let design = add(&design, "An axis beside A", 100.0);
    let design = add(&design, "A pass on axis B", 100.0);
    changed(&design, &Change::CopyRound(1, vec![120.0, 240.0])).unwrap()
}

#[test]
fn a_spindle_of_three_sides_is_built_from_a_bare_blank() {
    let spindle = spindle();
    assert_eq!((spindle.axes.len(), spindle.cuts.len()), (3, 4));
    assert_eq!(spindle.shaped_with(1), [2, 3]);
    assert!(spindle.shaped_with(0).is_empty());
    let said = worked(&spindle);
    // The three marks stand on one circle, 120 degrees apart.
    let marks: Vec<(f64, f64)> = said.figures.marks[1..].iter().map(|it| (it.head.x_mm, it.head.y_mm)).collect();
    let apart = |a: usize, b: usize| (marks[a].0 - marks[b].0).hypot(marks[a].1 - marks[b].1);
    let radius = marks[0].0.hypot(marks[0].1);
    for (a, b) in [(0, 1), (1, 2), (2, 0)] {
        assert!((apart(a, b) - radius * 3.0_f64.sqrt()).abs() < 1e-9, "{marks:?}");
    }
    // The sides take their shares of the round, each with a third of the girth or more of its own.
    for clean_up in &said.figures.clean_ups[1..] {
        assert!(clean_up.flat.is_none(), "{clean_up:?}");
    }
    let stops = said.checks.iter().filter(|check| check.verdict == Verdict::Stop);
    assert_eq!(stops.count(), 0, "{:?}", said.checks);
    let join = said.checks.iter().find(|check| check.name == CheckName::Join).unwrap();
    assert_eq!(join.verdict, Verdict::Ok, "{join:?}");
}

/// What is begun brings no new stop, and nothing near a hollow gets worse.
#[test]
fn beginnings_are_within_the_wood() {
    let walls = [CheckName::Wall, CheckName::Floor, CheckName::Breakthrough];
    for (design, here_mm) in
        [(free_spindle(), 100.0), (spindle(), 140.0), (demo(), 30.0), (demo(), 70.0), (demo(), 130.0)]
    {
        let before = worked(&design);
        for (label, change) in may_be_added(&design, here_mm) {
            let after = worked(&changed(&design, &change).unwrap());
            for check in &after.checks {
                let was = before.checks.iter().find(|it| it.name == check.name).map_or(Verdict::Ok, |it| it.verdict);
                let most = if walls.contains(&check.name) { was } else { was.max(Verdict::Tight) };
                assert!(check.verdict <= most, "{label} at {here_mm}: {check:?}");
            }
        }
    }
}

#[test]
fn what_makes_no_sense_says_why() {
    let bare = free_spindle();
    let round = add(&bare, "Round the whole blank", 100.0);
    // The only cut may go, and leaves the bare blank.
    assert_eq!(changed(&round, &Change::Remove(PartId::Cut(0))).unwrap(), bare);
    let parted = add(&round, "Part off at the head end", 100.0);
    for change in [Change::Remove(PartId::Cut(0)), Change::SwitchOff(PartId::Cut(0))] {
        let why = changed(&parted, &change).unwrap_err();
        assert!(why.sentence.to_string().starts_with("It is the last pass"), "{why}");
    }
    // An axis that cuts stand on goes with them.
    let spindle = spindle();
    let labels: Vec<String> = offers(&spindle, PartId::Axis(1)).into_iter().map(|it| it.label).collect();
    assert!(labels.contains(&"Remove with its cut".to_owned()), "{labels:?}");
    let without = changed(&spindle, &Change::Remove(PartId::Axis(1))).unwrap();
    assert_eq!((without.axes.len(), without.cuts.len()), (2, 3));
    assert_eq!(without.axes[1], spindle.axes[2]);
    let Cut::Pass(last) = &without.cuts[2] else { panic!("no pass") };
    assert_eq!(last.axis, AxisName::C);
    // A bound is reached.
    let mut many = spindle.clone();
    while many.axes.len() < 12 {
        many.axes.push(many.axes[0]);
    }
    let refused = offers(&many, PartId::Cut(1)).into_iter().find(|it| it.label == "90\u{b0}").unwrap();
    assert!(refused.why_not.unwrap().sentence.to_string().contains("axes"));
    let axes = begun(&many, 100.0).into_iter().filter(|it| it.label.starts_with("An axis"));
    assert!(axes.into_iter().all(|it| it.change.is_err()));
}

#[test]
fn a_plug_goes_and_comes_with_its_taking_out() {
    let design = add(&add(&free_spindle(), "Round the whole blank", 100.0), "A bore from the bowl end", 100.0);
    let plugged = add(&design, "A plug in the bore", 100.0);
    let fit = plugged.cuts.iter().position(|cut| matches!(cut, Cut::FitPlug(_))).unwrap();
    assert_eq!(plugged.cuts.len(), design.cuts.len() + 2);
    let off = changed(&plugged, &Change::SwitchOff(PartId::Cut(fit))).unwrap();
    assert_eq!((&off.cuts, off.off.len()), (&design.cuts, 2));
    assert_eq!(parts(&off, Units::from(&Shop::default())).len(), design.cuts.len() + 1, "one row for both");
    assert_eq!(changed(&off, &Change::SwitchOn(PartId::Off(0))).unwrap(), plugged);
    assert_eq!(changed(&plugged, &Change::Remove(PartId::Cut(fit))).unwrap(), design);
    let later = Change::Move(PartId::Cut(fit), Way::Later);
    assert!(changed(&plugged, &later).is_err(), "a plug does not come out before it goes in");
}

#[test]
fn a_design_that_could_not_tell_its_parts_becomes_free() {
    let demo = demo();
    let names = |design: &Design| design.cuts.len();
    let pass = demo.cuts.iter().position(|cut| matches!(cut, Cut::Pass(pass) if pass.axis == AxisName::B)).unwrap();
    let renamed = changed(&demo, &Change::Rename(pass, "grip".into())).unwrap();
    assert!(renamed.pattern.is_none() && names(&renamed) == names(&demo));
    assert!(changed(&demo, &Change::Remove(PartId::Axis(0))).unwrap().pattern.is_none());
    // One that is gone stays gone whatever is chosen, until it follows again.
    let mut gone = changed(&demo, &Change::Remove(PartId::Cut(pass))).unwrap();
    assert!(gone.pattern.is_some());
    choose(&mut gone, |choices| *choices.number_mut(0).unwrap() += 1.0);
    assert_eq!(names(&gone), names(&demo) - 1);
}
