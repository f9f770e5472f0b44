//! What of a design the turner made their own, as the screen names it.

use super::fields::Field;
use super::sections::{SectionKey, cut_title};
use crate::design::following::follow_again;
use crate::design::{Design, PatternPart};

/// What the turner made their own, by its names on screen, in the order in which it was; `None` where there is nothing.
#[must_use]
pub fn own_names(design: &Design) -> Option<String> {
    let own = &design.pattern.as_ref()?.own;
    let names: Vec<String> = own.iter().map(|part| called(design, part)).collect();
    (!names.is_empty()).then(|| names.join(", "))
}

/// What of the turner's own a choice does not move, as a sentence; `None` where it moves all that it would.
#[must_use]
pub fn not_moved_by(design: &Design, field: Field) -> Option<String> {
    let Field::Choice(place) = field else { return None };
    let own = design.own_beside(place);
    let names: Vec<String> = own.iter().map(|part| called(design, part)).collect();
    (!names.is_empty()).then(|| format!("Yours, so not moved by this: {}.", names.join(", ")))
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
    let own = design.pattern.as_ref().map(|pattern| pattern.own.clone()).unwrap_or_default();
    own.iter().for_each(|part| follow_again(design, part));
}

/// Whether a value follows the pattern: changing it by hand would make its part the turner's own.
#[must_use]
pub fn follows(design: &Design, field: Field) -> bool {
    part_of_path(design, &field.path(design)).is_some_and(|part| !design.is_own(&part))
}

/// The part of the pattern in which a path of the document lies.
fn part_of_path(design: &Design, path: &str) -> Option<PatternPart> {
    let made = design.pattern.as_ref()?.choices.made();
    let place = |list: &str| path.strip_prefix(list)?.split_once(']')?.0.parse::<usize>().ok();
    let part = match (place("cuts["), place("axes[")) {
        (Some(cut), _) => design.part_of_cut(cut)?,
        (None, Some(axis)) => PatternPart::axis(axis)?,
        _ if path.starts_with("blank.") => PatternPart::Blank,
        _ if path == "limits.wall_mm" || path == "limits.floor_mm" => PatternPart::Thickness,
        _ => return None,
    };
    made.has(&part).then_some(part)
}

fn called(design: &Design, part: &PatternPart) -> String {
    match part {
        PatternPart::Blank => "Blank".to_owned(),
        PatternPart::Thickness => "Wanted thickness".to_owned(),
        PatternPart::Axis(axis) => format!("Axis {axis}"),
        _ => design.cut_of_part(part).and_then(|cut| cut_title(design, cut)).unwrap_or_else(|| "A cut".to_owned()),
    }
}
