//! Collects problems, so that the rules read as rules.

use super::bounds::Bound;
use super::problem::Problem;
use super::words::{Part, Sentence, words};

/// The problems found so far.
#[derive(Default)]
pub(super) struct Report {
    pub(super) found: Vec<Problem>,
}

impl Report {
    /// Adds a problem.
    pub(super) fn problem(
        &mut self,
        field: &str,
        place: Option<f64>,
        sentence: impl Into<Sentence>,
        cure: impl Into<Sentence>,
    ) {
        let place = place.filter(|place| place.is_finite());
        let (sentence, cure) = (sentence.into(), cure.into());
        self.found.push(Problem { field: field.to_owned(), place, sentence, cure });
    }

    /// Whether the number is finite and inside its bound; a problem otherwise.
    pub(super) fn number(&mut self, field: &str, what: &str, value: f64, bound: Bound) -> bool {
        self.number_at(field, what, value, bound, None)
    }

    /// As [`Report::number`], at a place.
    pub(super) fn number_at(&mut self, field: &str, what: &str, value: f64, bound: Bound, place: Option<f64>) -> bool {
        if bound.holds(value) {
            return true;
        }
        let sentence = match value.is_nan() {
            true => format!("{what} is not a number.").into(),
            false => words!(format!("{what} is "), Part::Number(value, bound.unit), ", outside ", bound, "."),
        };
        self.problem(field, place, sentence, words!("Give it a value from ", bound, "."));
        false
    }

    /// A problem when the list is too long.
    pub(super) fn count(&mut self, field: &str, what: &str, count: usize, most: usize) {
        if count > most {
            let sentence = format!("There are {count} {what}, and {most} at most can be planned.");
            self.problem(field, None, sentence, format!("Take out {}.", count - most));
        }
    }

    /// A problem when the text is too long.
    pub(super) fn text(&mut self, field: &str, what: &str, text: &str, most: usize) {
        let letters = text.chars().count();
        if letters > most {
            let sentence = format!("{what} has {letters} letters, and {most} at most are kept.");
            self.problem(field, None, sentence, format!("Take out {}.", letters - most));
        }
    }

    /// A problem when the first is greater than the second; both are named.
    pub(super) fn in_order(&mut self, field: &str, less: (&str, f64), more: (&str, f64), unit: &'static str) {
        if less.1 > more.1 {
            let (is, than) = (format!("{} is ", less.0), format!(", more than {} at ", more.0));
            let sentence = words!(is, Part::Number(less.1, unit), than, Part::Number(more.1, unit), ".");
            self.problem(field, None, sentence, words!("Make it ", Part::AtMost(more.1, unit), " or less."));
        }
    }
}
