//! Designs for tests: one sound design written out, and arbitrary sound designs and shops.
#![allow(dead_code, unused_imports, reason = "every test crate uses a part of it")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at once")]

pub mod arbitrary;
pub mod heavy;
pub mod jaws;
pub mod moved;
pub mod pieces;
pub mod shelves;
pub mod solids;
pub mod speed;
pub mod table;

use serde_json::Value;
use skewline::design::{
    AxisChoice, AxisName, Blank, BlankSection, Cut, Design, Duty, EndPlane, Hollow, HollowShape, LimitChoices, Node,
    Pass, PassProfile, Plug, SawCut, SawPath, SawPoint, Side, Wood,
};

/// A design with every kind of cut and axis and no problem. It is sound, not sensible.
pub fn sound_design() -> Design {
    Design {
        name: "Test scoop".to_owned(),
        notes: String::new(),
        wood: Wood { species: "maple".to_owned(), moisture_percent: 10.0, ..Wood::default() },
        blank: Blank { section: BlankSection::Square { side_mm: 62.0 }, length_mm: 255.0 },
        axes: vec![
            AxisChoice::Tilt { tilt_deg: 7.0, toward_deg: 0.0, crossing_mm: 80.0 },
            AxisChoice::Marks { tail_x_mm: 1.0, tail_y_mm: -2.0, head_x_mm: 3.0, head_y_mm: 4.0 },
            AxisChoice::Across { station_mm: 30.0, from_deg: 0.0 },
        ],
        cuts: sound_cuts(),
        contents: "coffee".to_owned(),
        duty: Duty::default(),
        limits: LimitChoices { wall_mm: Some(3.5), ..LimitChoices::default() },
        done: Vec::new(),
        log: Vec::new(),
        off: Vec::new(),
        pattern: None,
    }
}

fn sound_cuts() -> Vec<Cut> {
    let drawn = |nodes: &[Node]| PassProfile::Drawn { nodes: nodes.to_vec() };
    vec![
        Cut::Hollow(Hollow {
            axis: AxisName::A,
            mouth_mm: 0.0,
            shape: HollowShape::RoundEnded { diameter_mm: 41.0, depth_mm: 48.0, rounding_mm: 8.0 },
        }),
        Cut::Hollow(Hollow {
            axis: AxisName::from_index(3).unwrap(),
            mouth_mm: -31.0,
            shape: HollowShape::Drawn { nodes: vec![Node::arc(0.0, 20.0, 1.0), Node::line(14.0, 10.0)] },
        }),
        Cut::FitPlug(Plug {
            disc_diameter_mm: 56.0,
            thickness_mm: 12.0,
            spigot_diameter_mm: 40.5,
            spigot_length_mm: 9.0,
            tenon: None,
        }),
        Cut::Pass(Pass {
            name: "bowl".to_owned(),
            axis: AxisName::A,
            from_mm: -12.0,
            to_mm: 70.0,
            profile: PassProfile::Join,
            shapes: None,
        }),
        Cut::Pass(Pass {
            name: "handle".to_owned(),
            axis: AxisName::B,
            from_mm: 60.0,
            to_mm: 230.0,
            profile: drawn(&[
                Node::arc(60.0, 40.0, -4.0),
                Node::ogee(90.0, 14.0),
                Node::line(180.0, 22.0),
                Node::line(180.0, 18.0),
                Node::line(230.0, 16.0),
            ]),
            shapes: None,
        }),
        Cut::TakeOutPlug,
        Cut::Part(EndPlane { axis: AxisName::C, at_mm: 228.0, removes: Side::Head }),
        Cut::Face(EndPlane { axis: AxisName::A, at_mm: 1.0, removes: Side::Tail }),
        Cut::Saw(SawCut {
            path: SawPath::Lines {
                points: vec![
                    SawPoint { at_mm: -5.0, height_mm: 2.0 },
                    SawPoint { at_mm: 20.0, height_mm: 4.0 },
                    SawPoint { at_mm: 52.0, height_mm: 25.0 },
                ],
            },
        }),
        Cut::Saw(SawCut {
            path: SawPath::Arc {
                from: SawPoint { at_mm: -5.0, height_mm: 2.0 },
                to: SawPoint { at_mm: 52.0, height_mm: 25.0 },
                bulge_mm: -6.0,
            },
        }),
    ]
}

/// The names of kinds in a saved document.
pub const KINDS: [&str; 20] = [
    "square",
    "round",
    "marks",
    "tilt",
    "across",
    "pass",
    "hollow",
    "fit_plug",
    "saw",
    "face",
    "part",
    "drawn",
    "round_ended",
    "lines",
    "arc",
    "line",
    "ogee",
    "join",
    "air",
    "moisture",
];

/// A saved document without the names of kinds: `{"arc": {"bulge_mm": 2}}` becomes `{"bulge_mm": 2}`, so that the paths
/// of fields lead through it.
pub fn kinds_left_out(document: Value) -> Value {
    match document {
        Value::Object(fields) if fields.len() == 1 && fields.keys().all(|name| KINDS.contains(&name.as_str())) => {
            fields.into_iter().map(|(_, inner)| kinds_left_out(inner)).next().unwrap()
        }
        Value::Object(fields) => fields.into_iter().map(|(name, inner)| (name, kinds_left_out(inner))).collect(),
        Value::Array(items) => items.into_iter().map(kinds_left_out).collect(),
        other => other,
    }
}
