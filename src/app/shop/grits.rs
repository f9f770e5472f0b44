//! The grits that the shop sands through.

use leptos::prelude::*;

use crate::app::state::state;
use crate::app::text_field::kept_text;
use crate::form::set_grits;

/// One line with every grit, coarse to fine.
#[component]
pub fn Grits() -> impl IntoView {
    let state = state();
    let value = Signal::derive(move || {
        state.shop.with(|shop| shop.grits.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "))
    });
    let take = Callback::new(move |typed: String| {
        let changed = set_grits(&state.shop.get_untracked(), &typed).map_err(|problem| state.told(&problem))?;
        state.shop.set(changed);
        Ok(())
    });
    view! {
        <section class="card">
            <h2>"Sanding"</h2>
            {kept_text("shop.grits".to_owned(), "Grits, coarse to fine", "text", value, take)}
            <p class="hint">"The steps list them in this order."</p>
        </section>
    }
    .into_any()
}
