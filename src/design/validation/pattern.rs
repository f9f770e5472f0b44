//! The rules of a pattern: choices inside their bounds, and nothing made one's own that the choices do not make.

use super::bounds::{self, Bound};
use super::report::Report;
use crate::design::document::Design;
use crate::design::pattern::{Pattern, PatternPart, Wanted};

/// What a piece may be wanted to hold, in mm3: from a drop to ten litres.
const HOLDS: Bound = Bound { from: 1.0, to: 1e7, unit: " mm\u{b3}" };

pub(super) fn all(report: &mut Report, design: &Design) {
    let Some(pattern) = &design.pattern else { return };
    let choices = &pattern.choices;
    for place in 0..choices.count() {
        if let (Some(look), Some(value)) = (choices.look(place), choices.number(place)) {
            let what = format!("{}, \u{201c}{}\u{201d},", look.section, look.label);
            report.number(&format!("pattern.choices.{}", look.name), &what, *value, look.bound);
        }
    }
    if let Some(wanted) = choices.wanted() {
        all_wanted(report, wanted);
    }
    report.count("pattern.own", "parts of your own", pattern.own.len(), bounds::CUTS + bounds::AXES);
    not_made(report, pattern);
}

fn all_wanted(report: &mut Report, wanted: &Wanted) {
    report.number("pattern.choices.wanted.holds_mm3", "What it should hold", wanted.holds_mm3, HOLDS);
    let Some(blank) = wanted.blank else { return };
    let path = |name: &str| format!("pattern.choices.wanted.blank.{name}");
    report.number(&path("side_mm"), "The side of the blank on hand", blank.side_mm, bounds::BLANK_WIDTH);
    if let Some(length_mm) = blank.length_mm {
        report.number(&path("length_mm"), "The length of the blank on hand", length_mm, bounds::BLANK_LENGTH);
    }
}

/// A part of one's own stands as it is: a choice that makes no such part would leave it without its fellows.
fn not_made(report: &mut Report, pattern: &Pattern) {
    let made = pattern.choices.made();
    let lost = pattern.own.iter().filter(|part| !made.has(part));
    for part in lost.take(bounds::CUTS) {
        let what = called(part);
        report.problem(
            "pattern.own",
            None,
            format!("{what} is yours, and with these choices the piece has none."),
            "Let it follow again first.",
        );
    }
}

fn called(part: &PatternPart) -> String {
    match part {
        PatternPart::Blank => "The blank".to_owned(),
        PatternPart::Thickness => "The wanted thickness".to_owned(),
        PatternPart::Axis(axis) => format!("Axis {axis}"),
        PatternPart::Pass(name) => format!("The pass \u{201c}{name}\u{201d}"),
        PatternPart::Hollow(_) => "The hollow".to_owned(),
        PatternPart::FitPlug(_) | PatternPart::TakeOutPlug(_) => "The plug".to_owned(),
        PatternPart::Saw(_) => "The saw line".to_owned(),
        PatternPart::Face(_) => "The facing".to_owned(),
        PatternPart::Part(_) => "The parting".to_owned(),
    }
}
