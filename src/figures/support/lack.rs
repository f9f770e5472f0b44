//! Work that nothing carries: which, why, and what to do.

use crate::design::{AxisName, Design};

/// What is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LackKind {
    /// The work is held in the chuck, and no tenon is turned for its jaws.
    NoTenon,
    /// The mark of an axis lies off the wood of the head end.
    HeadMark(AxisName),
    /// The mark of an axis lies off the wood of the bowl end.
    TailMark(AxisName),
    /// The mark of an axis lies off the plug.
    PlugMark(AxisName),
    /// The bore is open, and no plug closes it for the live centre.
    OpenBore(AxisName),
}

/// A piece of work that nothing carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lack {
    /// The piece of work, by its place in the design from 0.
    pub cut: usize,
    /// What is missing.
    pub kind: LackKind,
}

impl Lack {
    /// What is wrong, where, and what to do.
    #[must_use]
    pub fn sentence(&self, design: &Design) -> String {
        let work = design.cut_name(self.cut);
        match self.kind {
            LackKind::NoTenon => format!(
                "Nothing holds {work}: it is made in the chuck, and there is no tenon for the jaws. Add a tenon at the \
                 head end."
            ),
            LackKind::HeadMark(axis) => format!(
                "Nothing drives {work}: the mark of axis {axis} lies off the wood of the head end. Move the mark in, \
                 tilt less, or take a larger blank or tenon."
            ),
            LackKind::TailMark(axis) => format!(
                "Nothing carries the tail end in {work}: the mark of axis {axis} lies off the wood of the bowl end. Move \
                 the mark in, tilt less, or take a larger blank."
            ),
            LackKind::PlugMark(axis) => format!(
                "Nothing carries the tail end in {work}: the mark of axis {axis} lies off the plug. Make the plug wider, \
                 or tilt less."
            ),
            LackKind::OpenBore(axis) => format!(
                "Nothing carries the tail end in {work}: the bore is open where the live centre bears on axis {axis}. \
                 Fit a plug after the bore, and take it out after this cut."
            ),
        }
    }
}
