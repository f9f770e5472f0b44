//! The values that a turner would change to cure a check, and the places at which each is tried.

use crate::design::entry::Units;
use crate::design::{Design, Shop};
use crate::figures::checks::Check;
use crate::form::{Field, Group, Row, Section, point_count, sections};
use crate::geometry::line::order::sort_by_number;

/// A value is tried at this share of its slider from where it is, then at twice that, and so on.
const FIRST_SHARE: f64 = 1.0 / 64.0;
const DOUBLINGS: i32 = 6;

/// A value that may be changed, with the words that name it.
pub(super) struct Value {
    /// Its section and its label.
    pub called: String,
    pub field: Field,
    pub row: Row,
    pub now: f64,
}

impl Value {
    /// The length of its slider.
    pub fn span(&self) -> f64 {
        (self.row.to - self.row.from).max(1e-9)
    }

    /// The places at which it is tried, the nearest first: either way, in steps that double.
    pub fn places(&self) -> impl Iterator<Item = f64> {
        let (from, to) = (self.row.from.min(self.now), self.row.to.max(self.now));
        let steps = (0..=DOUBLINGS).map(|i| self.span() * FIRST_SHARE * f64::from(1 << i));
        steps.flat_map(move |step| [self.now + step, self.now - step]).filter(move |value| (from..=to).contains(value))
    }

    /// Rounded away from where it is, to what can be read off and typed.
    pub fn rounded(&self, value: f64, shop: &Shop) -> f64 {
        let step = Units::from(shop).least_shown(self.row.quantity);
        let steps = value / step;
        step * if value > self.now { (steps - 1e-6).ceil() } else { (steps + 1e-6).floor() }
    }
}

/// Every value that a turner would change for this check, the likeliest first: the one that the check names, then blank
/// and axes, then the rest of the cut it names. Choices of a pattern say themselves how likely they are.
pub(super) fn values(design: &Design, check: &Check) -> Vec<Value> {
    let titled: Vec<Section> = Group::ALL.into_iter().flat_map(|group| sections(design, group)).collect();
    let named = |section: &Section| {
        let title = section.title.clone();
        section.fields.clone().into_iter().map(move |field| (title.clone(), field))
    };
    let mut fields: Vec<(String, Field)> = titled.iter().flat_map(named).collect();
    let own = check.field.as_deref().unwrap_or_default();
    let cut = own.strip_prefix("cuts[").and_then(|rest| rest.split_once(']')?.0.parse::<usize>().ok());
    if let Some(cut) = cut {
        let of_cut = titled.iter().find(|section| section.key.cut() == Some(cut));
        let title = of_cut.map_or("Its profile", |section| section.title.as_str());
        let point = |i: usize| {
            let values = Field::of_node(design, cut, i).into_iter().chain(Field::of_point(design, cut, i));
            values.map(move |field| (format!("{title}, point {}", i + 1), field))
        };
        fields.extend((0..point_count(design, cut)).flat_map(point));
    }
    let rank = |field: Field| match field {
        field if field.path(design) == own => Some(0),
        Field::Choice(place) => design.pattern.as_ref().and_then(|pattern| pattern.choices.look(place)?.cures),
        Field::BlankWidth | Field::AxisCrossing(_) => Some(1),
        Field::AxisTilt(_) | Field::BlankLength => Some(2),
        Field::NodeDiameter(..) | Field::BoreDepth(_) | Field::BoreDiameter(_) | Field::SawHeight(..) => Some(3),
        Field::PassFrom(_) | Field::PassTo(_) | Field::PlaneAt(_) | Field::NodeAt(..) => Some(4),
        Field::TailX(_) | Field::TailY(_) | Field::HeadX(_) | Field::HeadY(_) | Field::AcrossStation(_) => Some(4),
        _ => None,
    };
    let value = |(title, field): (String, Field)| {
        let (now, row) = (field.number(design)?, field.row(design));
        Some((rank(field)?, Value { called: format!("{title}: {}", row.label), field, row, now }))
    };
    let mut values: Vec<(i32, Value)> = fields.into_iter().filter_map(value).collect();
    sort_by_number(&mut values, |(rank, _)| f64::from(*rank));
    values.into_iter().map(|(_, value)| value).collect()
}
