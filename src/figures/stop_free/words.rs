//! A range in words, for under a slider and for a screen reader.

use super::range::{End, EndedBy, Now, StopFree};
use crate::design::Units;
use crate::design::units::Quantity;
use crate::figures::checks::CheckName;

/// A range as it is shown and read out.
#[derive(Clone, Debug, PartialEq)]
pub struct StopFreeWords {
    /// The least the number may be, in mm or degrees, and what ends it there.
    pub low: (f64, String),
    /// The most.
    pub high: (f64, String),
    /// Where checks stop already: what of it this number can cure.
    pub now: String,
    /// The value with which no check stops, where that is another than the number as it is.
    pub free_at: Option<f64>,
    /// All of it, in a sentence or two.
    pub said: String,
}

impl StopFreeWords {
    /// The words for a range of such a number.
    #[must_use]
    pub fn new(range: &StopFree, units: Units, quantity: Quantity) -> Self {
        let end = |End { value, ended_by }: End| {
            let shown = units.show(value, quantity);
            let why = ended(ended_by);
            (value, if why.is_empty() { shown } else { format!("{shown} {why}") })
        };
        let with_unit = |value: f64| units.show_with_unit(value, quantity);
        let (now, free_at) = match range.now {
            Now::NothingStops => (String::new(), None),
            Now::FreeAt(value) => (format!("Stops now. OK at {}", with_unit(value)), Some(value)),
            Now::FreeNowhere => ("Stops now. This value alone does not cure it.".to_owned(), None),
        };
        let said = format!("{} {}", from_to(range, with_unit), now).trim_end().to_owned();
        Self { low: end(range.low), high: end(range.high), now, free_at, said }
    }
}

/// What ends a range, in the fewest words; nothing where the slider does.
fn ended(by: EndedBy) -> &'static str {
    match by {
        EndedBy::Slider => "",
        EndedBy::Check(name) => short(name),
        EndedBy::NoSuchPiece => "cuts collide",
    }
}

/// The name of a check where there is little room.
fn short(name: CheckName) -> &'static str {
    match name {
        CheckName::Join => "Wood left",
        CheckName::ShoulderClearance => "Shoulder",
        CheckName::Length => "Blank's length",
        CheckName::Overhang => "Overhang",
        CheckName::Carried => "Not carried",
        CheckName::RoughEnd => "Rough wood",
        CheckName::GrainSlope => "Grain",
        CheckName::WasteStrength => "Strength in turning",
        CheckName::OutOfBalance => "Out of balance",
        CheckName::HoldsAsItLies => "As it lies",
        CheckName::Tips => "Tips when full",
        name => name.title(),
    }
}

fn from_to(range: &StopFree, with_unit: impl Fn(f64) -> String) -> String {
    let begun = match range.now {
        Now::NothingStops => "No check stops",
        Now::FreeAt(_) | Now::FreeNowhere => "No check gets worse",
    };
    let because = |way: &str, end: End| match end.ended_by {
        EndedBy::Slider => String::new(),
        EndedBy::Check(name) => format!(" {way}, {} stops it.", name.title()),
        EndedBy::NoSuchPiece => format!(" {way}, the cuts collide."),
    };
    let (low, high) = (range.low, range.high);
    let both = format!("{}{}", because("Lower", low), because("Higher", high));
    format!("{begun} from {} to {}.{both}", with_unit(low.value), with_unit(high.value))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(now: Now) -> StopFreeWords {
        let low = End { value: 4.0, ended_by: EndedBy::Slider };
        let high = End { value: 9.4, ended_by: EndedBy::Check(CheckName::DriveCentre) };
        StopFreeWords::new(&StopFree { low, high, now }, Units::default(), Quantity::Angle)
    }

    #[test]
    fn a_range_names_its_ends_and_what_ends_it() {
        let it = words(Now::NothingStops);
        assert_eq!((it.low.1.as_str(), it.high.1.as_str()), ("4.0", "9.4 Drive centre"));
        assert_eq!(it.said, "No check stops from 4.0\u{b0} to 9.4\u{b0}. Higher, Drive centre stops it.");
        assert_eq!((it.now.as_str(), it.free_at), ("", None));
    }

    #[test]
    fn where_a_check_stops_already_it_says_what_the_number_can_do() {
        let it = words(Now::FreeAt(3.0));
        assert_eq!((it.now.as_str(), it.free_at), ("Stops now. OK at 3.0\u{b0}", Some(3.0)));
        assert!(it.said.starts_with("No check gets worse from 4.0\u{b0} to 9.4\u{b0}."), "{}", it.said);
        assert!(words(Now::FreeNowhere).said.ends_with("This value alone does not cure it."));
    }
}
