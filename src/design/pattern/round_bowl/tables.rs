//! The choices of a round-bowl scoop as the screen shows them.

use super::super::handle_end::HandleEnd;
use super::super::kind::{Kind, Listed, Look, Number, number};
use super::super::made::Made;
use super::RoundBowlScoop;
use crate::design::validation::bounds::{self, Bound, MM};

const BOWL: &str = "Bowl";
const HANDLE: &str = "Handle";
const BLANK: &str = "Blank and chuck";

/// The diameter of a ball.
const BALL: Bound = Bound { from: 20.0, to: 300.0, unit: MM };
/// The length of a handle.
const HANDLE_LENGTH: Bound = Bound { from: 20.0, to: 1500.0, unit: MM };
/// A share of the ball's radius, from its centre up.
const OPENING: Bound = Bound { from: 0.0, to: 0.7, unit: "" };

/// The ends that a handle may have: a hook is turned on axis A, where this handle may not be.
const ENDS: [HandleEnd; 3] = [HandleEnd::Round, HandleEnd::Knob, HandleEnd::Plain];

impl Kind for RoundBowlScoop {
    const TITLE: &'static str = "Round-bowl scoop";

    const NUMBERS: &'static [Number<Self>] = &[
        number!(ball_diameter_mm, BOWL, "Ball", BALL, 30.0 to 120.0)
            .note("Turned as a ball, then sawn open and hollowed across the grain.")
            .cures(4),
        number!(wall_mm, BOWL, "Wall", bounds::LIMIT, 2.0 to 12.0)
            .note("At the height of the ball's centre.")
            .fine()
            .cures(2),
        number!(floor_mm, BOWL, "Floor", bounds::LIMIT, 2.0 to 20.0)
            .note("As thick as the wall for a round hollow; thicker makes it flatter.")
            .fine()
            .cures(2),
        number!(opening_share, BOWL, "Height of the opening", OPENING, 0.0 to 0.5)
            .note("Over the ball's centre, as a share of its radius. 0 opens half the ball.")
            .fine()
            .cures(4),
        number!(tilt_deg, HANDLE, "Tilt", bounds::TILT_DEG, 0.0 to 15.0)
            .note("At 0 the handle is turned on the blank's own axis.")
            .cures(1),
        number!(toward_deg, HANDLE, "Points toward", bounds::CLOCK_DEG, 0.0 to 360.0)
            .note("As held: 0\u{b0} is up, 90\u{b0} right, 180\u{b0} down.")
            .only_if(Self::is_tilted),
        number!(neck_diameter_mm, HANDLE, "Neck", bounds::DIAMETER, 8.0 to 40.0).cures(2),
        number!(handle_mm, HANDLE, "Length", HANDLE_LENGTH, 60.0 to 300.0)
            .note("From the back of the ball to its end.")
            .cures(3),
        number!(handle_diameter_mm, HANDLE, "Thickest", bounds::DIAMETER, 10.0 to 50.0).cures(2),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 150.0).cures(1),
        number!(chuck.jaw_from_mm, BLANK, "Jaws grip from", bounds::MACHINE, 20.0 to 100.0),
        number!(chuck.jaw_to_mm, BLANK, "Jaws grip to", bounds::MACHINE, 20.0 to 150.0),
        number!(chuck.jaw_depth_mm, BLANK, "Jaws are deep", bounds::MACHINE, 3.0 to 30.0)
            .note("The tenon follows from the jaws."),
    ];

    const LISTS: &'static [Listed<Self>] = &[Listed {
        section: HANDLE,
        label: "It ends in",
        names: &[ENDS[0].name(), ENDS[1].name(), ENDS[2].name()],
        read: |it| ENDS.iter().position(|end| *end == it.handle_end).unwrap_or(0),
        change: |it, which| it.handle_end = ENDS.get(which).copied().unwrap_or(it.handle_end),
    }];

    fn made(&self) -> Made {
        self.make()
    }
}
