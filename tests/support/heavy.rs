//! Designs that are sound, and far more than any utensil asks for.

use skewline::design::{
    AxisChoice, AxisName, Blank, BlankSection, Cut, Design, Hollow, HollowShape, Node, PassProfile,
};

use super::pieces::{pass, scoop};

/// Hollows side by side, bored from the end and across the grain.
pub fn hollows(count: usize) -> Design {
    let mut design = scoop();
    design.blank = Blank { section: BlankSection::Square { side_mm: 80.0 }, length_mm: 400.0 };
    design.axes = (0..11)
        .map(|i| AxisChoice::Across { station_mm: 20.0 + 30.0 * f64::from(i), from_deg: 13.0 * f64::from(i) })
        .collect();
    design.cuts = (0..count)
        .map(|i| {
            let axis = AxisName::from_index(1 + i % 11).unwrap();
            let shape = HollowShape::RoundEnded {
                diameter_mm: 24.0 + (i % 7) as f64,
                depth_mm: 22.0 + (i % 5) as f64,
                rounding_mm: 8.0,
            };
            Cut::Hollow(Hollow { axis, mouth_mm: -41.0, shape })
        })
        .collect();
    design
}

/// Passes of so many nodes each, in turn on so many axes that lean, over a bore.
pub fn passes(count: usize, nodes: usize, axes: usize) -> Design {
    let mut design = scoop();
    design.blank = Blank { section: BlankSection::Square { side_mm: 70.0 }, length_mm: 300.0 };
    design.axes = (0..axes)
        .map(|i| AxisChoice::Tilt {
            tilt_deg: 1.5 + 0.5 * i as f64,
            toward_deg: 30.0 * i as f64,
            crossing_mm: 60.0 + 10.0 * i as f64,
        })
        .collect();
    design.cuts.truncate(1);
    design.cuts.extend((0..count).map(|i| {
        let axis = AxisName::from_index(i % (axes + 1)).unwrap();
        let (from, to) = (4.0 * i as f64, 60.0 + 4.0 * i as f64);
        let node = |j: usize| {
            let share = j as f64 / (nodes - 1) as f64;
            Node::line(from + (to - from) * share, 44.0 + 3.0 * (share * 40.0 + i as f64).sin() - 0.3 * i as f64)
        };
        pass("many", axis, from, to, PassProfile::Drawn { nodes: (0..nodes).map(node).collect() })
    }));
    design
}
