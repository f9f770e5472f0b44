//! What a pattern makes, and the names of its parts.

use serde::{Deserialize, Serialize};

use crate::design::axis_name::AxisName;
use crate::design::cut::{AxisChoice, Blank, Cut};

/// What a pattern makes of its choices.
#[derive(Clone, Debug, PartialEq)]
pub struct Made {
    /// The blank.
    pub blank: Blank,
    /// The wall and the floor wanted, in mm, where the outside follows them.
    pub thickness: Option<(f64, f64)>,
    /// Axes B, C, D...
    pub axes: Vec<AxisChoice>,
    /// The cuts, in working order.
    pub cuts: Vec<Cut>,
}

/// A part of a design that its pattern makes. Cuts are counted among those of their kind, from 0; a pass goes by its name.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PatternPart {
    /// The blank.
    Blank,
    /// The wall and the floor wanted.
    Thickness,
    /// An axis.
    Axis(AxisName),
    /// A pass.
    Pass(String),
    /// A hollow.
    Hollow(usize),
    /// Fitting the plug.
    FitPlug(usize),
    /// Taking out the plug.
    TakeOutPlug(usize),
    /// A saw cut.
    Saw(usize),
    /// A facing.
    Face(usize),
    /// A parting.
    Part(usize),
}

impl PatternPart {
    /// The axis at this place of the list of axes after A.
    #[must_use]
    pub fn axis(place: usize) -> Option<Self> {
        AxisName::from_index(place + 1).map(Self::Axis)
    }
}

impl Made {
    /// Every part, in the order of the document.
    #[must_use]
    pub fn parts(&self) -> Vec<PatternPart> {
        let thickness = self.thickness.map(|_| PatternPart::Thickness);
        let axes = (0..self.axes.len()).filter_map(PatternPart::axis);
        let cuts = parts_of(&self.cuts).into_iter().flatten();
        std::iter::once(PatternPart::Blank).chain(thickness).chain(axes).chain(cuts).collect()
    }

    /// Whether this is one of its parts.
    #[must_use]
    pub fn has(&self, part: &PatternPart) -> bool {
        self.parts().contains(part)
    }
}

/// The part that each cut of a list is, in the order of the list; `None` for a pass of a name that an earlier one has.
#[must_use]
pub fn parts_of(cuts: &[Cut]) -> Vec<Option<PatternPart>> {
    let mut parts: Vec<Option<PatternPart>> = Vec::with_capacity(cuts.len());
    for (place, cut) in cuts.iter().enumerate() {
        let alike = |other: &&Cut| std::mem::discriminant(*other) == std::mem::discriminant(cut);
        let number = cuts.iter().take(place).filter(alike).count();
        let part = match cut {
            Cut::Pass(pass) => PatternPart::Pass(pass.name.clone()),
            Cut::Hollow(_) => PatternPart::Hollow(number),
            Cut::FitPlug(_) => PatternPart::FitPlug(number),
            Cut::TakeOutPlug => PatternPart::TakeOutPlug(number),
            Cut::Saw(_) => PatternPart::Saw(number),
            Cut::Face(_) => PatternPart::Face(number),
            Cut::Part(_) => PatternPart::Part(number),
        };
        let is_taken = parts.iter().flatten().any(|it| *it == part);
        parts.push((!is_taken).then_some(part));
    }
    parts
}
