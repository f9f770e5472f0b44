//! The usual cautions, each with the steps it is for. Common practice, no source, unless said.

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

/// For a pass on a moved axis.
pub const OFF_CENTRE: &str =
    "Part of each turn is air: keep the ghost of the outline in sight, and fingers behind the rest.";
/// For thin walls and open ends.
pub const OPEN_END: &str = "Nothing steadies the open end: light cuts, low speed.";
/// For boring.
pub const BORING: [&str; 3] = [
    "Lock the tailstock, feed slowly, and draw the bit out often to clear the chips.",
    "Never hold a bit or its chuck in the hand while anything can spin.",
    "Low speed: a wide bit in end grain runs hot.",
];
/// For work inside a hollow.
pub const INSIDE: &str =
    "Keep fingers and cloth out of a spinning hollow: sand with a stick or with the lathe stopped.";
/// For sanding.
pub const DUST: [&str; 2] = [
    "Take the dust at its source and wear a fitted dust mask: the finest dust harms most.",
    "Some woods irritate or sensitise: look yours up.",
];
/// For parting off.
pub const PARTING: &str = "Do not catch the piece as it comes free: leave a stub and saw it with the lathe stopped.";
/// For sawing.
pub const SAWING: [&str; 2] = [
    "Clamp it: round work rolls, and is never held in the hand against a moving blade.",
    "Keep both hands behind the line, and support the piece to the end of the cut.",
];
/// For a chisel or gouge pushed by hand into held work.
pub const HAND_TOOLS: &str = "Clamp the work, and keep both hands behind the edge.";
/// For finishing. Spreading rags or sinking them in water: fire-safety pages on linseed-oil rags, restated.
pub const FINISHING: [&str; 2] = [
    "Rags with a drying oil can set themselves alight: spread each out singly in the open air, or sink it in water in a \
     lidded metal can.",
    "Nut oils can harm people with an allergy: say which finish is on the piece.",
];
