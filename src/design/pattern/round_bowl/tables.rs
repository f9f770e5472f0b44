//! The choices of a round-bowl scoop as the screen shows them.

use super::super::handle_end::HandleEnd;
use super::super::kind::{BLANK, BOWL, HANDLE, HANDLE_LENGTH, Kind, Listed, Look, Number, ends, number, usual};
use super::super::made::Made;
use super::RoundBowlScoop;
use crate::design::validation::bounds::{self, Bound, MM};

/// The diameter of a ball.
const BALL: Bound = Bound { from: 20.0, to: 300.0, unit: MM };
/// A share of the ball's radius, from its centre up.
const OPENING: Bound = Bound { from: 0.0, to: 0.7, unit: "" };

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
        usual!(tilt),
        usual!(toward),
        usual!(neck),
        number!(handle_mm, HANDLE, "Length", HANDLE_LENGTH, 60.0 to 300.0)
            .note("From the back of the ball to its end.")
            .cures(3),
        usual!(thickest),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 150.0).cures(1),
        usual!(jaws_from),
        usual!(jaws_to),
        usual!(jaws_deep),
    ];

    const LISTS: &'static [Listed<Self>] = &[ends!(handle_end)];

    fn made(&self) -> Made {
        self.make()
    }
}
