//! Starters: a whole design from a few choices. It follows them, and any part of it can be made one's own.

mod demo;

pub use super::pattern::{
    BoredEndScoop, GroovedHead, HandleEnd, Ladle, Opening, Outside, OvalBowlScoop, RoundBowlScoop, SidedSpindle,
    Spreader, USUAL_LIP_SHARE,
};
pub use demo::demo;

use super::cut::{Blank, BlankSection};
use super::document::{Design, Duty, Wood};
use super::pattern::Choices;
use super::shop::{Chuck, LimitChoices};

/// What a starter is made of, and what for.
const SPECIES: &str = "Black cherry";
/// What pieces are made of that grow thin between centres: it bears more.
const HARD: &str = "Sugar (hard) maple";
const CONTENTS: &str = "coffee, ground";
const CONTENTS_OF_ROUND: &str = "sugar, granulated";
const LIQUID: &str = "water";

impl BoredEndScoop {
    /// The design of this name, of usual wood and for usual contents.
    ///
    /// Choices inside their bounds give a design without problems as long as the scoop is long enough for its parts;
    /// whether it is strong enough and fits its blank is for the checks to say.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        of_pattern(name, CONTENTS, Choices::BoredEndScoop(self.clone()))
    }
}

impl RoundBowlScoop {
    /// The design of this name, of usual wood and for usual contents; as for a bored-end scoop.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        of_pattern(name, CONTENTS_OF_ROUND, Choices::RoundBowlScoop(self.clone()))
    }
}

impl OvalBowlScoop {
    /// The design of this name, of usual wood and for usual contents; as for a bored-end scoop.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        of_pattern(name, CONTENTS_OF_ROUND, Choices::OvalBowlScoop(self.clone()))
    }
}

impl Ladle {
    /// The design of this name, of a hard wood and for liquids; as for a bored-end scoop.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        let design = of_hard_wood(name, Choices::Ladle(self.clone()));
        Design { contents: LIQUID.to_owned(), ..design }
    }
}

impl Spreader {
    /// The design of this name, of a hard wood; as for a bored-end scoop.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        of_hard_wood(name, Choices::Spreader(self.clone()))
    }
}

impl SidedSpindle {
    /// The design of this name, of a hard wood; as for a bored-end scoop.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        of_hard_wood(name, Choices::SidedSpindle(self.clone()))
    }
}

impl GroovedHead {
    /// The design of this name, of a hard wood; as for a bored-end scoop.
    #[must_use]
    pub fn design(&self, name: &str) -> Design {
        of_hard_wood(name, Choices::GroovedHead(self.clone()))
    }
}

fn of_hard_wood(name: &str, choices: Choices) -> Design {
    let design = of_pattern(name, CONTENTS, choices);
    Design { wood: Wood { species: HARD.to_owned(), ..design.wood }, ..design }
}

fn of_pattern(name: &str, contents: &str, choices: Choices) -> Design {
    let blank = Blank { section: BlankSection::Square { side_mm: 0.0 }, length_mm: 0.0 };
    bare(name, contents, blank).of_pattern(choices)
}

/// A bare blank, to build a spindle from.
#[must_use]
pub fn free_spindle() -> Design {
    let blank = Blank { section: BlankSection::Square { side_mm: SPINDLE_SIDE_MM }, length_mm: SPINDLE_MM };
    bare("Free spindle", CONTENTS, blank)
}

/// A common turning blank, in mm: a choice of ours, no source.
const SPINDLE_SIDE_MM: f64 = 45.0;
const SPINDLE_MM: f64 = 280.0;

/// A blank of usual wood with axis A and nothing cut.
fn bare(name: &str, contents: &str, blank: Blank) -> Design {
    Design {
        name: name.to_owned(),
        notes: String::new(),
        wood: Wood { species: SPECIES.to_owned(), moisture_percent: 8.0, ..Wood::default() },
        blank,
        axes: Vec::new(),
        cuts: Vec::new(),
        off: Vec::new(),
        contents: contents.to_owned(),
        duty: Duty::default(),
        limits: LimitChoices::default(),
        done: Vec::new(),
        log: Vec::new(),
        pattern: None,
    }
}

/// A bored-end scoop with its handle on an axis of its own; its first pass follows the proposed join, so that it stays
/// right while other things are changed.
#[must_use]
pub fn bored_end_scoop() -> Design {
    BoredEndScoop::default().design("Bored-end scoop")
}

/// A bored-end scoop with its handle on axis A.
#[must_use]
pub fn bored_end_scoop_straight() -> Design {
    BoredEndScoop::straight().design("Straight bored-end scoop")
}

/// A starter: its name on screen, and the design for the chuck that will hold it.
pub type Starter = (&'static str, fn(Chuck) -> Design);

/// Every starter.
pub const STARTERS: [Starter; 10] = [
    ("Bored-end scoop", |chuck| BoredEndScoop { chuck, ..BoredEndScoop::default() }.design("Bored-end scoop")),
    ("Straight-handled scoop", |chuck| {
        BoredEndScoop { chuck, ..BoredEndScoop::straight() }.design("Straight bored-end scoop")
    }),
    ("Round-bowl scoop", |chuck| RoundBowlScoop { chuck, ..RoundBowlScoop::default() }.design("Round-bowl scoop")),
    ("Oval-bowl scoop", |chuck| OvalBowlScoop { chuck, ..OvalBowlScoop::default() }.design("Oval-bowl scoop")),
    ("Ladle", |_| Ladle::default().design("Ladle")),
    ("Spreader", |_| Spreader::default().design("Spreader")),
    ("Three-sided spindle", |_| SidedSpindle::default().design("Three-sided spindle")),
    ("Grooved head", |_| GroovedHead::default().design("Grooved head")),
    ("Free spindle, from the bare blank", |_| free_spindle()),
    ("The example", demo::demo_for),
];
