//! The rules of what printers measured.

use super::bounds;
use super::report::Report;
use crate::design::printers::Printers;

/// Judges every printer.
pub(super) fn all(report: &mut Report, printers: &Printers) {
    report.text("name", "The name of the printer", &printers.name, bounds::NAME_LETTERS);
    for (index, printer) in printers.known.iter().enumerate() {
        let path = |field: &str| format!("known[{index}].{field}");
        let number = index + 1;
        report.text(&path("name"), &format!("The name of printer {number}"), &printer.name, bounds::NAME_LETTERS);
        let values = [("across_mm", "across", printer.across_mm), ("along_mm", "along", printer.along_mm)];
        for (field, way, measured_mm) in values {
            let what = format!("The check line {way} the paper of printer {number}");
            report.number(&path(field), &what, measured_mm, bounds::CHECK_LINE);
        }
        if printers.known.iter().take(index).any(|other| other.name == printer.name) {
            let sentence = format!("Two printers are called \u{201c}{}\u{201d}.", printer.name);
            report.problem(&path("name"), None, sentence, "Give one of them another name.".to_owned());
        }
    }
}
