//! The bits owned.

use leptos::prelude::*;

use crate::app::notice::Notice;
use crate::app::state::state;
use crate::app::value_row::{NewValue, ValueRow};
use crate::design::BitKind;
use crate::design::units::Quantity;
use crate::form::bits::{BitNumber, add_bit, bit_kind_name, set_bit_kind, set_bit_number};

/// The list of bits, each to open.
#[component]
pub fn Bits() -> impl IntoView {
    let state = state();
    let open = RwSignal::new(None::<usize>);
    let count = Memo::new(move |_| state.shop.with(|shop| shop.bits.len()));
    // The same bit stays open as it is while the list grows.
    let shown = Memo::new(move |_| open.get().filter(|index| *index < count.get()));
    let add = move |_| {
        state.shop.update(add_bit);
        open.set(count.get_untracked().checked_sub(1));
    };
    view! {
        <section class="card">
            <h2>"Bits you own"</h2>
            <p class="hint">"The boring schedule uses only these."</p>
            <ul class="nodes">
                <For
                    each=move || 0..count.get()
                    key=|index| *index
                    children=move |index| view! { <li><BitButton index=index open=open /></li> }
                />
            </ul>
            {move || shown.get().map(|index| view! { <BitValues index=index open=open /> })}
            <button type="button" class="button" on:click=add>"Add a bit"</button>
        </section>
    }
    .into_any()
}

#[component]
fn BitButton(index: usize, open: RwSignal<Option<usize>>) -> impl IntoView {
    let state = state();
    let is_open = move || open.get() == Some(index);
    let words = move || {
        state.shop.with(|shop| {
            let bit = shop.bits.get(index)?;
            Some((bit_kind_name(bit.kind), state.units().show(bit.diameter_mm, Quantity::Length)))
        })
    };
    view! {
        <button
            type="button"
            class="node"
            aria-expanded=move || is_open().to_string()
            on:click=move |_| open.set(if is_open() { None } else { Some(index) })
        >
            {move || words().map(|(kind, diameter)| view! {
                <span class="node-at"><small>{kind}</small></span>
                <span class="node-diameter"><small>"\u{2300} "</small>{diameter}</span>
            })}
        </button>
    }
    .into_any()
}

#[component]
fn BitValues(index: usize, open: RwSignal<Option<usize>>) -> impl IntoView {
    let state = state();
    let number = move |which: BitNumber| {
        let row = which.row();
        let value = Signal::derive(move || state.shop.with(|shop| which.of(shop, index)));
        let set = Callback::new(move |new: NewValue| {
            let changed = set_bit_number(&state.shop.get_untracked(), index, which, new.value);
            state.shop.set(changed.map_err(|problem| state.told(&problem))?);
            Ok(())
        });
        view! { <ValueRow path=format!("shop.bits[{index}].{}", row.label) row=Signal::stored(row) value=value set=set /> }
    };
    let kind = move |kind: BitKind| {
        let pressed = move || state.shop.with(|shop| shop.bits.get(index).is_some_and(|bit| bit.kind == kind));
        view! {
            <button type="button" class="segment" aria-pressed=move || pressed().to_string()
                on:click=move |_| state.shop.update(|shop| set_bit_kind(shop, index, kind))>
                {bit_kind_name(kind)}
            </button>
        }
    };
    let remove = move |_| {
        let Some(bit) = state.shop.with_untracked(|shop| shop.bits.get(index).copied()) else { return };
        open.set(None);
        state.shop.update(|shop| {
            shop.bits.remove(index);
        });
        let put_back = move || state.shop.update(|shop| shop.bits.insert(index.min(shop.bits.len()), bit));
        state.notices.say(Notice::plain("The bit is taken off the list.").with_action("Put it back", put_back));
    };
    let kinds = [BitKind::Forstner, BitKind::Sawtooth, BitKind::Spade, BitKind::Twist];
    view! {
        <div class="picked">
            <div class="choice" role="group" aria-label="Kind of bit">
                <span class="choice-label">"Kind"</span>
                <div class="segments">{kinds.map(kind).into_iter().collect_view()}</div>
            </div>
            {BitNumber::ALL.map(number).into_iter().collect_view()}
            <button type="button" class="button" on:click=remove>"Take it off the list"</button>
        </div>
    }
    .into_any()
}
