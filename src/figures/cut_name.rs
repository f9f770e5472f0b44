//! A cut in words.

use crate::design::{Cut, Design};

/// A cut as a sentence names it: `the bowl pass`.
#[must_use]
pub fn cut_name(design: &Design, cut: usize) -> String {
    match design.cuts.get(cut) {
        Some(Cut::Pass(pass)) => format!("the {} pass", pass.name),
        Some(Cut::Part(_)) => "the parting cut".into(),
        Some(Cut::Face(_)) => "the facing cut".into(),
        Some(Cut::Saw(_)) => "the saw cut".into(),
        Some(Cut::Hollow(_)) => "the hollow".into(),
        Some(Cut::FitPlug(_) | Cut::TakeOutPlug) => "the plug".into(),
        None => "a cut".into(),
    }
}
