//! Where a field of the document is shown, so that a check can lead to the value that cures it.

use super::fields::Field;
use super::group::{Group, group_of_cut};
use super::moves::Movable;
use super::place::nodes_of;
use super::sections::sections;
use super::shop::shop_fields;
use crate::design::{Cut, Design};

/// A value on screen.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// The group that shows it; absent for a value of the shop's settings.
    pub group: Option<Group>,
    /// The field's path, by which its row is found. Paths of the shop's settings begin with `shop.`.
    pub path: String,
    /// What must be picked for its row to be there: a node or a point of a saw line.
    pub picked: Option<Movable>,
}

/// Choices of a list, which have no row of their own among the numbers; all are in the group of the wood.
const CHOICES: [&str; 3] = ["wood.species", "contents", "duty"];
/// Where the paths of the shop's settings begin.
const SHOP: &str = "shop.";
/// Where the paths of the blank begin.
const BLANK: &str = "blank";
/// Where the paths of limits begin.
const LIMITS: &str = "limits.";

/// The value that a check names as its cure. A path to a part that is no single number, such as `cuts[2].profile` or
/// `blank.section`, leads to the number of that part nearest to `near_mm`, a station in mm. `None` when the design has
/// nothing of that name.
#[must_use]
pub fn shown(design: &Design, path: &str, near_mm: Option<f64>) -> Option<Shown> {
    if let Some(path) = path.strip_prefix(SHOP) {
        return of_shop(path);
    }
    // A design leaves most limits to the shop.
    shown_in_design(design, path, near_mm).or_else(|| path.starts_with(LIMITS).then(|| of_shop(path)).flatten())
}

/// As [`shown`], of the design's own values only.
#[must_use]
pub fn shown_in_design(design: &Design, path: &str, near_mm: Option<f64>) -> Option<Shown> {
    if CHOICES.contains(&path) {
        return Some(Shown { group: Some(Group::Wood), path: path.to_owned(), picked: None });
    }
    exactly(design, path).or_else(|| match path.strip_prefix("cuts") {
        Some("") => match last_pass(design) {
            Some(cut) => of_cut(design, cut, Some(f64::INFINITY)),
            None => within(design, BLANK),
        },
        Some(rest) => of_cut(design, rest.strip_prefix('[')?.split_once(']')?.0.parse().ok()?, near_mm),
        None if path.starts_with(LIMITS) => None,
        None => within(design, path),
    })
}

/// Every number that has a row without anything picked, with its group.
fn plain_fields(design: &Design) -> impl Iterator<Item = (Group, Field)> {
    Group::ALL.into_iter().flat_map(move |group| {
        sections(design, group).into_iter().flat_map(|it| it.fields).map(move |field| (group, field))
    })
}

fn plain(design: &Design, (group, field): (Group, Field)) -> Shown {
    Shown { group: Some(group), path: field.path(design), picked: None }
}

fn exactly(design: &Design, path: &str) -> Option<Shown> {
    if let Some(found) = plain_fields(design).find(|it| it.1.path(design) == path) {
        return Some(plain(design, found));
    }
    let of_point = |cut: usize, index: usize| {
        let fields = Field::of_node(design, cut, index).into_iter().chain(Field::of_point(design, cut, index));
        fields.into_iter().find(|field| field.path(design) == path)
    };
    let points = |cut: usize| (0..point_count(design, cut)).map(move |index| (cut, index));
    let mut all = (0..design.cuts.len()).flat_map(points);
    let (cut, index) = all.find(|(cut, index)| of_point(*cut, *index).is_some())?;
    picked(design, cut, index, path.to_owned())
}

/// The first number of a part of the document, such as `blank.section`; else one of the same list or chapter.
fn within(design: &Design, path: &str) -> Option<Shown> {
    let chapter = path.split(['.', '[']).next().filter(|chapter| !chapter.is_empty())?;
    let starts = |part: &str| plain_fields(design).find(|it| it.1.path(design).starts_with(part));
    starts(path).or_else(|| starts(chapter)).map(|found| plain(design, found))
}

/// The node or point of a cut nearest to a station; the first value of a cut that has none.
fn of_cut(design: &Design, cut: usize, near_mm: Option<f64>) -> Option<Shown> {
    let group = group_of_cut(design, cut)?;
    let at = |index: usize| match design.cuts.get(cut) {
        Some(Cut::Saw(_)) => Field::SawAt(cut, index).number(design),
        _ => Field::NodeAt(cut, index).number(design),
    };
    let off = |index: &usize| (at(*index).unwrap_or_default() - near_mm.unwrap_or_default().clamp(-1e6, 1e6)).abs();
    let nearest = (0..point_count(design, cut)).min_by(|a, b| off(a).total_cmp(&off(b)));
    let Some(index) = nearest else {
        let own = format!("cuts[{cut}].");
        let first = plain_fields(design).find(|it| it.1.path(design).starts_with(&own));
        // What has no number of its own, such as taking out a plug, leads to its group.
        return first.or_else(|| plain_fields(design).find(|it| it.0 == group)).map(|it| plain(design, it));
    };
    let field = match design.cuts.get(cut) {
        Some(Cut::Saw(_)) => Field::SawHeight(cut, index),
        _ => Field::NodeDiameter(cut, index),
    };
    picked(design, cut, index, field.path(design))
}

/// How many nodes or points a cut has that can be picked.
#[must_use]
pub fn point_count(design: &Design, cut: usize) -> usize {
    let nodes = design.cuts.get(cut).and_then(nodes_of).map_or(0, Vec::len);
    let points = (0..).take_while(|point| Field::SawAt(cut, *point).number(design).is_some()).count();
    nodes.max(points)
}

fn picked(design: &Design, cut: usize, index: usize, path: String) -> Option<Shown> {
    let thing = match design.cuts.get(cut)? {
        Cut::Hollow(_) => Movable::HollowNode { cut, node: index },
        Cut::Saw(_) => Movable::SawPoint { cut, point: index },
        _ => Movable::PassNode { cut, node: index },
    };
    Some(Shown { group: group_of_cut(design, cut), path, picked: Some(thing) })
}

fn last_pass(design: &Design) -> Option<usize> {
    design.cuts.iter().rposition(|cut| matches!(cut, Cut::Pass(_)))
}

/// A value of the shop's settings, by its path there; the first of its chapter where there is no such value.
fn of_shop(path: &str) -> Option<Shown> {
    let chapter = path.split('.').next().unwrap_or_default();
    let by_path = shop_fields().find(|field| field.path == path);
    let found = by_path.or_else(|| shop_fields().find(|field| field.path.starts_with(chapter)))?;
    Some(Shown { group: None, path: format!("{SHOP}{}", found.path), picked: None })
}
