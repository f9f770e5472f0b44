//! Checks of the centres: whether one stays in its mark, what carries the work between them, and the plug.

use super::check::{Check, CheckName, Verdict, Words};
use super::fields;
use crate::design::Design;
use crate::figures::carried::Carried;
use crate::figures::marks::Face;
use crate::figures::marks_apart::MarksApart;
use crate::form::Field;

/// Marks nearer than this share of the least distance run into one hole. Common practice, no source.
const ONE_HOLE: f64 = 0.5;

/// Whether a later mark lies so near an earlier one that its centre walks back into the old hole.
pub(super) fn marks(design: &Design, apart: &[MarksApart], words: Words) -> Check {
    let name = CheckName::Marks;
    let Some(worst) = apart.first() else { return Check::ok(name, "No two axes have marks of their own on one face.") };
    let end = if worst.face == Face::Tail { "bowl end" } else { "head end" };
    let (has, least) = (words.length(worst.apart_mm), words.length(worst.least_mm));
    let both = format!("On the {end} the marks of axes {} and {} lie {has} apart", worst.earlier, worst.later);
    if worst.apart_mm >= worst.least_mm {
        return Check::ok(name, format!("{both}; {least} is enough.")).measured(worst.apart_mm, worst.least_mm);
    }
    let verdict = if worst.apart_mm < ONE_HOLE * worst.least_mm { Verdict::Stop } else { Verdict::Tight };
    let sentence = format!("{both}, less than {least}: the centre walks back into the old hole.");
    let cure = "Tilt more, cross farther from that end, or cross on that face so that both share one mark.";
    let check = Check::fault(name, verdict, sentence, cure).measured(worst.apart_mm, worst.least_mm);
    check.cured_in(design, fields::axis(design, worst.later))
}

/// Whether every piece of work is carried, in an order that can be worked.
pub(super) fn carries(carried: &Carried) -> Check {
    if carried.lack.is_empty() {
        return Check::ok(CheckName::Carried, "Something carries the work in every step.");
    }
    // The sentence ends with what to do.
    let cut = carried.lack.trim_end_matches('.').rfind(". ").map_or(carried.lack.len(), |at| at + 1);
    let (found, cure) = carried.lack.split_at(cut);
    let cure = if cure.trim().is_empty() { "Change or move one of these cuts." } else { cure.trim() };
    Check::fault(CheckName::Carried, Verdict::Stop, found, cure)
}

/// A line of thrust outside the work by less than this does no harm, in mm. Common practice, no source.
const OUTSIDE_MM: f64 = 1.0;
/// A spigot smaller than its bore by more than this turns in it and flies out, in mm. Common practice, no source.
const LOOSE_MM: f64 = 0.6;
/// What a spigot is made smaller than its bore when it is asked to be snug, in mm. Common practice, no source.
const SNUG_MM: f64 = 0.2;

/// Whether the thrust of the tail centre goes through wood, and the plug sits snug.
pub(super) fn plug(design: &Design, carried: &Carried, margin_mm: f64, words: Words) -> Check {
    let name = CheckName::Plug;
    let rims = carried.thrusts.iter().filter_map(|thrust| Some((thrust, thrust.inside_rim_mm?)));
    let worst = rims.min_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((thrust, inside)) = worst.filter(|(_, inside)| *inside < margin_mm) {
        let (verdict, found) = if inside < 0.0 {
            let out = words.length(-inside);
            (
                Verdict::Stop,
                format!("The mark of axis {} lies {out} out over the rim: the plug tips there.", thrust.axis),
            )
        } else {
            let left = words.length(inside);
            (Verdict::Tight, format!("The thrust on axis {} passes only {left} inside the rim.", thrust.axis))
        };
        let cure = "Tilt less, cross nearer the bowl end, or leave the rim wider until the handle is turned.";
        return Check::fault(name, verdict, found, cure)
            .measured(inside, margin_mm)
            .cured_in(design, fields::axis(design, thrust.axis));
    }
    // Beside a part with sides the thrust always runs outside: what that bends, the strength while turning counts.
    let outside = carried.thrusts.iter().filter(|thrust| thrust.outside_mm > OUTSIDE_MM && !thrust.beside_sides);
    if let Some(thrust) = outside.max_by(|a, b| a.outside_mm.total_cmp(&b.outside_mm)) {
        let at = thrust.outside_at.map_or_else(String::new, |place| format!(", {}", words.station(&place)));
        let found = format!(
            "The thrust on axis {} runs outside the wood for {}{at}: it bends the work.",
            thrust.axis,
            words.length(thrust.outside_mm)
        );
        let cure = "Move the marks less, or leave the wood thicker there until later; tighten the tail centre lightly.";
        return Check::fault(name, Verdict::Tight, found, cure)
            .measured(thrust.outside_mm, OUTSIDE_MM)
            .cured_in(design, fields::axis(design, thrust.axis));
    }
    let loose = carried.loose.iter().max_by(|a, b| a.play_mm.total_cmp(&b.play_mm));
    if let Some(loose) = loose.filter(|loose| loose.play_mm > LOOSE_MM) {
        let found =
            format!("The spigot of the plug has {} of play: it turns in the bore.", words.length(loose.play_mm));
        let snug = loose.bore_mm - SNUG_MM;
        let cure = format!("Turn the spigot to {}, and tape or glue the plug in place.", words.length(snug));
        return Check::fault(name, Verdict::Tight, found, cure).measured(loose.play_mm, LOOSE_MM).cured_by(
            design,
            Field::SpigotDiameter(loose.cut),
            snug,
        );
    }
    match worst {
        Some((_, inside)) => {
            let found = format!("The thrust on every axis passes {} or more inside the rim.", words.length(inside));
            Check::ok(name, found).measured(inside, margin_mm)
        }
        None => Check::ok(name, "No moved axis bears on a plug."),
    }
}
