//! Fields, rows and edits of a design: every number can be found, named, set and undone.

mod support;

use skewline::design::{
    AxisChoice, AxisName, Blank, BlankSection, Cut, Design, EndPlane, Hollow, HollowShape, InUse, LimitChoices, Node,
    Pass, PassProfile, Plug, SawCut, SawPath, SawPoint, Side, Wood, starters,
};
use skewline::form::edit::{
    CurveKind, accepted, draw_pass, give_use_air, give_use_moisture, insert_node, insert_saw_point, leave_to_shop,
    remove_node, remove_saw_point, set_curve, set_round_blank, set_saw_arc, use_join, with_number,
};
use skewline::form::{Field, Group, Movable, Shown, group_of_cut, hollow_names, nodes_of, sections, shown};
use support::{kinds_left_out, sound_design};

const BORE: usize = 0;
const PLUG: usize = 1;
const OUTSIDE: usize = 2;
const HANDLE: usize = 3;
const HOOK: usize = 4;
const SAW: usize = 6;
const ARC_SAW: usize = 7;
const DRAWN_HOLLOW: usize = 8;

fn pass(name: &str, axis: AxisName, from_mm: f64, to_mm: f64, profile: PassProfile) -> Cut {
    Cut::Pass(Pass { name: name.to_owned(), axis, from_mm, to_mm, profile, shapes: None })
}

fn drawn(nodes: Vec<Node>) -> PassProfile {
    PassProfile::Drawn { nodes }
}

/// An invented scoop with one of everything.
fn scoop() -> Design {
    let handle =
        vec![Node::line(70.0, 40.0), Node::ogee(80.0, 24.0), Node::arc(120.0, 16.0, 1.5), Node::line(190.0, 18.0)];
    Design {
        name: "Flour scoop".to_owned(),
        notes: String::new(),
        wood: Wood { species: "sugar maple".to_owned(), moisture_percent: 10.0, ..Wood::default() },
        blank: Blank { section: BlankSection::Square { side_mm: 60.0 }, length_mm: 230.0 },
        axes: vec![
            AxisChoice::Tilt { tilt_deg: 8.0, toward_deg: 0.0, crossing_mm: 60.0 },
            AxisChoice::Marks { tail_x_mm: 1.0, tail_y_mm: 2.0, head_x_mm: 3.0, head_y_mm: 5.0 },
            AxisChoice::Across { station_mm: 30.0, from_deg: 90.0 },
        ],
        cuts: vec![
            Cut::Hollow(Hollow {
                axis: AxisName::A,
                mouth_mm: 0.0,
                shape: HollowShape::RoundEnded { diameter_mm: 38.0, depth_mm: 45.0, rounding_mm: 8.0 },
            }),
            Cut::FitPlug(Plug {
                disc_diameter_mm: 44.0,
                thickness_mm: 12.0,
                spigot_diameter_mm: 38.0,
                spigot_length_mm: 10.0,
                tenon: None,
            }),
            pass("bowl", AxisName::A, 0.0, 80.0, PassProfile::Join),
            pass("handle", AxisName::B, 70.0, 190.0, drawn(handle)),
            pass("hook", AxisName::A, 190.0, 200.0, drawn(vec![Node::line(190.0, 20.0), Node::line(200.0, 14.0)])),
            Cut::Part(EndPlane { axis: AxisName::B, at_mm: 205.0, removes: Side::Head }),
            Cut::Saw(SawCut {
                path: SawPath::Lines {
                    points: vec![
                        SawPoint { at_mm: -5.0, height_mm: 4.0 },
                        SawPoint { at_mm: 20.0, height_mm: 6.0 },
                        SawPoint { at_mm: 40.0, height_mm: 25.0 },
                    ],
                },
            }),
            Cut::Saw(SawCut {
                path: SawPath::Arc {
                    from: SawPoint { at_mm: 0.0, height_mm: 10.0 },
                    to: SawPoint { at_mm: 30.0, height_mm: 26.0 },
                    bulge_mm: -2.0,
                },
            }),
            Cut::Hollow(Hollow {
                axis: AxisName::A,
                mouth_mm: 0.0,
                shape: HollowShape::Drawn { nodes: vec![Node::line(0.0, 36.0), Node::line(40.0, 10.0)] },
            }),
            Cut::TakeOutPlug,
        ],
        contents: "flour".to_owned(),
        duty: Default::default(),
        limits: LimitChoices::default(),
        done: Vec::new(),
        log: Vec::new(),
        off: Vec::new(),
        pattern: None,
    }
}

/// Every field the screen can show for the design.
fn every_field(design: &Design) -> Vec<Field> {
    let mut fields: Vec<Field> =
        Group::ALL.into_iter().flat_map(|group| sections(design, group)).flat_map(|section| section.fields).collect();
    for cut in 0..design.cuts.len() {
        for index in 0..4 {
            fields.extend(Field::of_node(design, cut, index));
            fields.extend(Field::of_point(design, cut, index));
        }
    }
    fields
}

#[test]
fn the_fixture_is_sound() {
    assert_eq!(scoop().problems(), []);
}

#[test]
fn every_field_stands_in_the_document_where_it_says() {
    let design = scoop();
    let document = kinds_left_out(serde_json::to_value(&design).unwrap());
    let fields = every_field(&design);
    assert!(fields.len() > 50, "{}", fields.len());
    for field in fields.iter().filter(|field| !field.may_be_left_to_the_shop()) {
        let path = field.path(&design);
        let pointer = format!("/{}", path.replace("].", "/").replace(['.', '['], "/").replace(']', ""));
        let saved = document.pointer(&pointer).and_then(serde_json::Value::as_f64);
        assert_eq!(saved, field.number(&design), "{path}");
        assert!(saved.is_some(), "{path}");
    }
}

#[test]
fn every_field_can_be_set_and_nothing_else_changes_by_accident() {
    for field in every_field(&scoop()) {
        let mut design = scoop();
        if field.may_be_left_to_the_shop() {
            let changed = with_number(&design, field, 2.5).unwrap();
            assert_eq!(field.number(&changed), Some(2.5));
            continue;
        }
        *field.slot(&mut design).unwrap() += 0.25;
        let before = field.number(&scoop()).unwrap();
        assert_eq!(field.number(&design), Some(before + 0.25), "{field:?}");
        *field.slot(&mut design).unwrap() -= 0.25;
        assert_eq!(design, scoop(), "{field:?}");
    }
}

#[test]
fn every_row_is_shown_in_the_group_its_path_leads_to() {
    let design = scoop();
    for group in Group::ALL {
        for field in sections(&design, group).iter().flat_map(|section| &section.fields) {
            let path = field.path(&design);
            let wanted = Shown { group: Some(group), path: path.clone(), picked: None };
            assert_eq!(shown(&design, &path, None), Some(wanted), "{field:?}");
        }
    }
    assert_eq!(group_of_cut(&design, HOOK), Some(Group::Handle));
    assert_eq!(group_of_cut(&design, OUTSIDE), Some(Group::Outside));
    assert_eq!(shown(&design, "cuts[99].from_mm", None), None);
    assert_eq!(shown(&design, "cuts[x", None), None);
}

#[test]
fn a_part_of_the_document_leads_to_its_value_nearest_to_the_place() {
    let design = scoop();
    let side = shown(&design, "blank.section", Some(40.0)).unwrap();
    assert_eq!((side.group, side.path.as_str()), (Some(Group::Wood), "blank.section.side_mm"));
    let duty = shown(&design, "duty", None).unwrap();
    assert_eq!((duty.group, duty.path.as_str()), (Some(Group::Wood), "duty"));
    let nodes = nodes_of(&design.cuts[HANDLE]).unwrap();
    for (index, node) in nodes.iter().enumerate() {
        let near = shown(&design, &format!("cuts[{HANDLE}].profile"), Some(node.at_mm)).unwrap();
        assert_eq!(near.path, format!("cuts[{HANDLE}].profile.nodes[{index}].diameter_mm"));
        assert_eq!(near.picked, Some(Movable::PassNode { cut: HANDLE, node: index }));
    }
    let last = shown(&design, "cuts", None).unwrap();
    assert_eq!(last.group, Some(Group::Handle));
    let shop = shown(&design, "limits.flat_width_mm", None).unwrap();
    assert_eq!((shop.group, shop.path.as_str()), (None, "shop.limits.flat_width_mm"));
}

#[test]
fn every_value_lies_in_its_bound_and_ranges_run_forward() {
    let design = scoop();
    for field in every_field(&design) {
        let row = field.row(&design);
        assert!(row.from <= row.to, "{field:?}");
        if let Some(value) = field.number(&design) {
            assert!(row.bound.holds(value), "{field:?}");
        }
    }
}

#[test]
fn a_number_that_would_break_the_design_is_refused_with_a_sentence() {
    let design = scoop();
    for (field, value) in [
        (Field::BlankWidth, f64::NAN),
        (Field::BlankLength, -1.0),
        (Field::AxisTilt(0), 75.0),
        (Field::NodeAt(HANDLE, 1), 150.0),
        (Field::SpigotDiameter(PLUG), 60.0),
        (Field::SawAt(SAW, 1), 90.0),
    ] {
        let problem = with_number(&design, field, value).unwrap_err();
        assert!(problem.sentence.to_string().ends_with('.') && problem.cure.to_string().ends_with('.'), "{problem}");
    }
}

#[test]
fn an_old_problem_does_not_stand_in_the_way_of_another_change() {
    let mut design = scoop();
    design.wood.moisture_percent = -3.0;
    let changed = with_number(&design, Field::BlankWidth, 62.0).unwrap();
    assert_eq!(Field::BlankWidth.number(&changed), Some(62.0));
}

#[test]
fn the_end_of_a_pass_and_its_end_node_move_together() {
    let by_end = with_number(&scoop(), Field::PassFrom(HANDLE), 65.0).unwrap();
    assert_eq!(Field::NodeAt(HANDLE, 0).number(&by_end), Some(65.0));
    let by_node = with_number(&scoop(), Field::NodeAt(HANDLE, 3), 185.0).unwrap();
    assert_eq!(Field::PassTo(HANDLE).number(&by_node), Some(185.0));
    let join = with_number(&scoop(), Field::PassTo(OUTSIDE), 85.0).unwrap();
    assert_eq!(Field::PassTo(OUTSIDE).number(&join), Some(85.0));
}

#[test]
fn a_rounding_shrinks_with_its_bore() {
    let changed = with_number(&scoop(), Field::BoreDiameter(BORE), 10.0).unwrap();
    assert_eq!(Field::BoreRounding(BORE).number(&changed), Some(5.0));
    let changed = with_number(&scoop(), Field::BoreDepth(BORE), 3.0).unwrap();
    assert_eq!(Field::BoreRounding(BORE).number(&changed), Some(3.0));
}

#[test]
fn a_node_put_in_leaves_the_profile_sound_and_taken_out_again_as_it_was() {
    for after in 0..3 {
        let changed = accepted(&scoop(), |design| insert_node(design, HANDLE, after)).unwrap();
        assert_eq!(nodes_of(&changed.cuts[HANDLE]).unwrap().len(), 5);
    }
    let mut design = scoop();
    insert_node(&mut design, HANDLE, 0);
    remove_node(&mut design, HANDLE, 1);
    assert_eq!(design, scoop());
    remove_node(&mut design, HANDLE, 0);
    remove_node(&mut design, HANDLE, 3);
    remove_node(&mut design, HANDLE, 99);
    assert_eq!(design, scoop(), "ends stay");
}

#[test]
fn every_curve_can_be_chosen_between_any_two_nodes() {
    for kind in CurveKind::ALL {
        for node in 0..3 {
            let changed = accepted(&scoop(), |design| set_curve(design, HANDLE, node, kind)).unwrap();
            assert_eq!(CurveKind::of(&nodes_of(&changed.cuts[HANDLE]).unwrap()[node].curve), kind);
        }
    }
    let mut design = scoop();
    set_curve(&mut design, HANDLE, 2, CurveKind::Cove);
    assert_eq!(Field::NodeBulge(HANDLE, 2).number(&design), Some(-1.5), "an arc keeps its size");
}

#[test]
fn a_join_can_be_drawn_by_hand_and_handed_back() {
    let mut design = scoop();
    let join = vec![Node::line(-4.0, 44.0), Node::line(10.0, 46.0), Node::line(60.0, 50.0), Node::line(90.0, 30.0)];
    draw_pass(&mut design, OUTSIDE, join);
    let nodes = nodes_of(&design.cuts[OUTSIDE]).unwrap();
    assert_eq!(nodes.first().map(|node| node.at_mm), Some(0.0));
    assert_eq!(nodes.last().map(|node| node.at_mm), Some(80.0));
    assert_eq!(design.problems(), []);
    use_join(&mut design, OUTSIDE);
    assert_eq!(design, scoop());
}

#[test]
fn the_saw_line_takes_points_and_bends() {
    let mut design = scoop();
    insert_saw_point(&mut design, SAW, 1);
    assert_eq!(Field::SawAt(SAW, 2).number(&design), Some(30.0));
    remove_saw_point(&mut design, SAW, 2);
    assert_eq!(design, scoop());
    let arc = accepted(&design, |it| set_saw_arc(it, SAW, true)).unwrap();
    assert!(Field::SawBulge(SAW).number(&arc).is_some());
    let straight = accepted(&design, |it| set_saw_arc(it, ARC_SAW, false)).unwrap();
    assert_eq!(Field::SawHeight(ARC_SAW, 1).number(&straight), Some(26.0));
    remove_saw_point(&mut design, SAW, 0);
    remove_saw_point(&mut design, SAW, 0);
    assert_eq!(Field::SawAt(SAW, 1).number(&design), Some(40.0), "two points stay");
}

#[test]
fn a_limit_goes_back_to_the_shop() {
    let mut design = with_number(&scoop(), Field::WallLimit, 2.0).unwrap();
    leave_to_shop(&mut design, Field::WallLimit);
    assert_eq!(design, scoop());
}

#[test]
fn a_blank_keeps_its_width_when_it_is_made_round() {
    let mut design = scoop();
    set_round_blank(&mut design, true);
    assert_eq!(design.blank.section, BlankSection::Round { diameter_mm: 60.0 });
    set_round_blank(&mut design, false);
    assert_eq!(design, scoop());
}

#[test]
fn edits_of_cuts_that_are_not_there_change_nothing() {
    let mut design = scoop();
    for cut in [BORE, PLUG, SAW, DRAWN_HOLLOW + 1, usize::MAX] {
        insert_node(&mut design, cut, 0);
        set_curve(&mut design, cut, 7, CurveKind::Bead);
        use_join(&mut design, cut);
        assert!(Field::of_node(&design, cut, usize::MAX).is_empty());
        assert!(Field::of_point(&design, cut, 17).is_empty());
    }
    assert_eq!(design, scoop());
}

#[test]
fn the_moisture_in_use_is_given_itself_or_by_the_air() {
    let mut design = starters::demo();
    give_use_moisture(&mut design, 9.2349);
    assert_eq!(design.wood.in_use, InUse::Moisture { moisture_percent: 9.2 });
    assert_eq!(Field::UseMoisture.number(&design), Some(9.2));
    give_use_air(&mut design);
    assert_eq!(design.wood.in_use, InUse::default());
    let kitchen = InUse::Air { temperature_c: 22.0, humidity_percent: 60.0 };
    design.wood.in_use = kitchen;
    give_use_air(&mut design);
    assert_eq!(design.wood.in_use, kitchen, "air that is given stays");
    give_use_moisture(&mut design, 1.0e9);
    assert_eq!(design.problems(), []);
}

#[test]
fn hollows_are_told_apart_by_axis_and_by_number() {
    let mut design = sound_design();
    assert_eq!(hollow_names(&design), [(0, "Bore".to_owned()), (1, "Hollow (axis D)".to_owned())]);
    let (bore, across) = (design.cuts[0].clone(), design.cuts[1].clone());
    design.cuts.extend([across, bore]);
    let names = hollow_names(&design);
    let said: Vec<_> = names.iter().map(|it| it.1.as_str()).collect();
    assert_eq!(said, ["Bore 1", "Hollow 1 (axis D)", "Hollow 2 (axis D)", "Bore 2"]);
    // The values of each stand under the same name.
    let titles: Vec<_> =
        sections(&design, Group::Hollow).into_iter().filter_map(|it| Some((it.key.cut()?, it.title))).collect();
    assert!(names.iter().all(|name| titles.contains(name)), "{titles:?}");
}

/// A bead, a cove or an ogee between two points: one action each, sound, and undone by taking its two points out.
#[test]
fn beads_coves_and_ogees_are_put_between_two_points() {
    use skewline::form::features::insert_feature;
    let design = starters::demo();
    let passes = (0..design.cuts.len()).filter_map(|cut| Some((cut, nodes_of(design.cuts.get(cut)?)?.clone())));
    for (cut, nodes) in passes.collect::<Vec<_>>() {
        for (after, pair) in nodes.windows(2).enumerate().filter(|(_, pair)| pair[1].at_mm > pair[0].at_mm) {
            for kind in CurveKind::ALL {
                let with = accepted(&design, |design| insert_feature(design, cut, after, kind)).unwrap();
                let now = nodes_of(&with.cuts[cut]).unwrap();
                assert_eq!(now.len(), nodes.len() + 2);
                assert_eq!(CurveKind::of(&now[after + 1].curve), kind);
                assert!(now[after + 1].at_mm > pair[0].at_mm && now[after + 2].at_mm < pair[1].at_mm);
                let mut back = with.clone();
                remove_node(&mut back, cut, after + 2);
                remove_node(&mut back, cut, after + 1);
                let left: Vec<f64> = nodes_of(&back.cuts[cut]).unwrap().iter().map(|node| node.at_mm).collect();
                assert_eq!(left, nodes.iter().map(|node| node.at_mm).collect::<Vec<_>>());
            }
        }
    }
}
