//! The design after a change of its parts.

use super::axes::{self, with_axis};
use super::places::{insert, switch_off, switch_on, take, taking_out, taking_out_off};
use super::{Addition, Change, PartId, Way};
use crate::design::following::keeps_parts;
use crate::design::text::same_name;
use crate::design::{AxisName, Cut, Design, Problem};
use crate::form::edit::accepted;
use crate::form::together::new_part;

/// The design after a change. A design made from a pattern becomes a free piece where it could not tell its parts any
/// more: see [`leaves_pattern`].
///
/// # Errors
///
/// Why the change makes no sense, or the first problem that it would bring in.
pub fn changed(design: &Design, change: &Change) -> Result<Design, Box<Problem>> {
    if let Some(why) = makes_no_sense(design, change) {
        return Err(Box::new(why));
    }
    let mut after = design.clone();
    apply(&mut after, change);
    let is_free = leaves(design, &after, change);
    accepted(design, |it| {
        *it = after;
        if is_free {
            it.pattern = None;
        }
    })
}

/// Whether a change makes a free piece of a design that follows a pattern.
#[must_use]
pub fn leaves_pattern(design: &Design, change: &Change) -> bool {
    let mut after = design.clone();
    apply(&mut after, change);
    leaves(design, &after, change)
}

/// A pass goes by its name, an axis by its letter, and other cuts by their number: where one of the pattern's would be
/// taken for another, nothing may follow any more.
fn leaves(before: &Design, after: &Design, change: &Change) -> bool {
    let Some(pattern) = &before.pattern else { return false };
    let is_made = |axis: usize| axis < pattern.choices.made().axes.len();
    match change {
        Change::Rename(cut, _) => before.part_of_cut(*cut).is_some(),
        Change::Remove(PartId::Axis(axis)) | Change::Move(PartId::Axis(axis), _) if is_made(*axis) => true,
        _ => !keeps_parts(before, after),
    }
}

fn refusal(sentence: &'static str, cure: &'static str) -> Problem {
    Problem { field: "cuts".to_owned(), place: None, sentence: sentence.into(), cure: cure.into() }
}

/// What validation does not know of: a piece needs something outside.
fn makes_no_sense(design: &Design, change: &Change) -> Option<Problem> {
    let gone: Vec<usize> = match change {
        Change::Remove(PartId::Cut(cut)) | Change::SwitchOff(PartId::Cut(cut)) => vec![*cut],
        Change::Remove(PartId::Axis(axis)) | Change::SwitchOff(PartId::Axis(axis)) => {
            axes::cuts_on(design, axes::letter(*axis))
        }
        Change::CopyRound(cut, by_deg) if stays_on_itself(design, *cut, by_deg) => {
            return Some(refusal(
                "Turned so, its axis stays where it is.",
                "Move its marks off the centre, or tilt it.",
            ));
        }
        Change::Rename(_, name) if name.trim().is_empty() => {
            return Some(refusal("The pass needs a name.", "Type one."));
        }
        _ => return None,
    };
    let is_pass = |cut: &usize| matches!(design.cuts.get(*cut), Some(Cut::Pass(_)));
    let left = (0..design.cuts.len()).filter(|cut| !gone.contains(cut));
    let stays = left.clone().any(|cut| !matches!(design.cuts.get(cut), Some(Cut::TakeOutPlug)));
    let has_last = gone.iter().any(is_pass) && !left.clone().any(|cut| is_pass(&cut)) && stays;
    has_last.then(|| {
        refusal(
            "It is the last pass: other cuts would be left in a bare blank.",
            "Take those away first, or change the pass.",
        )
    })
}

/// Whether one of these turns leaves the axis of a cut where it is.
fn stays_on_itself(design: &Design, cut: usize, by_deg: &[f64]) -> bool {
    let axis = design.cuts.get(cut).and_then(axes::axis_of).and_then(|axis| axis.index().checked_sub(1));
    let axis = axis.and_then(|place| design.axes.get(place));
    axis.is_none_or(|axis| by_deg.iter().any(|by_deg| axes::is_same(axis, &axes::turned(axis, *by_deg))))
}

fn apply(design: &mut Design, change: &Change) {
    match change {
        Change::Add(addition) => add(design, addition),
        Change::Remove(PartId::Axis(axis)) => axes::remove(design, *axis),
        Change::Remove(PartId::Cut(cut)) => {
            let out = taking_out(design, *cut);
            for place in out.into_iter().chain([*cut]) {
                take(design, place);
            }
        }
        Change::Remove(PartId::Off(off)) => {
            for place in taking_out_off(design, *off).into_iter().chain([*off]) {
                if place < design.off.len() {
                    design.off.remove(place);
                }
            }
        }
        Change::Copy(cut) => copy(design, *cut),
        Change::CopyRound(cut, by_deg) => copy_round(design, *cut, by_deg),
        Change::Move(part, way) => shift(design, *part, *way),
        Change::SwitchOff(PartId::Axis(axis)) => axes::all_off(design, *axis),
        Change::SwitchOn(PartId::Axis(axis)) => axes::all_on(design, *axis),
        Change::SwitchOff(PartId::Cut(cut)) => {
            for place in taking_out(design, *cut).into_iter().chain([*cut]) {
                switch_off(design, place);
            }
        }
        Change::SwitchOn(PartId::Off(off)) => {
            for place in taking_out_off(design, *off).into_iter().chain([*off]) {
                switch_on(design, place);
            }
        }
        Change::SwitchOff(PartId::Off(_)) | Change::SwitchOn(PartId::Cut(_)) => {}
        Change::Rename(cut, name) => {
            if let Some(Cut::Pass(pass)) = design.cuts.get_mut(*cut) {
                name.trim().clone_into(&mut pass.name);
            }
        }
    }
}

fn add(design: &mut Design, addition: &Addition) {
    design.axes.extend(addition.axis);
    for (place, cut) in &addition.cuts {
        insert(design, *place, cut.clone());
    }
    if let (Some(other), Some((place, _))) = (addition.together_with, addition.cuts.first()) {
        shape_one_part(design, &[other, *place]);
    }
}

/// Says that these passes shape one part: that of the first, or a new one.
fn shape_one_part(design: &mut Design, passes: &[usize]) {
    let known = passes.first().and_then(|pass| design.part_shaped(*pass)).map(str::to_owned);
    let part = known.unwrap_or_else(|| new_part(design, passes));
    for pass in passes {
        if let Some(Cut::Pass(pass)) = design.cuts.get_mut(*pass) {
            pass.shapes = Some(part.clone());
        }
    }
}

/// Puts a copy after a cut; a pass under a name of its own.
fn copy(design: &mut Design, cut: usize) {
    let Some(mut twin) = design.cuts.get(cut).cloned() else { return };
    if let Cut::Pass(pass) = &mut twin {
        pass.name = free_name(design, &pass.name);
    }
    insert(design, cut + 1, twin);
}

fn copy_round(design: &mut Design, cut: usize, by_deg: &[f64]) {
    let Some(Cut::Pass(pass)) = design.cuts.get(cut).cloned() else { return };
    let Some(axis) = pass.axis.index().checked_sub(1).and_then(|place| design.axes.get(place)).copied() else { return };
    let mut passes = vec![cut];
    for by_deg in by_deg {
        let Some(axis) = with_axis(design, &axes::turned(&axis, *by_deg)) else { return };
        let mut twin = pass.clone();
        twin.axis = axis;
        twin.name = free_name(design, &pass.name);
        let place = cut + passes.len();
        insert(design, place, Cut::Pass(twin));
        passes.push(place);
    }
    shape_one_part(design, &passes);
}

fn shift(design: &mut Design, part: PartId, way: Way) {
    let first = |place: usize| if way == Way::Earlier { place.checked_sub(1) } else { Some(place) };
    match part {
        PartId::Axis(place) => {
            if let Some(first) = first(place) {
                axes::swap(design, first);
            }
        }
        PartId::Cut(place) => {
            if let Some(first) = first(place).filter(|first| first + 1 < design.cuts.len()) {
                design.cuts.swap(first, first + 1);
            }
        }
        PartId::Off(_) => {}
    }
}

/// A name for a pass that no other has, and none that the pattern makes: the name itself, or with a number.
pub(super) fn free_name(design: &Design, name: &str) -> String {
    let made = design.pattern.as_ref().map(|pattern| pattern.choices.made().cuts).unwrap_or_default();
    let off = design.off.iter().map(|off| &off.cut);
    let cuts: Vec<&Cut> = design.cuts.iter().chain(off).chain(&made).collect();
    let is_free = |name: &String| !cuts.iter().any(|cut| matches!(cut, Cut::Pass(pass) if same_name(&pass.name, name)));
    let stem = name.trim_end_matches(|letter: char| letter.is_ascii_digit()).trim_end();
    let stem: String = if stem.is_empty() { "pass" } else { stem }.chars().take(MOST_LETTERS).collect();
    let numbered = (2..).map(|number| format!("{stem} {number}"));
    std::iter::once(name.trim().to_owned())
        .filter(|name| !name.is_empty())
        .chain(numbered)
        .find(is_free)
        .unwrap_or(stem)
}

/// Letters of a name that are kept where a number has to follow.
const MOST_LETTERS: usize = 100;

/// Whether a pass stands on the blank's own axis.
pub(super) fn is_on_a(design: &Design, cut: usize) -> bool {
    matches!(design.cuts.get(cut), Some(Cut::Pass(pass)) if pass.axis == AxisName::A)
}
