//! The checks that stop: what Steps and Lathe begin with, and what the lathe asks before it goes on.

use leptos::prelude::*;

use super::checks::one_check;
use super::state::{State, state};
use super::steps::Steps;
use crate::figures::checks::{Check, Verdict, stops_by_name};
use crate::figures::plan::stops_at;

/// The checks that stop, by name; `None` while none does.
pub fn stop_names(state: State) -> Option<String> {
    state.figure(|worked| stops_by_name(&worked.checks)).flatten()
}

/// The checks that stop and concern a step.
pub fn stops_of_step(state: State, steps: Steps, number: usize) -> Vec<Check> {
    let kind = steps.with_step(number, |step| step.kind);
    let stops = |kind| state.figure(|worked| stops_at(&worked.checks, kind).cloned().collect::<Vec<_>>());
    kind.and_then(stops).unwrap_or_default()
}

/// A list of checks, each with its cure and a way to the value.
pub fn check_list(checks: Vec<Check>) -> AnyView {
    view! { <ul class="checks">{checks.into_iter().map(one_check).collect_view()}</ul> }.into_any()
}

/// Every check that stops, with its cure; nothing where none does.
#[component]
pub fn Stops() -> impl IntoView {
    let state = state();
    let stops = Memo::new(move |_| {
        let of_it = |check: &&Check| check.verdict == Verdict::Stop;
        state.figure(|worked| worked.checks.iter().filter(of_it).cloned().collect::<Vec<_>>()).unwrap_or_default()
    });
    let names = Memo::new(move |_| stop_names(state));
    let card = move |names: String| {
        view! {
            <section class="card stops" aria-labelledby="stops">
                <h2 id="stops">"Stop: "{names}</h2>
                <p>"Change the design before you cut."</p>
                {move || check_list(stops.get())}
            </section>
        }
    };
    (move || names.get().map(card)).into_any()
}
