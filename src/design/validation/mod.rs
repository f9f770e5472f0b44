//! What is wrong with a design, a shop or what printers measured: every problem at once, each with its field, place,
//! sentence and cure.
//!
//! A design without problems can be handed to any function of the program: every number is finite and inside its
//! [bound](bounds), profiles run forward, and every cut refers to something that is there. Whether it is a *good*
//! design (thick enough, strong enough, finished) is for the checks to say.
//!
//! The rules:
//! - every number is finite and inside its bound; lists and texts are no longer than [`bounds`] allow;
//! - an axis letter stands for an axis that is listed; marks tilt an axis no further than a tilt may;
//! - a pass ends after it starts, and its profile covers it;
//! - the stations of a profile never go back, and at most two nodes share a station (a step, joined straight);
//! - an arc never turns back on itself and never crosses the axis;
//! - a hollow starts at its mouth; its rounding is at most its radius and at most its depth; one hollowed across the
//!   blank meets the blank;
//! - the points of a saw line move on toward the handle;
//! - a plug goes in when none is in and comes out when one is; its spigot is no wider than its disc, and no wider
//!   and no longer than a bore about axis A;
//! - a date of the log is a day of the calendar;
//! - what is made one's own is a part that the choices of the pattern make;
//! - two printers have not the same name;
//! - a lathe's, a chuck's and a rest's smaller figure is no greater than the larger one.

pub mod bounds;
mod cuts;
mod log;
mod pattern;
mod printers;
mod problem;
mod profile;
mod report;
mod shop;
pub mod weight;
pub(crate) mod words;

use super::cut::{AxisChoice, Blank, BlankSection};
use super::document::{Design, InUse};
use super::printers::Printers;
use super::shop::{LimitChoices, Shop};
use bounds::TILT_DEG;
pub use problem::Problem;
pub use profile::largest_bulge_mm;
pub(super) use profile::lowest_radius_mm;
use report::Report;
pub use words::Sentence;
use words::{length, words};

impl Design {
    /// Every problem of the design, in the order of the document; empty when there is none.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        let mut report = Report::default();
        report.text("name", "The name", &self.name, bounds::NAME_LETTERS);
        report.text("notes", "The notes", &self.notes, bounds::NOTES_LETTERS);
        report.text("wood.species", "The name of the wood", &self.wood.species, bounds::NAME_LETTERS);
        report.number("wood.moisture_percent", "The moisture", self.wood.moisture_percent, bounds::MOISTURE);
        in_use(&mut report, &self.wood.in_use);
        pattern::all(&mut report, self);
        blank(&mut report, &self.blank);
        report.count("axes", "axes besides A", self.axes.len(), bounds::AXES);
        for (index, axis) in self.axes.iter().enumerate() {
            axis_choice(&mut report, index, axis, &self.blank);
        }
        // What is switched off is judged when it is switched on.
        report.count("cuts", "cuts", self.cuts.len() + self.off.len(), bounds::CUTS);
        cuts::all(&mut report, self);
        report.text("contents", "The name of the contents", &self.contents, bounds::NAME_LETTERS);
        limit_choices(&mut report, &self.limits);
        log::all(&mut report, self);
        report.found
    }
}

impl Shop {
    /// Every problem of the shop's settings, in the order of the document; empty when there is none.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        let mut report = Report::default();
        shop::all(&mut report, self);
        report.found
    }
}

impl Printers {
    /// Every problem of what printers measured, in the order of the document; empty when there is none.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        let mut report = Report::default();
        printers::all(&mut report, self);
        report.found
    }
}

fn in_use(report: &mut Report, in_use: &InUse) {
    let mut number = |field: &str, what: &str, value: f64, bound| {
        report.number(&format!("wood.in_use.{field}"), what, value, bound);
    };
    match *in_use {
        InUse::Moisture { moisture_percent } => {
            number("moisture_percent", "The moisture in use", moisture_percent, bounds::MOISTURE);
        }
        InUse::Air { temperature_c, humidity_percent } => {
            number("temperature_c", "The temperature in use", temperature_c, bounds::TEMPERATURE_C);
            number("humidity_percent", "The humidity in use", humidity_percent, bounds::HUMIDITY);
        }
    }
}

fn blank(report: &mut Report, blank: &Blank) {
    match blank.section {
        BlankSection::Square { side_mm } => {
            report.number("blank.section.side_mm", "The side of the blank", side_mm, bounds::BLANK_WIDTH);
        }
        BlankSection::Round { diameter_mm } => {
            report.number("blank.section.diameter_mm", "The diameter of the blank", diameter_mm, bounds::BLANK_WIDTH);
        }
    }
    report.number("blank.length_mm", "The length of the blank", blank.length_mm, bounds::BLANK_LENGTH);
}

fn axis_choice(report: &mut Report, index: usize, axis: &AxisChoice, blank: &Blank) {
    let path = format!("axes[{index}]");
    let letter = super::AxisName::from_index(index + 1).map_or('?', super::AxisName::letter);
    let mut number = |field: &str, what: &str, value: f64, bound| {
        report.number(&format!("{path}.{field}"), &format!("{what} of axis {letter}"), value, bound)
    };
    match *axis {
        AxisChoice::Marks { tail_x_mm, tail_y_mm, head_x_mm, head_y_mm } => {
            let sound = [
                number("tail_x_mm", "The tail mark's x", tail_x_mm, bounds::MARK),
                number("tail_y_mm", "The tail mark's y", tail_y_mm, bounds::MARK),
                number("head_x_mm", "The head mark's x", head_x_mm, bounds::MARK),
                number("head_y_mm", "The head mark's y", head_y_mm, bounds::MARK),
            ];
            let apart = (head_x_mm - tail_x_mm).hypot(head_y_mm - tail_y_mm);
            let tilt_deg = apart.atan2(blank.length_mm).to_degrees();
            if sound.iter().all(|sound| *sound) && bounds::BLANK_LENGTH.holds(blank.length_mm) && tilt_deg > TILT_DEG.to
            {
                report.problem(
                    &path,
                    None,
                    format!("The marks of axis {letter} tilt it by {tilt_deg:.1} degrees."),
                    format!("Bring the marks closer, for a tilt of at most {} degrees.", TILT_DEG.to),
                );
            }
        }
        AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm } => {
            number("tilt_deg", "The tilt", tilt_deg, TILT_DEG);
            number("toward_deg", "The direction of tilt", toward_deg, bounds::CLOCK_DEG);
            number("crossing_mm", "The crossing", crossing_mm, bounds::STATION);
        }
        AxisChoice::Across { station_mm, from_deg } => {
            number("from_deg", "The direction", from_deg, bounds::CLOCK_DEG);
            if number("station_mm", "The position", station_mm, bounds::STATION)
                && bounds::BLANK_LENGTH.holds(blank.length_mm)
                && !(0.0..=blank.length_mm).contains(&station_mm)
            {
                report.problem(
                    &format!("{path}.station_mm"),
                    Some(station_mm),
                    format!("Axis {letter} runs across beside the blank."),
                    words!("Give it a position from 0 to ", length(blank.length_mm), "."),
                );
            }
        }
    }
}

fn limit_choices(report: &mut Report, limits: &LimitChoices) {
    let choices = [
        ("wall_mm", "The wall limit", limits.wall_mm),
        ("floor_mm", "The floor limit", limits.floor_mm),
        ("finishing_allowance_mm", "The finishing allowance", limits.finishing_allowance_mm),
        ("join_spare_mm", "The spare of the join", limits.join_spare_mm),
    ];
    for (field, what, value) in choices {
        if let Some(value) = value {
            report.number(&format!("limits.{field}"), what, value, bounds::LIMIT);
        }
    }
}
