//! Checks of the finished piece in use, and of the blank it is cut from.

use super::check::{Check, CheckName, CheckUnit, LOOK_AGAIN, Verdict, Words};
use crate::design::{BlankSection, Design, Green};
use crate::figures::hold::Hold;
use crate::figures::known::Known;
use crate::figures::report::Figures;
use crate::figures::summary::holds_liquid;
use crate::figures::tables::Content;
use crate::form::Field;
use crate::geometry::Mass;

/// A piece that holds less of a liquid as it lies than this share of its best holds next to nothing.
const NEXT_TO_NOTHING: f64 = 0.05;

/// What the piece holds, where that was not worked out although there is a hollow.
pub(super) fn not_held(figures: &Figures) -> Option<Check> {
    let why = figures.hold.why_not().filter(|_| !figures.walls.is_empty())?;
    let cure = "Close every other way out of the hollow, then see what it holds.";
    Some(Check::fault(CheckName::HoldsAsItLies, Verdict::Tight, why, cure))
}

/// Whether it holds something as it lies on the table: asked of liquids only, since dry goods lie where they are put.
pub(super) fn as_it_lies(design: &Design, hold: &Hold) -> Option<Check> {
    let best = hold.liquid_best.volume_mm3;
    let lying = match hold.liquid_lying {
        _ if !holds_liquid(design) => return None,
        Some(lying) => lying.volume_mm3,
        None => {
            let sentence = "It does not lie on a table with its opening up, so that it holds nothing as it lies.";
            let cure = "Turn a flat on the underside, or make the handle heavier.";
            return Some(Check::fault(CheckName::HoldsAsItLies, Verdict::Tight, sentence, cure));
        }
    };
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
    let unknown = |sentence: String, cure: &str, field: &str| {
        Some(Check::fault(CheckName::Tips, Verdict::Tight, sentence, cure).cured_at(field))
    };
    let weight = match &figures.blank.weight {
        Known::Value(weight) => weight,
        Known::Missing { why_not } => {
            let cure = "Choose a wood from the list, or add its density to the woods of your own.";
            return unknown(why_not.clone(), cure, "wood.species");
        }
    };
    let Some(content) = Content::named(&design.contents) else {
        let sentence = format!("What {:?} weighs is not known, so that its tipping cannot be judged.", design.contents);
        return unknown(sentence, "Choose what it holds from the list.", "contents");
    };
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
pub(super) fn blank(design: &Design, figures: &Figures, words: Words) -> Check {
    let (has, what) = match design.blank.section {
        BlankSection::Square { side_mm } => (side_mm, "side"),
        BlankSection::Round { diameter_mm } => (diameter_mm, "diameter"),
    };
    let needs = figures.blank.least_mm(&design.blank.section);
    if has >= needs - ROUNDING {
        let sentence =
            format!("A blank of {} {what} would do; this one has {}.", words.length(needs), words.length(has));
        return Check::ok(CheckName::Blank, sentence).measured(has, needs);
    }
    // The flats and the centres are judged by checks of their own: this one says what would cure both.
    let wanted = figures.blank.wanted_mm(&design.blank.section);
    let sentence = format!("The blank's {what} is {}; all of it needs {}.", words.length(has), words.length(needs));
    let cure = format!("Take a blank of {} or more, or tilt less. {LOOK_AGAIN}", words.length(wanted));
    let check = Check::fault(CheckName::Blank, Verdict::Tight, sentence, cure).measured(has, needs);
    check.cured_by(design, Field::BlankWidth, wanted)
}

/// Search error of the least blank, in mm.
const ROUNDING: f64 = 0.05;

/// Whether the bore stays round as the wood dries from its moisture now to that in use.
pub(super) fn moisture(design: &Design, figures: &Figures, limit_mm: f64, words: Words) -> Check {
    let (name, wood) = (CheckName::Moisture, &figures.wood);
    if figures.walls.is_empty() {
        return Check::ok(name, "There is no bore to go out of round.");
    }
    let drying = match &wood.drying {
        Known::Value(drying) => drying,
        Known::Missing { why_not } => {
            let cure = "Choose a wood from the list, or add its shrinkage to the woods of your own.";
            return Check::fault(name, Verdict::Tight, why_not.as_str(), cure).cured_at("wood.species");
        }
    };
    let oval_mm = drying.hollows.iter().map(|hollow| hollow.oval_mm).fold(0.0, f64::max);
    let sentence = format!(
        "From {:.0} percent of moisture now to {:.0} in use one diameter of the bore ends up {} more than another.",
        wood.moisture_percent,
        wood.moisture_in_use_percent,
        words.length(oval_mm)
    );
    let check = match design.wood.green {
        _ if oval_mm <= limit_mm => Check::ok(name, sentence),
        Green::RoughFirst => Check::ok(name, format!("{sentence} It is roughed out, dried, and then finished.")),
        Green::LeftOval => Check::ok(name, format!("{sentence} It is wanted so.")),
        Green::Unsaid => {
            let cure =
                "Rough it out, let it dry, then finish it; dry the blank first; or say in Wood that it is wanted so.";
            Check::fault(name, Verdict::Tight, sentence, cure).cured_in(design, Field::Moisture)
        }
    };
    check.measured(oval_mm, limit_mm)
}
