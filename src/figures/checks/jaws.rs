//! Checks of the wooden jaws: that the bowl stays in them, and that what spins in them clears the headstock.

use super::check::{Check, CheckName, CheckUnit, Verdict, Words};
use super::fields;
use crate::design::{Cut, Design};
use crate::figures::jaws::{Jaws, JawsFor, LEAST_UNDERCUT_MM};
use crate::figures::known::Known;
use crate::figures::strength::HALVED;
use crate::form::Field;

/// Room that the work should have before the end of the spindle, in mm: common practice, no source.
const HEADSTOCK_ROOM_MM: f64 = 10.0;

/// The checks of every set of jaws.
pub(super) fn checks(design: &Design, planned: &[JawsFor], words: Words) -> Vec<Check> {
    let mut all = Vec::with_capacity(2 * planned.len());
    for jaws in planned {
        let field = opening(design).unwrap_or(Field::BlankLength);
        match &jaws.jaws {
            Known::Value(jaws) => {
                all.extend([holds(jaws, words), headstock(jaws, words)].map(|check| match check.verdict {
                    Verdict::Ok => check,
                    Verdict::Tight | Verdict::Stop => check.cured_in(design, field),
                }))
            }
            Known::Missing { why_not } => {
                let cure = "Try jaws of your own on scrap before you trust the bowl to them.";
                all.push(Check::fault(CheckName::Jaws, Verdict::Tight, why_not.as_str(), cure).cured_in(design, field));
            }
        }
    }
    all
}

/// The number that raises the opening, and with it the jaws.
fn opening(design: &Design) -> Option<Field> {
    let cut = design.cuts.iter().position(|cut| matches!(cut, Cut::Saw(_)))?;
    Some(fields::opening(design, cut))
}

/// The bowl stays in its jaws.
fn holds(jaws: &Jaws, words: Words) -> Check {
    let (undercut, grip) = (jaws.undercut_mm, &jaws.grip);
    let raise = "Let less of the ball be sawn off, so that the opening lies higher over its middle.";
    let length = |mm: f64| words.length(mm);
    let measured = |check: Check| check.measured(undercut, LEAST_UNDERCUT_MM);
    if !jaws.grips() {
        let found = format!(
            "Jaws would close over less than half of the bowl's girth: its rim has to stand {} proud of them, which leaves them \
             {} short of where it is widest.",
            length(jaws.proud_mm),
            length((-jaws.past_girth_mm).max(0.0))
        );
        return measured(Check::fault(CheckName::Jaws, Verdict::Stop, found, raise));
    }
    if grip.factor < 1.0 {
        let found = format!(
            "Pulled straight out of its jaws the bowl leaves them at {:.0} N; a catch pulls with {:.0} N.",
            grip.leaves_at_n, grip.catch_n
        );
        return of_factor(Check::fault(CheckName::Jaws, Verdict::Stop, found, raise), jaws);
    }
    if undercut < LEAST_UNDERCUT_MM {
        let found = format!(
            "The lip of the jaws reaches {} over the bowl, less than {}: friction alone would hold it.",
            length(undercut),
            length(LEAST_UNDERCUT_MM)
        );
        return measured(Check::fault(CheckName::Jaws, Verdict::Tight, found, raise));
    }
    if grip.factor < HALVED {
        let found = format!("The jaws bear {:.1} times the pull of a catch.", grip.factor);
        return of_factor(Check::fault(CheckName::Jaws, Verdict::Tight, found, raise), jaws);
    }
    let sentence = format!(
        "Jaws close {} past the bowl's girth, their lip reaches {} over it, and they bear {:.1} times the pull of a catch.",
        length(jaws.past_girth_mm),
        length(undercut),
        grip.factor
    );
    measured(Check::ok(CheckName::Jaws, sentence))
}

/// With the factor as the number.
fn of_factor(check: Check, jaws: &Jaws) -> Check {
    Check { unit: CheckUnit::Times, ..check.measured(jaws.grip.factor, HALVED) }
}

/// What spins in the jaws clears the headstock.
fn headstock(jaws: &Jaws, words: Words) -> Check {
    let room = jaws.clear.headstock_mm;
    let check = if room >= HEADSTOCK_ROOM_MM {
        let sentence = format!("In the jaws the scoop stays {} before the end of the spindle.", words.length(room));
        Check::ok(CheckName::Headstock, sentence)
    } else {
        let (verdict, found) = if room < 0.0 {
            let behind = words.length(-room);
            (Verdict::Stop, format!("In the jaws the handle reaches {behind} behind the end of the spindle."))
        } else {
            let left = words.length(room);
            (Verdict::Tight, format!("In the jaws the handle stays only {left} before the end of the spindle."))
        };
        let cure = "Let the handle point up toward the opening, tilt it less, or make it shorter.";
        Check::fault(CheckName::Headstock, verdict, found, cure)
    };
    check.measured(room, HEADSTOCK_ROOM_MM)
}
