//! Which number of a design a check points at: one that stands on screen.

use crate::design::{AxisChoice, AxisName, Cut, Design, HollowShape};
use crate::form::{Field, nodes_of};

/// The number that tilts or moves an axis; that of the blank's width for axis A.
pub(super) fn axis(design: &Design, axis: AxisName) -> Field {
    tilt(design, axis).unwrap_or(Field::BlankWidth)
}

/// The number that tilts or moves an axis; `None` for axis A.
pub(super) fn tilt(design: &Design, axis: AxisName) -> Option<Field> {
    let index = axis.index().checked_sub(1)?;
    Some(match design.axes.get(index)? {
        AxisChoice::Tilt { .. } => Field::AxisTilt(index),
        AxisChoice::Marks { .. } => Field::HeadY(index),
        AxisChoice::Across { .. } => Field::AcrossStation(index),
    })
}

/// The diameter of a pass nearest a station along it, in mm; for one that follows the join, where it ends.
pub(super) fn diameter(design: &Design, cut: usize, station_mm: f64) -> Field {
    let Some(nodes) = design.cuts.get(cut).and_then(nodes_of) else { return Field::PassTo(cut) };
    let off = |node: usize| nodes.get(node).map_or(f64::INFINITY, |it| (it.at_mm - station_mm).abs());
    let nearest = (0..nodes.len()).min_by(|a, b| off(*a).total_cmp(&off(*b)));
    nearest.map_or(Field::PassTo(cut), |node| Field::NodeDiameter(cut, node))
}

/// The depth of a hollow.
pub(super) fn depth(design: &Design, cut: usize) -> Field {
    match design.cuts.get(cut) {
        Some(choice) => match nodes_of(choice) {
            Some(nodes) => Field::NodeAt(cut, nodes.len().saturating_sub(1)),
            None => Field::BoreDepth(cut),
        },
        None => Field::BoreDepth(cut),
    }
}

/// The diameter of a hollow.
pub(super) fn bore(design: &Design, cut: usize) -> Field {
    match design.cuts.get(cut) {
        Some(Cut::Hollow(hollow)) if matches!(hollow.shape, HollowShape::Drawn { .. }) => Field::NodeDiameter(cut, 0),
        _ => Field::BoreDiameter(cut),
    }
}

/// What moves an opening.
pub(super) fn opening(design: &Design, cut: usize) -> Field {
    match design.cuts.get(cut) {
        Some(Cut::Saw(_)) => Field::SawHeight(cut, 0),
        _ => Field::PlaneAt(cut),
    }
}
