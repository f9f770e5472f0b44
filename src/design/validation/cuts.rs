//! The rules of the cuts.

use super::bounds::{self, MM};
use super::profile::Profile;
use super::report::Report;
use super::words::{Part, length, span, words};
use crate::design::axis_name::AxisName;
use crate::design::cut::{
    AxisChoice, Blank, BlankSection, Cut, EndPlane, Hollow, HollowShape, Pass, PassProfile, Plug, SawPath, SawPoint,
};
use crate::design::document::Design;
use crate::design::plug::{Misfit, misfit};
use crate::design::text::capital;
use crate::geometry::frame::tolerance::SAME_MM;
use crate::geometry::region::curve::arc_is_single_valued;
use kurbo::Point;

/// A cut to be judged: its place in the document, what to call it, and the design around it.
struct NamedCut<'a> {
    path: String,
    called: String,
    design: &'a Design,
}

/// Judges every cut, in working order.
pub(super) fn all(report: &mut Report, design: &Design) {
    let mut plugged = false;
    for (index, cut) in design.cuts.iter().enumerate() {
        let place = NamedCut { path: format!("cuts[{index}]"), called: design.cut_name(index), design };
        match cut {
            Cut::Pass(it) => pass(report, &place, it),
            Cut::Hollow(it) => hollow(report, &place, it),
            Cut::Saw(it) => saw(report, &place, &it.path),
            Cut::Face(it) | Cut::Part(it) => plane(report, &place, it),
            Cut::FitPlug(it) => {
                plug(report, &place, it);
                if plugged {
                    place.problem(
                        report,
                        "is fitted while a plug is in already",
                        "Take the first plug out before it, or leave it out.",
                    );
                }
                plugged = true;
            }
            Cut::TakeOutPlug => {
                if !plugged {
                    place.problem(report, "is taken out, and none is in", "Fit a plug before it, or leave it out.");
                }
                plugged = false;
            }
        }
    }
}

impl NamedCut<'_> {
    fn field(&self, name: &str) -> String {
        format!("{}.{name}", self.path)
    }

    /// A problem of the cut as a whole.
    fn problem(&self, report: &mut Report, wrong: &str, cure: &'static str) {
        report.problem(&self.path, None, format!("{} {wrong}.", capital(&self.called)), cure);
    }

    fn number(&self, report: &mut Report, field: &str, what: &str, value: f64, bound: bounds::Bound) -> bool {
        report.number(&self.field(field), &format!("{what} of {}", self.called), value, bound)
    }

    fn axis(&self, report: &mut Report, axis: AxisName) {
        let axes = self.design.axes.len();
        if axis.index() > axes {
            let last = AxisName::from_index(axes).map_or('Z', AxisName::letter);
            report.problem(
                &self.field("axis"),
                None,
                format!("{} is on axis {axis}, and the last axis is {last}.", capital(&self.called)),
                format!("Choose an axis from A to {last}, or add axis {axis}."),
            );
        }
    }
}

fn pass(report: &mut Report, place: &NamedCut<'_>, pass: &Pass) {
    report.text(&place.field("name"), &format!("The name of {}", place.called), &pass.name, bounds::NAME_LETTERS);
    if let Some(part) = &pass.shapes {
        let field = place.field("shapes");
        report.text(&field, &format!("The part that {} shapes", place.called), part, bounds::NAME_LETTERS);
        if part.trim().is_empty() {
            let sentence = format!("The part that {} shapes has no name.", place.called);
            report.problem(&field, None, sentence, "Name the part, or leave it out.");
        }
    }
    place.axis(report, pass.axis);
    let from = place.number(report, "from_mm", "The start", pass.from_mm, bounds::STATION);
    let to = place.number(report, "to_mm", "The end", pass.to_mm, bounds::STATION);
    let sound = from && to;
    if sound && pass.to_mm - pass.from_mm < bounds::LEAST_LENGTH_MM {
        report.problem(
            &place.field("to_mm"),
            Some(pass.from_mm),
            words!(
                format!("{} starts at ", capital(&place.called)),
                length(pass.from_mm),
                " and ends at ",
                length(pass.to_mm),
                ".",
            ),
            words!("Let it end after ", length(pass.from_mm), "."),
        );
    }
    if let PassProfile::Drawn { nodes } = &pass.profile {
        let path = place.field("profile.nodes");
        let profile = Profile { path, called: format!("the profile of {}", place.called), nodes };
        profile.judge(report);
        if sound {
            profile.judge_cover(report, pass.from_mm, pass.to_mm);
        }
    }
}

fn hollow(report: &mut Report, place: &NamedCut<'_>, hollow: &Hollow) {
    place.axis(report, hollow.axis);
    let mouth = place.number(report, "mouth_mm", "The mouth", hollow.mouth_mm, bounds::STATION);
    let depth_mm = match &hollow.shape {
        HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm } => {
            round_ended(report, place, *diameter_mm, *depth_mm, *rounding_mm)
        }
        HollowShape::Drawn { nodes } => {
            let path = place.field("shape.nodes");
            let profile = Profile { path, called: format!("the profile of {}", place.called), nodes };
            profile.judge(report);
            drawn_hollow(report, &profile)
        }
    };
    if let (true, Some(depth_mm)) = (mouth, depth_mm) {
        meets_the_blank(report, place, hollow, depth_mm);
    }
}

/// Judges the depth and the start of a drawn hollow; its depth in mm when it is sound.
fn drawn_hollow(report: &mut Report, profile: &Profile<'_>) -> Option<f64> {
    let (first, last) = (profile.nodes.first()?, profile.nodes.last()?);
    if first.at_mm.abs() > SAME_MM {
        report.problem(
            &format!("{}[0].at_mm", profile.path),
            Some(first.at_mm),
            words!(format!("Point 1 in {} stands at ", profile.called), length(first.at_mm), ", not at the mouth."),
            words!("Move it to ", length(0.0), "; distances count from the mouth."),
        );
        return None;
    }
    let field = format!("{}[{}].at_mm", profile.path, profile.nodes.len() - 1);
    let what = format!("The depth in {}", profile.called);
    let last_is_known = bounds::STATION.holds(last.at_mm);
    (last_is_known && report.number(&field, &what, last.at_mm, bounds::DEPTH)).then_some(last.at_mm)
}

/// Judges a round-ended bore; its depth in mm when that is sound.
fn round_ended(
    report: &mut Report,
    place: &NamedCut<'_>,
    diameter_mm: f64,
    depth_mm: f64,
    rounding_mm: f64,
) -> Option<f64> {
    let diameter = place.number(report, "shape.diameter_mm", "The diameter", diameter_mm, bounds::BORE_DIAMETER);
    let depth = place.number(report, "shape.depth_mm", "The depth", depth_mm, bounds::DEPTH);
    let rounding = place.number(report, "shape.rounding_mm", "The rounding", rounding_mm, bounds::ROUNDING);
    let field = place.field("shape.rounding_mm");
    let called = format!("The rounding of {}", place.called);
    if diameter && rounding {
        report.in_order(&field, (&called, rounding_mm), ("half its diameter", diameter_mm / 2.0), MM);
    }
    if depth && rounding {
        report.in_order(&field, (&called, rounding_mm), ("its depth", depth_mm), MM);
    }
    depth.then_some(depth_mm)
}

/// A hollow about an axis square to the blank has to reach the blank, from one side or the other.
fn meets_the_blank(report: &mut Report, place: &NamedCut<'_>, hollow: &Hollow, depth_mm: f64) {
    let axis = hollow.axis.index().checked_sub(1).and_then(|index| place.design.axes.get(index));
    let Some(AxisChoice::Across { from_deg, .. }) = axis else { return };
    let Some(half) = half_width_mm(&place.design.blank, *from_deg) else { return };
    let (mouth, floor) = (hollow.mouth_mm, hollow.mouth_mm + depth_mm);
    if mouth >= half || floor <= -half {
        report.problem(
            &place.field("mouth_mm"),
            Some(mouth),
            words!(
                format!("{} runs from ", capital(&place.called)),
                span(mouth, floor),
                " and misses the blank, which lies from ",
                span(-half, half),
                " along that axis.",
            ),
            words!("Start it at ", length(-half), ", on the side of the blank."),
        );
    }
}

/// How far the blank reaches from axis A in a clock direction and its opposite, in mm; none when its width is wrong.
fn half_width_mm(blank: &Blank, clock_deg: f64) -> Option<f64> {
    let (width, share) = match blank.section {
        BlankSection::Square { side_mm } => {
            let (x, y) = clock_deg.to_radians().sin_cos();
            (side_mm, x.abs() + y.abs())
        }
        BlankSection::Round { diameter_mm } => (diameter_mm, 1.0),
    };
    bounds::BLANK_WIDTH.holds(width).then_some(width / 2.0 * share)
}

fn plug(report: &mut Report, place: &NamedCut<'_>, plug: &Plug) {
    let disc = place.number(report, "disc_diameter_mm", "The disc", plug.disc_diameter_mm, bounds::BORE_DIAMETER);
    place.number(report, "thickness_mm", "The thickness", plug.thickness_mm, bounds::PLUG_THICKNESS);
    let spigot =
        place.number(report, "spigot_diameter_mm", "The spigot", plug.spigot_diameter_mm, bounds::BORE_DIAMETER);
    let field = "spigot_length_mm";
    let length = place.number(report, field, "The spigot's length", plug.spigot_length_mm, bounds::SPIGOT_LENGTH);
    if disc && spigot {
        let spigot = (format!("The spigot of {}", place.called), plug.spigot_diameter_mm);
        let disc = ("its disc", plug.disc_diameter_mm);
        report.in_order(&place.field("spigot_diameter_mm"), (&spigot.0, spigot.1), disc, MM);
    }
    if spigot && length {
        plug_in_bore(report, place, plug);
    }
    plug_tenon(report, place, plug);
}

fn plug_tenon(report: &mut Report, place: &NamedCut<'_>, plug: &Plug) {
    let Some(tenon) = plug.tenon else { return };
    place.number(report, "tenon.length_mm", "The tenon's length", tenon.length_mm, bounds::PLUG_TENON_LENGTH);
    if place.number(report, "tenon.diameter_mm", "The tenon", tenon.diameter_mm, bounds::BORE_DIAMETER)
        && bounds::BORE_DIAMETER.holds(plug.disc_diameter_mm)
    {
        let called = format!("The tenon of {}", place.called);
        let disc = ("its disc", plug.disc_diameter_mm);
        report.in_order(&place.field("tenon.diameter_mm"), (&called, tenon.diameter_mm), disc, MM);
    }
}

/// A plug that does not fit its bore would be wood where the bore is not.
fn plug_in_bore(report: &mut Report, place: &NamedCut<'_>, plug: &Plug) {
    let spigot = format!("The spigot of {}", place.called);
    match misfit(place.design, plug) {
        Some(Misfit::Wider { bore_mm }) => {
            let field = place.field("spigot_diameter_mm");
            report.in_order(&field, (&spigot, plug.spigot_diameter_mm), ("its bore", bore_mm), MM);
        }
        Some(Misfit::Longer { deep_mm }) => report.problem(
            &place.field("spigot_length_mm"),
            None,
            words!(
                format!("{spigot} is "),
                length(plug.spigot_length_mm),
                " long, and its bore is as wide as it for ",
                length(deep_mm),
                "."
            ),
            words!("Make it ", Part::AtMost(deep_mm, MM), " or less."),
        ),
        None => {}
    }
}

fn plane(report: &mut Report, place: &NamedCut<'_>, plane: &EndPlane) {
    place.axis(report, plane.axis);
    place.number(report, "at_mm", "The position", plane.at_mm, bounds::STATION);
}

fn saw(report: &mut Report, place: &NamedCut<'_>, path: &SawPath) {
    match path {
        SawPath::Lines { points } => {
            let field = place.field("path.points");
            report.count(&field, &format!("points in {}", place.called), points.len(), bounds::NODES);
            if points.len() < 2 {
                report.problem(
                    &field,
                    None,
                    format!("There are fewer than two points in {}.", place.called),
                    "Give it one at each end at least.",
                );
            }
            let sound: Vec<bool> = points
                .iter()
                .enumerate()
                .map(|(index, it)| point(report, place, &format!("path.points[{index}]"), it))
                .collect();
            for (index, pair) in points.windows(2).enumerate() {
                if sound[index] && sound[index + 1] {
                    moves_on(report, place, &format!("path.points[{}]", index + 1), &pair[0], &pair[1]);
                }
            }
        }
        SawPath::Arc { from, to, bulge_mm } => {
            let bulge = place.number(report, "path.bulge_mm", "The bulge", *bulge_mm, bounds::BULGE);
            let ends = [point(report, place, "path.from", from), point(report, place, "path.to", to)];
            if ends == [true, true] && moves_on(report, place, "path.to", from, to) && bulge {
                let [start, end] = [from, to].map(|it| Point::new(it.at_mm, it.height_mm));
                if !arc_is_single_valued(start, end, *bulge_mm) {
                    report.problem(
                        &place.field("path.bulge_mm"),
                        Some((from.at_mm + to.at_mm) / 2.0),
                        format!("The arc of {} turns back on itself.", place.called),
                        "Give it less bulge, or move its ends apart.",
                    );
                }
            }
        }
    }
}

fn point(report: &mut Report, place: &NamedCut<'_>, path: &str, point: &SawPoint) -> bool {
    let station = place.number(report, &format!("{path}.at_mm"), "A position", point.at_mm, bounds::STATION);
    let height = place.number(report, &format!("{path}.height_mm"), "A height", point.height_mm, bounds::HEIGHT);
    station && height
}

fn moves_on(report: &mut Report, place: &NamedCut<'_>, path: &str, from: &SawPoint, to: &SawPoint) -> bool {
    let moves_on = to.at_mm - from.at_mm >= bounds::LEAST_LENGTH_MM;
    if !moves_on {
        report.problem(
            &place.field(&format!("{path}.at_mm")),
            Some(to.at_mm),
            words!(
                format!("The line of {} goes from ", place.called),
                span(from.at_mm, to.at_mm),
                ", and has to move on toward the handle.",
            ),
            words!("Move that point past ", length(from.at_mm), "."),
        );
    }
    moves_on
}
