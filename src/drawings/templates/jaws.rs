//! Wooden jaws at full size: their face, to saw, drill and mark by, and the card that tries their recess.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

use super::gauge::{GRIP, SHOULDER};
use super::ink::{Anchor, Ink, Stroke};
use super::page::Template;
use crate::design::{AxisName, Units};
use crate::drawings::frame::Point;
use crate::figures::jaws::Jaws;
use crate::figures::{Figures, Known};
use crate::geometry::Station;

/// How far the two screws of a jaw stand to either side of its middle, in radians.
const SCREWS_APART: f64 = 0.35;
/// Radius of the ring that stands for a screw, in mm.
const SCREW: f64 = 2.0;

pub(super) fn templates(figures: &Figures, lengths: Units) -> Vec<Template> {
    let planned = figures.jaws.iter().filter_map(|it| match &it.jaws {
        Known::Value(jaws) => Some((it.axis, jaws)),
        Known::Missing { .. } => None,
    });
    planned.flat_map(|(axis, jaws)| [face(axis, jaws, lengths), card(axis, jaws, lengths)]).collect()
}

/// The face of the jaws, as the tailstock sees it, the slot to the right.
fn face(axis: AxisName, jaws: &Jaws, lengths: Units) -> Template {
    let (block, middle) = (&jaws.block, Point::new(0.0, 0.0));
    let outside = block.diameter_mm / 2.0;
    let mut ink = Ink::default();
    ink.circle(middle, outside, Stroke::Cut);
    ink.circle(middle, jaws.mouth_mm / 2.0, Stroke::Cut);
    ink.circle(middle, jaws.girth_mm / 2.0, Stroke::Dashed);
    ink.circle(middle, block.screw_circle_mm / 2.0, Stroke::Axis);
    let at = |radius: f64, aside: f64, angle: f64| {
        let (sin, cos) = angle.sin_cos();
        Point::new(radius * cos - aside * sin, radius * sin + aside * cos)
    };
    for jaw in 0..block.segments {
        let gap = FRAC_PI_2 * f64::from(jaw);
        for side in [1.0, -1.0] {
            let aside = side * block.gap_mm / 2.0;
            ink.line(vec![at(jaws.mouth_mm / 2.0, aside, gap), at(outside, aside, gap)], Stroke::Thin);
            let screw = at(block.screw_circle_mm / 2.0, 0.0, gap + FRAC_PI_4 + side * SCREWS_APART);
            ink.circle(screw, SCREW, Stroke::Thin);
        }
        let number = at((jaws.mouth_mm / 2.0 + outside) / 2.0, 0.0, gap + FRAC_PI_4);
        ink.words(Point::new(number.x, number.y + 1.6), (jaw + 1).to_string(), 4.6, Anchor::Middle);
    }
    if let Some(slot) = &jaws.slot {
        for side in [1.0, -1.0] {
            let aside = side * slot.width_mm / 2.0;
            let from = (jaws.mouth_mm * jaws.mouth_mm / 4.0 - aside * aside).max(0.0).sqrt();
            ink.line(vec![Point::new(from, aside), Point::new(outside, aside)], Stroke::Cut);
        }
        let words = format!("slot {} wide, {} deep", lengths.bare(slot.width_mm), lengths.bare(slot.depth_mm));
        ink.words(Point::new(outside + 2.0, 1.2), words, 3.2, Anchor::Start);
    }
    let said = [
        format!("mouth \u{d8}{}", lengths.bare(jaws.mouth_mm)),
        format!("girth \u{d8}{} at {}", lengths.bare(jaws.girth_mm), lengths.bare(jaws.past_girth_mm.max(0.0))),
        format!("outside \u{d8}{}", lengths.bare(block.diameter_mm)),
    ];
    for (i, words) in said.into_iter().enumerate() {
        ink.words(Point::new(0.0, 5.0 * (i as f64 - 1.0)), words, 3.2, Anchor::Middle);
    }
    Template {
        title: format!("Wooden jaws, axis {axis}: face"),
        note: format!(
            "As seen from the tailstock, spacers of {} in the gaps. The dashed circle is the girth, inside the wood; the small rings \
             are screws, from behind.",
            lengths.bare(block.gap_mm)
        ),
        ink,
    }
}

/// Half a card that fills the recess when its shoulder lies on the face: half, so that it goes in past the lip.
fn card(axis: AxisName, jaws: &Jaws, lengths: Units) -> Template {
    let mut card: Vec<Point> = jaws.half_section(false).iter().take(jaws.recess.len()).map(on_card).collect();
    let (mouth, deepest) = (jaws.mouth_mm / 2.0, jaws.recess.last().map_or(0.0, |at| at.depth_mm));
    card.extend([(0.0, deepest), (0.0, -GRIP), (mouth + SHOULDER, -GRIP), (mouth + SHOULDER, 0.0)].map(Point::from));
    let mut ink = Ink::default();
    ink.ring(card, Stroke::Cut);
    ink.line(vec![Point::new(0.0, -GRIP - 4.0), Point::new(0.0, deepest + 4.0)], Stroke::Axis);
    ink.words(Point::new(2.0, -GRIP + 5.0), format!("axis {axis}"), 3.4, Anchor::Start);
    ink.words(Point::new(2.0, -3.0), format!("depth {}", lengths.bare(deepest)), 3.2, Anchor::Start);
    Template {
        title: format!("Wooden jaws, axis {axis}: card of the recess"),
        note: "Cut out along the thick line. With the lathe stopped, it fits without light when its shoulder lies on the face and \
               its straight edge on the axis."
            .into(),
        ink,
    }
}

fn on_card(at: &Station) -> Point {
    Point::new(at.r, at.t)
}
