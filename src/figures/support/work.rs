//! The cuts as the work at the lathe sees them: what kind of work each is, and about which axis.
//!
//! All of it is common practice, no source.

use crate::design::tenon::is_tenon;
use crate::design::{AxisName, Cut, Design, Side};
use crate::geometry::Axis;
use crate::piece::Piece;

/// A piece of work at the lathe or the bench.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Work {
    /// A tenon at the head end.
    Tenon,
    /// Outside turning.
    Pass {
        /// The axis it turns on.
        axis: AxisName,
        /// Whether that axis runs from face to face.
        along: bool,
        /// Whether the pass comes down to nothing within the blank, and so parts the piece itself.
        to_nothing: bool,
    },
    /// Boring along the blank.
    Bore {
        /// The axis of the bore.
        axis: AxisName,
    },
    /// Hollowing across the grain.
    Across,
    /// The plug goes in.
    Fit,
    /// The plug comes out.
    TakeOut,
    /// Sawing the opening.
    Saw,
    /// Facing an end.
    Face {
        /// The axis the face is square to.
        axis: AxisName,
        /// The side that is taken away.
        removes: Side,
    },
    /// Parting off at an end.
    Part {
        /// The axis the plane is square to.
        axis: AxisName,
        /// The side that is taken away.
        removes: Side,
    },
}

impl Work {
    /// The axis about which the work spins; `None` for work at the bench, and for work in a carrier of its own.
    #[must_use]
    pub const fn spins_on(self) -> Option<AxisName> {
        match self {
            Self::Tenon => Some(AxisName::A),
            Self::Pass { axis, along: true, .. }
            | Self::Bore { axis }
            | Self::Face { axis, .. }
            | Self::Part { axis, .. } => Some(axis),
            Self::Pass { .. } | Self::Across | Self::Fit | Self::TakeOut | Self::Saw => None,
        }
    }

    /// Whether the work takes waste off the head end, so that only a nub holds the piece afterwards.
    #[must_use]
    pub const fn parts_the_head(self) -> bool {
        matches!(self, Self::Part { removes: Side::Head, .. } | Self::Face { removes: Side::Head, .. })
    }
}

/// Every cut of a design as work, in the order of the design; and the taking out of a plug that the design leaves in,
/// which no finished piece has.
#[must_use]
pub fn works(design: &Design, piece: &Piece) -> Vec<Work> {
    let mut works: Vec<Work> = (0..design.cuts.len()).map(|cut| work(cut, design, piece)).collect();
    if works.iter().rev().find(|w| matches!(w, Work::Fit | Work::TakeOut)) == Some(&Work::Fit) {
        works.push(Work::TakeOut);
    }
    works
}

fn work(cut: usize, design: &Design, piece: &Piece) -> Work {
    match &design.cuts[cut] {
        Cut::Pass(_) if is_tenon(design, cut) => Work::Tenon,
        Cut::Pass(pass) => {
            let along = piece.axis(pass.axis).is_some_and(|axis| !axis.is_square());
            Work::Pass { axis: pass.axis, along, to_nothing: along && comes_to_nothing(cut, piece) }
        }
        Cut::Hollow(hollow) if piece.axis(hollow.axis).is_some_and(Axis::is_lengthwise) => {
            Work::Bore { axis: hollow.axis }
        }
        Cut::Hollow(_) => Work::Across,
        Cut::FitPlug(_) => Work::Fit,
        Cut::TakeOutPlug => Work::TakeOut,
        Cut::Saw(_) => Work::Saw,
        Cut::Face(plane) => Work::Face { axis: plane.axis, removes: plane.removes },
        Cut::Part(plane) => Work::Part { axis: plane.axis, removes: plane.removes },
    }
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
        let thin = pair[0].r.min(pair[1].r) < NOTHING;
        let through = pair[0].r.max(pair[1].r) < NOTHING;
        (thin && ((pair[0].r < NOTHING && within(pair[0].t)) || (pair[1].r < NOTHING && within(pair[1].t))))
            || (through
                && turned.axis.point(pair[0].t, 0.0, 0.0).s < 0.0
                && turned.axis.point(pair[1].t, 0.0, 0.0).s > 0.0)
    })
}
