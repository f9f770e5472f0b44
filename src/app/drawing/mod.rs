//! The drawings on screen: tabs on a narrow screen, all together on a wide one.

mod board;
mod canvas;
mod chart;
mod closer;
mod hand;
mod side;
mod subject;
pub mod views;

use leptos::prelude::*;

pub use board::{Board, theme};
pub use chart::HoldChart;
pub use subject::Subject;

use super::later::{View, later};
use super::state::{Tab, state};

/// The drawings.
#[component]
pub fn Drawings() -> impl IntoView {
    let state = state();
    let narrow = move || {
        let tabs = vec![Tab::Side, Tab::Ends, Tab::Section, Tab::WallMap];
        view! {
            {move || drawing(state.tab.get())}
            <Tabs tabs=tabs shown=state.tab />
        }
    };
    let other = RwSignal::new(Tab::Section);
    let all = move || {
        view! {
            <div class="drawing-main">{drawing(Tab::Side)}</div>
            <div class="drawing-more">
                <div class="drawing-small"><h2>"Ends"</h2>{drawing(Tab::Ends)}</div>
                <div class="drawing-small">
                    <Tabs tabs=vec![Tab::Section, Tab::WallMap] shown=other />
                    {move || drawing(other.get())}
                </div>
            </div>
        }
    };
    view! {
        <section class="drawing" aria-label="Drawings">
            {move || if state.wide.get() { all().into_any() } else { narrow().into_any() }}
        </section>
    }
    .into_any()
}

fn drawing(tab: Tab) -> AnyView {
    match tab {
        Tab::Side => view! { <side::SideView /> }.into_any(),
        other => later(View::Drawing(other)),
    }
}

/// Which of some drawings is shown.
#[component]
fn Tabs(tabs: Vec<Tab>, shown: RwSignal<Tab>) -> impl IntoView {
    let button = move |tab: Tab| {
        view! {
            <button
                type="button"
                class="tab"
                aria-pressed=move || (shown.get() == tab).to_string()
                on:click=move |_| shown.set(tab)
            >
                {tab.name()}
            </button>
        }
    };
    view! { <div class="tabs" role="group" aria-label="Drawing shown">{tabs.into_iter().map(button).collect_view()}</div> }
        .into_any()
}
