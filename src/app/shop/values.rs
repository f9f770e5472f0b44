//! The shop's numbers.

use leptos::prelude::*;

use crate::app::state::state;
use crate::app::value_row::{NewValue, RowLook, ValueRow};
use crate::design::shop_rows::{ShopRow, set_number, shop_sections};

/// Lathe, chuck, centres and limits.
#[component]
pub fn ShopValues() -> impl IntoView {
    let section = |(title, note, rows): (&'static str, &'static str, Vec<ShopRow>)| {
        view! {
            <section class="card">
                <h2>{title}</h2>
                {(!note.is_empty()).then(|| view! { <p class="hint">{note}</p> })}
                {rows.into_iter().map(|row| view! { <ShopValue row=row /> }).collect_view()}
            </section>
        }
    };
    shop_sections().into_iter().map(section).collect_view().into_any()
}

#[component]
fn ShopValue(row: ShopRow) -> impl IntoView {
    let state = state();
    let look = RowLook {
        label: row.label.to_owned(),
        quantity: row.quantity,
        bound: row.bound,
        from: row.from,
        to: row.to,
        fine: row.fine,
        note: row.note,
    };
    let value = Signal::derive(move || state.shop.with(|shop| (row.get)(shop)));
    let set = Callback::new(move |new: NewValue| {
        let changed =
            set_number(&state.shop.get_untracked(), &row, new.value).map_err(|problem| state.told(&problem))?;
        state.shop.set(changed);
        Ok(())
    });
    view! { <ValueRow path=format!("shop.{}", row.path) look=Signal::stored(look) value=value set=set /> }
}
