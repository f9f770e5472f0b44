//! A scoop set right until every check is ok: where its axis crosses, and how thick its neck is.

use super::neck::thickened;
use super::wants::Wants;
use crate::design::starters::BoredEndScoop;
use crate::design::{Design, Shop};
use crate::figures::checks::{Check, CheckName, Verdict, Words};
use crate::figures::{Worked, work_out};
use crate::geometry::frame::tolerance::SAME_MM;

/// A scoop that was worked out in full.
#[derive(Clone, Debug)]
pub(super) struct Trial {
    pub scoop: BoredEndScoop,
    pub design: Design,
    pub worked: Worked,
}

/// What stands in the way of a scoop.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Obstacle {
    /// The check that is not ok; `None` where there is no such design.
    pub check: Option<CheckName>,
    /// What it says.
    pub sentence: String,
    /// The nearest measure that can be held, in mm3, where the one wanted cannot.
    pub holds_mm3: Option<f64>,
}

impl Obstacle {
    /// One that no check names.
    pub fn none(sentence: String) -> Self {
        Self { check: None, sentence, holds_mm3: None }
    }

    fn of(check: &Check) -> Self {
        Self { check: Some(check.name), sentence: check.sentence.clone(), holds_mm3: None }
    }
}

/// How often a scoop is set right before it is given up.
const ROUNDS: usize = 10;
/// How much farther than need be something is moved, so that rounding does not undo it, in mm.
const SPARE_MM: f64 = 0.1;
/// The thickest neck, as a share of the bowl's outside. A choice of ours, no source.
const THICKEST_NECK: f64 = 0.8;

/// The settings that are still open while a scoop is set right.
pub(super) struct Settling<'a> {
    wants: &'a Wants,
    shop: &'a Shop,
    scoop: BoredEndScoop,
    /// The least and the most station at which the axis may cross, as found so far, in mm.
    least_mm: f64,
    most_mm: f64,
    round: usize,
}

/// What came of a round.
pub(super) enum Round {
    /// Every check is ok.
    Works(Box<Trial>),
    /// Something was set right: another round tells whether it was enough.
    Again,
    /// Nothing that may be set cures it.
    Fails(Obstacle),
}

impl<'a> Settling<'a> {
    pub fn new(wants: &'a Wants, shop: &'a Shop, scoop: BoredEndScoop) -> Self {
        Self { wants, shop, scoop, least_mm: f64::NEG_INFINITY, most_mm: f64::INFINITY, round: 0 }
    }

    /// Works the scoop out in full, and sets right what is not ok.
    pub fn round(&mut self) -> Round {
        self.round += 1;
        let design = self.wants.design(&self.scoop);
        if let Some(obstacle) =
            self.too_long(&design).or_else(|| self.too_narrow()).or_else(|| self.without_plug(&design))
        {
            return Round::Fails(obstacle);
        }
        let worked = match work_out(&design, self.shop) {
            Ok(worked) => worked,
            Err(error) => return Round::Fails(Obstacle::none(error.to_string())),
        };
        let faults: Vec<&Check> = worked.checks.iter().filter(|check| check.verdict != Verdict::Ok).collect();
        let Some(worst) = faults.first() else {
            return Round::Works(Box::new(Trial { scoop: self.scoop.clone(), design, worked }));
        };
        let incurable = faults.iter().find(|check| !self.may_cure(check));
        if incurable.is_some() || self.round > ROUNDS {
            return Round::Fails(Obstacle::of(incurable.unwrap_or(worst)));
        }
        let before = self.scoop.clone();
        faults.iter().for_each(|check| self.cure(check));
        match self.cross() && self.scoop != before {
            true => Round::Again,
            false => Round::Fails(Obstacle::of(worst)),
        }
    }

    /// Whether the wood to cut is longer than the blank on hand.
    fn too_long(&self, design: &Design) -> Option<Obstacle> {
        let (needs, has) = (design.length_to_cut_mm(), self.wants.blank?.length_mm?);
        let words = Words::of(self.shop);
        let sentence = format!("It takes {} of blank, and yours is {} long.", words.length(needs), words.length(has));
        (needs > has + SAME_MM).then_some(Obstacle { check: Some(CheckName::Length), sentence, holds_mm3: None })
    }

    /// Whether the jaws close on nothing as narrow as the blank on hand.
    fn too_narrow(&self) -> Option<Obstacle> {
        let (least, has) = (self.shop.chuck.jaw_from_mm, self.wants.blank?.side_mm);
        let words = Words::of(self.shop);
        let sentence =
            format!("Your jaws take {} or more, and the blank is {}.", words.length(least), words.length(has));
        (has < least).then_some(Obstacle { check: Some(CheckName::Tenon), sentence, holds_mm3: None })
    }

    /// Whether a blank that is still to be found does not give the plug as well.
    fn without_plug(&self, design: &Design) -> Option<Obstacle> {
        let sentence = "The plug's disc does not come out of the blank.".to_owned();
        let lacks = self.wants.blank.is_none() && design.plug_of_blank().is_none();
        lacks.then_some(Obstacle { check: Some(CheckName::Plug), sentence, holds_mm3: None })
    }

    /// Whether anything that is set here cures this check.
    fn may_cure(&self, check: &Check) -> bool {
        use CheckName::{Blank, DriveCentre, Flats, LiveCentre, NeckStrength, Plug, WasteStrength};
        match check.name {
            // Blank and flats come right with the centres, or not at all.
            DriveCentre | LiveCentre | Plug | Blank | Flats => self.scoop.is_tilted(),
            NeckStrength | WasteStrength => true,
            _ => false,
        }
    }

    fn cure(&mut self, check: &Check) {
        let missing = check.limit.zip(check.value).map_or(1.0, |(limit, value)| limit - value).max(0.0);
        // The marks move by the tilt's tangent for each mm that the crossing moves.
        let along_mm = (missing + SPARE_MM) / self.scoop.tilt_deg.to_radians().tan().max(1e-6);
        match check.name {
            CheckName::DriveCentre => self.least_mm = self.least_mm.max(self.scoop.crossing_mm + along_mm),
            CheckName::LiveCentre | CheckName::Plug => {
                self.most_mm = self.most_mm.min(self.scoop.crossing_mm - along_mm)
            }
            CheckName::NeckStrength | CheckName::WasteStrength => self.thicken(check),
            _ => {}
        }
    }

    fn thicken(&mut self, check: &Check) {
        let scoop = &mut self.scoop;
        let most_mm = THICKEST_NECK * (scoop.bore_diameter_mm + 2.0 * scoop.wall_mm);
        let now = (scoop.neck_diameter_mm, scoop.handle_diameter_mm);
        (scoop.neck_diameter_mm, scoop.handle_diameter_mm) = thickened(check, now, most_mm);
    }

    /// Crosses within what was found; whether there is such a place.
    fn cross(&mut self) -> bool {
        let fits = self.least_mm <= self.most_mm;
        if fits {
            self.scoop.crossing_mm = self.scoop.crossing_mm.max(self.least_mm).min(self.most_mm);
        }
        fits
    }
}
