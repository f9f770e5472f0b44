//! The wants as they are typed, and read from that.

use serde::{Deserialize, Serialize};

use super::kind::{KindAsked, SpreaderAsked};
use super::spreader::SpreaderWants;
use super::wants::{TiltWanted, Wants};
use crate::design::entry::Units;
use crate::design::pattern::{BlankOnHand, HandleEnd, Wanted};
use crate::design::units::{Quantity, format_number};
use crate::design::validation::bounds::{BLANK_LENGTH, BLANK_WIDTH, Bound, MM, TILT_DEG};
use crate::design::{Choices, Design, Shop};
use crate::figures::tables::Content;
use crate::figures::tables::measures::{Kitchen, MM3_PER_ML};

/// What a measure is counted in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum CountedIn {
    /// Cups of the shop's kitchen.
    #[default]
    Cups,
    /// Tablespoons of it.
    Tablespoons,
    /// Teaspoons of it.
    Teaspoons,
    /// Millilitres.
    Millilitres,
    /// Grams of the contents.
    Grams,
}

impl CountedIn {
    /// All of them, the usual first.
    pub const ALL: [Self; 5] = [Self::Cups, Self::Tablespoons, Self::Teaspoons, Self::Millilitres, Self::Grams];

    /// Its name on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cups => "cups",
            Self::Tablespoons => "tablespoons",
            Self::Teaspoons => "teaspoons",
            Self::Millilitres => "mL",
            Self::Grams => "grams",
        }
    }

    /// The one of this name; cups where there is none.
    #[must_use]
    pub fn named(name: &str) -> Self {
        Self::ALL.into_iter().find(|it| it.name() == name).unwrap_or_default()
    }

    /// One of it in mm3; `None` for grams of contents whose density is not known.
    fn mm3(self, kitchen: Kitchen, contents: &str) -> Option<f64> {
        Some(match self {
            Self::Cups => kitchen.cup().volume_ml * MM3_PER_ML,
            Self::Tablespoons => kitchen.tablespoon().volume_ml * MM3_PER_ML,
            Self::Teaspoons => kitchen.teaspoon().volume_ml * MM3_PER_ML,
            Self::Millilitres => MM3_PER_ML,
            Self::Grams => Content::named(contents).map(|content| 1.0 / content.grams(1.0))?,
        })
    }
}

/// The wants as they are typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Asked {
    /// What kind of piece.
    pub kind: KindAsked,
    /// How much it holds.
    pub holds: String,
    /// What that is counted in.
    pub counted_in: CountedIn,
    /// What it is for: a name from the table of contents.
    pub contents: String,
    /// What it is made of.
    pub species: String,
    /// The side of the blank on hand, empty where there is none.
    pub side: String,
    /// Its length, empty where it is long enough.
    pub length: String,
    /// The tilt of the handle, empty for as much as goes.
    pub tilt: String,
    /// The length of the handle.
    pub handle: String,
    /// How the handle ends.
    pub handle_end: HandleEnd,
    /// Whether only bits that the shop has are bored with.
    pub own_bits_only: bool,
    /// What a spreader is asked for by.
    pub spreader: SpreaderAsked,
}

/// A handle's length; a share of the longest blank.
const HANDLE: Bound = Bound { from: 40.0, to: 600.0, unit: MM };
/// The length of a spreader and of its blade, and the blade's width and thickness.
const SPREADER: Bound = Bound { from: 80.0, to: 700.0, unit: MM };
const BLADE: Bound = Bound { from: 20.0, to: 400.0, unit: MM };
const BLADE_WIDTH: Bound = Bound { from: 4.0, to: 150.0, unit: MM };
const BLADE_THICKNESS: Bound = Bound { from: 1.0, to: 60.0, unit: MM };
/// The greatest measure, in mm3: ten litres.
const MOST_MM3: f64 = 1e7;

impl Asked {
    /// A sensible beginning: see [`Wants::usual`].
    #[must_use]
    pub fn usual(shop: &Shop) -> Self {
        let (units, wants) = (Units::from(shop), Wants::usual(shop));
        Self {
            kind: KindAsked::default(),
            holds: "1/8".to_owned(),
            counted_in: CountedIn::Cups,
            contents: wants.contents,
            species: wants.species,
            side: String::new(),
            length: String::new(),
            tilt: "7.5".to_owned(),
            handle: units.show(wants.handle_mm, Quantity::Length),
            handle_end: wants.handle_end,
            own_bits_only: wants.own_bits_only,
            spreader: SpreaderAsked::of(&SpreaderWants::usual(), units),
        }
    }

    /// How long a handle may be asked for, as it stands after the name of the line: "40 to 600 mm".
    #[must_use]
    pub fn handle_range(shop: &Shop) -> String {
        let units = Units::from(shop);
        let (from, to) =
            (units.show_short(HANDLE.from, Quantity::Length), units.show_short(HANDLE.to, Quantity::Length));
        format!("{from} to {to} {}", units.name(Quantity::Length))
    }

    /// What a design was wanted for, or where that is not known, what it is: `holds_mm3` is what it holds. `None` for a
    /// free piece, and for a kind that is not looked for.
    #[must_use]
    pub fn of_design(design: &Design, shop: &Shop, holds_mm3: Option<f64>) -> Option<Self> {
        let (choices, units) = (&design.pattern.as_ref()?.choices, Units::from(shop));
        if let Choices::Spreader(it) = choices {
            return Some(Self {
                kind: KindAsked::Spreader,
                species: design.wood.species.clone(),
                side: units.show(it.blank_side_mm, Quantity::Length),
                spreader: SpreaderAsked::of(&SpreaderWants::of(it), units),
                ..Self::usual(shop)
            });
        }
        let chosen = Chosen::of(choices)?;
        let wanted = chosen.wanted;
        let length = |mm: f64| units.show(mm, Quantity::Length);
        let holds_mm3 = wanted.map(|wanted| wanted.holds_mm3).or(holds_mm3).unwrap_or(Wants::usual(shop).holds_mm3);
        let (holds, counted_in) = counted(holds_mm3, Kitchen::of(shop.length_unit));
        let blank = match wanted {
            Some(wanted) => wanted.blank,
            // A piece that was not looked for has its own blank.
            None => Some(BlankOnHand { side_mm: chosen.blank_side_mm, length_mm: None }),
        };
        let most_tilt = wanted.is_some_and(|wanted| wanted.most_tilt);
        Some(Self {
            kind: chosen.kind,
            holds,
            counted_in,
            contents: design.contents.clone(),
            species: design.wood.species.clone(),
            side: blank.map(|blank| length(blank.side_mm)).unwrap_or_default(),
            length: blank.and_then(|blank| blank.length_mm).map(length).unwrap_or_default(),
            tilt: if most_tilt { String::new() } else { units.show_short(chosen.tilt_deg, Quantity::Angle) },
            handle: length(chosen.handle_mm),
            handle_end: chosen.handle_end,
            own_bits_only: wanted.is_none_or(|wanted| wanted.own_bits_only),
            ..Self::usual(shop)
        })
    }

    /// Whether all of it can be read, for its kind.
    ///
    /// # Errors
    ///
    /// As [`read`](Self::read).
    pub fn check(&self, shop: &Shop) -> Result<(), String> {
        match self.kind {
            KindAsked::BoredEnd | KindAsked::RoundBowl => self.read(shop).map(drop),
            KindAsked::Spreader => self.read_spreader(shop).map(drop),
        }
    }

    /// Reads what was typed for a spreader.
    ///
    /// # Errors
    ///
    /// As [`read`](Self::read).
    pub fn read_spreader(&self, shop: &Shop) -> Result<SpreaderWants, String> {
        let lines = &self.spreader;
        Ok(SpreaderWants {
            length_mm: length(shop, "Length of the whole piece", &lines.length, &SPREADER)?,
            blade_mm: length(shop, "Length of the blade", &lines.blade, &BLADE)?,
            width_mm: length(shop, "Width of the blade", &lines.width, &BLADE_WIDTH)?,
            thickness_mm: length(shop, "Thickness of the blade", &lines.thickness, &BLADE_THICKNESS)?,
            species: self.species.clone(),
            blank: self.blank(shop)?,
        })
    }

    fn blank(&self, shop: &Shop) -> Result<Option<BlankOnHand>, String> {
        let given = |text: &str| !text.trim().is_empty();
        let length_mm = given(&self.length).then(|| length(shop, "Length of the blank", &self.length, &BLANK_LENGTH));
        let length_mm = length_mm.transpose()?;
        let side_mm =
            given(&self.side).then(|| length(shop, "Side of the blank", &self.side, &BLANK_WIDTH)).transpose()?;
        if length_mm.is_some() && side_mm.is_none() {
            return Err("Side of the blank: give it as well as its length, or leave both empty.".to_owned());
        }
        Ok(side_mm.map(|side_mm| BlankOnHand { side_mm, length_mm }))
    }

    /// Reads what was typed.
    ///
    /// # Errors
    ///
    /// A sentence that names the line and says what to type instead.
    pub fn read(&self, shop: &Shop) -> Result<Wants, String> {
        let units = Units::from(shop);
        let blank = self.blank(shop)?;
        let tilt = match !self.tilt.trim().is_empty() {
            true => units.read(&self.tilt, Quantity::Angle, &TILT_DEG).map(TiltWanted::Degrees),
            false => Ok(TiltWanted::AsMuchAsGoes),
        };
        Ok(Wants {
            holds_mm3: self.holds_mm3(shop)?,
            contents: self.contents.clone(),
            species: self.species.clone(),
            blank,
            tilt: tilt.map_err(|why| format!("Tilt of the handle: {why}"))?,
            handle_mm: length(shop, "Length of the handle", &self.handle, &HANDLE)?,
            handle_end: self.handle_end,
            own_bits_only: self.own_bits_only,
        })
    }

    fn holds_mm3(&self, shop: &Shop) -> Result<f64, String> {
        let one = self.counted_in.mm3(Kitchen::of(shop.length_unit), &self.contents);
        let one = one.ok_or_else(|| {
            format!(
                "It should hold: what {:?} weighs is not known. Count it in mL, or choose what it holds.",
                self.contents
            )
        })?;
        let bound = Bound { from: 1.0 / one, to: MOST_MM3 / one, unit: "" };
        let count = Units::from(shop).read(&self.holds, Quantity::Number, &bound);
        count.map(|count| count * one).map_err(|why| format!("It should hold: {why}"))
    }
}

/// Reads a length of a line, in mm, or says what is wrong with it.
fn length(shop: &Shop, what: &str, text: &str, bound: &Bound) -> Result<f64, String> {
    Units::from(shop).read(text, Quantity::Length, bound).map_err(|why| format!("{what}: {why}"))
}

/// What of the choices of a kind can be asked for.
struct Chosen<'a> {
    kind: KindAsked,
    wanted: Option<&'a Wanted>,
    blank_side_mm: f64,
    tilt_deg: f64,
    handle_mm: f64,
    handle_end: HandleEnd,
}

impl<'a> Chosen<'a> {
    fn of(choices: &'a Choices) -> Option<Self> {
        let wanted = choices.wanted();
        Some(match choices {
            Choices::BoredEndScoop(it) => Self {
                kind: KindAsked::BoredEnd,
                wanted,
                blank_side_mm: it.blank_side_mm,
                tilt_deg: it.tilt_deg,
                handle_mm: it.handle_mm,
                handle_end: it.handle_end,
            },
            Choices::RoundBowlScoop(it) => Self {
                kind: KindAsked::RoundBowl,
                wanted,
                blank_side_mm: it.blank_side_mm,
                tilt_deg: it.tilt_deg,
                handle_mm: it.handle_mm,
                handle_end: it.handle_end,
            },
            Choices::Spreader(_) | Choices::SidedSpindle(_) | Choices::GroovedHead(_) => return None,
            Choices::OvalBowlScoop(_) | Choices::Ladle(_) => return None,
        })
    }
}

/// Shares of a cup or a spoon that are typed as fractions.
const EIGHTHS: [&str; 8] = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
/// How near a volume is to a whole number of eighths to be one, as a share of it.
const WHOLE: f64 = 1e-6;

/// A volume as a turner would ask for it: in eighths of a cup, in a few half spoons, or in mL.
fn counted(mm3: f64, kitchen: Kitchen) -> (String, CountedIn) {
    let measures =
        [(CountedIn::Cups, 1.0, f64::INFINITY), (CountedIn::Tablespoons, 4.0, 64.0), (CountedIn::Teaspoons, 4.0, 24.0)];
    for (counted_in, least_eighths, most_eighths) in measures {
        let Some(one) = counted_in.mm3(kitchen, "") else { continue };
        let eighths = 8.0 * mm3 / one;
        let whole = eighths.round();
        if (least_eighths..=most_eighths).contains(&whole)
            && (eighths - whole).abs() <= WHOLE * eighths
            && whole % least_eighths == 0.0
        {
            let share = EIGHTHS[(whole % 8.0) as usize];
            let count = (whole / 8.0).floor();
            let words = if count > 0.0 { format!("{count} {share}") } else { share.to_owned() };
            return (words.trim().to_owned(), counted_in);
        }
    }
    let ml = format_number(mm3 / MM3_PER_ML, 2);
    (ml.trim_end_matches('0').trim_end_matches('.').to_owned(), CountedIn::Millilitres)
}
