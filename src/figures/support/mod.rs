//! What carries the work at each piece of work of a plan: at the head end a drive centre, jaws or a carrier; at the tail
//! end a live centre on wood or on a plug, a cone, a steady, or nothing; and the thinnest wood between the two.
//!
//! A pure function of a piece and the order of its work. The holding words of every step derive from it, and so do the
//! checks that ask what holds the work.

mod datum;
mod ends;
mod lack;
mod order;
mod reach;
mod thinnest;
mod work;

use serde::Serialize;

pub use datum::datum_mm;
pub use ends::{HeadEnd, TailEnd};
pub use lack::{Lack, LackKind};
pub use order::in_order;
pub use thinnest::Thinnest;
pub use work::{Work, works};

use crate::design::AxisName;
use crate::piece::Piece;
use reach::Reach;

/// What carries the work while one piece of work is done.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Support {
    /// The axis on which the work spins; absent for work at the bench and in a carrier.
    pub axis: Option<AxisName>,
    /// At the head end.
    pub head: HeadEnd,
    /// At the tail end.
    pub tail: TailEnd,
    /// The thinnest wood between the two ends when this piece of work is done; absent off the lathe.
    pub thinnest: Option<Thinnest>,
    /// What is missing that this piece of work needs; absent when the work is carried.
    #[serde(skip)]
    pub lack: Option<LackKind>,
}

impl Support {
    /// Work at the bench.
    pub const BENCH: Self =
        Self { axis: None, head: HeadEnd::Bench, tail: TailEnd::Nothing, thinnest: None, lack: None };
    /// Work in a carrier made for it, such as wooden jaws.
    pub const CARRIER: Self = Self { head: HeadEnd::Carrier, ..Self::BENCH };

    /// The rough blank between centres in its own middle, before anything is turned.
    pub const BLANK: Self =
        Self { axis: Some(AxisName::A), head: HeadEnd::DriveCentre, tail: TailEnd::LiveCentreOnWood, ..Self::BENCH };

    /// Whether the work is carried at both ends.
    #[must_use]
    pub const fn at_both_ends(&self) -> bool {
        !matches!(self.head, HeadEnd::Nothing | HeadEnd::Bench) && !matches!(self.tail, TailEnd::Nothing)
    }
}

/// What carries the work at each place of an order, one for each. `order` holds places of [`works`].
///
/// Work that stands out of the jaws by more than `overhang_times` the gripped diameter is bored and faced in a steady.
#[must_use]
pub fn supports(piece: &Piece, works: &[Work], order: &[usize], overhang_times: f64) -> Vec<Support> {
    let reach = Reach::new(piece, works, order, overhang_times);
    (0..order.len()).map(|done| support(&reach, done)).collect()
}

/// The first piece of work that nothing carries, if there is one.
#[must_use]
pub fn first_lack(supports: &[Support], order: &[usize]) -> Option<Lack> {
    supports.iter().zip(order).find_map(|(support, cut)| Some(Lack { cut: *cut, kind: support.lack? }))
}

/// What carries the work after `done` pieces of work, for the next one.
fn support(reach: &Reach<'_>, done: usize) -> Support {
    let Some(work) = reach.work(done) else { return Support::BENCH };
    let spinning = |axis: AxisName, head: (HeadEnd, Option<LackKind>), tail: (TailEnd, Option<LackKind>)| Support {
        axis: Some(axis),
        head: head.0,
        tail: tail.0,
        thinnest: reach.thinnest(done, axis),
        lack: head.1.or(tail.1),
    };
    match work {
        Work::Tenon => spinning(AxisName::A, reach.drive(done, AxisName::A), reach.tail(done, AxisName::A)),
        Work::Pass { axis, along: true, .. } | Work::Part { axis, .. } => {
            spinning(axis, reach.head(done, axis), reach.tail(done, axis))
        }
        Work::Face { axis, .. } if work.parts_the_head() => {
            spinning(axis, reach.head(done, axis), reach.tail(done, axis))
        }
        Work::Bore { axis: AxisName::A } | Work::Face { axis: AxisName::A, .. } => {
            spinning(AxisName::A, reach.jaws(done), (reach.steady(done), None))
        }
        Work::Bore { .. } | Work::Face { .. } | Work::Across | Work::Pass { .. } => Support::CARRIER,
        Work::Fit | Work::TakeOut if reach.in_jaws(done) => {
            spinning(AxisName::A, (HeadEnd::Jaws, None), (TailEnd::Nothing, None))
        }
        Work::Fit | Work::TakeOut | Work::Saw => Support::BENCH,
    }
}
