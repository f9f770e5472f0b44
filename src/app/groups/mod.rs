//! The panel of a group: its sections, each with its values and what else belongs to it.

pub mod handle;
pub mod nodes;
pub mod outside;
pub mod own;
mod picked;
pub mod plug;
pub mod saw;
pub mod wood;

use leptos::prelude::*;

use super::later::{View, quietly_later};
use super::mounting::mounting;
use super::state::state;
use super::stop_free::stop_free_ranges;
use super::value_row::{NewValue, ValueRow};
use crate::design::Cut;
use crate::form::edit::leave_to_shop;
use crate::form::own::not_moved_by;
use crate::form::{Field, Group, SectionKey, nodes_of, sections, shop_value};

/// All values of a group.
#[component]
pub fn GroupPanel(group: Group) -> impl IntoView {
    let state = state();
    let all = Memo::new(move |_| state.design.with(|design| sections(design, group)));
    // A heading may change with the values: what it heads is then built anew.
    let mounting = mounting();
    let keys = move || {
        all.with(|all| all.iter().take(mounting.rows()).map(|it| (it.key, it.title.clone())).collect::<Vec<_>>())
    };
    let children = move |(key, title): (SectionKey, String)| {
        let fields = Memo::new(move |_| {
            all.with(|all| all.iter().find(|it| it.key == key).map(|it| it.fields.clone())).unwrap_or_default()
        });
        let extra = extra(key);
        let of_pattern = state.design.with_untracked(|design| design.pattern.is_some());
        let mark = of_pattern.then(|| quietly_later(View::OwnMark(key)));
        view! {
            <section class="card">
                <h2>{title}</h2>
                <Rows fields=fields />
                {extra}
                {mark}
            </section>
        }
    };
    view! {
        {(group == Group::Whole).then(|| quietly_later(View::WholePiece))}
        {(group == Group::Wood).then(|| quietly_later(View::WoodChoices))}
        <For each=keys key=|section| section.clone() children=children />
        {(group == Group::Handle).then(|| quietly_later(View::SecondAxis))}
    }
    .into_any()
}

/// What a section shows besides its numbers.
fn extra(key: SectionKey) -> Option<AnyView> {
    let cut = match key {
        SectionKey::Choices(section) => return Some(quietly_later(View::ChoiceLists(section))),
        SectionKey::Blank => return Some(quietly_later(View::Blank)),
        SectionKey::InUse => return Some(quietly_later(View::UseChoice)),
        key => key.cut()?,
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
pub fn Rows(#[prop(into)] fields: Signal<Vec<Field>>) -> impl IntoView {
    let mounting = mounting();
    let built = move || fields.get().into_iter().take(mounting.rows());
    view! { <For each=built key=|field| *field children=move |field| view! { <FieldRow field=field /> } /> }.into_any()
}

#[component]
fn FieldRow(field: Field) -> impl IntoView {
    let state = state();
    let row = Memo::new(move |_| state.design.with(|design| field.row(design)));
    let own = Memo::new(move |_| state.design.with(|design| field.number(design)));
    let of_shop = move || state.shop.with(|shop| shop_value(field, &shop.limits));
    let value =
        Memo::new(move |last: Option<&f64>| own.get().or_else(of_shop).or_else(|| last.copied()).unwrap_or_default());
    let set = Callback::new(move |new: NewValue| state.set_number(field, new.value, new.sweeping));
    let path = state.design.with_untracked(|design| field.path(design));
    let ranges = stop_free_ranges();
    let range = Memo::new(move |_| ranges.of(field));
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
    let not_moved = Memo::new(move |_| state.design.with(|design| not_moved_by(design, field)));
    view! {
        <ValueRow path=path row=Signal::from(row) value=Signal::derive(move || value.get()) set=set range=range />
        {move || not_moved.get().map(|own| view! { <p class="hint">{own}</p> })}
        {to_shop}
    }
    .into_any()
}
