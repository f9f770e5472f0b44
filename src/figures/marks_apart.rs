//! How far the marks of the axes lie apart on each face: a centre set too near an old hole walks back into it.

use serde::Serialize;

use super::marks::{AxisMarks, Face, Mark};
use crate::design::{AxisName, Centres};

/// The two nearest marks on one face that are not one mark.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MarksApart {
    /// The face.
    pub face: Face,
    /// The axis of the earlier mark.
    pub earlier: AxisName,
    /// The axis of the later one.
    pub later: AxisName,
    /// The distance between them, in mm.
    pub apart_mm: f64,
    /// The least distance at which the later footprint overlaps the earlier one no more than the shop allows, in mm.
    pub least_mm: f64,
}

/// Marks this near are one mark, into which the same centre goes again, in mm.
const ONE_MARK: f64 = 0.2;

/// The marks that lie nearest for their centre on each face, the worst first; only axes that are turned on. Exact.
#[must_use]
pub fn marks_apart(marks: &[AxisMarks], is_used: impl Fn(AxisName) -> bool, centres: &Centres) -> Vec<MarksApart> {
    let used: Vec<&AxisMarks> = marks.iter().filter(|axis| is_used(axis.axis)).collect();
    let share = (1.0 - centres.overlap_percent / 100.0).clamp(0.0, 1.0);
    let faces = [(Face::Tail, centres.live_diameter_mm * share), (Face::Head, centres.drive_diameter_mm * share)];
    let mut found = Vec::new();
    for (face, least_mm) in faces {
        let mut nearest: Option<MarksApart> = None;
        for (i, later) in used.iter().enumerate() {
            for earlier in &used[..i] {
                let (a, b) = (mark(earlier, face), mark(later, face));
                let apart_mm = (a.x_mm - b.x_mm).hypot(a.y_mm - b.y_mm);
                if apart_mm > ONE_MARK && nearest.is_none_or(|known| apart_mm < known.apart_mm) {
                    nearest = Some(MarksApart { face, earlier: earlier.axis, later: later.axis, apart_mm, least_mm });
                }
            }
        }
        found.extend(nearest);
    }
    crate::geometry::line::order::sort_by_number(&mut found, |it| it.apart_mm - it.least_mm);
    found
}

fn mark(axis: &AxisMarks, face: Face) -> Mark {
    match face {
        Face::Tail => axis.tail,
        Face::Head => axis.head,
    }
}
