//! Cures of a check that is not ok: looked for when asked, each tried on the whole design, done with one press.

use leptos::prelude::*;

use super::searching::{Searching, Stage};
use super::state::state;
use crate::beside::{Found, Part, Work};
use crate::design::Design;
use crate::figures::checks::CheckName;

/// A button that looks for cures, and what it found.
#[component]
pub fn CureFinder(
    /// The check that is not ok.
    name: CheckName,
) -> impl IntoView {
    let state = state();
    let searching = Searching::<(Vec<Found>, String)>::new();
    // What cures another design says nothing of this one.
    Effect::new(move |before: Option<()>| {
        state.design.track();
        state.shop.track();
        if before.is_some() {
            searching.stop();
        }
    });
    let start = move |_| {
        let (design, shop) = (state.made.get_untracked(), state.shop.get_untracked());
        searching.begin(Work::Cures { design, shop, name }, |part| match part {
            Part::Cures { found, why_none } => Some((found, why_none)),
            _ => None,
        });
    };
    let shown = move || match searching.stage() {
        Stage::Idle => view! {
            <button type="button" class="button" on:click=start>
                "Find a cure"<span class="unseen">{format!(" for {}", name.title())}</span>
            </button>
        }
        .into_any(),
        Stage::Searching(tried) => view! {
            <span role="status">{format!("Trying changes: {tried} so far\u{2026}")}</span>
            <button type="button" class="button" on:click=move |_| searching.stop()>"Stop"</button>
        }
        .into_any(),
        Stage::Answered((found, why_none)) if found.is_empty() => view! {
            <p role="status">{why_none}</p>
        }
        .into_any(),
        Stage::Answered((found, _)) => found.into_iter().map(one).collect_view().into_any(),
    };
    view! { <div class="cures">{shown}</div> }.into_any()
}

/// What was tried is the piece: ticks and log stay as they are.
fn cured(now: &mut Design, cure: &Design) {
    let Design { done, log, .. } = std::mem::replace(now, cure.clone());
    (now.done, now.log) = (done, log);
}

/// One cure, to be done with one press and undone in one step.
fn one(cure: Found) -> AnyView {
    let state = state();
    let design = cure.design;
    view! {
        <div class="offer">
            <p>{cure.words}</p>
            <button type="button" class="button" on:click=move |_| state.change(|now| cured(now, &design))>
                "Do it"
            </button>
        </div>
    }
    .into_any()
}
