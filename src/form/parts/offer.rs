//! What may be done with a part.

use super::apply::{changed, is_on_a, leaves_pattern};
use super::axes::{cuts_on, is_same, letter, off_on, turned};
use super::{Addition, Change, PartId, Way};
use crate::design::{Cut, Design, Problem};

/// Where on screen something that may be done stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Offered {
    /// Beside the other buttons.
    Plainly,
    /// Under "turned about the centre".
    Round,
}

/// Something that may be done with a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// What the button says.
    pub label: String,
    /// Where it stands.
    pub group: Offered,
    /// What it does.
    pub change: Change,
    /// Why it may not be done, as the design is.
    pub why_not: Option<Box<Problem>>,
    /// Whether the design no longer follows its pattern afterwards.
    pub leaves_pattern: bool,
}

/// Everything that may be done with a part, and what may not with the reason. What has nothing to do it to is left out,
/// as moving the first part toward the first.
#[must_use]
pub fn offers(design: &Design, id: PartId) -> Vec<Offer> {
    let all = match id {
        PartId::Axis(axis) if axis < design.axes.len() => of_axis(design, axis),
        PartId::Cut(cut) if cut < design.cuts.len() => of_cut(design, cut),
        PartId::Off(off) if off < design.off.len() => vec![
            ("Switch on".to_owned(), Offered::Plainly, Change::SwitchOn(id)),
            ("Remove".to_owned(), Offered::Plainly, Change::Remove(id)),
        ],
        _ => Vec::new(),
    };
    let offer = |(label, group, change): (String, Offered, Change)| {
        let why_not = changed(design, &change).err();
        let leaves_pattern = why_not.is_none() && leaves_pattern(design, &change);
        Offer { label, group, change, why_not, leaves_pattern }
    };
    all.into_iter().map(offer).collect()
}

type All = Vec<(String, Offered, Change)>;

/// Turns about the centre that are offered, in degrees: those of three sides and of four.
const ROUND_DEG: [f64; 4] = [90.0, 120.0, 180.0, 240.0];

fn of_cut(design: &Design, cut: usize) -> All {
    let mut all: All = Vec::new();
    let id = PartId::Cut(cut);
    let mut add = |label: &str, group: Offered, change: Change| all.push((label.to_owned(), group, change));
    let is_plug = matches!(design.cuts[cut], Cut::FitPlug(_) | Cut::TakeOutPlug);
    if matches!(design.cuts[cut], Cut::Pass(_)) && !is_on_a(design, cut) {
        for by_deg in ROUND_DEG {
            add(&format!("{by_deg}\u{b0}"), Offered::Round, Change::CopyRound(cut, vec![by_deg]));
        }
        add("All three sides", Offered::Round, Change::CopyRound(cut, vec![120.0, 240.0]));
        add("All four sides", Offered::Round, Change::CopyRound(cut, vec![90.0, 180.0, 270.0]));
    }
    if !is_plug {
        add("Copy", Offered::Plainly, Change::Copy(cut));
    }
    if cut > 0 {
        add("Move earlier", Offered::Plainly, Change::Move(id, Way::Earlier));
    }
    if cut + 1 < design.cuts.len() {
        add("Move later", Offered::Plainly, Change::Move(id, Way::Later));
    }
    if !matches!(design.cuts[cut], Cut::TakeOutPlug) {
        add("Switch off", Offered::Plainly, Change::SwitchOff(id));
    }
    add("Remove", Offered::Plainly, Change::Remove(id));
    all
}

fn of_axis(design: &Design, axis: usize) -> All {
    let mut all: All = Vec::new();
    let id = PartId::Axis(axis);
    let name = letter(axis);
    let count = |count: usize, what: &str| match count {
        0 => what.to_owned(),
        1 => format!("{what} with its cut"),
        many => format!("{what} with its {many} cuts"),
    };
    let (on, off) = (cuts_on(design, name).len(), off_on(design, name).len());
    for by_deg in ROUND_DEG {
        let other = turned(&design.axes[axis], by_deg);
        if !design.axes.iter().any(|it| is_same(it, &other)) {
            let change = Change::Add(Addition { axis: Some(other), ..Addition::default() });
            all.push((format!("{by_deg}\u{b0}"), Offered::Round, change));
        }
    }
    if axis > 0 {
        all.push(("Move earlier".to_owned(), Offered::Plainly, Change::Move(id, Way::Earlier)));
    }
    if axis + 1 < design.axes.len() {
        all.push(("Move later".to_owned(), Offered::Plainly, Change::Move(id, Way::Later)));
    }
    if on > 0 {
        all.push((count(on, "Switch off"), Offered::Plainly, Change::SwitchOff(id)));
    }
    if off > 0 {
        all.push((count(off, "Switch on"), Offered::Plainly, Change::SwitchOn(id)));
    }
    all.push((count(on + off, "Remove"), Offered::Plainly, Change::Remove(id)));
    all
}
