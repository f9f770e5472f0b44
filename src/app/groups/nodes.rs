//! The nodes of a drawn profile: a list to pick from, and the picked node's values.

use leptos::prelude::*;

use super::picked::{Pickable, Picked};
use crate::app::state::state;
use crate::design::units::Quantity;
use crate::design::{Cut, Node};
use crate::drawings::HandleId;
use crate::form::edit::{CurveKind, can_remove_node, insert_node, remove_node, set_curve};
use crate::form::features::insert_feature;
use crate::form::{Field, Movable, nodes_of};

/// The nodes of a cut's profile.
#[component]
pub fn Nodes(cut: usize) -> impl IntoView {
    let state = state();
    let count =
        Memo::new(move |_| state.design.with(|design| design.cuts.get(cut).and_then(nodes_of).map_or(0, Vec::len)));
    view! {
        <h3>"Points"</h3>
        <p class="hint">"Pick a point here, or drag it in the side view."</p>
        <ul class="nodes">
            <For
                each=move || 0..count.get()
                key=|index| *index
                children=move |index| view! { <li><NodeButton cut=cut index=index /></li> }
            />
        </ul>
        <Picked cut=cut index=picked_node(cut, count) gaps=Memo::new(move |_| count.get().saturating_sub(1)) kind=NODE />
    }
    .into_any()
}

#[component]
fn NodeButton(cut: usize, index: usize) -> impl IntoView {
    let state = state();
    let here = handle(cut, index);
    let picked = move || state.picked.get() == Some(here);
    // One that is about to go keeps its last numbers.
    let node = Memo::new(move |last: Option<&Node>| {
        let now = state.design.with(|design| design.cuts.get(cut).and_then(nodes_of)?.get(index).copied());
        now.or(last.copied()).unwrap_or(Node::line(0.0, 0.0))
    });
    let length = move |value| state.units().show(value, Quantity::Length);
    view! {
        <button
            type="button"
            class="node"
            aria-pressed=move || picked().to_string()
            on:click=move |_| state.picked.set(if picked() { None } else { Some(here) })
        >
            <span class="unseen">{move || format!("Point {}: ", index + 1)}</span>
            <span class="node-at"><small>"at "</small>{move || length(node.get().at_mm)}</span>
            <span class="node-diameter"><small>"\u{2300} "</small>{move || length(node.get().diameter_mm)}</span>
        </button>
    }
    .into_any()
}

/// The nodes of a profile, to be picked.
const NODE: Pickable = Pickable {
    fields: Field::of_node,
    inserts: &[
        ("Add a point after it", insert_node),
        ("Add a bead", |design, cut, after| insert_feature(design, cut, after, CurveKind::Bead)),
        ("Add a cove", |design, cut, after| insert_feature(design, cut, after, CurveKind::Cove)),
        ("Add an ogee", |design, cut, after| insert_feature(design, cut, after, CurveKind::Ogee)),
    ],
    can_remove: can_remove_node,
    remove: remove_node,
    to_next: |cut, index| view! { <CurveChoice cut=cut index=index /> }.into_any(),
};

/// The picked node of a cut, if it is there.
fn picked_node(cut: usize, count: Memo<usize>) -> Memo<Option<usize>> {
    let state = state();
    Memo::new(move |_| {
        let picked = match state.picked.get() {
            Some(HandleId::Part(Movable::PassNode { cut: of, node } | Movable::HollowNode { cut: of, node })) => {
                (of == cut).then_some(node)
            }
            _ => None,
        };
        picked.filter(|index| *index < count.get())
    })
}

#[component]
fn CurveChoice(cut: usize, index: usize) -> impl IntoView {
    let state = state();
    let current = move || {
        let node = state.design.with(|design| design.cuts.get(cut).and_then(nodes_of)?.get(index).copied());
        node.map(|node| CurveKind::of(&node.curve))
    };
    let option = move |kind: CurveKind| {
        view! {
            <button
                type="button"
                class="segment"
                aria-pressed=move || (current() == Some(kind)).to_string()
                on:click=move |_| state.change(|design| set_curve(design, cut, index, kind))
            >
                {kind.name()}
            </button>
        }
    };
    view! {
        <div class="choice" role="group" aria-label="Curve to the next point">
            <span class="choice-label">"To the next point"</span>
            <div class="segments">{CurveKind::ALL.map(option).into_iter().collect_view()}</div>
        </div>
    }
    .into_any()
}

/// The handle of a node of a pass or of a hollow.
fn handle(cut: usize, node: usize) -> HandleId {
    let of_hollow = state().design.with_untracked(|design| matches!(design.cuts.get(cut), Some(Cut::Hollow(_))));
    HandleId::Part(if of_hollow { Movable::HollowNode { cut, node } } else { Movable::PassNode { cut, node } })
}
