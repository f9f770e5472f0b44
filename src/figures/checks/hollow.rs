//! Checks of the hollow: boring, and what it meets.

use super::check::{Check, CheckName, Verdict, Words};
use crate::design::{Design, Limits};
use crate::figures::boring::{Boring, BoringWarning};
use crate::figures::report::Figures;

/// The checks that a hollow brings.
pub(super) fn checks(_design: &Design, figures: &Figures, _limits: &Limits, words: Words) -> Vec<Check> {
    figures.borings.iter().map(|boring| check_boring(boring, words)).collect()
}

fn check_boring(boring: &Boring, words: Words) -> Check {
    let field = |inner: &str| format!("cuts[{}].shape.{inner}", boring.cut);
    let Some(warning) = boring.warnings.first() else {
        let bits = boring.steps.len();
        let plural = if bits == 1 { "bit" } else { "bits" };
        let sentence = format!(
            "{bits} {plural} you own bore it; the scraper takes up to {}.",
            words.length(boring.most_to_scrape_mm)
        );
        return Check::ok(CheckName::Boring, sentence);
    };
    match *warning {
        BoringWarning::NoBitFits => Check::fault(
            CheckName::Boring,
            Verdict::Stop,
            "None of the bits you own fits this bore.",
            "Add a narrower bit to the shop, or widen the bore.",
        )
        .cured_at(field("diameter_mm")),
        BoringWarning::Deep { limit_mm } => Check::fault(
            CheckName::Boring,
            Verdict::Tight,
            format!(
                "The bore is {} deep; past about {} it is hard to bore true and to smooth.",
                words.length(boring.depth_mm),
                words.length(limit_mm)
            ),
            "Bore less deep, or lift the bit often to clear the chips and sharpen the scraper.",
        )
        .measured(boring.depth_mm, limit_mm)
        .cured_at(field("depth_mm")),
        BoringWarning::BitTooWide { diameter_mm, limit_mm } => Check::fault(
            CheckName::Boring,
            Verdict::Tight,
            format!("The {} bit is more than the lathe drives, {}.", words.length(diameter_mm), words.length(limit_mm)),
            "Bore with a narrower bit and scrape to size.",
        )
        .measured(diameter_mm, limit_mm)
        .cured_at(field("diameter_mm")),
        BoringWarning::StopsShort { left_mm } => Check::fault(
            CheckName::Boring,
            Verdict::Tight,
            format!("The bits stop {} short of the floor.", words.length(left_mm)),
            "Scrape the rest, or add a longer or a narrower bit to the shop.",
        )
        .measured(left_mm, 0.0)
        .cured_at(field("depth_mm")),
    }
}
