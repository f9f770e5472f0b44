//! How a design follows its pattern: what a choice rewrites, what the turner made their own, and how that is given back.

use super::axis_name::AxisName;
use super::cut::{AxisChoice, Blank, Cut};
use super::document::Design;
use super::pattern::{Choices, Made, Pattern, PatternPart, parts_of};
use super::shop::LimitChoices;

/// What stands in a design as one part of its pattern.
#[derive(PartialEq)]
enum Content<'a> {
    Blank(&'a Blank),
    Thickness(Option<f64>, Option<f64>),
    Axis(Option<&'a AxisChoice>),
    Cut(Option<&'a Cut>),
}

impl Design {
    /// The part of its pattern that a cut is; `None` in a free piece, and for a cut that the pattern does not make.
    #[must_use]
    pub fn part_of_cut(&self, cut: usize) -> Option<PatternPart> {
        let made = self.pattern.as_ref()?.choices.made();
        parts_of(&self.cuts).into_iter().nth(cut).flatten().filter(|part| made.has(part))
    }

    /// Whether the turner made this part of the pattern their own.
    #[must_use]
    pub fn is_own(&self, part: &PatternPart) -> bool {
        self.pattern.as_ref().is_some_and(|pattern| pattern.own.contains(part))
    }

    /// What of the turner's own this number of the pattern would move, on its slider, if it were not theirs.
    #[must_use]
    pub fn own_beside(&self, place: usize) -> Vec<PatternPart> {
        let Some(pattern) = self.pattern.as_ref().filter(|pattern| !pattern.own.is_empty()) else { return Vec::new() };
        let Some(look) = pattern.choices.look(place) else { return Vec::new() };
        let is = self.clone().of_pattern(pattern.choices.clone());
        let at_ends = [look.slider.0, look.slider.1].map(|end| {
            let mut choices = pattern.choices.clone();
            if let Some(number) = choices.number_mut(place) {
                *number = end;
            }
            self.clone().of_pattern(choices)
        });
        let moves = |part: &&PatternPart| at_ends.iter().any(|there| there.content(part) != is.content(part));
        pattern.own.iter().filter(moves).cloned().collect()
    }

    /// The cut that is this part of the pattern.
    #[must_use]
    pub fn cut_of_part(&self, part: &PatternPart) -> Option<usize> {
        parts_of(&self.cuts).iter().position(|it| it.as_ref() == Some(part))
    }

    /// This piece as the pattern makes it, with nothing made one's own.
    #[must_use]
    pub fn of_pattern(self, choices: Choices) -> Self {
        let made = choices.made();
        let limits = with_thickness(self.limits, made.thickness);
        let pattern = Some(Pattern { choices, own: Vec::new() });
        Self { blank: made.blank, axes: made.axes, cuts: made.cuts, limits, pattern, ..self }
    }

    fn content(&self, part: &PatternPart) -> Content<'_> {
        match part {
            PatternPart::Blank => Content::Blank(&self.blank),
            PatternPart::Thickness => Content::Thickness(self.limits.wall_mm, self.limits.floor_mm),
            PatternPart::Axis(axis) => Content::Axis(axis.index().checked_sub(1).and_then(|i| self.axes.get(i))),
            _ => Content::Cut(self.cut_of_part(part).and_then(|cut| self.cuts.get(cut))),
        }
    }
}

/// Changes the choices, and rewrites every part that follows them. What the turner made their own stays as it is, and so
/// does what is no part of the pattern. Nothing for a free piece. The result is not judged.
pub fn choose(design: &mut Design, change: impl FnOnce(&mut Choices)) {
    let Some(pattern) = &mut design.pattern else { return };
    let before = pattern.choices.made();
    change(&mut pattern.choices);
    let now = pattern.choices.made();
    rewrite(design, &before, now);
}

/// Gives a part back, so that it follows the choices again. The result is not judged.
pub fn follow_again(design: &mut Design, part: &PatternPart) {
    if let Some(pattern) = &mut design.pattern {
        pattern.own.retain(|own| own != part);
        choose(design, |_| ());
    }
}

/// Makes the parts that differ from those of the design before the turner's own; a change of the choices makes nothing
/// so.
pub fn make_own(before: &Design, after: &mut Design) {
    let (Some(was), Some(is)) = (&before.pattern, &after.pattern) else { return };
    if was != is {
        return;
    }
    let same_all = before.blank == after.blank && before.axes == after.axes && before.cuts == after.cuts;
    if same_all && before.limits == after.limits {
        return;
    }
    let changed = |part: &PatternPart| before.content(part) != after.content(part) && !is.own.contains(part);
    let own: Vec<PatternPart> = is.choices.made().parts().into_iter().filter(changed).collect();
    if let Some(pattern) = &mut after.pattern {
        pattern.own.extend(own);
    }
}

/// Whether each part that the pattern makes is still what it was, or gone: none goes by the name of another.
pub(crate) fn keeps_parts(before: &Design, after: &Design) -> bool {
    let Some(pattern) = &before.pattern else { return true };
    let is_kept = |part: &PatternPart| {
        let (was, is) = (before.content(part), after.content(part));
        was == is || matches!(is, Content::Cut(None)) || matches!(was, Content::Cut(None))
    };
    pattern.choices.made().parts().iter().all(is_kept)
}

fn rewrite(design: &mut Design, before: &Made, now: Made) {
    let own = design.pattern.as_ref().map(|pattern| pattern.own.clone()).unwrap_or_default();
    let follows = |part: &PatternPart| !own.contains(part);
    if follows(&PatternPart::Blank) {
        design.blank = now.blank;
    }
    if follows(&PatternPart::Thickness) && (now.thickness.is_some() || before.thickness.is_some()) {
        design.limits = with_thickness(design.limits, now.thickness);
    }
    rewrite_axes(design, before.axes.len(), &now.axes, &follows);
    rewrite_cuts(design, &before.cuts, now.cuts, &follows);
}

fn with_thickness(limits: LimitChoices, thickness: Option<(f64, f64)>) -> LimitChoices {
    LimitChoices { wall_mm: thickness.map(|it| it.0), floor_mm: thickness.map(|it| it.1), ..limits }
}

/// The first axes of a design are those of its pattern.
fn rewrite_axes(design: &mut Design, before: usize, now: &[AxisChoice], follows: &impl Fn(&PatternPart) -> bool) {
    for (place, axis) in now.iter().enumerate() {
        if !PatternPart::axis(place).is_some_and(|part| follows(&part)) {
            continue;
        }
        if place >= before && place <= design.axes.len() {
            design.axes.insert(place, *axis);
            shift_letters(design, place, 1);
        } else if let Some(slot) = design.axes.get_mut(place) {
            *slot = *axis;
        }
    }
    for place in (now.len()..before.min(design.axes.len())).rev() {
        if PatternPart::axis(place).is_some_and(|part| follows(&part)) {
            design.axes.remove(place);
            shift_letters(design, place + 1, -1);
        }
    }
}

/// Keeps cuts on their axes where one comes into the list before theirs, or goes: those from this place on move by so
/// many letters.
fn shift_letters(design: &mut Design, from: usize, by: isize) {
    reletter(design, &|axis| match axis.index() > from {
        true => axis.index().checked_add_signed(by).and_then(AxisName::from_index).unwrap_or(axis),
        false => axis,
    });
}

/// Puts every cut on another axis, those that are switched off too.
pub(crate) fn reletter(design: &mut Design, to: &dyn Fn(AxisName) -> AxisName) {
    design.cuts.iter_mut().for_each(|cut| put_on(cut, to));
    design.off.iter_mut().for_each(|off| put_on(&mut off.cut, to));
}

fn put_on(cut: &mut Cut, to: &dyn Fn(AxisName) -> AxisName) {
    if let Some(axis) = cut.axis_mut() {
        *axis = to(*axis);
    }
}

fn rewrite_cuts(design: &mut Design, before: &[Cut], now: Vec<Cut>, follows: &impl Fn(&PatternPart) -> bool) {
    let (were, are) = (parts_of(before), parts_of(&now));
    let named =
        |names: &[Option<PatternPart>], part: &PatternPart| names.iter().position(|it| it.as_ref() == Some(part));
    let mut all: Vec<(Option<PatternPart>, Cut)> = Vec::with_capacity(design.cuts.len() + now.len());
    let names = parts_of(&design.cuts);
    for (name, cut) in names.into_iter().zip(std::mem::take(&mut design.cuts)) {
        match name.filter(|part| named(&were, part).is_some()) {
            Some(part) if follows(&part) => {
                if let Some(place) = named(&are, &part) {
                    all.push((Some(part), now[place].clone()));
                }
            }
            name => all.push((name, cut)),
        }
    }
    for (place, (part, cut)) in are.iter().zip(now).enumerate() {
        let is_there = |it: &(Option<PatternPart>, Cut)| it.0 == *part;
        if part.as_ref().is_none_or(|part| !follows(part)) || all.iter().any(is_there) {
            continue;
        }
        let earlier =
            are.iter().take(place).rev().find_map(|name| all.iter().position(|it| name.is_some() && it.0 == *name));
        all.insert(earlier.map_or(0, |earlier| earlier + 1), (part.clone(), cut));
    }
    design.cuts = all.into_iter().map(|it| it.1).collect();
}
