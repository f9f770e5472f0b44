//! The panel of a group: its sections, each with its values and what else belongs to it.

mod handle;
pub mod nodes;
pub mod outside;
pub mod plug;
pub mod saw;
pub mod wood;

use leptos::prelude::*;

use super::later::{View, quietly_later};
use super::sound::sound_ranges;
use super::state::state;
use super::value_row::{NewValue, RowLook, ValueRow};
use crate::design::Cut;
use crate::design::edit::leave_to_shop;
use crate::design::fields::{Field, nodes_of};
use crate::design::rows::{Group, Row, Section, sections, shop_value};

/// What tells one section from another while values change.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
struct SectionKey {
    cut: Option<usize>,
    axis: Option<usize>,
    title: String,
}

impl From<&Section> for SectionKey {
    fn from(section: &Section) -> Self {
        Self { cut: section.cut, axis: section.axis, title: section.title.clone() }
    }
}

/// All values of a group.
#[component]
pub fn GroupPanel(group: Group) -> impl IntoView {
    let state = state();
    let all = Memo::new(move |_| state.design.with(|design| sections(design, group)));
    let keys = move || all.with(|all| all.iter().map(SectionKey::from).collect::<Vec<_>>());
    let children = move |key: SectionKey| {
        let found = key.clone();
        let rows = Memo::new(move |_| {
            all.with(|all| all.iter().find(|it| SectionKey::from(*it) == found).map(|it| it.rows.clone()))
                .unwrap_or_default()
        });
        let extra = extra(group, &key);
        view! {
            <section class="card">
                <h2>{key.title}</h2>
                <Rows rows=rows />
                {extra}
            </section>
        }
    };
    view! {
        {(group == Group::Wood).then(|| quietly_later(View::WoodChoices))}
        <For each=keys key=SectionKey::clone children=children />
        {(group == Group::Handle).then(handle::cautions)}
    }
    .into_any()
}

/// What a section shows besides its numbers.
fn extra(group: Group, key: &SectionKey) -> Option<AnyView> {
    let Some(cut) = key.cut else {
        return match (group, key.title.as_str()) {
            (Group::Wood, "Blank") => Some(quietly_later(View::Blank)),
            (Group::Wood, "In use") => Some(quietly_later(View::UseChoice)),
            _ => None,
        };
    };
    let state = state();
    let view = state.design.with_untracked(|design| match design.cuts.get(cut)? {
        Cut::Pass(_) => Some(View::PassProfile(cut)),
        choice @ Cut::Hollow(_) => nodes_of(choice).map(|_| View::Nodes(cut)),
        Cut::FitPlug(_) => Some(View::PlugTenon(cut)),
        Cut::Saw(_) => Some(View::SawLine(cut)),
        _ => None,
    });
    view.map(quietly_later)
}

/// Value rows of the design, each kept as long as its field is there.
#[component]
pub fn Rows(#[prop(into)] rows: Signal<Vec<Row>>) -> impl IntoView {
    let fields = move || rows.with(|rows| rows.iter().map(|row| row.field).collect::<Vec<_>>());
    view! { <For each=fields key=|field| *field children=move |field| view! { <FieldRow field=field rows=rows /> } /> }
        .into_any()
}

#[component]
fn FieldRow(field: Field, rows: Signal<Vec<Row>>) -> impl IntoView {
    let state = state();
    let Some(first) = rows.with_untracked(|rows| rows.iter().find(|row| row.field == field).cloned()) else {
        return ().into_any();
    };
    // A row that is about to go keeps its last look.
    let row = Memo::new(move |last: Option<&Row>| {
        let now = rows.with(|rows| rows.iter().find(|row| row.field == field).cloned());
        now.or_else(|| last.cloned()).unwrap_or_else(|| first.clone())
    });
    let look = Signal::derive(move || {
        row.with(|row| RowLook {
            label: row.label.clone(),
            quantity: row.quantity,
            bound: row.bound,
            from: row.from,
            to: row.to,
            fine: row.fine,
            note: row.note,
        })
    });
    let own = Memo::new(move |_| state.design.with(|design| field.number(design)));
    let of_shop = move || state.shop.with(|shop| shop_value(field, &shop.limits));
    let value =
        Memo::new(move |last: Option<&f64>| own.get().or_else(of_shop).or_else(|| last.copied()).unwrap_or_default());
    let set = Callback::new(move |new: NewValue| state.set_number(field, new.value, new.sweeping));
    let path = state.design.with_untracked(|design| field.path(design));
    let ranges = sound_ranges();
    let sound = Memo::new(move |_| ranges.of(field));
    let to_shop = move || {
        let differs = field.may_be_left_to_the_shop() && own.get().is_some();
        differs.then(|| {
            view! {
                <button type="button" class="button quiet" on:click=move |_| state.change(|design| leave_to_shop(design, field))>
                    "Use the shop's"
                </button>
            }
        })
    };
    view! {
        <ValueRow path=path look=look value=Signal::derive(move || value.get()) set=set sound=sound />
        {to_shop}
    }
    .into_any()
}
