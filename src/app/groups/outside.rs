//! A pass's profile: the proposed join, or drawn by hand; and what it shapes together with others.

use leptos::prelude::*;

use super::nodes::Nodes;
use super::wood::Choice;
use crate::app::state::state;
use crate::design::units::Quantity;
use crate::design::{Cut, Node, PassProfile};
use crate::form::edit::{draw_pass, use_join};
use crate::form::{shape_together, together_names, together_now};

/// Join or drawn, with what belongs to either.
#[component]
pub fn PassProfileChoice(cut: usize) -> impl IntoView {
    let state = state();
    let is_join = Memo::new(move |_| {
        state.design.with(
            |design| matches!(design.cuts.get(cut), Some(Cut::Pass(pass)) if matches!(pass.profile, PassProfile::Join)),
        )
    });
    let has_join = Memo::new(move |_| {
        state.figure(|worked| worked.figures.joins.iter().any(|join| join.cut == cut)).unwrap_or(false)
    });
    let profile = move || {
        match (is_join.get(), has_join.get()) {
            (true, _) => view! { <ProposedJoin cut=cut /> }.into_any(),
            (false, true) => view! { <Nodes cut=cut /><BackToJoin cut=cut /> }.into_any(),
            (false, false) => view! { <Nodes cut=cut /> }.into_any(),
        }
        .into_any()
    };
    view! { {profile} <ShapesWith cut=cut /> }.into_any()
}

/// The passes with which a pass shapes one part, where there are any to pick from.
#[component]
fn ShapesWith(cut: usize) -> impl IntoView {
    let state = state();
    let names = Memo::new(move |_| state.design.with(|design| together_names(design, cut)));
    let has_names = Memo::new(move |_| names.with(|names| !names.is_empty()));
    let current = move || state.design.with(|design| together_now(design, cut));
    let choose = move |name: String| state.change(|design| shape_together(design, cut, &name));
    let choice = move || {
        view! {
            <Choice label="Shapes one part with" names=names.into() current=Signal::derive(current) chosen=Callback::new(choose) />
            <p class="hint">"Passes of one part overlap on purpose: none of them has to leave wood for another."</p>
        }
    };
    (move || has_names.get().then(choice)).into_any()
}

#[component]
fn ProposedJoin(cut: usize) -> impl IntoView {
    let state = state();
    let ends = move || {
        state
            .figure(|worked| {
                let join = worked.figures.joins.iter().find(|join| join.cut == cut)?;
                Some(join.tapers.iter().map(|end| (end.at_mm, end.diameter_mm)).collect::<Vec<_>>())
            })
            .flatten()
            .unwrap_or_default()
    };
    let rows = move || {
        let length = |value| state.units().show_with_unit(value, Quantity::Length);
        ends()
            .into_iter()
            .map(|(at, diameter)| view! { <tr><td>{length(at)}</td><td>{length(diameter)}</td></tr> })
            .collect_view()
    };
    let draw = move |_| {
        let nodes = ends().into_iter().map(|(at, diameter)| Node::line(at, diameter)).collect();
        state.change(|design| draw_pass(design, cut, nodes));
    };
    view! {
        <p class="hint">
            "Skewline proposes this profile: the slimmest that keeps the wall and leaves what the next axis needs, in
            straight tapers."
        </p>
        <table class="figures-table">
            <caption class="unseen">"Diameters of the proposed join"</caption>
            <thead><tr><th scope="col">"From the bowl end"</th><th scope="col">"Leave"</th></tr></thead>
            <tbody>{rows}</tbody>
        </table>
        <button type="button" class="button" on:click=draw>"Draw it myself from the join"</button>
    }
    .into_any()
}

#[component]
fn BackToJoin(cut: usize) -> impl IntoView {
    let state = state();
    let back = move |_| {
        state.picked.set(None);
        state.change(|design| use_join(design, cut));
    };
    view! { <button type="button" class="button quiet" on:click=back>"Go back to the proposed join"</button> }
        .into_any()
}
