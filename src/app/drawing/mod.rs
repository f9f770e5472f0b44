//! The drawings on screen: tabs on a narrow screen, all together on a wide one.

mod board;
mod side;
mod views;

use leptos::prelude::*;

use super::state::{State, Tab, state};
use crate::drawings::Theme;

/// The drawings.
#[component]
pub fn Drawings() -> impl IntoView {
    let state = state();
    let narrow = move || match state.tab.get() {
        Tab::Side => view! { <side::SideView /> }.into_any(),
        Tab::Ends => view! { <views::EndsView /> }.into_any(),
        Tab::Section => view! { <views::SectionView /> }.into_any(),
        Tab::WallMap => view! { <views::WallMapView /> }.into_any(),
    };
    let all = move || {
        view! {
            <div class="drawing-main"><side::SideView /></div>
            <div class="drawing-more">
                <div class="drawing-small"><h2>"Ends"</h2><views::EndsView /></div>
                <div class="drawing-small"><h2>"Section"</h2><views::SectionView /></div>
                <div class="drawing-small"><h2>"Wall map"</h2><views::WallMapView /></div>
            </div>
        }
    };
    view! {
        <section class="drawing" aria-label="Drawings">
            {move || if state.wide.get() { all().into_any() } else { view! { {narrow} <Tabs /> }.into_any() }}
        </section>
    }
    .into_any()
}

/// Which drawing is shown on a narrow screen.
#[component]
fn Tabs() -> impl IntoView {
    let state = state();
    let tabs = [(Tab::Side, "Side view"), (Tab::Ends, "Ends"), (Tab::Section, "Section"), (Tab::WallMap, "Wall map")];
    let button = move |(tab, name): (Tab, &'static str)| {
        view! {
            <button
                type="button"
                class="tab"
                aria-pressed=move || (state.tab.get() == tab).to_string()
                on:click=move |_| state.tab.set(tab)
            >
                {name}
            </button>
        }
    };
    view! { <div class="tabs" role="group" aria-label="Drawing shown">{tabs.map(button).into_iter().collect_view()}</div> }
        .into_any()
}

/// The colours of drawings, as chosen and as the device is set.
fn theme(state: State) -> Signal<Theme> {
    Signal::derive(move || if state.dark() { Theme::DARK } else { Theme::LIGHT })
}
