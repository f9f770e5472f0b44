//! The sentences of an answer, in the shop's units.

use super::answer::Offer;
use super::settle::{Obstacle, Trial};
use super::wants::{TiltWanted, Wants};
use crate::design::{Cut, Design, Shop};
use crate::figures::checks::{CheckName, Words};
use crate::figures::summary::how_filled;

/// Puts answers into words.
#[derive(Clone, Copy, Debug)]
pub(super) struct Telling {
    words: Words,
}

impl Telling {
    pub fn of(shop: &Shop) -> Self {
        Self { words: Words::of(shop) }
    }

    /// An offer of a piece that was worked out.
    pub fn offer(self, words: String, trial: Trial, wants: &Wants) -> Offer {
        let Trial { scoop, mut design, worked } = trial;
        design.name = format!("{}, {}", kind(&wants.contents), self.words.volume(wants.holds_mm3));
        Offer { words, scoop, design, worked }
    }

    /// A piece as wanted: its bore, its tilt and the wood to cut.
    pub fn found(self, trial: &Trial) -> String {
        let Trial { scoop, design, .. } = trial;
        format!(
            "Bored {} to {} deep, {}, from {}.",
            self.words.length(scoop.bore_diameter_mm),
            self.words.length(scoop.bore_depth_mm),
            self.handle(trial),
            self.wood(scoop.blank_side_mm, design)
        )
    }

    fn handle(self, trial: &Trial) -> String {
        format!("handle {}", self.tilt(trial))
    }

    /// The blank to cut, and the waste for a plug that does not come out of it.
    fn wood(self, side_mm: f64, design: &Design) -> String {
        let (side, length) = (self.words.length(side_mm), self.words.length(design.length_to_cut_mm()));
        let disc_mm = design.cuts.iter().find_map(|cut| match cut {
            Cut::FitPlug(plug) => Some(plug.disc_diameter_mm),
            _ => None,
        });
        match disc_mm.filter(|_| design.plug_of_blank().is_none()) {
            Some(disc_mm) => {
                let disc = self.words.length(disc_mm);
                format!("a blank {side} square, {length} long, and waste {disc} across for the plug")
            }
            None => format!("a blank {side} square, {length} long"),
        }
    }

    pub fn with_blank(self, trial: &Trial) -> String {
        format!("From {}: {}.", self.wood(trial.scoop.blank_side_mm, &trial.design), self.handle(trial))
    }

    pub fn with_tilt(self, wants: &Wants, trial: &Trial) -> String {
        let is_more = matches!(wants.tilt, TiltWanted::Degrees(tilt_deg) if tilt_deg < trial.scoop.tilt_deg);
        match wants.blank {
            _ if is_more => format!("With the least tilt that goes: {}.", self.handle(trial)),
            Some(blank) => format!("In your {} blank: {}.", self.words.length(blank.side_mm), self.handle(trial)),
            None => format!("As much tilt as goes: {}.", self.handle(trial)),
        }
    }

    pub fn with_handle(self, wants: &Wants, trial: &Trial) -> String {
        let handle_mm = trial.scoop.handle_mm;
        let which = if handle_mm < wants.handle_mm { "shorter" } else { "longer" };
        format!("With a {which} handle, {}: {}.", self.words.length(handle_mm), self.tilt(trial))
    }

    fn tilt(self, trial: &Trial) -> String {
        match trial.scoop.tilt_deg {
            0.0 => "straight".to_owned(),
            tilt => format!("at {}", self.words.angle(tilt)),
        }
    }

    pub fn with_measure(self, trial: &Trial) -> String {
        let mm3 = trial.worked.figures.summary.holds_ml.unwrap_or_default() * 1000.0;
        format!("With the bits you own: holds {}, {}.", self.words.volume(mm3), how_filled(&trial.design))
    }

    pub fn with_bit(self, trial: &Trial) -> String {
        let Trial { scoop, .. } = trial;
        format!("With a {} bit: {}.", self.words.length(scoop.bore_diameter_mm), self.handle(trial))
    }

    /// Why it cannot be had, with what it would take.
    pub fn why_not(self, wants: &Wants, obstacle: &Obstacle, wider: Option<&Trial>) -> String {
        let tilt = match wants.tilt {
            TiltWanted::Degrees(tilt_deg) if tilt_deg > 0.0 => format!("{} of tilt", self.words.angle(tilt_deg)),
            TiltWanted::Degrees(_) => "a straight handle".to_owned(),
            TiltWanted::AsMuchAsGoes => "any tilt".to_owned(),
        };
        let needs = match (wants.blank, wider) {
            (Some(blank), Some(trial)) if trial.scoop.blank_side_mm > blank.side_mm => {
                let side = self.words.length(trial.scoop.blank_side_mm);
                format!(" It takes a blank {side} square.")
            }
            _ => String::new(),
        };
        let (measure, handle) = (self.words.volume(wants.holds_mm3), self.words.length(wants.handle_mm));
        let wanted = format!("{measure} with {tilt} and a handle {handle} long cannot be had together here.");
        let because =
            obstacle.check.map_or(String::new(), |check| format!(" {}: {}", check.title(), obstacle.sentence));
        format!("{wanted}{needs}{because}")
    }

    /// That no bit holds the measure, and what comes nearest.
    pub fn no_measure(self, wants: &Wants, tilt_deg: f64, nearest_mm3: Option<f64>) -> Obstacle {
        let whose = if wants.own_bits_only { "the bits you own" } else { "the bits that your lathe drives" };
        let wanted = self.words.volume(wants.holds_mm3);
        let nearest = match nearest_mm3 {
            Some(mm3) => format!("; the nearest is {}", self.words.volume(mm3)),
            None if tilt_deg > 0.0 => String::new(),
            // A bore from the end is open in front.
            None => "; with a straight handle a liquid runs out in front".to_owned(),
        };
        let sentence = format!("No bore with {whose} holds {wanted} level with its handle{nearest}.");
        Obstacle { check: Some(CheckName::Boring), sentence, holds_mm3: Some(nearest_mm3.unwrap_or_default()) }
    }

    pub fn no_bit(self) -> Obstacle {
        Obstacle::none("There is no bit in the shop that the lathe can drive: add one under Shop.".to_owned())
    }

    pub fn given_up(self) -> Obstacle {
        Obstacle::none(
            "The search took too long and stopped. Ask for a smaller measure, less tilt or a larger blank.".to_owned(),
        )
    }
}

/// What a scoop for these contents is called: "Coffee scoop" for "coffee, ground".
fn kind(contents: &str) -> String {
    let of = contents.split(',').next().unwrap_or_default().trim();
    let mut letters = of.chars();
    match letters.next() {
        Some(first) => format!("{}{} scoop", first.to_uppercase(), letters.as_str()),
        None => "Scoop".to_owned(),
    }
}
