//! Which passes shape one part together: what may be picked, and picking it.

use super::sections::cut_title;
use crate::design::tenon::is_tenon;
use crate::design::text::of_several;
use crate::design::{Cut, Design};

/// What is picked for a pass that overlaps no other on purpose.
pub const NOTHING_ELSE: &str = "Nothing else";

/// What a pass may shape one part with: each a name on screen, and the passes that it stands for.
fn options(design: &Design, cut: usize) -> Vec<(String, Vec<usize>)> {
    let mut all: Vec<(String, Vec<usize>)> = Vec::new();
    for other in (0..design.cuts.len()).filter(|other| *other != cut && is_side(design, *other)) {
        if all.iter().any(|(_, passes)| passes.contains(&other)) {
            continue;
        }
        let with = design.shaped_with(other);
        let passes: Vec<usize> =
            (0..design.cuts.len()).filter(|it| *it != cut && (*it == other || with.contains(it))).collect();
        let names: Vec<String> = passes.iter().map(|it| name(design, *it)).collect();
        all.push((names.join(", "), passes));
    }
    all
}

/// Whether a cut is a pass that may be a side of a part: any but the tenon, which is no part of the piece.
fn is_side(design: &Design, cut: usize) -> bool {
    matches!(design.cuts.get(cut), Some(Cut::Pass(_))) && !is_tenon(design, cut)
}

/// A pass's heading, and where others have the same which of them it is.
fn name(design: &Design, cut: usize) -> String {
    let title = cut_title(design, cut).unwrap_or_default();
    let is_alike = |other: &usize| cut_title(design, *other).as_ref() == Some(&title);
    let (before, all) = ((0..cut).filter(is_alike).count(), (0..design.cuts.len()).filter(is_alike).count());
    of_several(title, before, all)
}

/// What may be picked as shaping one part with a pass; empty where there is nothing to pick from.
#[must_use]
pub fn together_names(design: &Design, cut: usize) -> Vec<String> {
    if !is_side(design, cut) {
        return Vec::new();
    }
    let others: Vec<String> = options(design, cut).into_iter().map(|option| option.0).collect();
    if others.is_empty() {
        return others;
    }
    std::iter::once(NOTHING_ELSE.to_owned()).chain(others).collect()
}

/// What is picked for a pass.
#[must_use]
pub fn together_now(design: &Design, cut: usize) -> String {
    let mates = design.shaped_with(cut);
    let picked = options(design, cut).into_iter().find(|option| !mates.is_empty() && option.1 == mates);
    picked.map_or_else(|| NOTHING_ELSE.to_owned(), |option| option.0)
}

/// Says that a pass shapes one part with the passes of this name, or with nothing else. A name that cannot be picked is
/// passed over.
pub fn shape_together(design: &mut Design, cut: usize, named: &str) {
    let picked = options(design, cut).into_iter().find(|option| option.0 == named).map(|option| option.1);
    if picked.is_none() && named != NOTHING_ELSE {
        return;
    }
    let mates = design.shaped_with(cut);
    set(design, cut, None);
    // What is left alone shapes its part alone.
    if let [alone] = mates.as_slice() {
        set(design, *alone, None);
    }
    let Some(passes) = picked else { return };
    let known = passes.iter().find_map(|pass| design.part_shaped(*pass).map(str::to_owned));
    let part = known.unwrap_or_else(|| new_part(design, &passes));
    for pass in passes.into_iter().chain([cut]) {
        set(design, pass, Some(&part));
    }
}

/// A name for a part that none has yet: that of its first pass.
pub(super) fn new_part(design: &Design, passes: &[usize]) -> String {
    let first = passes.iter().find_map(|pass| match design.cuts.get(*pass) {
        Some(Cut::Pass(pass)) => Some(pass.name.trim()).filter(|name| !name.is_empty()),
        _ => None,
    });
    let name = first.unwrap_or("part");
    let is_free = |part: &String| (0..design.cuts.len()).all(|cut| design.part_shaped(cut) != Some(part));
    let numbered = (2..).map(|number| format!("{} {number}", name.chars().take(MOST_LETTERS).collect::<String>()));
    std::iter::once(name.to_owned()).chain(numbered).find(is_free).unwrap_or_default()
}

/// Letters of a pass's name that are kept where a number has to follow.
const MOST_LETTERS: usize = 40;

fn set(design: &mut Design, cut: usize, part: Option<&str>) {
    if let Some(Cut::Pass(pass)) = design.cuts.get_mut(cut) {
        pass.shapes = part.map(str::to_owned);
    }
}
