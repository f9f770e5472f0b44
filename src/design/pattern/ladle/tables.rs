//! The choices of a ladle as the screen shows them.

use super::super::handle_end::HandleEnd;
use super::super::kind::{BLANK, BOWL, HANDLE, Kind, Listed, Look, Number, ends, number};
use super::super::made::Made;
use super::super::oval_bowl::tables::{LENGTH, OPENING, ROUND, THICK};
use super::Ladle;
use crate::design::validation::bounds::{self, Bound, MM};

/// The diameter of a ball.
const BALL: Bound = Bound { from: 25.0, to: 120.0, unit: MM };
/// The tilt of a ladle's handle: less is a scoop's, and steeper, the marks of its axis would be beyond any blank.
const STEEP: Bound = Bound { from: 10.0, to: 35.0, unit: " degrees" };

impl Kind for Ladle {
    const TITLE: &'static str = "Ladle";

    const NUMBERS: &'static [Number<Self>] = &[
        number!(ball_diameter_mm, BOWL, "Ball", BALL, 30.0 to 120.0)
            .note("Turned as a ball, then sawn open and hollowed across the grain.")
            .cures(4),
        number!(wall_mm, BOWL, "Wall", THICK, 2.0 to 12.0).note("At the height of the ball's centre.").fine().cures(2),
        number!(floor_mm, BOWL, "Floor", THICK, 2.0 to 20.0)
            .note("As thick as the wall for a round hollow; thicker makes it flatter.")
            .fine()
            .cures(2),
        number!(opening_share, BOWL, "Height of the opening", OPENING, 0.0 to 0.5)
            .note("Over the ball's centre, as a share of its radius. 0 opens half the ball.")
            .fine()
            .cures(4),
        number!(tilt_deg, HANDLE, "Tilt", STEEP, 10.0 to 35.0)
            .note("The steeper and longer the handle, the wider the blank.")
            .cures(1),
        number!(neck_diameter_mm, HANDLE, "Neck", ROUND, 8.0 to 40.0).cures(2),
        number!(handle_mm, HANDLE, "Length", LENGTH, 60.0 to 300.0)
            .note("From the back of the ball to its end.")
            .cures(3),
        number!(handle_diameter_mm, HANDLE, "Thickest", ROUND, 10.0 to 50.0).cures(2),
        number!(blank_side_mm, BLANK, "Side of the blank", bounds::BLANK_WIDTH, 20.0 to 150.0).cures(1),
    ];

    const LISTS: &'static [Listed<Self>] = &[ends!(handle_end)];

    fn made(&self) -> Made {
        self.make()
    }
}
