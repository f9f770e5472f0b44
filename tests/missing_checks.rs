//! Designs that go wrong at the lathe although their shape is sound: each is told by a check of its own.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

use skewline::design::starters::{BoredEndScoop, Outside, bored_end_scoop, bored_end_scoop_straight, demo};
use skewline::design::{BlankSection, Cut, Design, Green, InUse, Node, Pass, PassProfile, Shop};
use skewline::figures::checks::{Check, CheckName, Verdict};
use skewline::figures::{Worked, work_out};
use skewline::form::Field;
use skewline::form::edit::set;

fn worked(design: &Design, shop: &Shop) -> Worked {
    work_out(design, shop).unwrap_or_else(|error| panic!("{error}"))
}

fn check(design: &Design, name: CheckName) -> Check {
    check_in(design, &Shop::default(), name)
}

fn check_in(design: &Design, shop: &Shop, name: CheckName) -> Check {
    let worked = worked(design, shop);
    worked.checks.into_iter().find(|check| check.name == name).unwrap_or_else(|| panic!("no check {name:?}"))
}

fn near(value: Option<f64>, expected: f64, tolerance: f64) {
    let value = value.unwrap();
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected} within {tolerance}");
}

/// The place of the pass of this name.
fn place(design: &Design, name: &str) -> usize {
    design.cuts.iter().position(|cut| matches!(cut, Cut::Pass(pass) if pass.name == name)).unwrap()
}

fn pass_mut<'a>(design: &'a mut Design, name: &str) -> &'a mut Pass {
    let place = place(design, name);
    match &mut design.cuts[place] {
        Cut::Pass(pass) => pass,
        _ => panic!("{name}"),
    }
}

/// The design with its tenon this long and this wide, its shoulder where it was.
fn with_tenon(long_mm: f64, across_mm: f64) -> Design {
    let mut design = demo();
    let tenon = pass_mut(&mut design, "tenon");
    let from_mm = tenon.from_mm;
    let to_mm = from_mm + long_mm;
    tenon.to_mm = to_mm;
    tenon.profile = PassProfile::Drawn { nodes: vec![Node::line(from_mm, across_mm), Node::line(to_mm, across_mm)] };
    design.blank.length_mm = to_mm;
    design
}

/// Applies the value that a check names.
fn cured(design: &Design, check: &Check) -> Design {
    let mut cured = design.clone();
    let value = check.cured_by.unwrap_or_else(|| panic!("no value: {check:#?}"));
    let path = check.field.as_deref().unwrap();
    let fields = [Field::BlankLength, Field::BlankWidth];
    let plugs = (0..design.cuts.len()).map(Field::SpigotDiameter);
    let passes =
        (0..design.cuts.len()).flat_map(|cut| [Field::PassFrom(cut), Field::PassTo(cut), Field::BoreDepth(cut)]);
    let field = fields.into_iter().chain(passes).chain(plugs).find(|field| field.path(design) == path).unwrap();
    set(&mut cured, field, value);
    cured
}

#[test]
fn a_tenon_seats_when_it_is_shorter_than_the_jaws_are_deep() {
    assert_eq!(check(&demo(), CheckName::Tenon).verdict, Verdict::Ok);
    // The jaws of the shop are 8 mm deep.
    let long = with_tenon(10.0, 64.0);
    let found = check(&long, CheckName::Tenon);
    assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
    near(found.value, 10.0, 1e-9);
    assert_eq!(check(&cured(&long, &found), CheckName::Tenon).verdict, Verdict::Ok);
    let short = with_tenon(2.0, 64.0);
    let found = check(&short, CheckName::Tenon);
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    assert_eq!(check(&cured(&short, &found), CheckName::Tenon).verdict, Verdict::Ok);
}

#[test]
fn a_tenon_lies_within_the_range_of_the_jaws() {
    let mut wide = with_tenon(7.0, 86.0);
    wide.blank.section = BlankSection::Square { side_mm: 90.0 };
    for (design, across) in [(wide, 86.0), (with_tenon(7.0, 28.0), 28.0)] {
        let found = check(&design, CheckName::Tenon);
        assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
        near(found.value, across, 1e-6);
        assert!(found.cure.contains("38.0 mm to 70.0 mm"), "{}", found.cure);
    }
}

#[test]
fn an_unroughed_square_is_not_held_in_the_chuck() {
    let mut design = demo();
    design.cuts.remove(place(&design, "tenon"));
    let found = check(&design, CheckName::Tenon);
    assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
    // A tenon that ends before the head face leaves the jaws the same square.
    let mut design = demo();
    design.blank.length_mm += 16.0;
    let found = check(&design, CheckName::Tenon);
    assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
    assert_eq!(check(&cured(&design, &found), CheckName::Tenon).verdict, Verdict::Ok);
}

#[test]
fn work_that_stands_far_out_of_the_jaws_is_bored_with_support() {
    let found = check(&demo(), CheckName::Overhang);
    assert_eq!(found.verdict, Verdict::Ok);
    // From the bowl-end face to the shoulder of the tenon.
    near(found.value, 214.0 / 64.0, 1e-9);
    let thin = with_tenon(7.0, 42.0);
    let found = check(&thin, CheckName::Overhang);
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    near(found.value, 214.0 / 42.0, 1e-9);
    assert!(found.cure.contains("steady") && found.cure.contains("53.5 mm"), "{}", found.cure);
    assert_eq!(check(&with_tenon(7.0, 53.5), CheckName::Overhang).verdict, Verdict::Ok);
    let mut long = thin;
    long.blank.length_mm += 200.0;
    let tenon = place(&long, "tenon");
    set(&mut long, Field::NodeAt(tenon, 1), 421.0);
    set(&mut long, Field::NodeAt(tenon, 0), 414.0);
    assert_eq!(check(&long, CheckName::Overhang).verdict, Verdict::Stop);
}

#[test]
fn a_blank_too_short_for_tenon_waste_and_piece_is_a_stop() {
    let mut design = demo();
    design.blank.length_mm = 190.0;
    let found = check(&design, CheckName::Length);
    assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
    near(found.limit, 221.0, 1e-9);
    assert_eq!(check(&design, CheckName::Tenon).verdict, Verdict::Stop);
    assert!(found.cure.contains("221.0 mm"), "{}", found.cure);
    let mut cured = design;
    cured.blank.length_mm = 221.0;
    for name in [CheckName::Length, CheckName::Tenon] {
        assert_eq!(check(&cured, name).verdict, Verdict::Ok);
    }
}

#[test]
fn a_parting_tool_needs_room_before_the_tenon() {
    let mut design = demo();
    let tenon = place(&design, "tenon");
    set(&mut design, Field::NodeAt(tenon, 0), 206.0);
    let found = check(&design, CheckName::Length);
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    near(found.value, 2.0, 1e-9);
}

#[test]
fn the_lathe_takes_chuck_bit_and_drill_chuck_while_boring() {
    let design = demo();
    let mut shop = Shop::default();
    // Chuck 60, work out of the jaws 214, bit 90, drill chuck 60.
    shop.lathe.between_centres_mm = 425.0;
    let found = check_in(&design, &shop, CheckName::Lathe);
    near(found.value, 424.0, 1e-9);
    assert_eq!(found.verdict, Verdict::Ok);
    shop.lathe.between_centres_mm = 423.0;
    let found = check_in(&design, &shop, CheckName::Lathe);
    assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
    shop.chuck.length_mm = 50.0;
    assert_eq!(check_in(&design, &shop, CheckName::Lathe).verdict, Verdict::Ok);
}

#[test]
fn a_second_mark_close_to_the_first_is_walked_out_of() {
    let tilted = |tilt_deg: f64| BoredEndScoop { tilt_deg, ..BoredEndScoop::default() }.design("tilted");
    assert_eq!(check(&tilted(3.0), CheckName::Marks).verdict, Verdict::Ok);
    let found = check(&tilted(1.4), CheckName::Marks);
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    // A quarter of the drive centre's 20 mm; the head face lies 221 - 102 mm from the crossing.
    near(found.limit, 5.0, 1e-9);
    near(found.value, 119.0 * 1.4_f64.to_radians().tan(), 1e-9);
    assert_eq!(check(&tilted(0.8), CheckName::Marks).verdict, Verdict::Stop);
    // Axes that cross on a face share one mark there.
    let mut shared = tilted(7.5);
    set(&mut shared, Field::AxisCrossing(0), 221.0);
    assert_eq!(check(&shared, CheckName::Marks).verdict, Verdict::Ok);
    let mut shop = Shop::default();
    shop.centres.overlap_percent = 20.0;
    assert_ne!(check_in(&tilted(3.0), &shop, CheckName::Marks).verdict, Verdict::Ok);
}

#[test]
fn the_point_of_a_bit_stays_above_the_finished_floor() {
    for design in [demo(), bored_end_scoop(), bored_end_scoop_straight()] {
        let worked = worked(&design, &Shop::default());
        let boring = &worked.figures.borings[0];
        assert!(boring.deepest_point_mm <= 47.5 + 1e-9, "{}", boring.deepest_point_mm);
        assert!(boring.warnings.is_empty(), "{:?}", boring.warnings);
    }
    // A schedule that goes deeper is told, with the depth that avoids the dimple.
    let (design, shop) = (demo(), Shop::default());
    let Worked { piece, mut figures, .. } = worked(&design, &shop);
    let step = figures.borings[0].steps.last_mut().unwrap();
    (step.depth_mm, step.point_depth_mm) = (46.8, 49.8);
    let finished = skewline::geometry::mass(&piece.solid.finished());
    let checks = skewline::figures::checks::checks(&design, &piece, &shop, &figures, &finished);
    let found = checks.into_iter().find(|check| check.name == CheckName::BitPoint).unwrap();
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    near(found.value, 49.8, 1e-9);
    near(found.limit, 48.0, 1e-9);
    assert!(found.cure.contains("45.0 mm"), "{}", found.cure);
}

#[test]
fn rough_wood_before_the_parting_is_told() {
    let mut design = bored_end_scoop_straight();
    let parting = design.cuts.iter().position(|cut| matches!(cut, Cut::Part(_))).unwrap();
    set(&mut design, Field::PlaneAt(parting), 208.5);
    let found = check(&design, CheckName::RoughEnd);
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    // The disc is a piece of the 58 mm blank, from the end of the pass to the parting cut.
    near(found.value, 208.5 - 204.0, 1e-6);
    assert!(found.place.unwrap().radius_mm > 28.9);
    assert_eq!(check(&design, CheckName::Fin).verdict, Verdict::Ok, "it is no fin");
    let handle = place(&design, "handle");
    set(&mut design, Field::PassTo(handle), 208.5);
    assert_eq!(check(&design, CheckName::RoughEnd).verdict, Verdict::Ok);
    // Where most of the gap to the tenon is in the piece, it still is no fin.
    set(&mut design, Field::PassTo(handle), 204.0);
    set(&mut design, Field::PlaneAt(parting), 213.0);
    near(check(&design, CheckName::RoughEnd).value, 9.0, 1e-6);
    assert_eq!(check(&design, CheckName::Fin).verdict, Verdict::Ok, "it is no fin");
}

#[test]
fn green_wood_goes_out_of_round() {
    let mut design = demo();
    design.wood.in_use = InUse::Moisture { moisture_percent: 8.0 };
    design.wood.moisture_percent = 40.0;
    let found = check(&design, CheckName::Moisture);
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    // Black cherry shrinks by 3.7 and 7.1 percent from green to ovendry, in step with moisture below 30 percent: Wood
    // Handbook, FPL-GTR-190 (2010), Table 4-3 and chapter 13; the formula from memory.
    let shrunk = |percent: f64| 41.275 * (30.0 - 8.0) / (30.0 * 100.0 / percent);
    near(found.value, shrunk(7.1) - shrunk(3.7), 0.01);
    for green in [Green::RoughFirst, Green::LeftOval] {
        design.wood.green = green;
        assert_eq!(check(&design, CheckName::Moisture).verdict, Verdict::Ok);
    }
    design.wood.green = Green::Unsaid;
    design.wood.moisture_percent = 12.0;
    assert_eq!(check(&design, CheckName::Moisture).verdict, Verdict::Ok);
}

/// What cannot be worked out is not ok.
#[test]
fn what_is_not_known_is_not_ok() {
    let mut design = demo();
    design.wood.species = "Bramblewood".into();
    for name in [
        CheckName::OutOfBalance,
        CheckName::NeckStrength,
        CheckName::WasteStrength,
        CheckName::Moisture,
        CheckName::Tips,
    ] {
        let found = check(&design, name);
        assert_eq!(found.verdict, Verdict::Tight, "{name:?}: {}", found.sentence);
        assert!(!found.cure.is_empty());
    }
    let mut unparted = demo();
    unparted.cuts.retain(|cut| !matches!(cut, Cut::Part(_)));
    assert_eq!(check(&unparted, CheckName::Length).verdict, Verdict::Tight);
}

/// The blank that a check asks for passes the checks of the blank.
#[test]
fn a_cures_own_blank_passes_its_checks() {
    for outside in [Outside::Join, Outside::RoundOver] {
        for side_mm in [40.0, 52.0, 60.0] {
            let mut design = BoredEndScoop { outside, ..BoredEndScoop::default() }.design("small blank");
            design.blank.section = BlankSection::Square { side_mm };
            for name in [CheckName::Flats, CheckName::Blank] {
                let found = check(&design, name);
                assert_ne!(found.verdict, Verdict::Ok, "{side_mm}: {}", found.sentence);
                let cured = cured(&design, &found);
                for name in [CheckName::Flats, CheckName::Blank] {
                    let after = check(&cured, name);
                    assert_eq!(after.verdict, Verdict::Ok, "{side_mm}: {} {}", found.cure, after.sentence);
                }
            }
        }
    }
}

/// Jaws of every common size get a tenon that they take.
#[test]
fn a_starter_is_given_a_tenon_for_the_shops_chuck() {
    for (from, to, depth) in [(38.0, 70.0, 8.0), (25.0, 45.0, 5.0), (55.0, 100.0, 12.0), (20.0, 60.0, 3.0)] {
        let mut shop = Shop::default();
        (shop.chuck.jaw_from_mm, shop.chuck.jaw_to_mm, shop.chuck.jaw_depth_mm) = (from, to, depth);
        for scoop in [BoredEndScoop::default(), BoredEndScoop::straight()] {
            let design = BoredEndScoop { chuck: shop.chuck, ..scoop }.design("for the chuck");
            for name in [CheckName::Tenon, CheckName::Length, CheckName::Flats] {
                let found = check_in(&design, &shop, name);
                assert_eq!(found.verdict, Verdict::Ok, "{from} to {to}: {}", found.sentence);
            }
        }
    }
}

#[test]
fn a_piece_turned_between_centres_needs_no_tenon() {
    let mut design = demo();
    design.cuts.retain(|cut| matches!(cut, Cut::Pass(pass) if pass.name == "bowl"));
    design.axes.clear();
    assert_eq!(check(&design, CheckName::Tenon).verdict, Verdict::Ok);
    assert_eq!(check(&design, CheckName::Overhang).verdict, Verdict::Ok);
}

#[test]
fn a_live_centre_needs_a_plug_over_an_open_bore() {
    assert_eq!(check(&demo(), CheckName::Carried).verdict, Verdict::Ok);
    let mut design = demo();
    design.cuts.retain(|cut| !matches!(cut, Cut::FitPlug(_) | Cut::TakeOutPlug));
    let found = check(&design, CheckName::Carried);
    assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
    assert!(found.cure.starts_with("Fit a plug"), "{} {}", found.sentence, found.cure);
}

#[test]
fn the_thrust_of_the_tail_centre_passes_inside_the_rim() {
    let tilted = |tilt_deg: f64| {
        BoredEndScoop { tilt_deg, outside: Outside::RoundOver, ..BoredEndScoop::default() }.design("tilted")
    };
    let found = check(&tilted(7.5), CheckName::Plug);
    assert_eq!(found.verdict, Verdict::Ok, "{}", found.sentence);
    // The rim is a bore of 41.275 mm and walls of 4 mm; the crossing lies at 102 mm, the mark on the plug's tail face.
    let rim = 41.275 / 2.0 + 4.0;
    let plug = demo().cuts.into_iter().find_map(|cut| match cut {
        Cut::FitPlug(plug) => Some(plug),
        _ => None,
    });
    let arm = 102.0 + plug.unwrap().stands_out_mm();
    near(found.value, rim - arm * 7.5_f64.to_radians().tan(), 0.01);
    let found = check(&tilted(13.0), CheckName::Plug);
    assert_eq!(found.verdict, Verdict::Stop, "{}", found.sentence);
    near(found.value, rim - arm * 13.0_f64.to_radians().tan(), 0.01);
}

#[test]
fn a_loose_plug_turns_in_its_bore() {
    let mut design = demo();
    let fit = design.cuts.iter().position(|cut| matches!(cut, Cut::FitPlug(_))).unwrap();
    set(&mut design, Field::SpigotDiameter(fit), 38.0);
    let found = check(&design, CheckName::Plug);
    assert_eq!(found.verdict, Verdict::Tight, "{}", found.sentence);
    near(found.value, 3.275, 1e-9);
    assert_eq!(check(&cured(&design, &found), CheckName::Plug).verdict, Verdict::Ok);
}
