//! What a check is.

use serde::{Deserialize, Serialize};

use crate::design::units::{Quantity, format_angle, rounding_step_mm};
use crate::design::{Design, Shop, Units};
use crate::figures::Place;
use crate::figures::tables::Kitchen;
use crate::figures::tables::measures::say_in_shop;
use crate::form::Field;

/// How a check came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// As it should be.
    Ok,
    /// It can be done, with care or with a loss.
    Tight,
    /// It goes wrong.
    Stop,
}

/// A thickness within this of its limit is as wanted, as a share of the limit.
const NEARLY: f64 = 0.02;

impl Verdict {
    /// A wall or a floor, in mm, against the least that is wanted: tight under it, a stop under half of it, which can no
    /// longer be turned with care, and where there is no number.
    #[must_use]
    pub fn of_thickness(mm: f64, limit_mm: f64) -> Self {
        if mm >= limit_mm * (1.0 - NEARLY) {
            Self::Ok
        } else if mm >= limit_mm / 2.0 {
            Self::Tight
        } else {
            Self::Stop
        }
    }
}

/// What a check looks at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CheckName {
    /// The outside does not meet the hollow anywhere but at the opening.
    Breakthrough,
    /// The thinnest wall.
    Wall,
    /// The thinnest floor.
    Floor,
    /// The boring bit's point stays in the wood.
    BitPoint,
    /// The first pass leaves what later passes need.
    Join,
    /// A later pass stays clear of the bowl.
    ShoulderClearance,
    /// No rough wood is left between passes.
    Fin,
    /// Every pass finds wood all round.
    Flats,
    /// The drive centre's footprint stays in the wood.
    DriveCentre,
    /// The live centre's footprint stays in the wood or the plug.
    LiveCentre,
    /// The bore can be bored.
    Boring,
    /// The opening reaches the hollow.
    Opening,
    /// It holds something as it lies.
    HoldsAsItLies,
    /// It lies still when full.
    Tips,
    /// The blank is large enough.
    Blank,
    /// The blank is long enough for piece, waste and tenon.
    Length,
    /// The jaws of the chuck take the tenon, and its shoulder seats on them.
    Tenon,
    /// How far the work stands out of the jaws while it is bored.
    Overhang,
    /// Something carries the work in every step, in an order that can be worked.
    Carried,
    /// The thrust of the tail centre goes through wood, and the plug sits snug.
    Plug,
    /// No centre walks back into an older mark.
    Marks,
    /// No rough wood is left before the parting.
    RoughEnd,
    /// The bore stays round as the wood dries.
    Moisture,
    /// The piece ends at a parting cut or a pass that goes to nothing.
    Ends,
    /// It fits between the lathe's centres.
    Lathe,
    /// The grain runs along the handle.
    GrainSlope,
    /// The neck bears its use.
    NeckStrength,
    /// The thinnest wood bears its turning.
    WasteStrength,
    /// It clears the bed and the base of the tool rest as it spins.
    Swing,
    /// The out-of-balance force on a centre.
    OutOfBalance,
    /// There is a safe speed.
    Speed,
    /// The bowl stays in the wooden jaws while it is hollowed.
    Jaws,
    /// What spins in the jaws clears the headstock.
    Headstock,
}

impl CheckName {
    /// Its name on screen.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Breakthrough => "Breakthrough",
            Self::Wall => "Wall",
            Self::Floor => "Floor",
            Self::BitPoint => "Point of the bit",
            Self::Join => "Wood left for the next axis",
            Self::ShoulderClearance => "Shoulder near the bowl",
            Self::Fin => "Fin between passes",
            Self::Flats => "Flats",
            Self::DriveCentre => "Drive centre",
            Self::LiveCentre => "Live centre",
            Self::Boring => "Boring",
            Self::Opening => "Opening",
            Self::HoldsAsItLies => "Holds as it lies",
            Self::Tips => "Lies still when full",
            Self::Blank => "Blank",
            Self::Length => "Length of the blank",
            Self::Tenon => "Tenon and chuck",
            Self::Overhang => "Overhang while boring",
            Self::Carried => "What carries the work",
            Self::Plug => "Plug",
            Self::Marks => "Marks too close",
            Self::RoughEnd => "Rough wood before the parting",
            Self::Moisture => "Moisture",
            Self::Ends => "End of the piece",
            Self::Lathe => "Lathe",
            Self::GrainSlope => "Grain along the handle",
            Self::NeckStrength => "Strength in use",
            Self::WasteStrength => "Strength while turning",
            Self::Swing => "Swing",
            Self::OutOfBalance => "Out-of-balance force",
            Self::Speed => "Speed",
            Self::Jaws => "Jaws",
            Self::Headstock => "Headstock",
        }
    }
}

/// The unit of a check's number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CheckUnit {
    /// Millimetres.
    Mm,
    /// Millilitres.
    Ml,
    /// Degrees.
    Deg,
    /// How many times.
    Times,
    /// Newtons.
    N,
    /// Revolutions per minute.
    Rpm,
}

/// Ends a cure that is sure for its own check alone: more or less wood is there afterwards for others to judge.
pub(super) const LOOK_AGAIN: &str = "Then look at the other checks again.";

/// One check of a design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Check {
    /// What it looks at.
    pub name: CheckName,
    /// How it came out.
    pub verdict: Verdict,
    /// The number, in `unit`.
    pub value: Option<f64>,
    /// The limit it is held against, in `unit`.
    pub limit: Option<f64>,
    /// The unit of both.
    pub unit: CheckUnit,
    /// Where.
    pub place: Option<Place>,
    /// What is found, in a sentence.
    pub sentence: String,
    /// What to change; empty when it is ok.
    pub cure: String,
    /// The field of the document that cures it, as a path; absent when it is ok.
    pub field: Option<String>,
    /// The value of that field, in its own unit, with which the check is ok, and no other is worse unless the cure says to
    /// look at them again; absent where no one value is known to be.
    pub cured_by: Option<f64>,
}

impl Check {
    /// A check that has nothing to say but that it is ok.
    #[must_use]
    pub fn ok(name: CheckName, sentence: impl Into<String>) -> Self {
        Self {
            name,
            verdict: Verdict::Ok,
            value: None,
            limit: None,
            unit: CheckUnit::Mm,
            place: None,
            sentence: sentence.into(),
            cure: String::new(),
            field: None,
            cured_by: None,
        }
    }

    /// A check that is tight or stops.
    #[must_use]
    pub fn fault(name: CheckName, verdict: Verdict, sentence: impl Into<String>, cure: impl Into<String>) -> Self {
        Self { verdict, cure: cure.into(), ..Self::ok(name, sentence) }
    }

    /// With its number and limit, in mm.
    #[must_use]
    pub fn measured(self, value: f64, limit: f64) -> Self {
        Self { value: Some(value), limit: Some(limit), ..self }
    }

    /// With its place.
    #[must_use]
    pub fn at(self, place: Place) -> Self {
        Self { place: Some(place), ..self }
    }

    /// With the field that cures it.
    #[must_use]
    pub fn cured_at(self, field: impl Into<String>) -> Self {
        Self { field: Some(field.into()), ..self }
    }

    /// With the field that cures it, where the design has that number.
    #[must_use]
    pub fn cured_in(self, design: &Design, field: Field) -> Self {
        self.cured_at(field.path(design))
    }

    /// With the field that cures it, and the value that does.
    #[must_use]
    pub fn cured_by(self, design: &Design, field: Field, value: f64) -> Self {
        Self { cured_by: Some(value), ..self.cured_in(design, field) }
    }
}

/// What stands for a thickness where nothing is left.
pub const BROKEN_THROUGH: &str = "broken through";

/// How numbers are put into sentences: in the shop's units.
#[derive(Clone, Copy, Debug)]
pub struct Words(Units);

impl Words {
    /// The words of a shop.
    #[must_use]
    pub fn of(shop: &Shop) -> Self {
        Self(Units::from(shop))
    }

    /// The least length that is not less than this and is shown as it is, in mm: for what must be so much or more.
    #[must_use]
    pub fn up(self, mm: f64) -> f64 {
        let step = rounding_step_mm(self.0.length, self.0.rounding);
        (mm / step - 1e-6).ceil() * step
    }

    /// A length with its unit.
    #[must_use]
    pub fn length(self, mm: f64) -> String {
        self.0.show_with_unit(mm, Quantity::Length)
    }

    /// A volume given in mm3: "61 mL, 1/4 cup".
    #[must_use]
    pub fn volume(self, mm3: f64) -> String {
        say_in_shop(mm3, Kitchen::of(self.0.length))
    }

    /// A station: "58.4 mm from the bowl end".
    #[must_use]
    pub fn station(self, place: &Place) -> String {
        format!("{} from the bowl end", self.length(place.station_mm))
    }

    /// A place: "58.4 mm from the bowl end, at 6 o'clock".
    #[must_use]
    pub fn place(self, place: &Place) -> String {
        match place.clock_deg {
            Some(clock) => format!("{}, at {}", self.station(place), super::super::place::clock_words(clock)),
            None => self.station(place),
        }
    }

    /// An angle in degrees.
    #[must_use]
    pub fn angle(self, deg: f64) -> String {
        format!("{} degrees", format_angle(deg))
    }
}
