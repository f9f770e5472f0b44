//! The rules of a profile: stations run forward, steps are straight, arcs neither turn back nor cross the axis.

use std::f64::consts::FRAC_PI_2;

use super::bounds;
use super::report::Report;
use super::words::{Part, Sentence, length, span, words};
use crate::design::profile::{Curve, Node};
use crate::geometry::frame::tolerance::SAME_MM;
use crate::geometry::region::curve::arc_is_single_valued;
use kurbo::Point;
use kurbo::Vec2;

/// The greatest height over its chord, in mm, at which an arc between two nodes does not turn back on itself: there it
/// stands square to the axis at one end. 0 between nodes at one station.
///
/// Exact: the arc leaves its chord by half the angle it spans, `2 atan(2 bulge / chord)`, and the chord itself leans
/// by `atan(difference of radius / difference of station)`; together they may reach a right angle.
#[must_use]
pub fn largest_bulge_mm(from: &Node, to: &Node) -> f64 {
    let Vec2 { x: along, y: out } = chord(from, to);
    let spare = FRAC_PI_2 - out.abs().atan2(along);
    if along > 0.0 { along.hypot(out) / 2.0 * (spare / 2.0).tan() } else { 0.0 }
}

/// A profile to be judged: where it is in the document and what to call it.
pub(super) struct Profile<'a> {
    /// The path of its list of nodes.
    pub(super) path: String,
    /// "the profile of the bowl pass".
    pub(super) called: String,
    pub(super) nodes: &'a [Node],
}

impl Profile<'_> {
    /// Judges everything but the range it has to cover.
    pub(super) fn judge(&self, report: &mut Report) {
        report.count(&self.path, &format!("points in {}", self.called), self.nodes.len(), bounds::NODES);
        if self.nodes.len() < 2 {
            report.problem(
                &self.path,
                None,
                format!("There are fewer than two points in {}.", self.called),
                "Give it a point at each end at least.",
            );
        }
        let sound: Vec<bool> = (0..self.nodes.len()).map(|index| self.node_is_sound(report, index)).collect();
        for (index, pair) in self.nodes.windows(2).enumerate() {
            if sound.get(index..index + 2).is_some_and(|pair| pair.iter().all(|sound| *sound)) {
                self.judge_piece(report, index, &pair[0], &pair[1]);
            }
        }
        for (index, three) in self.nodes.windows(3).enumerate() {
            if three[0].at_mm == three[1].at_mm && three[1].at_mm == three[2].at_mm {
                report.problem(
                    &self.field(index + 2, "at_mm"),
                    Some(three[2].at_mm),
                    words!(format!("Three points of {} stand at ", self.called), length(three[2].at_mm), "."),
                    "Keep two of them for a step.",
                );
            }
        }
    }

    /// Judges whether the profile reaches from `from_mm` to `to_mm`.
    pub(super) fn judge_cover(&self, report: &mut Report, from_mm: f64, to_mm: f64) {
        let (Some(first), Some(last)) = (self.nodes.first(), self.nodes.last()) else { return };
        if first.at_mm > from_mm + SAME_MM {
            report.problem(
                &self.field(0, "at_mm"),
                Some(from_mm),
                self.no_diameter(from_mm, first.at_mm),
                words!("Let its first point stand at ", length(from_mm), " or before."),
            );
        }
        if last.at_mm < to_mm - SAME_MM {
            report.problem(
                &self.field(self.nodes.len() - 1, "at_mm"),
                Some(to_mm),
                self.no_diameter(last.at_mm, to_mm),
                words!("Let its last point stand at ", length(to_mm), " or after."),
            );
        }
    }

    fn no_diameter(&self, from_mm: f64, to_mm: f64) -> Sentence {
        words!("From ", span(from_mm, to_mm), format!(", {} has no diameter.", self.called))
    }

    fn field(&self, index: usize, name: &str) -> String {
        format!("{}[{index}].{name}", self.path)
    }

    fn node_is_sound(&self, report: &mut Report, index: usize) -> bool {
        let node = &self.nodes[index];
        let place = Some(node.at_mm);
        let called = format!("of point {} in {}", index + 1, self.called);
        let mut number = |field: &str, what: &str, value: f64, bound| {
            report.number_at(&self.field(index, field), &format!("{what} {called}"), value, bound, place)
        };
        let station = number("at_mm", "The position", node.at_mm, bounds::STATION);
        let diameter = number("diameter_mm", "The diameter", node.diameter_mm, bounds::DIAMETER);
        let curve = match node.curve {
            Curve::Arc { bulge_mm } => number("curve.bulge_mm", "The bulge", bulge_mm, bounds::BULGE),
            Curve::Line | Curve::Ogee => true,
        };
        station && diameter && curve
    }

    /// Judges the line, arc or ogee from the node at `index` to the next; all their numbers are sound.
    fn judge_piece(&self, report: &mut Report, index: usize, from: &Node, to: &Node) {
        let place = Some(from.at_mm);
        if to.at_mm < from.at_mm {
            report.problem(
                &self.field(index + 1, "at_mm"),
                Some(to.at_mm),
                words!(
                    format!("Point {} in {} goes back from ", index + 2, self.called),
                    span(from.at_mm, to.at_mm),
                    ".",
                ),
                words!("Move it to ", length(from.at_mm), " or after."),
            );
        } else if to.at_mm == from.at_mm && from.curve != Curve::Line {
            report.problem(
                &self.field(index, "curve"),
                place,
                format!("The step after point {} in {} is curved.", index + 1, self.called),
                "Join the two points straight, or move them apart.",
            );
        } else if let Curve::Arc { bulge_mm } = from.curve {
            self.judge_arc(report, index, (from, to), bulge_mm);
        }
    }

    fn judge_arc(&self, report: &mut Report, index: usize, (from, to): (&Node, &Node), bulge_mm: f64) {
        let place = Some((from.at_mm + to.at_mm) / 2.0);
        let field = self.field(index, "curve.bulge_mm");
        let point = |node: &Node| Point::new(node.at_mm, node.diameter_mm / 2.0);
        if !arc_is_single_valued(point(from), point(to), bulge_mm) {
            let largest = Part::AtMost(largest_bulge_mm(from, to), bounds::MM);
            report.problem(
                &field,
                place,
                format!("The arc after point {} in {} turns back on itself.", index + 1, self.called),
                words!("Give it a bulge of at most ", largest, ", or move its points apart."),
            );
        } else if lowest_radius_mm(from, to, bulge_mm) < 0.0 {
            report.problem(
                &field,
                place,
                format!("The cove after point {} in {} sinks past the axis.", index + 1, self.called),
                "Give it less bulge, or greater diameters at its ends.",
            );
        }
    }
}

/// The chord between two nodes: along the axis, and out from it.
fn chord(from: &Node, to: &Node) -> Vec2 {
    Vec2::new(to.at_mm - from.at_mm, (to.diameter_mm - from.diameter_mm) / 2.0)
}

/// The least radius that an arc comes to; exact.
pub(in crate::design) fn lowest_radius_mm(from: &Node, to: &Node, bulge_mm: f64) -> f64 {
    let ends = from.diameter_mm.min(to.diameter_mm) / 2.0;
    if bulge_mm >= 0.0 {
        return ends;
    }
    let Vec2 { x: along, y: out } = chord(from, to);
    let length = along.hypot(out);
    let sag = -bulge_mm;
    let circle = (length * length / 4.0 + sag * sag) / (2.0 * sag);
    // The centre stands off the middle of the chord, away from the axis, square to the chord.
    let off = circle - sag;
    let centre_along = along / 2.0 - off * out / length;
    let centre_radius = (from.diameter_mm + to.diameter_mm) / 4.0 + off * along / length;
    if (0.0..=along).contains(&centre_along) { ends.min(centre_radius - circle) } else { ends }
}
