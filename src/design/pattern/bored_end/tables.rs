//! The choices of a bored-end scoop as the screen shows them.

use super::super::handle_end::HandleEnd;
use super::super::kind::{BLANK, BOWL, HANDLE, HANDLE_LENGTH, Kind, Listed, Look, Number, number, usual};
use super::super::made::Made;
use super::{BoredEndScoop, Opening, Outside};
use crate::design::validation::bounds::{self, Bound, MM};

const OPENING: &str = "Opening";

/// A share of the bore's radius, from its bottom to its top.
const LIP: Bound = Bound { from: -1.0, to: 1.0, unit: "" };
/// The play of a plug.
const PLAY: Bound = Bound { from: 0.0, to: 5.0, unit: MM };

impl Kind for BoredEndScoop {
    const TITLE: &'static str = "Bored-end scoop";

    const NUMBERS: &'static [Number<Self>] = &[
        number!(bore_diameter_mm, BOWL, "Bore", bounds::BORE_DIAMETER, 10.0 to 80.0)
            .note("The diameter of the widest bit, or more.")
            .bit()
            .cures(4),
        number!(bore_depth_mm, BOWL, "Depth", bounds::DEPTH, 10.0 to 100.0)
            .note("Neck, shoulder and saw line move with it.")
            .cures(3),
        number!(rounding_mm, BOWL, "Floor rounding", bounds::ROUNDING, 0.0 to 25.0)
            .note("Radius of the corner between side and floor.")
            .cures(5),
        number!(wall_mm, BOWL, "Wall", bounds::LIMIT, 1.0 to 10.0).fine().cures(3),
        number!(floor_mm, BOWL, "Floor", bounds::LIMIT, 1.0 to 15.0).fine().cures(3),
        usual!(tilt),
        usual!(toward),
        number!(crossing_mm, HANDLE, "Axes cross at", bounds::STATION, 40.0 to 200.0)
            .note("From the bowl end.")
            .only_if(Self::is_tilted)
            .cures(1),
        usual!(neck),
        number!(handle_mm, HANDLE, "Length", HANDLE_LENGTH, 60.0 to 300.0)
            .note("From behind the floor to its end.")
            .cures(4),
        usual!(thickest),
        number!(lip_share, OPENING, "Height of the lip", LIP, -1.0 to 1.0)
            .note("0 is the middle of the bore, -1 its bottom, 1 its top.")
            .fine()
            .cures(4),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 120.0).cures(1),
        number!(plug_play_mm, BLANK, "Play of the plug", PLAY, 0.0 to 1.0).note("0 is a snug fit.").fine(),
        usual!(jaws_from),
        usual!(jaws_to),
        usual!(jaws_deep),
    ];

    const LISTS: &'static [Listed<Self>] = &[
        Listed {
            section: BOWL,
            label: "Outside",
            names: &["Tapers that follow the join", "Rounded over to the neck"],
            read: |it| usize::from(it.outside == Outside::RoundOver),
            change: |it, which| it.outside = if which == 0 { Outside::Join } else { Outside::RoundOver },
        },
        Listed {
            section: HANDLE,
            label: "It ends in",
            names: &HandleEnd::NAMES,
            read: |it| it.handle_end as usize,
            change: |it, which| it.handle_end = HandleEnd::ALL.get(which).copied().unwrap_or(it.handle_end),
        },
        Listed {
            section: OPENING,
            label: "Saw line",
            names: &["Straight", "Arc"],
            read: |it| usize::from(it.opening == Opening::Arc),
            change: |it, which| it.opening = if which == 0 { Opening::Straight } else { Opening::Arc },
        },
    ];

    fn made(&self) -> Made {
        self.make()
    }
}
