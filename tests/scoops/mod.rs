//! Invented utensils for tests.
#![allow(dead_code, reason = "each test file uses a part of it")]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use skewline::design::{
    AxisChoice, AxisName, Blank, BlankSection, Cut, Design, EndPlane, Hollow, HollowShape, LimitChoices, Node, Pass,
    PassProfile, Plug, SawCut, SawPath, SawPoint, Side, Wood,
};

/// A bored-end scoop whose handle leaves the bowl at an angle, upward.
pub fn angled_scoop() -> Design {
    Design {
        name: "Scoop".to_owned(),
        notes: String::new(),
        wood: Wood { species: "maple".to_owned(), moisture_percent: 10.0, ..Wood::default() },
        blank: Blank { section: BlankSection::Square { side_mm: 62.0 }, length_mm: 250.0 },
        axes: vec![AxisChoice::Tilt { tilt_deg: 6.5, toward_deg: 0.0, crossing_mm: 62.0 }],
        cuts: vec![
            bore(41.0, 50.0, 9.0),
            Cut::FitPlug(Plug {
                disc_diameter_mm: 50.0,
                thickness_mm: 12.0,
                spigot_diameter_mm: 40.5,
                spigot_length_mm: 9.0,
                tenon: None,
            }),
            pass("bowl", AxisName::A, &[Node::line(-12.0, 48.0), Node::arc(34.0, 48.0, 5.0), Node::line(76.0, 30.0)]),
            pass(
                "handle",
                AxisName::B,
                &[
                    Node::arc(66.0, 30.0, -3.0),
                    Node::ogee(90.0, 17.0),
                    Node::ogee(160.0, 25.0),
                    Node::arc(205.0, 19.0, 3.0),
                    Node::line(222.0, 6.0),
                ],
            ),
            Cut::TakeOutPlug,
            Cut::Part(EndPlane { axis: AxisName::B, at_mm: 221.0, removes: Side::Head }),
            Cut::Saw(SawCut {
                path: SawPath::Arc {
                    from: SawPoint { at_mm: 0.0, height_mm: 2.0 },
                    to: SawPoint { at_mm: 71.0, height_mm: 15.0 },
                    bulge_mm: -4.0,
                },
            }),
        ],
        contents: "coffee".to_owned(),
        duty: Default::default(),
        limits: LimitChoices::default(),
        done: Vec::new(),
        log: Vec::new(),
        off: Vec::new(),
        pattern: None,
    }
}

/// A scoop hollowed across the grain, with three axes, one of them leaning sideways; a straight saw line.
pub fn three_axes() -> Design {
    let across = AxisName::from_index(3).unwrap();
    Design {
        name: "Three axes".to_owned(),
        axes: vec![
            AxisChoice::Marks { tail_x_mm: 0.0, tail_y_mm: 4.0, head_x_mm: 6.0, head_y_mm: -5.0 },
            AxisChoice::Tilt { tilt_deg: 4.0, toward_deg: 60.0, crossing_mm: 90.0 },
            AxisChoice::Across { station_mm: 32.0, from_deg: 0.0 },
        ],
        cuts: vec![
            Cut::Hollow(Hollow {
                axis: across,
                mouth_mm: -30.0,
                shape: HollowShape::Drawn {
                    nodes: vec![Node::line(0.0, 44.0), Node::arc(36.0, 44.0, 4.0), Node::line(50.0, 16.0)],
                },
            }),
            pass("bowl", AxisName::A, &[Node::arc(0.0, 36.0, 5.0), Node::arc(32.0, 56.0, 5.0), Node::line(70.0, 30.0)]),
            pass(
                "handle",
                AxisName::B,
                &[Node::arc(66.0, 30.0, -2.0), Node::line(150.0, 18.0), Node::line(210.0, 22.0)],
            ),
            pass("end", AxisName::C, &[Node::arc(200.0, 24.0, 4.0), Node::line(226.0, 8.0)]),
            Cut::Part(EndPlane { axis: AxisName::C, at_mm: 225.0, removes: Side::Head }),
            Cut::Saw(SawCut {
                path: SawPath::Lines {
                    points: vec![
                        SawPoint { at_mm: -2.0, height_mm: 4.0 },
                        SawPoint { at_mm: 40.0, height_mm: 9.0 },
                        SawPoint { at_mm: 62.0, height_mm: 24.0 },
                    ],
                },
            }),
        ],
        ..angled_scoop()
    }
}

/// A bore from the bowl end.
pub fn bore(diameter_mm: f64, depth_mm: f64, rounding_mm: f64) -> Cut {
    let shape = HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm };
    Cut::Hollow(Hollow { axis: AxisName::A, mouth_mm: 0.0, shape })
}

/// A drawn pass that runs from its first node to its last.
pub fn pass(name: &str, axis: AxisName, nodes: &[Node]) -> Cut {
    let (first, last) = (nodes.first().unwrap(), nodes.last().unwrap());
    Cut::Pass(Pass {
        name: name.to_owned(),
        axis,
        from_mm: first.at_mm,
        to_mm: last.at_mm,
        profile: PassProfile::Drawn { nodes: nodes.to_vec() },
        shapes: None,
    })
}
