//! What may be added.

use leptos::prelude::*;

use super::doing::act;
use crate::app::state::state;
use crate::design::units::Quantity;
use crate::form::parts::{Beginning, Bench, Change, Kin, PartId, beginnings};

/// A button that shows every part that may be added.
#[component]
pub fn Add(open: RwSignal<Option<PartId>>) -> impl IntoView {
    let state = state();
    let asking = RwSignal::new(false);
    let all = Memo::new(move |_| {
        let here_mm = state.section_mm.get();
        let begun =
            |piece: &_, shop: &_| state.design.with(|design| beginnings(Bench { design, piece, here_mm, shop }));
        state.shape(|shape| state.shop.with(|shop| begun(&shape.piece, shop))).unwrap_or_default()
    });
    let begin = move |it: Beginning| {
        let (label, change) = (it.label, it.change);
        let Ok(change) = change else {
            return view! { <button type="button" class="button" disabled=true>{label}</button> }.into_any();
        };
        let press = move |_| {
            asking.set(false);
            act(state, open, &change, state.design.with_untracked(|design| new_part(design.axes.len(), &change)));
        };
        view! { <button type="button" class="button" on:click=press>{label}</button> }.into_any()
    };
    let kin = move |kin: Kin| {
        let of = all.get().into_iter().filter(|it| it.kin == kin).collect::<Vec<_>>();
        let why: Vec<_> = of.iter().filter_map(|it| Some((it.label.clone(), it.change.as_ref().err()?))).collect();
        let why = why
            .into_iter()
            .map(|(label, why)| view! { <p class="hint">{format!("{label}: {why}")}</p> })
            .collect_view();
        (!of.is_empty()).then(|| {
            view! {
                <h3>{kin.name()}</h3>
                <div class="buttons">{of.into_iter().map(begin).collect_view()}</div>
                {why}
            }
        })
    };
    let here = move || state.units().show_with_unit(state.section_mm.get(), Quantity::Length);
    let list = move || {
        view! {
            {Kin::ALL.map(kin).into_iter().collect_view()}
            <p class="hint">{move || format!("\u{201c}Here\u{201d} is {} from the bowl end: drag the square at the foot of the drawing.", here())}</p>
        }
    };
    view! {
        <section class="card" aria-label="Add a part">
            <button type="button" id="add-part" class="button" aria-expanded=move || asking.get().to_string()
                on:click=move |_| asking.update(|asking| *asking = !*asking)>
                "Add a part"
            </button>
            {move || asking.get().then(list)}
        </section>
    }
    .into_any()
}

/// The part that an addition brings: its first cut, else its axis.
fn new_part(axes: usize, change: &Change) -> Option<PartId> {
    let Change::Add(addition) = change else { return None };
    let before = |place: usize| addition.cuts.iter().skip(1).filter(|(other, _)| *other <= place).count();
    let cut = addition.cuts.first().map(|(place, _)| PartId::Cut(place + before(*place)));
    cut.or_else(|| addition.axis.map(|_| PartId::Axis(axes)))
}
