//! A spreader or stirrer from what is wanted: its blade and its length, then the blank and the handle that bear it.

use std::cell::Cell;

use super::nearest::nearest;
use super::neck::thickened;
use super::round_bowl::{STOPPED, up_to_step};
use crate::design::pattern::{BlankOnHand, Handle, Spreader};
use crate::design::{Design, Shop, Wood};
use crate::figures::checks::{Check, CheckName, Verdict, Words};
use crate::figures::{Worked, work_out};
use crate::geometry::at_once;

/// What is wanted of a spreader.
#[derive(Clone, Debug, PartialEq)]
pub struct SpreaderWants {
    /// Length of the blade, in mm.
    pub blade_mm: f64,
    /// Its greatest width, in mm.
    pub width_mm: f64,
    /// Its thickness in the middle, in mm.
    pub thickness_mm: f64,
    /// Length of the whole piece, in mm.
    pub length_mm: f64,
    /// What it is made of: a name from the table of species, or of the turner's own woods.
    pub species: String,
    /// The blank on hand; without one the least that will do is found.
    pub blank: Option<BlankOnHand>,
}

/// A spreader that works: its blade and length are as wanted, and every check of it is ok.
#[derive(Clone, Debug)]
pub struct FoundSpreader {
    /// What it is, in a few words with numbers.
    pub words: String,
    /// The choices it was made from.
    pub spreader: Spreader,
    /// The design.
    pub design: Design,
    /// Its figures.
    pub worked: Worked,
}

/// Why there is none.
#[derive(Clone, Debug)]
pub struct NoSpreader {
    /// What cannot be had together, in a sentence with numbers.
    pub sentence: String,
    /// The nearest that work, each with one want given up.
    pub instead: Vec<FoundSpreader>,
}

/// The tip over the width of the blade, and its thickness over the blade's. Choices of ours, no source.
const TIP_WIDTH: f64 = 0.8;
const TIP_THICKNESS: f64 = 0.95;
/// What the tip grows by at a time. A choice of ours, no source.
const WIDER_TIP: f64 = 1.05;
/// The shortest handle, in mm, and the thickest blade over its width. Choices of ours, no source.
const SHORTEST_HANDLE_MM: f64 = 50.0;
const THICKEST: f64 = 0.7;
/// The neck over the thickness of the blade to begin with, the handle over the neck, and the thickest neck over the width of
/// the blade. Choices of ours, no source.
const FIRST_NECK: f64 = 1.2;
const OVER_NECK_MM: f64 = 4.0;
const THICKEST_NECK: f64 = 0.8;
/// Wood of the blank around the blade, in mm.
const AROUND_MM: f64 = 2.0;
/// How often a piece is set right before it is given up.
const ROUNDS: usize = 12;
/// The steps in which the nearest thickness, width and length are looked for, in mm.
const THICKNESS_STEP_MM: f64 = 0.5;
const WIDTH_STEP_MM: f64 = 1.0;
const LENGTH_STEP_MM: f64 = 5.0;
/// The narrowest and the shortest blade that are offered, in mm.
const NARROWEST_MM: f64 = 15.0;
const SHORTEST_BLADE_MM: f64 = 25.0;

impl SpreaderWants {
    /// A sensible beginning: a spreader for soft butter, of the least blank that will do.
    #[must_use]
    pub fn usual() -> Self {
        Self::of(&Spreader::default())
    }

    /// What these choices would be asked for by, of the usual wood and the least blank that will do.
    pub(super) fn of(spreader: &Spreader) -> Self {
        Self {
            blade_mm: spreader.blade_mm,
            width_mm: spreader.width_mm,
            thickness_mm: spreader.thickness_mm,
            length_mm: spreader.length_mm(),
            species: spreader.design("").wood.species,
            blank: None,
        }
    }

    fn design(&self, spreader: &Spreader) -> Design {
        let design = spreader.design("Spreader");
        let wood = Wood { species: self.species.clone(), ..design.wood.clone() };
        Design { wood, ..design }
    }
}

/// Looks for a spreader that is as wanted; where there is none, for the nearest that work. `breathe` is called as in
/// [`find`](super::find).
///
/// The blade and the length are as wanted; the least blank to 1 mm or 1/8 in. The nearest thickness is found to 0.5 mm, width
/// to 1 mm, lengths to 5 mm, by halving between one that works and the one wanted. Deterministic, and bounded: at most 12
/// designs of each wants are worked out in full.
///
/// # Errors
///
/// Why there is none, in a sentence with the check that stands in the way, and the nearest that work.
pub async fn find_spreaders(
    wants: &SpreaderWants,
    shop: &Shop,
    breathe: impl AsyncFn(usize) -> bool,
) -> Result<Box<FoundSpreader>, NoSpreader> {
    let search = SpreaderSearch { shop, breathe, tried: Cell::new(0) };
    let because = match search.settled(wants).await {
        Ok(found) => return Ok(found),
        Err(because) => because,
    };
    let words = Words::of(shop);
    let [length, blade, width, thickness] =
        [wants.length_mm, wants.blade_mm, wants.width_mm, wants.thickness_mm].map(|mm| words.length(mm));
    let sentence = format!(
        "A spreader {length} long with a blade {blade} long, {width} wide and {thickness} thick cannot be had as wanted. \
         {because}"
    );
    Err(NoSpreader { sentence, instead: search.instead(wants).await })
}

/// The same without a pause.
///
/// # Errors
///
/// As [`find_spreaders`].
pub fn find_spreader(wants: &SpreaderWants, shop: &Shop) -> Result<Box<FoundSpreader>, NoSpreader> {
    at_once(find_spreaders(wants, shop, async |_| true))
}

/// Where a length stands among the wants.
type Slot = fn(&mut SpreaderWants) -> &mut f64;

struct SpreaderSearch<'a, B> {
    shop: &'a Shop,
    breathe: B,
    /// How many designs were worked out in full.
    tried: Cell<usize>,
}

impl<B: AsyncFn(usize) -> bool> SpreaderSearch<'_, B> {
    /// The spreader set right until every check is ok, or why that does not go.
    async fn settled(&self, wants: &SpreaderWants) -> Result<Box<FoundSpreader>, String> {
        let (shop, words) = (self.shop, Words::of(self.shop));
        possible(wants, words)?;
        let mut spreader = first(wants, shop);
        let mut why_not = String::new();
        for _ in 0..ROUNDS {
            let design = wants.design(&spreader);
            if let Some(has) = wants.blank.and_then(|it| it.length_mm).filter(|has| design.length_to_cut_mm() > *has) {
                let needs = words.length(design.length_to_cut_mm());
                return Err(format!("It takes {needs} of blank, and yours is {} long.", words.length(has)));
            }
            if !(self.breathe)(self.tried.get()).await {
                return Err(STOPPED.to_owned());
            }
            self.tried.set(self.tried.get() + 1);
            let worked = work_out(&design, shop).map_err(|error| error.to_string())?;
            let faults: Vec<&Check> = worked.checks.iter().filter(|check| check.verdict != Verdict::Ok).collect();
            let Some(first) = faults.first() else { return Ok(found(words, spreader, design, worked)) };
            why_not = format!("{}: {}", first.name.title(), first.sentence);
            let before = spreader.clone();
            for check in faults {
                if !cure(&mut spreader, check, wants, shop) {
                    return Err(format!("{}: {}", check.name.title(), check.sentence));
                }
            }
            if spreader == before {
                break;
            }
        }
        Err(why_not)
    }

    /// The nearest that work, each with one want given up as little as goes.
    async fn instead(&self, wants: &SpreaderWants) -> Vec<FoundSpreader> {
        let mut offers = Vec::new();
        if wants.blank.is_some() {
            offers.extend(self.settled(&SpreaderWants { blank: None, ..wants.clone() }).await.ok());
        }
        let narrowest = (wants.thickness_mm / THICKEST).max(NARROWEST_MM);
        let ways: [(f64, f64, f64, Slot); 4] = [
            (wants.thickness_mm, THICKEST * wants.width_mm, THICKNESS_STEP_MM, |it| &mut it.thickness_mm),
            (wants.width_mm, narrowest, WIDTH_STEP_MM, |it| &mut it.width_mm),
            (wants.length_mm, wants.blade_mm + SHORTEST_HANDLE_MM, LENGTH_STEP_MM, |it| &mut it.length_mm),
            (wants.blade_mm, SHORTEST_BLADE_MM, LENGTH_STEP_MM, |it| &mut it.blade_mm),
        ];
        for (wanted, farthest, step, slot) in ways {
            let at = async |mm: f64| {
                let mut other = wants.clone();
                *slot(&mut other) = mm;
                self.settled(&other).await.ok()
            };
            offers.extend(nearest(wanted, farthest, step, at).await);
        }
        offers.into_iter().map(|offer| *offer).collect()
    }
}

/// What no piece can be.
fn possible(wants: &SpreaderWants, words: Words) -> Result<(), String> {
    let handle = wants.length_mm - wants.blade_mm;
    if handle < SHORTEST_HANDLE_MM {
        return Err(format!(
            "Beside the blade {} is left for the handle, and {} is the least.",
            words.length(handle.max(0.0)),
            words.length(SHORTEST_HANDLE_MM)
        ));
    }
    let most = THICKEST * wants.width_mm;
    if wants.thickness_mm > most {
        return Err(format!("A blade of this width is no thicker than {}.", words.length(most)));
    }
    Ok(())
}

/// The spreader before it is set right.
fn first(wants: &SpreaderWants, shop: &Shop) -> Spreader {
    let neck_diameter_mm = FIRST_NECK * wants.thickness_mm;
    let spreader = Spreader {
        blade_mm: wants.blade_mm,
        width_mm: wants.width_mm,
        tip_width_mm: TIP_WIDTH * wants.width_mm,
        thickness_mm: wants.thickness_mm,
        tip_thickness_mm: TIP_THICKNESS * wants.thickness_mm,
        edge_mm: 0.0,
        handle_mm: wants.length_mm - wants.blade_mm,
        handle: Handle { neck_diameter_mm, diameter_mm: neck_diameter_mm + OVER_NECK_MM, ..Spreader::default().handle },
        ..Spreader::default()
    };
    // The marks lie toward the corners.
    let around = shop.centres.drive_diameter_mm.max(shop.centres.live_diameter_mm) / 2.0 + shop.centres.margin_mm;
    let marks = 2.0 * (spreader.marks_mm() * std::f64::consts::FRAC_1_SQRT_2 + around);
    let least = marks.max(wants.width_mm + AROUND_MM);
    Spreader { blank_side_mm: wants.blank.map_or_else(|| up_to_step(least, shop), |it| it.side_mm), ..spreader }
}

/// Sets right what is not ok; whether anything that is set here may cure it.
fn cure(spreader: &mut Spreader, check: &Check, wants: &SpreaderWants, shop: &Shop) -> bool {
    let missing = check.limit.zip(check.value).map_or(1.0, |(limit, value)| (limit - value).abs());
    match check.name {
        CheckName::Blank | CheckName::DriveCentre | CheckName::LiveCentre | CheckName::Flats
            if wants.blank.is_none() =>
        {
            spreader.blank_side_mm = up_to_step(spreader.blank_side_mm + missing.clamp(0.1, 10.0), shop);
            true
        }
        CheckName::NeckStrength | CheckName::WasteStrength => {
            let at = check.place.map_or(0.0, |place| place.station_mm);
            if at >= spreader.neck_at_mm() - 1.0 {
                let handle = &mut spreader.handle;
                let now = (handle.neck_diameter_mm, handle.diameter_mm);
                (handle.neck_diameter_mm, handle.diameter_mm) =
                    thickened(check, now, THICKEST_NECK * spreader.width_mm);
                return true;
            }
            // The blade is as wanted but for its tip.
            let before = (spreader.tip_width_mm, spreader.tip_thickness_mm);
            if at < spreader.widest_at_mm() {
                spreader.tip_width_mm = (spreader.tip_width_mm * WIDER_TIP).min(spreader.width_mm);
                spreader.tip_thickness_mm = (spreader.tip_thickness_mm * WIDER_TIP).min(spreader.thickness_mm);
            }
            before != (spreader.tip_width_mm, spreader.tip_thickness_mm)
        }
        _ => false,
    }
}

fn found(words: Words, spreader: Spreader, mut design: Design, worked: Worked) -> Box<FoundSpreader> {
    let said = format!(
        "A blade {} long, {} wide and {} thick, {} in all, its marks {} from the middle, from a blank {} square, {} long.",
        words.length(spreader.blade_mm),
        words.length(spreader.width_mm),
        words.length(spreader.thickness_mm),
        words.length(spreader.length_mm()),
        words.length(spreader.marks_mm()),
        words.length(spreader.blank_side_mm),
        words.length(design.length_to_cut_mm())
    );
    design.name = format!("Spreader, {}", words.length(spreader.length_mm()));
    Box::new(FoundSpreader { words: said, spreader, design, worked })
}
