//! The fields of a design as a turner looks for them: in groups, and in sections under one heading each.

use super::fields::{Field, Part};
use super::group::{Group, group_of_cut};
use crate::design::tenon::is_tenon;
use crate::design::text::capital;
use crate::design::{AxisName, Cut, Design, HollowShape, Limits};

/// What tells one section from another, whatever its heading says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SectionKey {
    /// Choices of the pattern, by their heading.
    Choices(&'static str),
    /// Size of the blank.
    Blank,
    /// The wood as it is turned.
    Wood,
    /// The wood as it is used.
    InUse,
    /// The wall and floor wanted.
    Thickness,
    /// What a first pass leaves.
    Join,
    /// An axis, by its place in the list of axes after A.
    Axis(usize),
    /// A cut, by its place in the document.
    Cut(usize),
}

impl SectionKey {
    /// The cut it belongs to.
    #[must_use]
    pub const fn cut(self) -> Option<usize> {
        if let Self::Cut(cut) = self { Some(cut) } else { None }
    }
}

/// Fields that belong together under one heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Which it is.
    pub key: SectionKey,
    /// The heading.
    pub title: String,
    /// Its fields.
    pub fields: Vec<Field>,
}

/// The sections of a group. Nodes of profiles and points of saw lines have fields of their own: see [`Field::of_node`] and
/// [`Field::of_point`].
#[must_use]
pub fn sections(design: &Design, group: Group) -> Vec<Section> {
    let before: &[SectionKey] = match group {
        Group::Whole => return of_choices(design),
        Group::Wood => &[SectionKey::Blank, SectionKey::Wood, SectionKey::InUse],
        _ => &[],
    };
    let axes = (0..design.axes.len()).filter(|_| group == Group::Handle).map(SectionKey::Axis);
    // The tenon is turned early, and looked at last.
    let cuts = (0..design.cuts.len()).filter(|cut| group_of_cut(design, *cut) == Some(group));
    let (tenons, others): (Vec<_>, Vec<_>) = cuts.partition(|cut| is_tenon(design, *cut));
    let after = match group {
        Group::Hollow => Some(SectionKey::Thickness),
        Group::Outside => Some(SectionKey::Join),
        _ => None,
    };
    let cuts = others.into_iter().chain(tenons).map(SectionKey::Cut);
    let keys = before.iter().copied().chain(axes).chain(cuts).chain(after);
    keys.filter_map(|key| section(design, key)).collect()
}

/// The choices of the pattern, under the headings of its kind.
fn of_choices(design: &Design) -> Vec<Section> {
    let Some(pattern) = &design.pattern else { return Vec::new() };
    let mut all: Vec<Section> = Vec::new();
    for field in Field::of_choices(design) {
        let Some(title) = pattern.choices.look(field.1).map(|look| look.section) else { continue };
        match all.iter_mut().find(|section| section.title == title) {
            Some(section) => section.fields.push(field.0),
            None => {
                let key = SectionKey::Choices(title);
                all.push(Section { key, title: title.to_owned(), fields: vec![field.0] });
            }
        }
    }
    all
}

/// A section, where the design has something to show in it.
fn section(design: &Design, key: SectionKey) -> Option<Section> {
    let (title, fields) = match key {
        SectionKey::Choices(_) => return of_choices(design).into_iter().find(|section| section.key == key),
        SectionKey::Blank => ("Blank".to_owned(), vec![Field::BlankWidth, Field::BlankLength]),
        SectionKey::Wood => ("Wood".to_owned(), vec![Field::Moisture]),
        SectionKey::InUse => {
            let air_or_moisture = [Field::UseMoisture, Field::UseTemperature, Field::UseHumidity];
            let fields = air_or_moisture.into_iter().filter(|field| field.number(design).is_some());
            ("In use".to_owned(), fields.collect())
        }
        SectionKey::Thickness => ("Wanted thickness".to_owned(), vec![Field::WallLimit, Field::FloorLimit]),
        SectionKey::Join => ("Join".to_owned(), vec![Field::FinishingAllowance, Field::JoinSpare]),
        SectionKey::Axis(axis) => {
            let letter = AxisName::from_index(axis + 1).map_or('?', AxisName::letter);
            (format!("Axis {letter}"), Field::of_part(design, Part::Axis, [axis, 0]))
        }
        SectionKey::Cut(cut) => (cut_title(design, cut)?, cut_fields(design, cut)),
    };
    Some(Section { key, title, fields })
}

/// The heading of a cut; `None` for one that has no section.
pub(super) fn cut_title(design: &Design, cut: usize) -> Option<String> {
    Some(match design.cuts.get(cut)? {
        Cut::Pass(pass) => format!("{} (axis {})", capital(&pass.name), pass.axis),
        Cut::Hollow(_) => hollow_name(design, cut),
        Cut::FitPlug(_) => "Plug".to_owned(),
        Cut::Saw(_) => "Saw line".to_owned(),
        Cut::Face(plane) => format!("Facing (axis {})", plane.axis),
        Cut::Part(plane) => format!("Parting off (axis {})", plane.axis),
        Cut::TakeOutPlug => return None,
    })
}

/// The fields of a cut. A bore has none for its mouth: it stays at the bowl end.
fn cut_fields(design: &Design, cut: usize) -> Vec<Field> {
    let mut fields = Field::of_part(design, Part::Cut, [cut, 0]);
    if let Some(Cut::Hollow(hollow)) = design.cuts.get(cut)
        && matches!(hollow.shape, HollowShape::RoundEnded { .. })
    {
        fields.retain(|field| !matches!(field, Field::HollowMouth(_)));
    }
    fields
}

/// Every hollow: its place among the cuts, and its name on screen.
#[must_use]
pub fn hollow_names(design: &Design) -> Vec<(usize, String)> {
    hollows(design).map(|(cut, _)| (cut, hollow_name(design, cut))).collect()
}

fn hollows(design: &Design) -> impl Iterator<Item = (usize, AxisName)> {
    design.cuts.iter().enumerate().filter_map(|(cut, choice)| match choice {
        Cut::Hollow(hollow) => Some((cut, hollow.axis)),
        _ => None,
    })
}

/// By its axis; those on one axis are numbered in working order.
fn hollow_name(design: &Design, cut: usize) -> String {
    let axis = hollows(design).find(|it| it.0 == cut).map_or(AxisName::A, |it| it.1);
    let alike: Vec<usize> = hollows(design).filter(|it| it.1 == axis).map(|it| it.0).collect();
    let number = match alike.iter().position(|it| *it == cut) {
        Some(before) if alike.len() > 1 => format!(" {}", before + 1),
        _ => String::new(),
    };
    match axis {
        AxisName::A => format!("Bore{number}"),
        axis => format!("Hollow{number} (axis {axis})"),
    }
}

/// What a limit is when the design leaves it to the shop.
#[must_use]
pub const fn shop_value(field: Field, shop: &Limits) -> Option<f64> {
    match field {
        Field::WallLimit => Some(shop.wall_mm),
        Field::FloorLimit => Some(shop.floor_mm),
        Field::FinishingAllowance => Some(shop.finishing_allowance_mm),
        Field::JoinSpare => Some(shop.join_spare_mm),
        _ => None,
    }
}
