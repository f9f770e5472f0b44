//! The nodes of a drawn profile: a list to pick from, and the picked node's values.

use leptos::prelude::*;

use super::Rows;
use crate::app::state::state;
use crate::design::units::Quantity;
use crate::design::{Cut, Node};
use crate::drawings::HandleId;
use crate::form::edit::{CurveKind, can_remove_node, insert_node, remove_node, set_curve};
use crate::form::{Field, Movable, nodes_of};

/// The nodes of a cut's profile.
#[component]
pub fn Nodes(cut: usize) -> impl IntoView {
    let state = state();
    let count =
        Memo::new(move |_| state.design.with(|design| design.cuts.get(cut).and_then(nodes_of).map_or(0, Vec::len)));
    view! {
        <h3>"Nodes"</h3>
        <p class="hint">"Pick a point here, or drag it in the side view."</p>
        <ul class="nodes">
            <For
                each=move || 0..count.get()
                key=|index| *index
                children=move |index| view! { <li><NodeButton cut=cut index=index /></li> }
            />
        </ul>
        <PickedNode cut=cut count=count />
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
            <span class="unseen">{move || format!("Node {}: ", index + 1)}</span>
            <span class="node-at"><small>"at "</small>{move || length(node.get().at_mm)}</span>
            <span class="node-diameter"><small>"\u{2300} "</small>{move || length(node.get().diameter_mm)}</span>
        </button>
    }
    .into_any()
}

#[component]
fn PickedNode(cut: usize, count: Memo<usize>) -> impl IntoView {
    let state = state();
    let index = Memo::new(move |_| {
        let picked = match state.picked.get() {
            Some(HandleId::Part(Movable::PassNode { cut: of, node } | Movable::HollowNode { cut: of, node })) => {
                (of == cut).then_some(node)
            }
            _ => None,
        };
        picked.filter(|index| *index < count.get())
    });
    move || {
        {
            index.get().map(|index| {
                let fields = Memo::new(move |_| state.design.with(|design| Field::of_node(design, cut, index)));
                let removable = move || state.design.with(|design| can_remove_node(design, cut, index));
                let has_next = move || index + 1 < count.get();
                let remove = move |_| {
                    state.picked.set(None);
                    state.change(|design| remove_node(design, cut, index));
                };
                view! {
                    <div class="picked">
                        <Rows fields=fields />
                        <Show when=has_next>
                            <CurveChoice cut=cut index=index />
                        </Show>
                        <div class="buttons">
                            <Show when=has_next>
                                <button type="button" class="button"
                                    on:click=move |_| state.change(|design| insert_node(design, cut, index))>
                                    "Add a point after it"
                                </button>
                            </Show>
                            <Show when=removable>
                                <button type="button" class="button" on:click=remove>"Remove point"</button>
                            </Show>
                        </div>
                    </div>
                }
            })
        }
        .into_any()
    }
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
