//! What has to come before what, and why: one rule a line of [`rule`].
//!
//! All of it is common practice, no source, but for the order of passes, which is the turner's own choice.

use crate::design::{AxisName, Cut, Design, Pass, Piece, Side};
use crate::geometry::Axis;

/// Why one piece of work comes before another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// A tenon is turned before anything that is held by it.
    TenonFirst,
    /// Passes keep the order of the design.
    PassesInTurn,
    /// A bore is made before a pass on another axis thins what holds the work.
    BoredWhileStout,
    /// The inside is finished before the plug closes it.
    InsideBeforePlug,
    /// The end is faced before the plug stands on it.
    FacedBeforePlug,
    /// What is turned on a plug is turned while it is in.
    PlugCarries,
    /// The plug is out before the end is bored, faced or sawn.
    PlugOutFirst,
    /// A plug is fitted, taken out, and only then is the next one fitted.
    PlugsInTurn,
    /// Nothing is turned or bored after the wood that holds it is gone.
    HoldingGoesLast,
    /// An open bowl is neither turned nor bored.
    SawnLast,
}

impl Rule {
    /// The reason, to follow "because".
    #[must_use]
    pub const fn because(self) -> &'static str {
        match self {
            Self::TenonFirst => "the tenon holds the rest of the work",
            Self::PassesInTurn => "each pass leaves what the next one of the design needs",
            Self::BoredWhileStout => "boring needs stout wood between the bit and what holds the work",
            Self::InsideBeforePlug => "the inside is scraped and sanded before the plug closes it",
            Self::FacedBeforePlug => "the plug stands on the finished face",
            Self::PlugCarries => "the plug carries the live centre meanwhile",
            Self::PlugOutFirst => "the plug is in the way",
            Self::PlugsInTurn => "only one plug fits at a time",
            Self::HoldingGoesLast => "nothing would hold the work any more",
            Self::SawnLast => "an opened bowl is neither turned nor bored",
        }
    }
}

/// A piece of work as the rules see it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Work {
    Tenon,
    Pass { axis: AxisName, along: bool, to_nothing: bool },
    Bore { axis: AxisName },
    Across,
    Fit,
    TakeOut,
    Saw,
    Face(Side),
    Part(Side),
}

/// Every cut as the rules see it, in the order of the design; and the taking out of a plug that the design leaves in,
/// which no finished piece has.
pub(super) fn works(design: &Design, piece: &Piece) -> Vec<Work> {
    let end = end_of_piece(design, piece);
    let mut works: Vec<Work> =
        design.cuts.iter().enumerate().map(|(cut, choice)| work(cut, choice, piece, end)).collect();
    if works.iter().rev().find(|w| matches!(w, Work::Fit | Work::TakeOut)) == Some(&Work::Fit) {
        works.push(Work::TakeOut);
    }
    works
}

fn work(cut: usize, choice: &Cut, piece: &Piece, end: Option<f64>) -> Work {
    match choice {
        Cut::Pass(pass) if is_tenon(pass, piece, end) => Work::Tenon,
        Cut::Pass(pass) => {
            let along = piece.axis(pass.axis).is_some_and(runs_along);
            Work::Pass { axis: pass.axis, along, to_nothing: along && comes_to_nothing(cut, piece) }
        }
        Cut::Hollow(hollow) if piece.axis(hollow.axis).is_some_and(runs_along) => Work::Bore { axis: hollow.axis },
        Cut::Hollow(_) => Work::Across,
        Cut::FitPlug(_) => Work::Fit,
        Cut::TakeOutPlug => Work::TakeOut,
        Cut::Saw(_) => Work::Saw,
        Cut::Face(plane) => Work::Face(plane.removes),
        Cut::Part(plane) => Work::Part(plane.removes),
    }
}

/// Whether an axis runs from face to face.
pub(super) fn runs_along(axis: &Axis) -> bool {
    axis.centre(0.0).is_some()
}

/// The station on its own axis of the first cut that parts the piece from its head end, in mm.
pub(super) fn end_of_piece(design: &Design, piece: &Piece) -> Option<f64> {
    let ends = design.cuts.iter().filter_map(|cut| match cut {
        Cut::Part(plane) if plane.removes == Side::Head => Some(piece.axis(plane.axis)?.point(plane.at_mm, 0.0, 0.0).s),
        _ => None,
    });
    ends.reduce(f64::min)
}

/// How far a tenon may stop short of the head face, in mm.
const TENON_SLACK: f64 = 1.0;

/// A tenon: a pass on axis A over the head end, beyond the end of the finished piece or called so.
fn is_tenon(pass: &Pass, piece: &Piece, end: Option<f64>) -> bool {
    let at_the_head = pass.axis == AxisName::A && pass.to_mm >= piece.head_face - TENON_SLACK;
    at_the_head && (end.is_some_and(|end| pass.from_mm >= end) || pass.name.trim().eq_ignore_ascii_case("tenon"))
}

/// A radius this small, in mm, holds nothing.
const NOTHING: f64 = 0.5;

/// Whether a pass comes down to nothing somewhere within the blank.
fn comes_to_nothing(cut: usize, piece: &Piece) -> bool {
    let Some(turned) = piece.revolved(cut) else { return false };
    let within = |t: f64| {
        let station = turned.axis.point(t, 0.0, 0.0).s;
        (0.0..=piece.head_face).contains(&station)
    };
    let points = turned.meridian.points();
    // A stretch that holds nothing may begin before the blank and reach into it.
    points.windows(2).any(|pair| {
        let thin = pair[0].1.min(pair[1].1) < NOTHING;
        let through = pair[0].1.max(pair[1].1) < NOTHING;
        (thin && ((pair[0].1 < NOTHING && within(pair[0].0)) || (pair[1].1 < NOTHING && within(pair[1].0))))
            || (through
                && turned.axis.point(pair[0].0, 0.0, 0.0).s < 0.0
                && turned.axis.point(pair[1].0, 0.0, 0.0).s > 0.0)
    })
}

/// The rule by which the work at place `a` of the design has to come before that at place `b`, if there is one.
pub(super) fn rule(works: &[Work], a: usize, b: usize) -> Option<Rule> {
    use Work::{Bore, Face, Fit, Part, Pass, Saw, TakeOut, Tenon};
    let (first, then) = (*works.get(a)?, *works.get(b)?);
    match (first, then) {
        _ if a == b => None,
        (Tenon, Tenon) => (a < b).then_some(Rule::PassesInTurn),
        (Tenon, Work::Across) => None,
        (Tenon, _) => Some(Rule::TenonFirst),
        (Pass { to_nothing: false, .. } | Bore { .. }, Pass { to_nothing: true, .. }) => Some(Rule::HoldingGoesLast),
        (Pass { .. }, Pass { .. }) => (a < b).then_some(Rule::PassesInTurn),
        (Bore { axis }, Pass { axis: other, along, .. }) => (along && axis != other).then_some(Rule::BoredWhileStout),
        (Bore { .. }, Fit) => taken_out(works, b).is_none_or(|out| a < out).then_some(Rule::InsideBeforePlug),
        (TakeOut, Bore { .. }) => (a < b).then_some(Rule::PlugOutFirst),
        (Fit, Pass { .. }) => (carrier(works, b) == Some(a)).then_some(Rule::PlugCarries),
        (Pass { .. }, TakeOut) => {
            carrier(works, a).is_some_and(|fit| taken_out(works, fit) == Some(b)).then_some(Rule::PlugCarries)
        }
        (Fit, TakeOut) | (TakeOut, Fit) => (a < b).then_some(Rule::PlugsInTurn),
        (TakeOut, Saw) => Some(Rule::PlugOutFirst),
        (TakeOut, Face(Side::Tail) | Part(Side::Tail)) => {
            fitted(works, a).is_some_and(|fit| fit < b).then_some(Rule::PlugOutFirst)
        }
        (Face(Side::Tail), Fit) => (a < b).then_some(Rule::FacedBeforePlug),
        (Pass { .. }, Part(_) | Face(Side::Head)) => Some(Rule::HoldingGoesLast),
        (Bore { .. } | Fit, Part(Side::Head) | Face(Side::Head)) => Some(Rule::HoldingGoesLast),
        (Pass { .. } | Bore { .. } | Face(_), Saw) => Some(Rule::SawnLast),
        _ => None,
    }
}

/// Where the plug fitted at a place is taken out.
fn taken_out(works: &[Work], fit: usize) -> Option<usize> {
    let after = works.iter().skip(fit).position(|work| *work == Work::TakeOut)?;
    Some(fit + after)
}

/// Where the plug taken out at a place was fitted.
fn fitted(works: &[Work], out: usize) -> Option<usize> {
    works[..out.min(works.len())].iter().rposition(|work| *work == Work::Fit)
}

/// The plug on which a pass is turned: the one that is in when the design comes to it; or, when a later bore of the
/// design has to be made before the pass, the one that is fitted after that bore.
pub(super) fn carrier(works: &[Work], pass: usize) -> Option<usize> {
    let Some(Work::Pass { axis, along: true, .. }) = works.get(pass) else { return None };
    let before = works[..pass].iter().rposition(|work| matches!(work, Work::Fit | Work::TakeOut));
    if let Some(fit) = before.filter(|at| works[*at] == Work::Fit) {
        return Some(fit);
    }
    let bored = |work: &Work| matches!(work, Work::Bore { axis: other } if other != axis);
    let bore = pass + works[pass..].iter().position(bored)?;
    works[bore..].iter().position(|work| *work == Work::Fit).map(|after| bore + after)
}
