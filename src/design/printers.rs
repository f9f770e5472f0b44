//! What each of the turner's printers makes of a check line of 100 mm, so that every later print comes out true.

use serde::{Deserialize, Serialize};

/// What the check lines measured on one printer's paper.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Printer {
    /// What the turner calls it; one may go without a name.
    pub name: String,
    /// What a line of 100 mm measures across the paper, in mm.
    pub across_mm: f64,
    /// What a line of 100 mm measures along the paper, in mm.
    pub along_mm: f64,
}

/// The paper, the printer that is used, and every printer that was measured.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(default, deny_unknown_fields)]
pub struct Printers {
    /// US Letter instead of A4.
    pub letter: bool,
    /// The name of the printer that is used.
    pub name: String,
    /// The printers that were measured, each under a name of its own.
    pub known: Vec<Printer>,
}

impl Printers {
    /// The printer of this name, if it was measured.
    #[must_use]
    pub fn named(&self, name: &str) -> Option<&Printer> {
        self.known.iter().find(|printer| printer.name == name)
    }

    /// Takes what a printer measures in place of what it measured before, and uses it.
    pub fn take(&mut self, printer: Printer) {
        self.name.clone_from(&printer.name);
        self.known.retain(|other| other.name != printer.name);
        self.known.push(printer);
    }

    /// Adds the printers of a backup.
    ///
    /// A printer that is known here stays as it is, whatever the backup says of it: it may have been measured anew since,
    /// and where it has not, the check lines tell. A turner who has neither named nor measured a printer here has come to
    /// an empty shelf, and goes on with the printer and the paper of the backup.
    pub fn add(&mut self, others: Self) -> PrintersAdded {
        if self.name.is_empty() && self.known.is_empty() {
            self.name = others.name;
            self.letter |= others.letter;
        }
        let mut added = PrintersAdded::default();
        for printer in others.known {
            match self.named(&printer.name) {
                None => {
                    added.new.push(printer.name.clone());
                    self.known.push(printer);
                }
                Some(known) if *known != printer => added.kept.push(printer.name),
                Some(_) => {}
            }
        }
        added
    }
}

/// What became of the printers of a backup, by name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PrintersAdded {
    /// Those that were added.
    pub new: Vec<String>,
    /// Those that have other lines here, and keep them.
    pub kept: Vec<String>,
}

impl PrintersAdded {
    /// In sentences, one each; none when there is nothing to say.
    #[must_use]
    pub fn told(&self) -> Vec<String> {
        let new = listed(&self.new).map(|who| format!("What the check lines measured on {who} is imported."));
        let kept = listed(&self.kept)
            .map(|who| format!("Other check lines of {who} are left out: what is known here stays in force."));
        new.into_iter().chain(kept).collect()
    }
}

/// Names as they stand in a sentence; `None` for none.
fn listed(names: &[String]) -> Option<String> {
    let each = |name: &String| match name.as_str() {
        "" => "the printer without a name".to_owned(),
        name => format!("\u{201c}{name}\u{201d}"),
    };
    let [before @ .., last] = names else { return None };
    let before: Vec<String> = before.iter().map(each).collect();
    Some(if before.is_empty() { each(last) } else { format!("{} and {}", before.join(", "), each(last)) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printer(name: &str, across_mm: f64) -> Printer {
        Printer { name: name.to_owned(), across_mm, along_mm: 100.0 }
    }

    fn printers(name: &str, known: &[(&str, f64)]) -> Printers {
        let known = known.iter().map(|(name, across_mm)| printer(name, *across_mm)).collect();
        Printers { letter: false, name: name.to_owned(), known }
    }

    #[test]
    fn a_printer_measured_again_has_its_new_lines() {
        let mut here = printers("Shed", &[("Shed", 99.0), ("Office", 101.0)]);
        here.take(printer("Shed", 98.0));
        here.take(printer("Attic", 100.5));
        assert_eq!(here, printers("Attic", &[("Office", 101.0), ("Shed", 98.0), ("Attic", 100.5)]));
    }

    #[test]
    fn an_empty_shelf_goes_on_with_the_printers_of_the_backup() {
        let backup = Printers { letter: true, ..printers("Shed", &[("Shed", 99.0), ("", 101.0)]) };
        let mut here = Printers::default();
        let added = here.add(backup.clone());
        assert_eq!(here, backup);
        let told = "What the check lines measured on \u{201c}Shed\u{201d} and the printer without a name is imported.";
        assert_eq!(added.told(), [told]);
        assert_eq!(here.add(backup.clone()).told(), [""; 0], "nothing is new the second time");
        assert_eq!(here, backup);
    }

    #[test]
    fn a_printer_that_is_known_keeps_its_lines() {
        let mut here = printers("Office", &[("Shed", 99.0), ("Office", 101.0)]);
        let backup =
            Printers { letter: true, ..printers("Shed", &[("Shed", 97.0), ("Attic", 100.5), ("Office", 101.0)]) };
        let added = here.add(backup);
        assert_eq!(here, printers("Office", &[("Shed", 99.0), ("Office", 101.0), ("Attic", 100.5)]));
        let told = [
            "What the check lines measured on \u{201c}Attic\u{201d} is imported.",
            "Other check lines of \u{201c}Shed\u{201d} are left out: what is known here stays in force.",
        ];
        assert_eq!(added.told(), told);
    }
}
