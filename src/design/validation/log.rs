//! The rules of the ticked steps and of the log.

use super::bounds;
use super::report::Report;
use crate::design::document::Design;
use crate::design::log::{Making, day};

/// Judges the ticked steps and every making.
pub(super) fn all(report: &mut Report, design: &Design) {
    report.count("done", "ticked steps", design.done.len(), bounds::STEPS);
    for (index, step) in design.done.iter().enumerate() {
        report.text(&format!("done[{index}]"), "The name of a ticked step", step, bounds::NAME_LETTERS);
    }
    report.count("log", "makings in the log", design.log.len(), bounds::MAKINGS);
    for (index, made) in design.log.iter().enumerate() {
        making(report, index, made);
    }
}

fn making(report: &mut Report, index: usize, making: &Making) {
    let path = format!("log[{index}]");
    let called = format!("of making {}", index + 1);
    if day(&making.date).is_none() {
        let shown: String = making.date.chars().take(20).collect();
        report.problem(
            &format!("{path}.date"),
            None,
            format!("The date {called} is {shown:?}, and there is no such day."),
            "Write it as year-month-day: 2026-03-09.",
        );
    }
    report.text(&format!("{path}.wood"), &format!("The wood {called}"), &making.wood, bounds::NAME_LETTERS);
    let texts =
        [("went_wrong", "What went wrong", &making.went_wrong), ("change_next", "What to change", &making.change_next)];
    for (field, what, text) in texts {
        report.text(&format!("{path}.{field}"), &format!("{what} {called}"), text, bounds::REMARK_LETTERS);
    }
    report.count(
        &format!("{path}.measured"),
        &format!("lengths measured {called}"),
        making.measured.len(),
        bounds::MEASURED,
    );
    for (place, measured) in making.measured.iter().enumerate() {
        let values = [
            ("at_mm", "The position", measured.at_mm, bounds::STATION),
            ("planned_mm", "The planned length", measured.planned_mm, bounds::PLANNED),
            ("measured_mm", "The measured length", measured.measured_mm, bounds::MEASURED_LENGTH),
        ];
        for (field, what, value, bound) in values {
            let what = format!("{what} in line {} {called}", place + 1);
            report.number(&format!("{path}.measured[{place}].{field}"), &what, value, bound);
        }
    }
    if let Some(holds) = making.holds {
        let values = [("planned_ml", "planned", holds.planned_ml), ("measured_ml", "measured", holds.measured_ml)];
        for (field, what, value) in values {
            let what = format!("The {what} volume {called}");
            report.number(&format!("{path}.holds.{field}"), &what, value, bounds::VOLUME);
        }
    }
}
