//! The choices of an oval-bowl scoop as the screen shows them.

use super::super::handle_end::HandleEnd;
use super::super::kind::{BLANK, BOWL, HANDLE, Kind, Listed, Look, Number, ends, number, usual};
use super::super::made::Made;
use super::{Hollows, OvalBowlScoop};
use crate::design::validation::bounds::{self, Bound, MM};

/// The length and the width of a spheroid.
const LONG: Bound = Bound { from: 30.0, to: 200.0, unit: MM };
const WIDE: Bound = Bound { from: 25.0, to: 150.0, unit: MM };
/// A wall and a floor.
pub(in crate::design::pattern) const THICK: Bound = Bound { from: 1.0, to: 30.0, unit: MM };
/// A share of half the width, from the middle up.
pub(in crate::design::pattern) const OPENING: Bound = Bound { from: 0.0, to: 0.7, unit: "" };
/// A share of the way to where the ends are round.
const SPREAD: Bound = Bound { from: 0.1, to: 1.0, unit: "" };
/// The tilt of the handle: steeper, the marks of its axis would be beyond the blank.
const TILT: Bound = Bound { from: 0.0, to: 20.0, unit: " degrees" };
/// The diameters and the length of a handle.
pub(in crate::design::pattern) const ROUND: Bound = Bound { from: 6.0, to: 80.0, unit: MM };
pub(in crate::design::pattern) const LENGTH: Bound = Bound { from: 30.0, to: 300.0, unit: MM };

impl Kind for OvalBowlScoop {
    const TITLE: &'static str = "Oval-bowl scoop";

    const NUMBERS: &'static [Number<Self>] = &[
        number!(bowl_length_mm, BOWL, "Length", LONG, 50.0 to 150.0)
            .note("Turned as an oval, then sawn open and hollowed across the grain.")
            .cures(4),
        number!(bowl_width_mm, BOWL, "Width", WIDE, 30.0 to 100.0).cures(4),
        number!(wall_mm, BOWL, "Wall", THICK, 2.0 to 12.0).note("At the height of the oval's axis.").fine().cures(2),
        number!(floor_mm, BOWL, "Floor", THICK, 2.0 to 20.0).note("Under the middle of each hollow.").fine().cures(2),
        number!(opening_share, BOWL, "Height of the opening", OPENING, 0.0 to 0.5)
            .note("Over the oval's axis, as a share of half its width. 0 opens half the bowl.")
            .fine()
            .cures(4),
        number!(spread_share, BOWL, "Spread of the hollows", SPREAD, 0.1 to 1.0)
            .note("At 1 the outermost hollows follow the ends of the oval.")
            .fine()
            .only_if(|it| it.hollows != Hollows::One),
        number!(tilt_deg, HANDLE, "Tilt", TILT, 0.0 to 15.0)
            .note("At 0 the handle is turned on the blank's own axis.")
            .cures(1),
        usual!(toward),
        number!(neck_diameter_mm, HANDLE, "Neck", ROUND, 8.0 to 40.0).cures(2),
        number!(handle_mm, HANDLE, "Length", LENGTH, 60.0 to 300.0)
            .note("From the back of the bowl to its end.")
            .cures(3),
        number!(handle_diameter_mm, HANDLE, "Thickest", ROUND, 10.0 to 50.0).cures(2),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 150.0).cures(1),
        usual!(jaws_from).only_if(|it| !it.is_tilted()),
        usual!(jaws_to).only_if(|it| !it.is_tilted()),
        usual!(jaws_deep).only_if(|it| !it.is_tilted()),
    ];

    const LISTS: &'static [Listed<Self>] = &[
        Listed {
            section: BOWL,
            label: "Hollows",
            names: &Hollows::NAMES,
            read: |it| it.hollows as usize,
            change: |it, which| it.hollows = Hollows::ALL.get(which).copied().unwrap_or(it.hollows),
        },
        ends!(handle_end),
    ];

    fn made(&self) -> Made {
        self.make()
    }
}
