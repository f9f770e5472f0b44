//! Profile gauges: the outline of each pass and the inside of each hollow, to be cut out of card and held against the work.

use super::ink::{Anchor, Ink, Stroke};
use super::page::Template;
use crate::design::{AxisName, Cut, Design, Units};
use crate::drawings::frame::Point;
use crate::figures::Worked;
use crate::figures::support::datum_mm;
use crate::geometry::{Axis, Revolved, Station};

/// Card beyond the widest place, in mm.
const CARD: f64 = 30.0;

pub(super) fn templates(design: &Design, worked: &Worked, lengths: Units) -> Vec<Template> {
    let passes = design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Pass(pass) => Some((pass.name.trim(), pass.axis, worked.piece.revolved(cut)?)),
        _ => None,
    });
    // A tenon needs a caliper only.
    let shaped = passes.filter(|(_, _, turned)| !over_the_head(turned, worked.piece.head_face));
    let mut all: Vec<Template> =
        shaped.map(|(name, axis, turned)| gauge(name, axis, turned, datum_mm(&worked.piece, axis), lengths)).collect();
    let hollows = design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Hollow(hollow) => Some((hollow.axis, worked.piece.revolved(cut)?)),
        _ => None,
    });
    all.extend(hollows.map(|(axis, turned)| inside(axis, turned, lengths)));
    all
}

/// Room over the mouth of a hollow for the handle of its gauge, in mm.
pub(super) const GRIP: f64 = 25.0;

/// A card as wide as a hollow that reaches its floor when its shoulders lie on the mouth.
fn inside(axis: AxisName, turned: &Revolved, lengths: Units) -> Template {
    let chain = &turned.meridian;
    let (from, to) = (chain.start(), chain.end());
    let wide = chain.largest_radius() + SHOULDER;
    let depth = |p: &Station| Point::new(p.r, p.t - from);
    let mut card: Vec<Point> = chain.points().iter().map(depth).collect();
    card.extend(chain.points().iter().rev().map(|p| Point::new(-p.r, p.t - from)));
    card.extend([(-wide, 0.0), (-wide, -GRIP), (wide, -GRIP), (wide, 0.0)].map(Point::from));
    let mut ink = Ink::default();
    ink.ring(card, Stroke::Cut);
    ink.line(vec![Point::new(0.0, -GRIP - 4.0), Point::new(0.0, to - from + 4.0)], Stroke::Axis);
    ink.words(Point::new(1.5, -GRIP + 5.0), format!("axis {axis}"), 3.4, Anchor::Start);
    ink.words(Point::new(1.5, -3.0), format!("depth {}", lengths.bare(to - from)), 3.2, Anchor::Start);
    Template {
        title: format!("Inside gauge, axis {axis}"),
        note: "Cut out along the thick line. With the lathe stopped, it goes in until its shoulders lie on the mouth."
            .into(),
        ink,
    }
}

/// How far the shoulders of an inside gauge reach past the mouth, in mm.
pub(super) const SHOULDER: f64 = 12.0;

/// Whether a pass is turned on the head end, which goes to waste.
fn over_the_head(turned: &Revolved, head_face: f64) -> bool {
    turned.axis == Axis::A && turned.meridian.end() >= head_face - 1.0
}

/// Its stations are written from where the axis's story stick measures.
fn gauge(name: &str, axis: AxisName, turned: &Revolved, datum: f64, lengths: Units) -> Template {
    let chain = &turned.meridian;
    let (from, to) = (chain.start(), chain.end());
    let edge = chain.largest_radius() + CARD;
    let profile: Vec<Point> = chain.points().iter().map(|p| Point::new(p.r, p.t)).collect();
    let mut ink = Ink::default();
    let mut card = profile;
    card.extend([Point::new(edge, to), Point::new(edge, from)]);
    ink.ring(card, Stroke::Cut);
    ink.line(vec![Point::new(0.0, from - 4.0), Point::new(0.0, to + 4.0)], Stroke::Axis);
    ink.words(Point::new(1.5, from - 5.5), format!("axis {axis}"), 3.4, Anchor::Start);
    let tens = ((from - datum) / 10.0).ceil() as i64..=((to - datum) / 10.0).floor().min(1e6) as i64;
    for (written, at) in tens.map(|ten| (ten as f64 * 10.0, datum + ten as f64 * 10.0)) {
        ink.line(vec![Point::new(edge, at), Point::new(edge - 3.0, at)], Stroke::Thin);
        // Near an end the number would stand on the edge.
        if at - from > 2.0 && to - at > 2.0 {
            ink.words(Point::new(edge - 3.8, at + 1.1), lengths.bare(written), 2.8, Anchor::End);
        }
    }
    for (t, radius) in [(from, chain.radius_after(from)), (to, chain.radius_before(to))] {
        let below = if t > from { -1.5 } else { 4.0 };
        // Clear of the profile where it runs under the words.
        let beside = chain.points().iter().filter(|p| (p.t - t).abs() < 5.0).fold(radius, |most, p| most.max(p.r));
        let beside = beside.max(chain.radius_after((t - 5.0).max(from))).max(chain.radius_before((t + 5.0).min(to)));
        ink.words(
            Point::new(beside + 2.0, t + below),
            format!("\u{d8}{}", lengths.bare(2.0 * radius)),
            3.2,
            Anchor::Start,
        );
    }
    let title = if name.is_empty() { format!("Gauge, axis {axis}") } else { format!("Gauge: {name}") };
    let note = "Cut out along the thick line and hold it square to the work, with the lathe stopped. Distances as on the story stick.";
    Template { title, note: note.into(), ink }
}
