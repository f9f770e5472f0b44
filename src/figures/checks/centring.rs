//! Checks of the centre marks: whether a centre stays in its own.

use super::check::{Check, CheckName, Verdict, Words};
use super::fields;
use crate::design::Design;
use crate::figures::marks::Face;
use crate::figures::marks_apart::MarksApart;

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
