//! A spindle or a handle with three, four or more sides from end to end, straight or tapered, its sides straight or winding.

use serde::{Deserialize, Serialize};

use super::bar::{Bar, pass, tapered};
use super::sides::{FIRST_DEG, Section, Sides, chord_mm, flat_mm};
use crate::design::axis_name::AxisName;
use crate::design::pattern::kind::{Kind, Listed, Look, Number, number};
use crate::design::pattern::made::Made;
use crate::design::profile::Node;
use crate::design::validation::bounds::{self, Bound, MM};

/// What the turner chooses; everything else follows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct SidedSpindle {
    /// How many sides it has.
    pub section: Section,
    /// Length, in mm.
    pub length_mm: f64,
    /// Diameter of the round that its corners stand on at the tail end, in mm.
    pub tail_diameter_mm: f64,
    /// The same at the head end, in mm.
    pub head_diameter_mm: f64,
    /// Distance of the marks of its sides from the middle, in mm: the farther, the flatter the sides.
    pub marks_mm: f64,
    /// How far the marks on the head end are turned on from those on the tail end, in degrees: the sides wind.
    pub winds_deg: f64,
    /// Side of the square blank, in mm.
    pub blank_side_mm: f64,
}

impl Default for SidedSpindle {
    /// An invented tool handle of three sides.
    fn default() -> Self {
        Self {
            section: Section::Three,
            length_mm: 140.0,
            tail_diameter_mm: 36.0,
            head_diameter_mm: 30.0,
            marks_mm: 18.0,
            winds_deg: 0.0,
            blank_side_mm: 62.0,
        }
    }
}

/// The part that outline and sides shape together.
const PART: &str = "spindle";
const SPINDLE: &str = "Spindle";
const BLANK: &str = "Blank";
const LENGTH: Bound = Bound { from: 40.0, to: 1000.0, unit: MM };
const THICK: Bound = Bound { from: 10.0, to: 200.0, unit: MM };
/// The thickness of a handle.
pub(super) const HANDLE_THICK: Bound = Bound { from: 4.0, to: 200.0, unit: MM };
/// Distance of marks from the middle.
pub(super) const MARKS: Bound = Bound { from: 4.0, to: 150.0, unit: MM };
/// How far marks are turned on.
pub(super) const WINDS: Bound = Bound { from: -120.0, to: 120.0, unit: " degrees" };

impl SidedSpindle {
    /// From its middle to the middle of a side, in mm, at the tail end and at the head end: half across flats where the number
    /// of sides is even. Of sides that do not wind.
    #[must_use]
    pub fn flats_mm(&self) -> (f64, f64) {
        let flat = |diameter_mm: f64| flat_mm(self.section.sides(), diameter_mm / 2.0, self.marks_mm);
        (flat(self.tail_diameter_mm), flat(self.head_diameter_mm))
    }

    /// Where it lies in its blank: the shoulders of winding sides lean.
    fn bar(&self) -> Bar {
        let chord = if self.has_sides() { chord_mm(self.marks_mm, self.winds_deg) } else { 0.0 };
        let widest = self.marks_mm + self.tail_diameter_mm.max(self.head_diameter_mm) / 2.0;
        Bar { piece_mm: self.length_mm, lean_mm: widest * chord / self.length_mm }
    }

    fn has_sides(&self) -> bool {
        self.section != Section::Round
    }
}

impl Kind for SidedSpindle {
    const TITLE: &'static str = "Spindle with sides";

    const NUMBERS: &'static [Number<Self>] = &[
        number!(length_mm, SPINDLE, "Length", LENGTH, 60.0 to 300.0).cures(4),
        number!(tail_diameter_mm, SPINDLE, "Across the corners at the tail end", THICK, 15.0 to 60.0)
            .note("The diameter of the round that the corners stand on.")
            .cures(3),
        number!(head_diameter_mm, SPINDLE, "Across the corners at the head end", THICK, 15.0 to 60.0).cures(3),
        number!(marks_mm, SPINDLE, "Marks from the middle", MARKS, 8.0 to 40.0)
            .note("The farther out, the flatter the sides.")
            .only_if(Self::has_sides)
            .cures(2),
        number!(winds_deg, SPINDLE, "Marks turned on", WINDS, 0.0 to 90.0)
            .note("From the tail end to the head end: the sides wind.")
            .only_if(Self::has_sides)
            .cures(2),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 150.0).cures(1),
    ];

    const LISTS: &'static [Listed<Self>] = &[Listed {
        section: SPINDLE,
        label: "Section",
        names: &Section::NAMES,
        read: |it| it.section as usize,
        change: |it, which| it.section = Section::ALL.get(which).copied().unwrap_or(it.section),
    }];

    fn made(&self) -> Made {
        let bar = self.bar();
        let corners = [(bar.from(), self.tail_diameter_mm / 2.0), (bar.to(), self.head_diameter_mm / 2.0)];
        let stations = [bar.turned_from(), bar.from(), bar.to(), bar.turned_to()];
        let nodes = stations.map(|s| Node::line(s, 2.0 * tapered(&corners, s))).to_vec();
        let sides = Sides {
            section: self.section,
            first_deg: FIRST_DEG,
            marks_mm: self.marks_mm,
            winds_deg: self.winds_deg,
            from_mm: bar.turned_from() + bar.lean_mm,
            to_mm: bar.turned_to() - bar.lean_mm,
            runs_out: (false, false),
            axes_before: 1,
            blank_mm: bar.blank_mm(),
        };
        let mut passes = vec![pass("outline", AxisName::A, nodes, PART)];
        passes.extend(sides.passes(&corners, PART));
        bar.made(self.blank_side_mm, sides.axes(), passes)
    }
}
