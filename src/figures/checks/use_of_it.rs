//! Checks of the finished piece in use, and of the blank it is cut from.

use super::check::{Check, CheckName, CheckUnit, Verdict, Words};
use crate::design::{BlankSection, Design, Piece};
use crate::figures::hold::Hold;
use crate::figures::report::Figures;
use crate::figures::summary::holds_mm3;
use crate::figures::tables::Content;
use crate::geometry::{Mass, Section};

/// A piece that holds less of a liquid as it lies than this share of its best holds next to nothing.
const NEXT_TO_NOTHING: f64 = 0.05;

/// Whether it holds something as it lies on the table: asked of liquids only, since dry goods lie where they are put.
pub(super) fn as_it_lies(design: &Design, hold: &Hold) -> Option<Check> {
    let liquid = Content::named(&design.contents).is_some_and(|content| content.liquid);
    let best = holds_mm3(design, hold);
    let lying = if liquid { hold.liquid_lying?.volume_mm3 } else { return None };
    let share = if best > 0.0 { lying / best } else { 0.0 };
    let numbers =
        |check: Check| Check { unit: CheckUnit::Ml, ..check.measured(lying / 1000.0, NEXT_TO_NOTHING * best / 1000.0) };
    let percent = (100.0 * share).round();
    if share >= NEXT_TO_NOTHING {
        let sentence = format!("As it lies on the table it holds {percent} percent of what it holds at best.");
        return Some(numbers(Check::ok(CheckName::HoldsAsItLies, sentence)));
    }
    let sentence =
        format!("As it lies on the table it holds next to nothing: {percent} percent of what it holds at best.");
    let cure = "Lower the saw line toward the handle only, or tilt the handle more so that the bowl end lies higher.";
    Some(numbers(Check::fault(CheckName::HoldsAsItLies, Verdict::Tight, sentence, cure)))
}

/// Whether it stays as it lies when it is full.
pub(super) fn tips(design: &Design, figures: &Figures, hold: &Hold, finished: &Mass) -> Option<Check> {
    let pose = figures.rest.opening_up.and_then(|i| figures.rest.poses.get(i));
    let Some(pose) = pose else {
        let cure = "Turn a flat on the underside, or make the handle heavier.";
        let sentence = "It does not lie on a table with its opening up.";
        return Some(Check::fault(CheckName::Tips, Verdict::Tight, sentence, cure));
    };
    let weight = figures.blank.weight.value()?;
    let content = Content::named(&design.contents)?;
    let filled = if content.liquid { hold.liquid_lying? } else { hold.dry_handle_level.heaped };
    let Some(centroid) = filled.centroid else {
        return Some(Check::ok(CheckName::Tips, "Nothing lies in it that could tip it."));
    };
    let contents_g = content.grams(filled.volume_mm3);
    if pose.stays_with(weight.finished_g, finished.centroid, contents_g, centroid) {
        return Some(Check::ok(CheckName::Tips, "It lies still on the table when it is full."));
    }
    let cure = "Make the handle longer or heavier, or the bowl flatter underneath.";
    let sentence = "It tips over on the table when it is full.";
    Some(Check::fault(CheckName::Tips, Verdict::Tight, sentence, cure))
}

/// Whether the blank is large enough.
pub(super) fn blank(design: &Design, piece: &Piece, figures: &Figures, words: Words) -> Check {
    let (has, needs, what) = match (design.blank.section, piece.solid.stock.section) {
        (BlankSection::Square { side_mm }, Section::Square { .. }) => {
            (side_mm, figures.blank.least_square_side_mm, "side")
        }
        (BlankSection::Round { diameter_mm } | BlankSection::Square { side_mm: diameter_mm }, _) => {
            (diameter_mm, figures.blank.least_round_diameter_mm, "diameter")
        }
    };
    if has >= needs - ROUNDING {
        let sentence =
            format!("A blank of {} {what} would do; this one has {}.", words.length(needs), words.length(has));
        return Check::ok(CheckName::Blank, sentence).measured(has, needs);
    }
    // The flats and the centres are judged by checks of their own: this one says what would cure both.
    let sentence = format!("The blank's {what} is {}; all of it needs {}.", words.length(has), words.length(needs));
    let cure = format!("Take a blank of {} or more, or tilt less.", words.length(needs));
    Check::fault(CheckName::Blank, Verdict::Tight, sentence, cure).measured(has, needs).cured_at("blank.section")
}

/// Search error of the least blank, in mm.
const ROUNDING: f64 = 0.05;
