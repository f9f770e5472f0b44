//! The usual cautions, and which steps each is for. Common practice, no source, unless said.

use super::bench::Bench;
use super::step::{Step, StepKind};

/// What stands above all of them.
pub const FIRST_OF_ALL: &str = "These are the usual cautions of the trade and no more. The makers' manuals of your lathe, \
    chuck, tools and finish, your local rules and qualified instruction come first.";

/// For everything that spins. After the safety recommendations of the American Association of Woodturners, restated.
pub const SPINNING: [&str; 6] = [
    "Full face shield over safety glasses.",
    "No gloves, loose sleeves, jewellery or loose hair near spinning work.",
    "Take out chuck keys, lock everything, and turn the work by hand before starting.",
    "Start at the lathe's lowest speed, and stand out of the line of the work.",
    "Stop the lathe to move the rest or to measure.",
    "If it shakes, slow down; if it still does, stop and find out why.",
];

/// For work on a moved axis, or that was turned on one.
pub const OFF_CENTRE: &str = "Off-centre work: part of each turn is air. Keep the ghost of the outline in sight, and \
    fingers behind the rest.";
/// For a side of a part that is turned on several moved axes.
pub const SIDES: &str = "The work thins beside the line of the centres, and bends: tail centre no tighter than it must be, sharp \
    tools, light cuts.";
/// For the first cuts after the work was gripped anew.
pub const GRIP: &str = "Stop after the first cuts and check the grip: tighten chuck and centres again, and look for wood \
    that has crept.";
/// For thin walls and open ends.
const OPEN_END: &str = "Nothing steadies the open end: light cuts, low speed.";
/// For a hand near an open rim.
pub const OPEN_RIM: &str = "A spinning rim is hard to see and cuts: keep hands and cloth away from it, and stop the lathe to \
    feel it.";
/// For boring.
pub const BORING: [&str; 4] = [
    "Lock the tailstock, feed slowly, and draw the bit out often to clear the chips.",
    "Winding back can draw the drill chuck out of its taper: hold it back with a wrench or a draw bar, or stop the lathe \
     first.",
    "Never hold a bit or its chuck in the hand while anything can spin.",
    "Low speed: a wide bit in end grain runs hot.",
];
/// For a bowl that spins across the grain with its handle on it.
pub const ACROSS: [&str; 3] = [
    "The handle sweeps a wide circle round the bowl, hard to see and hard to stop: guard up, keep everyone and everything \
     out of the circle, and stand aside of it.",
    "Before the lathe is switched on, turn the work by hand all the way round: the handle clears the bed, the rest and the \
     headstock, and no jaw shifts.",
    "The wooden jaws have to close over more than half of the bowl's girth and be screwed to the carrier jaws as the \
     chuck's maker says. Look at their grip again after every stop.",
];
/// For work inside a hollow.
const INSIDE: &str = "Keep fingers and cloth out of a spinning hollow: sand with a stick or with the lathe stopped.";
/// For sanding on the lathe.
pub const REST_AWAY: &str = "Take the tool rest away before you sand: fingers are drawn in between it and the work. Hold the abrasive so that it \
     can pull free, never wrapped around the work.";
/// For dust of any wood; what is known of the wood itself stands beside it.
pub const DUST: &str = "Take the dust at its source and wear a fitted dust mask: the finest dust harms most.";
/// For parting off.
const PARTING: &str = "Do not catch the piece as it comes free: leave a stub and saw it with the lathe stopped.";
/// For sawing.
const SAWING: [&str; 3] = [
    "Clamp it: round work rolls, and is never held in the hand against a moving blade.",
    "Keep both hands behind the line, and support the piece to the end of the cut.",
    "On a band saw, guard down to the work. Round or tapered work goes on a flat carrier, glued or screwed to it or \
     clamped in a cradle, so that it rests on the table all along the cut.",
];
/// For a chisel or gouge pushed by hand into held work.
const HAND_TOOLS: &str = "Clamp the work, and keep both hands behind the edge.";
/// For glue and wax.
const SEALING: &str = "Thin glue runs and bonds skin at once: eye protection, fresh air, no cloth to wipe it. Melt wax \
    in a water bath, never over a flame.";
/// For buffing.
const BUFFING: &str = "A wheel throws what it catches: hold the piece below the middle, edges trailing, with a face \
    shield on.";
/// For finishing. Spreading rags or sinking them in water: fire-safety pages on linseed-oil rags, restated.
pub const FINISHING: [&str; 2] = [
    "Rags with a drying oil can set themselves alight: spread each out singly in the open air, or sink it in water in a \
     lidded metal can.",
    "Nut oils can harm people with an allergy: say which finish is on the piece.",
];

/// Whether a kind of step makes dust.
#[must_use]
pub const fn is_dusty(kind: StepKind) -> bool {
    use StepKind::{Blank, Jaws, Part, RaiseGrain, Sand, SandTurned, Saw, Scrape};
    matches!(kind, Blank | Jaws | Part | RaiseGrain | Sand | SandTurned | Saw | Scrape)
}

impl Bench<'_> {
    /// Adds the cautions that a step is due, what is special to it first.
    pub(super) fn add_cautions(&mut self, step: &mut Step) {
        use StepKind::{
            Blank, Bore, Buff, DepthLine, Face, Finish, Jaws, Part, Remount, SandTurned, Saw, SawNub, Scrape, Seal,
            TakeOutPlug, Turn,
        };
        let kind = step.kind;
        let spins = !step.speeds.is_empty();
        if step.off_centre && (spins || kind == Remount) {
            step.caution(OFF_CENTRE);
        }
        if self.bored && !self.plugged && matches!(kind, Turn | Face | Part | DepthLine | SandTurned) {
            step.caution(OPEN_END);
        }
        if self.bored && !self.plugged && spins && kind != StepKind::MakePlug {
            step.caution(OPEN_RIM);
        }
        if spins && self.gripped != step.held {
            step.caution(GRIP);
            self.gripped.clone_from(&step.held);
        }
        match kind {
            Bore => BORING.iter().for_each(|it| step.caution(it)),
            Scrape => [INSIDE, REST_AWAY].iter().for_each(|it| step.caution(it)),
            SandTurned => step.caution(REST_AWAY),
            Part => [PARTING, REST_AWAY].iter().for_each(|it| step.caution(it)),
            Blank | Saw => SAWING.iter().for_each(|it| step.caution(it)),
            Jaws if !spins => {
                SAWING.iter().for_each(|it| step.caution(it));
                step.caution(HAND_TOOLS);
            }
            SawNub => step.caution(PARTING),
            TakeOutPlug => step.caution(HAND_TOOLS),
            Seal => step.caution(SEALING),
            Buff => step.caution(BUFFING),
            Finish => FINISHING.iter().for_each(|it| step.caution(it)),
            _ => {}
        }
        if is_dusty(kind) {
            step.caution(DUST);
            self.figures.wood.dust.iter().for_each(|it| step.caution(it));
        }
        if spins || kind == Remount {
            SPINNING.iter().for_each(|it| step.caution(it));
        }
    }
}
