//! What became of an import, part by part, and in sentences.

use super::designs::SaveError;
use super::id::DesignId;
use super::saved::Refused;
use super::store::StoreError;
use crate::design::entry::Units;
use crate::design::printers::PrintersAdded;
use crate::design::{Design, Shop};

/// How many of many sentences are told.
const TOLD: usize = 10;

/// What became of an import.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TakenIn {
    /// The designs that were added.
    pub added: Vec<DesignId>,
    /// How many are on the shelf already, the same in everything, and were left out.
    pub already_here: usize,
    /// The shop of the file. It is not put in force: that is for the user to say.
    pub shop: Option<Shop>,
    /// What became of the printers of the file.
    pub printers: PrintersAdded,
    /// Why the printers of the file are not kept, when they are not.
    pub printers_failed: Option<SaveError>,
    /// How many texts that cannot be read were set aside.
    pub set_aside: usize,
    /// Why texts that cannot be read could not be set aside, one each.
    pub aside_failed: Vec<StoreError>,
    /// Parts of the file that cannot be read.
    pub refused: Vec<Refused>,
    /// Designs that could not be saved, and why.
    pub failed: Vec<(Design, SaveError)>,
}

impl TakenIn {
    /// Whether all of the file came in, so that nothing of it asks to be looked at.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        let lost = self.refused.len() + self.failed.len() + self.aside_failed.len() + self.set_aside;
        !self.added.is_empty() && lost == 0 && self.printers_failed.is_none()
    }

    /// What became of the file of this name, in sentences: what came in, and what did not and why. The shop is left to
    /// whoever offers it.
    #[must_use]
    pub fn told(&self, name: &str, units: Units) -> String {
        let mut words = vec![match self.added.len() {
            0 => format!("\u{201c}{name}\u{201d} is read; no design of it is new here and could be kept."),
            count => format!("\u{201c}{name}\u{201d}: {} imported.", counted(count, "design")),
        }];
        if self.added.is_empty() && self.failed.is_empty() {
            words = vec![format!("\u{201c}{name}\u{201d} is read; it holds no design that is new here.")];
        }
        if self.already_here > 0 {
            words.push(format!("{} on the shelf already.", counted(self.already_here, "design")));
        }
        if self.set_aside > 0 {
            words.push(format!("{} set aside, to be seen below.", counted(self.set_aside, "design")));
        }
        let refused = self.refused.iter().map(|it| format!("{} is refused. {}", it.which, it.reason.told(units)));
        words.extend(first_of(refused, "are refused"));
        let failed =
            self.failed.iter().map(|(design, error)| format!("\u{201c}{}\u{201d}: {}", design.name, error.told(units)));
        words.extend(first_of(failed, "could not be saved"));
        if let Some(error) = self.aside_failed.first() {
            let texts = counted(self.aside_failed.len(), "text");
            words.push(format!("{texts} that cannot be read could not be set aside. {error}"));
        }
        words.extend(self.printers.told());
        words.extend(self.printers_failed.iter().map(|error| format!("What printers measured: {}", error.told(units))));
        words.join(" ")
    }
}

fn counted(count: usize, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

/// The first sentences, and one that counts the rest.
fn first_of(sentences: impl ExactSizeIterator<Item = String>, what: &str) -> impl Iterator<Item = String> {
    let more = sentences.len().saturating_sub(TOLD);
    let counted = (more > 0).then(|| format!("{more} more {what}."));
    sentences.take(TOLD).chain(counted)
}
