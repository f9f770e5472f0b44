//! Axes: turned about the centre, taken away, and in another order.

use super::places::{switch_off, switch_on, take};
use crate::design::following::reletter;
use crate::design::{AxisChoice, AxisName, Cut, Design};

/// Two axes nearer than this are one, in mm or degrees.
const SAME: f64 = 1e-6;

/// The axis turned about the centre of the blank, by an angle in degrees clockwise as held by the handle.
pub(super) fn turned(axis: &AxisChoice, by_deg: f64) -> AxisChoice {
    let (sin, cos) = by_deg.to_radians().sin_cos();
    let mark = |x: f64, y: f64| (x * cos + y * sin, y * cos - x * sin);
    match *axis {
        AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm, head_y_mm } => {
            let (tail, head) = (mark(tail_x_mm, tail_y_mm), mark(head_x_mm, head_y_mm));
            AxisChoice::Marks { tail_x_mm: tail.0, tail_y_mm: tail.1, head_x_mm: head.0, head_y_mm: head.1 }
        }
        AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm } => {
            AxisChoice::Tilt { tilt_deg, toward_deg: (toward_deg + by_deg).rem_euclid(360.0), crossing_mm }
        }
        AxisChoice::Across { station_mm, from_deg } => {
            AxisChoice::Across { station_mm, from_deg: (from_deg + by_deg).rem_euclid(360.0) }
        }
    }
}

/// Whether two axes are one.
pub(super) fn is_same(one: &AxisChoice, other: &AxisChoice) -> bool {
    let near = |pairs: &[(f64, f64)]| pairs.iter().all(|(a, b)| (a - b).abs() < SAME);
    let round = |a: f64, b: f64| ((a - b + 180.0).rem_euclid(360.0) - 180.0, 0.0);
    match (*one, *other) {
        (
            AxisChoice::Marks { tail_x_mm: a, tail_y_mm: b, head_x_mm: c, head_y_mm: d },
            AxisChoice::Marks { tail_x_mm: e, tail_y_mm: f, head_x_mm: g, head_y_mm: h },
        ) => near(&[(a, e), (b, f), (c, g), (d, h)]),
        (
            AxisChoice::Tilt { tilt_deg: a, toward_deg: b, crossing_mm: c },
            AxisChoice::Tilt { tilt_deg: d, toward_deg: e, crossing_mm: f },
        ) => near(&[(a, d)]) && (a < SAME || near(&[round(b, e), (c, f)])),
        (AxisChoice::Across { station_mm: a, from_deg: b }, AxisChoice::Across { station_mm: c, from_deg: d }) => {
            near(&[(a, c), round(b, d)])
        }
        _ => false,
    }
}

/// The letter of an axis of the design, one more if it has none like it; `None` past the last letter.
pub(super) fn with_axis(design: &mut Design, axis: &AxisChoice) -> Option<AxisName> {
    let place = design.axes.iter().position(|other| is_same(other, axis)).unwrap_or_else(|| {
        design.axes.push(*axis);
        design.axes.len() - 1
    });
    AxisName::from_index(place + 1)
}

/// The letter of the axis at a place of the list after A.
pub(super) fn letter(place: usize) -> AxisName {
    AxisName::from_index(place + 1).unwrap_or(AxisName::A)
}

/// The axis of a cut; none for a plug and a saw cut.
pub(super) const fn axis_of(cut: &Cut) -> Option<AxisName> {
    match cut {
        Cut::Pass(pass) => Some(pass.axis),
        Cut::Hollow(hollow) => Some(hollow.axis),
        Cut::Face(plane) | Cut::Part(plane) => Some(plane.axis),
        Cut::FitPlug(_) | Cut::TakeOutPlug | Cut::Saw(_) => None,
    }
}

/// The cuts that stand on an axis.
pub(super) fn cuts_on(design: &Design, axis: AxisName) -> Vec<usize> {
    (0..design.cuts.len()).filter(|cut| axis_of(&design.cuts[*cut]) == Some(axis)).collect()
}

/// The cuts that are switched off and stand on an axis.
pub(super) fn off_on(design: &Design, axis: AxisName) -> Vec<usize> {
    (0..design.off.len()).filter(|off| axis_of(&design.off[*off].cut) == Some(axis)).collect()
}

/// Takes an axis away with all that stands on it.
pub(super) fn remove(design: &mut Design, place: usize) {
    if place >= design.axes.len() {
        return;
    }
    let axis = letter(place);
    for cut in cuts_on(design, axis).into_iter().rev() {
        take(design, cut);
    }
    design.off.retain(|off| axis_of(&off.cut) != Some(axis));
    design.axes.remove(place);
    reletter(design, &|other| if other > axis { letter(other.index() - 2) } else { other });
}

/// Two neighbouring axes change places; cuts stay on theirs.
pub(super) fn swap(design: &mut Design, place: usize) {
    if place + 1 >= design.axes.len() {
        return;
    }
    design.axes.swap(place, place + 1);
    let (first, then) = (letter(place), letter(place + 1));
    reletter(design, &|axis| match axis {
        axis if axis == first => then,
        axis if axis == then => first,
        axis => axis,
    });
}

/// Switches every cut of an axis off.
pub(super) fn all_off(design: &mut Design, place: usize) {
    for cut in cuts_on(design, letter(place)).into_iter().rev() {
        switch_off(design, cut);
    }
}

/// Switches every cut of an axis on.
pub(super) fn all_on(design: &mut Design, place: usize) {
    for off in off_on(design, letter(place)).into_iter().rev() {
        switch_on(design, off);
    }
}
