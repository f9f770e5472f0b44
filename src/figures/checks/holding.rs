//! Checks of what holds the work: the tenon in the jaws, the overhang while boring, the length of blank and lathe.

use super::check::{Check, CheckName, CheckUnit, LOOK_AGAIN, Verdict, Words};
use crate::design::{AxisChoice, Chuck, Design, Shop};
use crate::figures::end::NeededLength;
use crate::figures::grip::{Grip, Gripped};
use crate::figures::known::Known;
use crate::figures::report::Figures;
use crate::form::{Field, nodes_of};
use crate::piece::Piece;

/// How much shorter than the jaws are deep a tenon is made, in mm, so that its shoulder seats. Common practice, no source.
const CLEAR_MM: f64 = 0.5;
/// A tenon shorter than this share of the jaws' depth is gripped by little. Common practice, no source.
const GRIPPED_SHARE: f64 = 0.5;
/// Beyond this many times the limit on overhang no steady hand makes up for it. Common practice, no source.
const FAR_TOO_LONG: f64 = 2.0;
/// Rounding of a length, in mm.
const SAME_MM: f64 = 0.01;

/// The checks of what holds the work.
pub(super) fn checks(design: &Design, piece: &Piece, figures: &Figures, shop: &Shop, words: Words) -> [Check; 4] {
    let grip = figures.grip.as_ref();
    [
        tenon(design, piece, figures, &shop.chuck, words),
        overhang(design, grip, piece, &shop.chuck, words),
        length(design, &figures.blank.needed, words),
        lathe(design, piece, figures.boring_length_mm, shop, words),
    ]
}

/// What the jaws close on.
fn tenon(design: &Design, piece: &Piece, figures: &Figures, chuck: &Chuck, words: Words) -> Check {
    let name = CheckName::Tenon;
    let Some(grip) = &figures.grip else { return Check::ok(name, "Nothing is held in the chuck.") };
    let (from, to) = (words.length(chuck.jaw_from_mm), words.length(chuck.jaw_to_mm));
    let ideal_mm = Chuck::tenon_mm(chuck.jaw_depth_mm);
    let turned_end = grip.cut.and_then(|cut| Some(piece.revolved(cut)?.meridian.end()));
    let add =
        || format!("Turn a tenon on the head end first, {} long and {from} to {to} across.", words.length(ideal_mm));
    let fault = |verdict, sentence: String, cure: String| Check::fault(name, verdict, sentence, cure);
    match (grip.what, turned_end) {
        (Gripped::Nothing, _) => {
            let needed = figures.blank.needed.value().map_or(piece.head_face + ideal_mm, |it| it.needed_mm);
            let sentence = "The blank ends before its tenon starts: the jaws have nothing to grip.".to_owned();
            let cure = format!("The piece needs a blank {} long{}. {LOOK_AGAIN}", words.length(needed), again(design));
            return fault(Verdict::Stop, sentence, cure).cured_in(design, Field::BlankLength);
        }
        (Gripped::Rough, Some(end)) => {
            let sentence = format!(
                "The tenon stops {} before the head end: the jaws would close on the rough blank.",
                words.length(piece.head_face - end)
            );
            let cure = format!("Shorten the blank to {}{}. {LOOK_AGAIN}", words.length(end), again(design));
            return by_length(design, fault(Verdict::Stop, sentence, cure), end);
        }
        (Gripped::Rough, None) => {
            let sentence = "It is bored in the chuck, and nothing is turned for the jaws: they would close on the corners \
                            of the square blank.";
            return fault(Verdict::Stop, sentence.to_owned(), add());
        }
        _ => {}
    }
    let (least, greatest) = (grip.least_mm, grip.greatest_mm);
    let what = if grip.cut.is_some() { "tenon" } else { "blank" };
    if least < chuck.jaw_from_mm - SAME_MM || greatest > chuck.jaw_to_mm + SAME_MM {
        let (across, limit) =
            if greatest > chuck.jaw_to_mm { (greatest, chuck.jaw_to_mm) } else { (least, chuck.jaw_from_mm) };
        let sentence = format!("The {what} is {} across; the jaws take {from} to {to}.", words.length(across));
        let cure = if grip.cut.is_some() { format!("Turn the tenon {from} to {to} across.") } else { add() };
        let check = fault(Verdict::Stop, sentence, cure).measured(across, limit);
        return match grip.cut.filter(|cut| design.cuts.get(*cut).and_then(nodes_of).is_some()) {
            Some(cut) => check.cured_in(design, Field::NodeDiameter(cut, 0)),
            None => check,
        };
    }
    if grip.what == Gripped::Round {
        let sentence = format!(
            "The jaws grip a round of {} without a shoulder: nothing stands square on the front of the jaws.",
            words.length(least)
        );
        return fault(Verdict::Tight, sentence, add()).measured(least, chuck.jaw_from_mm);
    }
    shoulder(design, piece, figures, grip, chuck, words)
}

/// Whether a mark on the head face tilts an axis otherwise when the blank's length changes.
fn has_marks(design: &Design) -> bool {
    design.axes.iter().any(|axis| matches!(axis, AxisChoice::Marks { .. }))
}

/// What else a change of the blank's length asks for.
fn again(design: &Design) -> &'static str {
    if has_marks(design) { ", and set the marks on its head end again" } else { "" }
}

/// The check with the length of blank that cures it, where the length is all that has to change.
fn by_length(design: &Design, check: Check, length_mm: f64) -> Check {
    if has_marks(design) {
        return check.cured_in(design, Field::BlankLength);
    }
    check.cured_by(design, Field::BlankLength, length_mm)
}

/// Whether the tenon is shorter than the jaws are deep, and long enough to be gripped.
fn shoulder(design: &Design, piece: &Piece, figures: &Figures, grip: &Grip, chuck: &Chuck, words: Words) -> Check {
    let depth = words.length(chuck.jaw_depth_mm);
    let (long, start) = (words.length(grip.length_mm), piece.head_face - Chuck::tenon_mm(chuck.jaw_depth_mm));
    let most = chuck.jaw_depth_mm - CLEAR_MM.min(chuck.jaw_depth_mm / 4.0);
    let least = GRIPPED_SHARE * chuck.jaw_depth_mm;
    let (verdict, sentence) = if grip.length_mm > most + SAME_MM {
        let found = format!("The tenon is {long} long and the jaws {depth} deep: its shoulder does not seat on them.");
        (Verdict::Stop, found)
    } else if grip.length_mm < least - SAME_MM {
        let found = format!("The tenon is {long} long: less than half of the jaws' depth, {depth}, grips it.");
        (Verdict::Tight, found)
    } else {
        let across = words.length(grip.least_mm);
        let found = format!("The jaws, {depth} deep, grip a tenon of {across}, {long} long.");
        return Check::ok(CheckName::Tenon, found).measured(grip.length_mm, most);
    };
    let limit = if verdict == Verdict::Stop { most } else { least };
    let needed = figures.blank.needed.value();
    let has_room = needed.is_none_or(|it| it.piece_mm + it.least_waste_mm <= start);
    let check = |cure: String| Check::fault(CheckName::Tenon, verdict, sentence, cure).measured(grip.length_mm, limit);
    match grip.cut {
        Some(cut) if has_room => {
            let cure = format!("Start the tenon at {} from the bowl end. {LOOK_AGAIN}", words.length(start));
            check(cure).cured_by(design, Field::PassFrom(cut), start)
        }
        _ => check("Move the tenon toward the head end, on a longer blank.".to_owned())
            .cured_in(design, Field::BlankLength),
    }
}

/// How far the work stands out of the jaws while it is bored.
fn overhang(design: &Design, grip: Option<&Grip>, piece: &Piece, chuck: &Chuck, words: Words) -> Check {
    let name = CheckName::Overhang;
    let bored = grip.and_then(|grip| Some((grip, grip.overhang_mm?)));
    let Some((grip, overhang_mm)) = bored else { return Check::ok(name, "Nothing is bored in the chuck.") };
    if matches!(grip.what, Gripped::Nothing | Gripped::Rough) || grip.least_mm <= 0.0 {
        let sentence = "How far the work may stand out of the jaws cannot be said: they grip nothing round.";
        return Check::fault(name, Verdict::Tight, sentence, "Give the work a tenon that the jaws take.");
    }
    let (times, limit) = (overhang_mm / grip.least_mm, chuck.overhang_times);
    let sentence = format!(
        "While it is bored the work stands {} out of the jaws, {times:.1} times the {} that they grip.",
        words.length(overhang_mm),
        words.length(grip.least_mm)
    );
    let check = if times <= limit * (1.0 + 1e-9) {
        Check::ok(name, sentence)
    } else {
        let verdict = if times > FAR_TOO_LONG * limit { Verdict::Stop } else { Verdict::Tight };
        let wider = overhang_mm / limit;
        let grips = match wider <= chuck.jaw_to_mm.min(2.0 * piece.solid.stock.half_width()) {
            true => format!("grip it by {} or more", words.length(wider)),
            false => "take a wider blank and chuck".to_owned(),
        };
        let cure = format!(
            "Set a steady near the bowl end, start the bore with the tail centre still in place, {grips}, or plan a \
             shorter piece."
        );
        let field = grip.cut.filter(|cut| design.cuts.get(*cut).and_then(nodes_of).is_some());
        let field = field.map_or(Field::BlankLength, |cut| Field::NodeDiameter(cut, 0));
        Check::fault(name, verdict, sentence, cure).cured_in(design, field)
    };
    Check { unit: CheckUnit::Times, ..check.measured(times, limit) }
}

/// Whether piece, waste and what is gripped come out of the blank's length.
fn length(design: &Design, needed: &Known<NeededLength>, words: Words) -> Check {
    let (name, has) = (CheckName::Length, design.blank.length_mm);
    let needed = match needed {
        Known::Value(needed) => needed,
        Known::Missing { why_not } => {
            let cure = "Add a parting cut at the end of the handle, or take the last pass down to nothing.";
            return Check::fault(name, Verdict::Tight, why_not.as_str(), cure);
        }
    };
    let all = words.length(needed.needed_mm);
    if has < needed.needed_mm - SAME_MM {
        let only_waste = needed.waste_mm >= 0.0 && has >= needed.needed_mm - needed.least_waste_mm;
        let verdict = if only_waste { Verdict::Tight } else { Verdict::Stop };
        let sentence =
            format!("The blank is {} long; the piece, the waste and what holds it need {all}.", words.length(has));
        // No promise: what else is wrong shows only when all of the piece is there to be judged.
        let cure = format!("The piece needs a blank {all} long{}. {LOOK_AGAIN}", again(design));
        let check = Check::fault(name, verdict, sentence, cure).measured(has, needed.needed_mm);
        return check.cured_in(design, Field::BlankLength);
    }
    if needed.waste_mm < needed.least_waste_mm - SAME_MM {
        let (verdict, found) = if needed.waste_mm < 0.0 {
            let into = words.length(-needed.waste_mm);
            (Verdict::Stop, format!("What holds the work reaches {into} into the finished piece."))
        } else {
            let room = words.length(needed.waste_mm);
            (Verdict::Tight, format!("Only {room} of waste is left between the piece and what holds it."))
        };
        let cure = format!(
            "Leave {} or more between them for the parting tool: move the tenon out, on a longer blank.",
            words.length(needed.least_waste_mm)
        );
        return Check::fault(name, verdict, found, cure)
            .measured(needed.waste_mm, needed.least_waste_mm)
            .cured_in(design, Field::BlankLength);
    }
    let sentence = format!("The piece, the waste and what holds it need {all} of the {} blank.", words.length(has));
    Check::ok(name, sentence).measured(has, needed.needed_mm)
}

/// The work fits between the centres, and before the bit while it is bored.
fn lathe(design: &Design, piece: &Piece, boring_mm: Option<f64>, shop: &Shop, words: Words) -> Check {
    let turning = (piece.head_face - piece.tail_face).max(design.length_to_cut_mm());
    let room = shop.lathe.between_centres_mm;
    let (length, sentence) = match boring_mm.filter(|boring| *boring > turning) {
        Some(boring) => (
            boring,
            format!(
                "Boring takes {} of the lathe, chuck, drill chuck and the longest bit included; it has {}.",
                words.length(boring),
                words.length(room)
            ),
        ),
        None => {
            (turning, format!("The work is {} long; the lathe takes {}.", words.length(turning), words.length(room)))
        }
    };
    let check = if length > room {
        let cure = match boring_mm {
            Some(_) => "Plan a shorter piece, or bore with shorter bits.",
            None => "Plan a shorter piece.",
        };
        Check::fault(CheckName::Lathe, Verdict::Stop, sentence, cure).cured_in(design, Field::BlankLength)
    } else {
        Check::ok(CheckName::Lathe, sentence)
    };
    check.measured(length, room)
}
