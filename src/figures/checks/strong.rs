//! Checks of strength: the neck in use, the thinnest wood while turning, the grain.

use super::check::{Check, CheckName, CheckUnit, Verdict, Words};
use super::fields;
use crate::design::{AxisName, Cut, Design, Limits};
use crate::figures::strength::{CATCH_N, Governs, HALVED, Neck, STEEPEST_OF_TABLE, Strength, WhileTurning};
use crate::form::Field;

pub(super) fn checks(design: &Design, strength: &Strength, limits: &Limits, words: Words) -> Vec<Check> {
    let wanted = limits.strength_factor;
    let mut all = vec![grain(design, strength, words)];
    match strength.neck.value() {
        Some(neck) if neck.factor.is_some() => all.extend(check_neck(design, neck, wanted, words)),
        Some(_) => all.push(unknown(design, CheckName::NeckStrength, "its neck")),
        None => all.extend(strength.neck.why_not().map(|why| {
            Check::fault(
                CheckName::NeckStrength,
                Verdict::Tight,
                why,
                "Judge its neck by hand, or plan a longer piece.",
            )
        })),
    }
    all.extend(match check_waste(design, strength, words) {
        None if !strength.while_turning.is_empty() => Some(unknown(design, CheckName::WasteStrength, "its turning")),
        check => check,
    });
    all
}

fn unknown(design: &Design, name: CheckName, what: &str) -> Check {
    let sentence = format!("What {:?} bears is not known, so that {what} cannot be judged.", design.wood.species);
    let cure = "Choose a wood from the list, or add its modulus of rupture to the woods of your own.";
    Check::fault(name, Verdict::Tight, sentence, cure).cured_at("wood.species")
}

/// The factor as it is said: one decimal, none from 10 on.
fn times(factor: f64) -> String {
    if factor < 9.95 { format!("{factor:.1}") } else { format!("{factor:.0}") }
}

fn judge(name: CheckName, factor: f64, wanted: f64, found: String, cure: String) -> Check {
    let check = match factor {
        factor if factor >= wanted => Check::ok(name, found),
        // Half of what is wanted still holds with care.
        factor if factor >= wanted / 2.0 => Check::fault(name, Verdict::Tight, found, cure),
        _ => Check::fault(name, Verdict::Stop, found, cure),
    };
    Check { unit: CheckUnit::Times, ..check.measured(factor, wanted) }
}

/// Beyond this share of the strength left the handle may split along its grain, in a fall at the latest. Common practice,
/// no source.
const SPLITS: f64 = 0.25;

fn grain(design: &Design, strength: &Strength, words: Words) -> Check {
    let grain = &strength.grain;
    let Some(one_in) = grain.one_in else {
        return Check::ok(CheckName::GrainSlope, "The grain runs along the handle.");
    };
    let (whose, verdict) = match grain.governs {
        Governs::Table => ("the handbook's table", Verdict::Ok),
        Governs::Hankinson if grain.share() >= SPLITS => ("Hankinson's formula", Verdict::Tight),
        Governs::Hankinson => ("Hankinson's formula", Verdict::Stop),
    };
    let found = format!(
        "The grain runs at {} to the handle, 1 in {one_in:.1}: {:.0} percent of its strength is left, by {whose}.",
        words.angle(grain.angle_deg),
        100.0 * grain.share(),
    );
    let check = match verdict {
        Verdict::Ok => Check::ok(CheckName::GrainSlope, found),
        _ => {
            let cure = "Tilt the handle less, or saw the blank so that its grain leans with the handle.";
            let fault = Check::fault(CheckName::GrainSlope, verdict, found, cure);
            match handle_field(design) {
                Some(field) => fault.cured_in(design, field),
                None => fault,
            }
        }
    };
    Check { unit: CheckUnit::Deg, ..check.measured(grain.angle_deg, STEEPEST_OF_TABLE.atan().to_degrees()) }
}

/// The field that tilts the handle.
fn handle_field(design: &Design) -> Option<Field> {
    design.cuts.iter().rev().find_map(|cut| match cut {
        Cut::Pass(pass) if pass.axis != AxisName::A => fields::tilt(design, pass.axis),
        _ => None,
    })
}

fn check_neck(design: &Design, neck: &Neck, wanted: f64, words: Words) -> Option<Check> {
    let factor = neck.factor?;
    let place = words.station(&neck.place);
    let found = match neck.stress_mpa {
        Some(_) => format!(
            "With {:.0} N at the lip the weakest place, {place}, bears {} times the load.",
            neck.load_n,
            times(factor)
        ),
        None => format!("Nothing is left of the piece at {place}."),
    };
    let cure = format!(
        "Make it {} there, shorten the piece, or tilt the handle less.",
        thicker(neck.modulus_mm3, factor, wanted, words)
    );
    let check = judge(CheckName::NeckStrength, factor, wanted, found, cure).at(neck.place);
    Some(cured_where(design, check, neck.limited_by_cut))
}

fn check_waste(design: &Design, strength: &Strength, words: Words) -> Option<Check> {
    let judged = strength.while_turning.iter().filter_map(|weakest| Some((weakest, weakest.factor?)));
    let (weakest, factor) = judged.min_by(|a, b| a.1.total_cmp(&b.1))?;
    let place = words.station(&weakest.place);
    let name = design.cut_name(weakest.cut);
    let found = match weakest.stresses {
        Some(_) => format!(
            "In {name} the weakest place, {place}, bears {} times the tail centre, the shake and a catch of {CATCH_N:.0} N \
             together; a knot can halve that.{}",
            times(factor),
            turned_last(design, strength, words)
        ),
        None => format!("In {name} nothing is left between the centres at {place}."),
    };
    let cure = format!(
        "Leave it {} there until last, move the marks less, or turn {name} before that place is thin.",
        thicker(weakest.modulus_mm3, factor, HALVED, words)
    );
    let check = judge(CheckName::WasteStrength, factor, HALVED, found, cure).at(weakest.place);
    Some(cured_where(design, check, weakest.limited_by_cut))
}

/// What to leave until last, where a pass narrows to the end of the piece.
fn turned_last(design: &Design, strength: &Strength, words: Words) -> String {
    let sentence = |weakest: &WhileTurning| {
        let last = weakest.turned_last?;
        let name = design.cut_name(weakest.cut);
        Some(format!(" Leave {} at the end of {name} until last.", words.length(last.leave_mm)))
    };
    strength.while_turning.iter().filter_map(sentence).collect()
}

/// How thick a section must be, as the diameter of a round that bears as much: its modulus is pi d^3 / 32.
fn thicker(modulus_mm3: f64, factor: f64, wanted: f64, words: Words) -> String {
    if factor <= 0.0 || modulus_mm3 <= 0.0 {
        return "thicker".to_owned();
    }
    let diameter_mm = (32.0 / std::f64::consts::PI * modulus_mm3 * wanted / factor).cbrt();
    format!("about {} thick", words.length(words.up(diameter_mm)))
}

fn cured_where(design: &Design, check: Check, cut: Option<usize>) -> Check {
    if check.verdict == Verdict::Ok {
        return check;
    }
    let station_mm = check.place.map_or(0.0, |place| place.station_mm);
    let field = match cut {
        Some(cut) if matches!(design.cuts.get(cut), Some(Cut::Pass(_))) => fields::diameter(design, cut, station_mm),
        _ => Field::BlankWidth,
    };
    check.cured_in(design, field)
}
