//! What has to come before what, and why: one rule a line of [`rule`].
//!
//! All of it is common practice, no source, but for the order of passes, which is the turner's own choice.

use crate::design::Side;
use crate::figures::support::Work;

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
    /// The plug and the live centre stay until the piece is turned down to its nub.
    SupportStays,
    /// An open bowl is neither turned, bored nor parted.
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
            Self::SupportStays => "the plug and the live centre carry the piece until it is turned down to its nub",
            Self::SawnLast => "an opened bowl is neither turned, bored nor parted",
        }
    }
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
        (Pass { .. }, TakeOut) if carrier(works, a).is_some_and(|fit| taken_out(works, fit) == Some(b)) => {
            Some(Rule::PlugCarries)
        }
        (Fit, TakeOut) | (TakeOut, Fit) => (a < b).then_some(Rule::PlugsInTurn),
        (TakeOut, Saw) => Some(Rule::PlugOutFirst),
        (TakeOut, Face { removes: Side::Tail, .. } | Part { removes: Side::Tail, .. }) => {
            fitted(works, a).is_some_and(|fit| fit < b).then_some(Rule::PlugOutFirst)
        }
        (Face { removes: Side::Tail, .. }, Fit) => (a < b).then_some(Rule::FacedBeforePlug),
        (
            Pass { .. } | Bore { .. } | Fit | Face { removes: Side::Tail, .. } | Part { removes: Side::Tail, .. },
            Part { removes: Side::Head, .. } | Face { removes: Side::Head, .. },
        )
        | (Pass { .. }, Part { .. }) => Some(Rule::HoldingGoesLast),
        (Part { .. } | Face { .. } | Pass { to_nothing: true, .. }, TakeOut) => {
            (ends_on_a_nub(first) && stays(works, b)).then_some(Rule::SupportStays)
        }
        (Pass { .. } | Bore { .. } | Face { .. } | Part { .. }, Saw) => Some(Rule::SawnLast),
        _ => None,
    }
}

/// Whether only a nub holds the piece afterwards.
fn ends_on_a_nub(work: Work) -> bool {
    work.parts_the_head() || matches!(work, Work::Pass { to_nothing: true, .. })
}

/// Whether the plug taken out at a place may stay in to the end of the turning: nothing has to be done to the bowl end
/// after it.
fn stays(works: &[Work], out: usize) -> bool {
    let Some(fit) = fitted(works, out) else { return false };
    let needs_it_out = |(at, work): (usize, &Work)| match work {
        Work::Fit | Work::Bore { .. } => at > out,
        Work::Face { removes: Side::Tail, .. } | Work::Part { removes: Side::Tail, .. } => at > fit,
        _ => false,
    };
    !works.iter().enumerate().any(needs_it_out)
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
