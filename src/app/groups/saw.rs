//! The saw line: straight or an arc, and its points.

use leptos::prelude::*;

use super::picked::{Pickable, Picked};
use crate::app::state::state;
use crate::design::units::Quantity;
use crate::design::{Cut, SawPath};
use crate::drawings::HandleId;
use crate::form::edit::{can_remove_saw_point, insert_saw_point, remove_saw_point, set_saw_arc};
use crate::form::{Field, Movable};

/// A saw cut's line.
#[component]
pub fn SawLine(cut: usize) -> impl IntoView {
    let state = state();
    let path = Memo::new(move |_| {
        state.design.with(|design| match design.cuts.get(cut) {
            Some(Cut::Saw(saw)) => match &saw.path {
                SawPath::Arc { .. } => (true, 2),
                SawPath::Lines { points } => (false, points.len()),
            },
            _ => (false, 0),
        })
    });
    // An arc takes no further points.
    let gaps = Memo::new(move |_| if path.get().0 { 0 } else { path.get().1.saturating_sub(1) });
    let option = move |arc: bool, name: &'static str| {
        view! {
            <button
                type="button"
                class="segment"
                aria-pressed=move || (path.get().0 == arc).to_string()
                on:click=move |_| {
                    if path.get_untracked().0 != arc {
                        state.picked.set(None);
                        state.change(|design| set_saw_arc(design, cut, arc));
                    }
                }
            >
                {name}
            </button>
        }
    };
    view! {
        <div class="choice" role="group" aria-label="Saw line">
            <span class="choice-label">"Saw line"</span>
            <div class="segments">{option(false, "Straight")} {option(true, "Arc")}</div>
        </div>
        <p class="hint">"What is above the line goes. Pick a point here, or drag it in the side view."</p>
        <ul class="nodes">
            <For
                each=move || 0..path.get().1
                key=|index| *index
                children=move |index| view! { <li><PointButton cut=cut index=index /></li> }
            />
        </ul>
        <Picked cut=cut index=picked_point(cut, move || path.get().1) gaps=gaps kind=POINT />
        <p class="caution">
            "Saw with the piece held in a vice or a cradle, never in the hand, and the lathe unplugged or out of the way."
        </p>
    }
    .into_any()
}

#[component]
fn PointButton(cut: usize, index: usize) -> impl IntoView {
    let state = state();
    let here = HandleId::Part(Movable::SawPoint { cut, point: index });
    let picked = move || state.picked.get() == Some(here);
    let length = move |field: Field| {
        let value = state.design.with(|design| field.number(design));
        value.map(|value| state.units().show(value, Quantity::Length))
    };
    view! {
        <button
            type="button"
            class="node"
            aria-pressed=move || picked().to_string()
            on:click=move |_| state.picked.set(if picked() { None } else { Some(here) })
        >
            <span class="unseen">{format!("Point {}: ", index + 1)}</span>
            <span class="node-at"><small>"at "</small>{move || length(Field::SawAt(cut, index))}</span>
            <span class="node-diameter"><small>"height "</small>{move || length(Field::SawHeight(cut, index))}</span>
        </button>
    }
    .into_any()
}

/// The points of a saw line, to be picked.
const POINT: Pickable = Pickable {
    fields: Field::of_point,
    inserts: &[("Add a point after it", insert_saw_point)],
    can_remove: |design, cut, _| can_remove_saw_point(design, cut),
    remove: remove_saw_point,
    to_next: |_, _| ().into_any(),
};

/// The picked point of a saw line, if it is there.
fn picked_point(cut: usize, count: impl Fn() -> usize + Send + Sync + 'static) -> Memo<Option<usize>> {
    let state = state();
    Memo::new(move |_| {
        let picked = match state.picked.get() {
            Some(HandleId::Part(Movable::SawPoint { cut: of, point })) if of == cut => Some(point),
            _ => None,
        };
        picked.filter(|index| *index < count())
    })
}
