//! Invented pieces for tests.
#![allow(dead_code, reason = "each test file uses some of them")]

use skewline::design::{
    AxisChoice, AxisName, Blank, BlankSection, Cut, Design, Hollow, HollowShape, Node, Pass, PassProfile, Wood,
};

/// A pass.
pub fn pass(name: &str, axis: AxisName, from_mm: f64, to_mm: f64, profile: PassProfile) -> Cut {
    Cut::Pass(Pass { name: name.into(), axis, from_mm, to_mm, profile, shapes: None })
}

/// A bored end with a handle tilted by 8 deg toward 30 deg from straight up.
pub fn scoop() -> Design {
    let handle = vec![Node::line(58.0, 15.0), Node::arc(90.0, 13.0, 0.8), Node::line(190.0, 20.0)];
    Design {
        name: "test scoop".into(),
        notes: String::new(),
        wood: Wood { species: "Black cherry".into(), moisture_percent: 8.0, ..Wood::default() },
        blank: Blank { section: BlankSection::Square { side_mm: 64.0 }, length_mm: 230.0 },
        axes: vec![AxisChoice::Tilt { tilt_deg: 8.0, toward_deg: 30.0, crossing_mm: 62.0 }],
        cuts: vec![
            Cut::Hollow(Hollow {
                axis: AxisName::A,
                mouth_mm: 0.0,
                shape: HollowShape::RoundEnded { diameter_mm: 41.0, depth_mm: 48.0, rounding_mm: 14.0 },
            }),
            pass("bowl", AxisName::A, 0.0, 66.0, PassProfile::Join),
            pass("handle", AxisName::B, 58.0, 190.0, PassProfile::Drawn { nodes: handle }),
        ],
        contents: "sugar, granulated".into(),
        duty: Default::default(),
        limits: Default::default(),
        done: Vec::new(),
        log: Vec::new(),
        off: Vec::new(),
        pattern: None,
    }
}

/// A bar about one axis, by its nodes, in a round blank 40 mm thick.
pub fn bar(axis: Option<AxisChoice>, length_mm: f64, nodes: Vec<Node>) -> Design {
    let mut design = scoop();
    design.blank = Blank { section: BlankSection::Round { diameter_mm: 40.0 }, length_mm };
    design.axes = axis.into_iter().collect();
    let on = if axis.is_some() { AxisName::B } else { AxisName::A };
    let (from, to) = (nodes[0].at_mm, nodes[nodes.len() - 1].at_mm);
    design.cuts = vec![pass("bar", on, from, to, PassProfile::Drawn { nodes })];
    design
}
