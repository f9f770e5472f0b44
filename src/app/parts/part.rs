//! One part: its row, and once it is open what may be done with it.

use leptos::prelude::*;

use super::doing::{act, row_id, show};
use crate::app::state::{VALUE_DRAFTS, state};
use crate::app::text_field::kept_text;
use crate::drawings::HandleId;
use crate::form::parts::{Change, Offer, Offered, PartId, PartRow, Way, changed, first_movable, offers};

/// A part of the list.
#[component]
pub fn Part(id: PartId, row: Memo<Option<PartRow>>, open: RwSignal<Option<PartId>>) -> impl IntoView {
    let state = state();
    let is_open = Memo::new(move |_| open.get() == Some(id));
    let is_off = matches!(id, PartId::Off(_));
    let title = move || row.with(|row| row.as_ref().map(|row| row.title.clone()));
    let extent = move || row.with(|row| row.as_ref().map(|row| row.extent.clone()));
    view! {
        <button
            type="button"
            id=row_id(id)
            class="node"
            class:off=is_off
            aria-expanded=move || is_open.get().to_string()
            on:click=move |_| show(state, open, if is_open.get_untracked() { None } else { Some(id) })
        >
            <span class="node-name">{title}</span>
            <small>{is_off.then_some("off, ")} {extent}</small>
        </button>
        {move || is_open.get().then(|| view! { <Actions id=id row=row open=open /> })}
    }
    .into_any()
}

/// What may be done with a part.
#[component]
fn Actions(id: PartId, row: Memo<Option<PartRow>>, open: RwSignal<Option<PartId>>) -> impl IntoView {
    let state = state();
    let all = Memo::new(move |_| state.design.with(|design| offers(design, id)));
    let of = move |group: Offered| {
        let all = all.get();
        all.into_iter().filter(|offer| offer.group == group).collect::<Vec<_>>()
    };
    let button = move |offer: Offer| view! { <OfferButton id=id offer=offer open=open /> };
    let round = move || {
        let offers = of(Offered::Round);
        let what = if matches!(id, PartId::Axis(_)) { "Another axis, turned" } else { "Copy, turned about the centre" };
        (!offers.is_empty()).then(|| {
            view! {
                <div class="choice" role="group" aria-label=what>
                    <span class="choice-label">{what}</span>
                    <div class="segments">{offers.into_iter().map(button).collect_view()}</div>
                </div>
            }
        })
    };
    let why_not = move || {
        let why = all.with(|all| {
            all.iter().find_map(|offer| offer.why_not.as_ref().map(|why| (offer.label.clone(), state.told(why))))
        });
        why.map(|(label, why)| view! { <p class="hint">{format!("Not to be had: {label}. {why}")}</p> })
    };
    let has_values = Memo::new(move |_| state.design.with(|design| first_movable(design, id)));
    let values = move || {
        has_values.get().map(|thing| {
            view! {
                <button type="button" class="button" on:click=move |_| state.pick(HandleId::Part(thing))>"Its values"</button>
            }
        })
    };
    view! {
        <div class="picked">
            {name_field(id, row)}
            <div class="buttons">{values} {move || of(Offered::Plainly).into_iter().map(button).collect_view()}</div>
            {round}
            {why_not}
        </div>
    }
    .into_any()
}

#[component]
fn OfferButton(id: PartId, offer: Offer, open: RwSignal<Option<PartId>>) -> impl IntoView {
    let state = state();
    let (change, is_refused) = (offer.change, offer.why_not.is_some());
    let press = move |_| act(state, open, &change, stands_after(id, &change));
    view! { <button type="button" class="button" disabled=is_refused on:click=press>{offer.label}</button> }.into_any()
}

/// The part that is open after a change.
fn stands_after(id: PartId, change: &Change) -> Option<PartId> {
    match (change, id) {
        (Change::Move(_, way), PartId::Cut(place)) => Some(PartId::Cut(moved(place, *way))),
        (Change::Move(_, way), PartId::Axis(place)) => Some(PartId::Axis(moved(place, *way))),
        (Change::Copy(cut), _) => Some(PartId::Cut(cut + 1)),
        (Change::Remove(_) | Change::SwitchOn(_), _) | (Change::SwitchOff(_), PartId::Cut(_)) => None,
        _ => Some(id),
    }
}

const fn moved(place: usize, way: Way) -> usize {
    match way {
        Way::Earlier => place.saturating_sub(1),
        Way::Later => place + 1,
    }
}

/// The name of a pass, to be typed over.
fn name_field(id: PartId, row: Memo<Option<PartRow>>) -> Option<AnyView> {
    let (PartId::Cut(cut), Some(_)) = (id, row.with_untracked(|row| row.as_ref()?.name.clone())) else { return None };
    let state = state();
    let kept = move || row.with(|row| row.as_ref().and_then(|row| row.name.clone())).unwrap_or_default();
    let take = move |name: String| {
        let renamed = changed(&state.design.get_untracked(), &Change::Rename(cut, name));
        renamed.map(|design| state.take(design, None)).map_err(|problem| state.told(&problem))
    };
    let path = format!("{VALUE_DRAFTS}cuts[{cut}].name");
    Some(kept_text(path, "Name", "text", Signal::derive(kept), Callback::new(take)))
}
