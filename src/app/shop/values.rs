//! The shop's numbers.

use leptos::prelude::*;

use crate::app::state::state;
use crate::app::value_row::{NewValue, ValueRow};
use crate::form::{ShopField, ShopSection, shop_sections};

/// Lathe, chuck, centres and limits.
#[component]
pub fn ShopValues() -> impl IntoView {
    let section = |ShopSection { title, note, fields }| {
        view! {
            <section class="card">
                <h2>{title}</h2>
                {(!note.is_empty()).then(|| view! { <p class="hint">{note}</p> })}
                {fields.into_iter().map(|field| view! { <ShopValue field=field /> }).collect_view()}
            </section>
        }
    };
    shop_sections().into_iter().map(section).collect_view().into_any()
}

#[component]
fn ShopValue(field: ShopField) -> impl IntoView {
    let state = state();
    let value = Signal::derive(move || state.shop.with(|shop| (field.get)(shop)));
    let set = Callback::new(move |new: NewValue| {
        let changed = field.set(&state.shop.get_untracked(), new.value).map_err(|problem| state.told(&problem))?;
        state.shop.set(changed);
        Ok(())
    });
    view! { <ValueRow path=format!("shop.{}", field.path) row=Signal::stored(field.row) value=value set=set /> }
}
