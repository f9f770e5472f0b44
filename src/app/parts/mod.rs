//! The parts of the piece: every axis and cut in order, what may be done with each, and what may be added.

mod add;
mod doing;
mod part;

use leptos::prelude::*;

use super::state::{State, state};
use crate::figures::plan::other_order;
use crate::form::parts::{PartId, PartRow, parts};
use add::Add;
use part::Part;

/// Every axis and cut.
#[component]
pub fn PartsPanel() -> impl IntoView {
    let state = state();
    let rows = Memo::new(move |_| state.design.with(|design| parts(design, state.units())));
    let open = RwSignal::new(None::<PartId>);
    let keys = move || rows.with(|rows| rows.iter().map(|row| row.id).collect::<Vec<_>>());
    let children = move |id: PartId| {
        let row = Memo::new(move |last: Option<&Option<PartRow>>| {
            let now = rows.with(|rows| rows.iter().find(|row| row.id == id).cloned());
            now.or_else(|| last.cloned().flatten())
        });
        view! { <li><Part id=id row=row open=open /></li> }
    };
    view! {
        <section class="card" aria-labelledby="parts-title">
            <h2 id="parts-title">"Parts"</h2>
            <ul class="parts">
                <li><p>"Axis A: the blank's own"</p></li>
                <For each=keys key=|id| *id children=children />
            </ul>
            {order_of_work(state, rows)}
        </section>
        <Add open=open />
    }
    .into_any()
}

/// The order in which the plan works, where it is another than that of the list.
fn order_of_work(state: State, rows: Memo<Vec<PartRow>>) -> AnyView {
    let order =
        Memo::new(move |_| state.settled(|shape| state.design.with(|it| other_order(it, &shape.piece))).flatten());
    let title = move |cut: usize| {
        let row = rows.with(|rows| rows.iter().find(|row| row.id == PartId::Cut(cut)).map(|row| row.title.clone()));
        row.map(|title| view! { <li>{title}</li> })
    };
    let list = move |order: Vec<usize>| {
        view! {
            <div class="work-order">
                <p>"At the lathe the order is:"</p>
                <ol>{order.into_iter().map(title).collect_view()}</ol>
            </div>
        }
    };
    (move || order.get().map(list)).into_any()
}
