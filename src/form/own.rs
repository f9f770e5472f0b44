//! What of a design the turner made their own, as the screen names it.

use super::sections::{SectionKey, cut_title};
use crate::design::following::follow_again;
use crate::design::{Design, PatternPart};

/// What the turner made their own, and what it is called on screen, in the order in which it was.
#[must_use]
pub fn own_parts(design: &Design) -> Vec<(PatternPart, String)> {
    let own = design.pattern.iter().flat_map(|pattern| &pattern.own);
    own.map(|part| (part.clone(), called(design, part))).collect()
}

/// The part that a section shows, where the turner made it their own.
#[must_use]
pub fn own_part_of(design: &Design, key: SectionKey) -> Option<PatternPart> {
    let part = match key {
        SectionKey::Blank => PatternPart::Blank,
        SectionKey::Thickness => PatternPart::Thickness,
        SectionKey::Axis(axis) => PatternPart::axis(axis)?,
        SectionKey::Cut(cut) => design.part_of_cut(cut)?,
        SectionKey::Choices(_) | SectionKey::Wood | SectionKey::InUse | SectionKey::Join => return None,
    };
    design.is_own(&part).then_some(part)
}

/// Gives all that is the turner's own back to the pattern.
pub fn follow_all_again(design: &mut Design) {
    for (part, _) in own_parts(design) {
        follow_again(design, &part);
    }
}

fn called(design: &Design, part: &PatternPart) -> String {
    match part {
        PatternPart::Blank => "Blank".to_owned(),
        PatternPart::Thickness => "Wanted thickness".to_owned(),
        PatternPart::Axis(axis) => format!("Axis {axis}"),
        _ => design.cut_of_part(part).and_then(|cut| cut_title(design, cut)).unwrap_or_else(|| "A cut".to_owned()),
    }
}
