//! A cut in words.

use std::mem::discriminant;

use super::text::of_several;
use super::validation::bounds::{CUTS, NAME_LETTERS};
use super::{Cut, Design};

impl Design {
    /// A cut as a sentence names it: `the bowl pass`. Of several with one name it says which: `the hollow (2 of 3)`.
    #[must_use]
    pub fn cut_name(&self, cut: usize) -> String {
        let Some(named) = self.cuts.get(cut) else { return "a cut".to_owned() };
        let name = name(named);
        // Every cut of a document that has far too many is named too: none is counted then.
        if self.cuts.len() > CUTS {
            return name;
        }
        let is_alike = |other: &&Cut| discriminant(*other) == discriminant(named) && self::name(other) == name;
        let before = self.cuts[..cut].iter().filter(is_alike).count();
        let all = before + self.cuts[cut..].iter().filter(is_alike).count();
        of_several(name, before, all)
    }
}

fn name(cut: &Cut) -> String {
    match cut {
        Cut::Pass(pass) if pass.name.trim().is_empty() => "the pass".into(),
        Cut::Pass(pass) => format!("the {} pass", pass.name.chars().take(NAME_LETTERS).collect::<String>()),
        Cut::Part(_) => "the parting cut".into(),
        Cut::Face(_) => "the facing cut".into(),
        Cut::Saw(_) => "the saw cut".into(),
        Cut::Hollow(_) => "the hollow".into(),
        Cut::FitPlug(_) | Cut::TakeOutPlug => "the plug".into(),
    }
}
