//! What validation says of designs and shops, and that sound ones pass.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use skewline::design::entry::Units;
use skewline::design::validation::{bounds, largest_bulge_mm};
use skewline::design::{
    AxisChoice, AxisName, Bit, BitKind, BlankSection, Curve, Cut, Design, HollowShape, InUse, LengthUnit, Node,
    OwnSpecies, PassProfile, Problem, Rounding, SawPath, Shop,
};
use support::{arbitrary, kinds_left_out, sound_design};

/// One line a problem: field, place, sentence, cure.
fn said(problems: &[Problem]) -> String {
    let line = |it: &Problem| match it.place {
        Some(place) => format!("{} @ {place}: {it}\n", it.field),
        None => format!("{}: {it}\n", it.field),
    };
    problems.iter().map(line).collect()
}

fn spoiled(spoil: impl FnOnce(&mut Design)) -> Vec<Problem> {
    let mut design = sound_design();
    spoil(&mut design);
    design.problems()
}

fn pass_nodes(design: &mut Design, cut: usize) -> &mut Vec<Node> {
    match &mut design.cuts[cut] {
        Cut::Pass(pass) => match &mut pass.profile {
            PassProfile::Drawn { nodes } => nodes,
            PassProfile::Join => panic!("cut {cut} is a join"),
        },
        _ => panic!("cut {cut} is no pass"),
    }
}

#[test]
fn a_sound_design_and_the_default_shop_have_no_problem() {
    assert_eq!(said(&sound_design().problems()), "");
    assert_eq!(said(&Shop::default().problems()), "");
}

/// A design with something wrong of every kind that has a length in its sentence, and more.
fn everything_wrong() -> Vec<Problem> {
    spoiled(|design| {
        design.name = "x".repeat(121);
        design.wood.moisture_percent = f64::NAN;
        design.blank.section = BlankSection::Square { side_mm: 0.0 };
        design.axes[0] = AxisChoice::Tilt { tilt_deg: 61.0, toward_deg: f64::INFINITY, crossing_mm: -1.0e300 };
        design.axes[1] = AxisChoice::Marks { tail_x_mm: -400.0, tail_y_mm: 0.0, head_x_mm: 400.0, head_y_mm: 0.0 };
        design.axes[2] = AxisChoice::Across { station_mm: 256.0, from_deg: 0.0 };
        design.limits.floor_mm = Some(-1.0);
        let Cut::Hollow(bore) = &mut design.cuts[0] else { panic!("no bore") };
        bore.shape = HollowShape::RoundEnded { diameter_mm: 41.0, depth_mm: 10.0, rounding_mm: 21.0 };
        let Cut::Hollow(across) = &mut design.cuts[1] else { panic!("no hollow") };
        across.mouth_mm = -50.0;
        let Cut::FitPlug(plug) = &mut design.cuts[2] else { panic!("no plug") };
        plug.spigot_diameter_mm = 60.0;
        let Cut::Pass(bowl) = &mut design.cuts[3] else { panic!("no pass") };
        bowl.axis = AxisName::from_index(6).unwrap();
        bowl.to_mm = -12.0;
        *pass_nodes(design, 4) = vec![
            Node::line(61.0, 40.0),
            Node::line(80.0, -1.0),
            Node::line(100.0, 20.0),
            Node::line(90.0, 20.0),
            Node::ogee(90.0, 22.0),
            Node::line(90.0, 24.0),
            Node::arc(150.0, 24.0, 31.0),
            Node::arc(200.0, 24.0, -12.5),
            Node::line(229.0, 24.0),
        ];
        design.cuts.remove(2);
        let Cut::Saw(lines) = &mut design.cuts[7] else { panic!("no saw") };
        let SawPath::Lines { points } = &mut lines.path else { panic!("no lines") };
        points.swap(0, 1);
        let Cut::Saw(arc) = &mut design.cuts[8] else { panic!("no saw") };
        let SawPath::Arc { bulge_mm, .. } = &mut arc.path else { panic!("no arc") };
        *bulge_mm = 30.0;
    })
}

#[test]
fn every_problem_is_told_at_once_in_sentences() {
    insta::assert_snapshot!(said(&everything_wrong()));
}

/// A quarter of an inch is 6.35 mm, exactly (international inch, 1959).
#[test]
fn lengths_are_told_in_the_units_of_the_shop() {
    let inches = |rounding| Units { length: LengthUnit::Inches, rounding };
    let (decimals, fractions) = (inches(Rounding::Decimal), inches(Rounding::ThirtySeconds));
    let problems = spoiled(|design| {
        design.limits.wall_mm = Some(-6.35);
        let Cut::Pass(bowl) = &mut design.cuts[3] else { panic!("no pass") };
        (bowl.from_mm, bowl.to_mm) = (25.4, 12.7);
    });
    let told = |units| problems.iter().map(|it| it.told(units)).collect::<Vec<_>>();
    assert_eq!(
        told(decimals),
        [
            "The bowl pass starts at 1 in and ends at 0.5 in. Let it end after 1 in.",
            "The wall limit is -0.25 in, outside 0 to 1.969 in. Give it a value from 0 to 1.969 in.",
        ]
    );
    assert_eq!(
        told(fractions),
        [
            "The bowl pass starts at 1 in and ends at 1/2 in. Let it end after 1 in.",
            "The wall limit is -1/4 in, outside 0 to 1 31/32 in. Give it a value from 0 to 1 31/32 in.",
        ]
    );
    let mut shop = Shop::default();
    (shop.lathe.swing_over_rest_mm, shop.lathe.lowest_rpm) = (330.2, 4000.0);
    let wrong = [everything_wrong(), shop.problems()].concat();
    for units in [decimals, fractions] {
        for (problem, told) in wrong.iter().map(|it| (it, it.told(units))) {
            assert!(!told.contains("mm"), "{told}");
            assert_eq!(told != problem.to_string(), problem.to_string().contains(" mm"), "{told}");
        }
    }
}

#[test]
fn plugs_go_in_and_come_out_in_turn() {
    let twice = spoiled(|design| design.cuts.insert(3, design.cuts[2].clone()));
    let out_twice = spoiled(|design| design.cuts.push(Cut::TakeOutPlug));
    let tight = spoiled(|design| {
        let Cut::FitPlug(plug) = &mut design.cuts[2] else { panic!("no plug") };
        plug.spigot_diameter_mm = plug.disc_diameter_mm + 0.1;
    });
    insta::assert_snapshot!(said(&[twice, out_twice, tight].concat()));
}

#[test]
fn too_many_and_too_few_are_told() {
    let problems = spoiled(|design| {
        design.axes = vec![design.axes[0]; bounds::AXES + 1];
        design.cuts.truncate(1);
        design
            .cuts
            .extend(vec![Cut::Saw(skewline::design::SawCut { path: SawPath::Lines { points: vec![] } }); bounds::CUTS]);
        design.cuts.truncate(2);
    });
    let many = spoiled(|design| design.cuts = vec![design.cuts[7].clone(); bounds::CUTS + 1]);
    let long = spoiled(|design| {
        *pass_nodes(design, 4) = (0..=bounds::NODES).map(|i| Node::line(60.0 + i as f64, 20.0)).collect();
    });
    let short = spoiled(|design| *pass_nodes(design, 4) = vec![Node::line(60.0, 20.0)]);
    let none = spoiled(|design| pass_nodes(design, 4).clear());
    insta::assert_snapshot!(said(&[problems, many, long, short, none].concat()));
}

#[test]
fn a_shop_is_judged_whole() {
    let mut shop = Shop::default();
    shop.bits.push(Bit { kind: BitKind::Twist, diameter_mm: 0.0, point_mm: -1.0, reach_mm: f64::NAN });
    shop.lathe.swing_over_rest_mm = shop.lathe.swing_over_bed_mm + 1.0;
    shop.lathe.lowest_rpm = 4000.0;
    shop.chuck.jaw_from_mm = 80.0;
    shop.centres.margin_mm = -1.0;
    shop.limits.bore_depth_mm = 0.0;
    insta::assert_snapshot!(said(&shop.problems()));
}

/// A quarter round of radius r stands square to the axis at one end: its bulge is r (1 - cos 45 deg).
#[test]
fn a_quarter_round_is_the_limit_of_an_arc() {
    for radius in [0.5, 3.0, 10.0, 47.5] {
        let (from, to) = (Node::line(20.0, 30.0), Node::line(20.0 + radius, 30.0 + 2.0 * radius));
        let quarter = radius * (1.0 - std::f64::consts::FRAC_1_SQRT_2);
        assert!((largest_bulge_mm(&from, &to) - quarter).abs() < 1.0e-12 * radius);
        for (bulge_mm, fine) in [(quarter, true), (-quarter, true), (quarter * 1.02, false), (-quarter * 1.02, false)] {
            let problems = spoiled(|design| {
                let nodes = pass_nodes(design, 4);
                *nodes = vec![Node { curve: Curve::Arc { bulge_mm }, ..from }, to, Node::line(230.0, 20.0)];
                let Cut::Pass(pass) = &mut design.cuts[4] else { panic!("no pass") };
                pass.from_mm = 20.0;
            });
            assert_eq!(problems.is_empty(), fine, "radius {radius}, bulge {bulge_mm}: {}", said(&problems));
        }
    }
    // On a level chord the limit is the half circle.
    let level = largest_bulge_mm(&Node::line(0.0, 9.0), &Node::line(14.0, 9.0));
    assert!((level - 7.0).abs() < 1.0e-12);
    assert!(largest_bulge_mm(&Node::line(5.0, 9.0), &Node::line(5.0, 19.0)) == 0.0);
}

#[test]
fn a_cove_may_touch_the_axis_and_not_cross_it() {
    let cove = |bulge_mm: f64| {
        spoiled(|design| *pass_nodes(design, 4) = vec![Node::arc(60.0, 16.0, bulge_mm), Node::line(230.0, 16.0)])
    };
    assert_eq!(said(&cove(-7.999)), "");
    assert_eq!(cove(-8.001).len(), 1);
}

/// Every field is a path that leads to something in the saved document.
#[test]
fn fields_are_paths_in_the_saved_document() {
    let mut design = sound_design();
    let Cut::Hollow(across) = &mut design.cuts[1] else { panic!("no hollow") };
    across.mouth_mm = 999.0;
    pass_nodes(&mut design, 4)[0].diameter_mm = -1.0;
    pass_nodes(&mut design, 4)[0].curve = Curve::Arc { bulge_mm: 251.0 };
    design.blank.section = BlankSection::Round { diameter_mm: 501.0 };
    design.blank.length_mm = f64::INFINITY;
    design.axes[0] = AxisChoice::Tilt { tilt_deg: -1.0, toward_deg: 0.0, crossing_mm: 0.0 };
    let saved = kinds_left_out(serde_json::to_value(&design).unwrap());
    let problems = design.problems();
    assert_eq!(problems.len(), 5, "{}", said(&problems));
    for problem in problems {
        let pointer = format!("/{}", problem.field.replace("].", "/").replace(['[', '.'], "/").replace(']', ""));
        assert!(saved.pointer(&pointer).is_some(), "{} is not in the document", problem.field);
    }
}

proptest! {
    #[test]
    fn arbitrary_sound_designs_have_no_problem(design in arbitrary::design()) {
        prop_assert_eq!(said(&design.problems()), "");
    }

    #[test]
    fn arbitrary_sound_shops_have_no_problem(shop in arbitrary::shop()) {
        prop_assert_eq!(said(&shop.problems()), "");
    }

    /// Whatever one number is replaced with, validation ends, and a number that is not finite is found.
    #[test]
    fn any_number_anywhere_is_judged(value in any::<f64>(), which in 0_usize..7) {
        let problems = spoiled(|design| match which {
            0 => design.blank.length_mm = value,
            1 => pass_nodes(design, 4)[2].at_mm = value,
            2 => pass_nodes(design, 4)[1].diameter_mm = value,
            3 => pass_nodes(design, 4)[0].curve = Curve::Arc { bulge_mm: value },
            4 => design.limits.wall_mm = Some(value),
            5 => design.axes[2] = AxisChoice::Across { station_mm: value, from_deg: value },
            _ => {
                let Cut::Hollow(bore) = &mut design.cuts[0] else { panic!("no bore") };
                bore.shape = HollowShape::RoundEnded { diameter_mm: value, depth_mm: value, rounding_mm: value };
            }
        });
        prop_assert!(value.abs() < 2500.0 || !problems.is_empty());
    }
}

#[test]
fn the_air_in_use_and_woods_of_ones_own_are_judged() {
    let air = spoiled(|design| {
        design.wood.in_use = InUse::Air { temperature_c: 300.0, humidity_percent: f64::NAN };
    });
    assert_eq!(
        air.iter().map(|p| p.field.as_str()).collect::<Vec<_>>(),
        ["wood.in_use.temperature_c", "wood.in_use.humidity_percent"]
    );
    let known = spoiled(|design| design.wood.in_use = InUse::Moisture { moisture_percent: -1.0 });
    assert_eq!(known[0].field, "wood.in_use.moisture_percent");
    let mut shop = Shop::default();
    let sound = OwnSpecies { name: "Plum".to_owned(), density_kg_m3: 750.0, ..OwnSpecies::default() };
    shop.own_species = vec![
        sound.clone(),
        OwnSpecies { name: " plum".to_owned(), ..sound.clone() },
        OwnSpecies { name: " ".to_owned(), density_kg_m3: 7500.0, rupture_mpa: Some(f64::INFINITY), ..sound },
    ];
    let problems = shop.problems();
    assert_eq!(
        problems.iter().map(|p| p.field.as_str()).collect::<Vec<_>>(),
        ["own_species[1].name", "own_species[2].name", "own_species[2].density_kg_m3", "own_species[2].rupture_mpa",]
    );
    assert!(problems.iter().flat_map(|it| [&it.sentence, &it.cure]).all(|words| words.to_string().ends_with('.')));
}

/// A document with far too many cuts is judged cut by cut, without looking through all others at each: this came to no end.
#[test]
fn far_too_many_cuts_are_told_without_counting_them() {
    let problems = spoiled(|design| design.cuts = vec![Cut::TakeOutPlug; 300_000]);
    assert!(problems.iter().any(|problem| problem.field == "cuts"));
    let each = problems.iter().filter(|problem| problem.field.starts_with("cuts["));
    assert!(each.clone().count() > 0, "{}", problems.len());
    assert!(each.into_iter().all(|problem| problem.sentence.to_string().starts_with("The plug is taken out")));
}
