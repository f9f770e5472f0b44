//! The design on the bench: drawing, figures, and the panel of values.

use leptos::html;
use leptos::prelude::*;

use super::drawing::Drawings;
use super::figures_line::FiguresLine;
use super::groups::GroupPanel;
use super::later::{View, later};
use super::mounting::{Part, mounting};
use super::state::{Panel, Room, state};
use super::top_row::TopRow;
use crate::form::Group;

/// The room of the design.
#[component]
pub fn DesignRoom() -> impl IntoView {
    let state = state();
    let (wide, mounting) = (move || state.wide.get(), mounting());
    view! {
        <div class="design" class:folded=move || !matches!(state.panel.get(), Panel::Values(_) | Panel::Parts)>
            {mounting.when(Part::Top, || view! { <TopRow /> }.into_any())}
            {mounting.when(Part::Drawings, || view! { <Drawings /> }.into_any())}
            {mounting.when(Part::Figures, || view! { <FiguresLine /> }.into_any())}
            {mounting.when(Part::Groups, || view! { <PanelTabs /> }.into_any())}
            <main class="panel" id="main" aria-label=move || state.panel.get().name()>
                <Show when=move || state.first_visit.get()><Welcome /></Show>
                {mounting.when(Part::Panel, move || (move || panel(state.panel.get(), wide())).into_any())}
            </main>
            <Show when=wide>
                <aside class="side-column" aria-label="Checks and marks">{later(View::Side)}</aside>
            </Show>
        </div>
    }
    .into_any()
}

/// What a first visitor reads before all else.
#[component]
fn Welcome() -> impl IntoView {
    let state = state();
    let leave = move || state.first_visit.set(false);
    let start = move |_| {
        leave();
        state.wants_new.set(true);
        state.room.set(Room::Shelf);
    };
    view! {
        <section class="card welcome" aria-label="Welcome">
            <p>"Skewline works out a turned scoop before you cut: this one is an example."</p>
            <div class="buttons">
                <button type="button" class="button" on:click=start>"Start your own"</button>
                <button type="button" class="button quiet" on:click=move |_| { leave(); state.show_first_values() }>"Change this one"</button>
            </div>
        </section>
    }
    .into_any()
}

/// What is open; on a wide screen checks and marks have a column of their own.
fn panel(open: Panel, wide: bool) -> AnyView {
    match open {
        Panel::Values(group) => view! { <GroupPanel group=group /> }.into_any(),
        Panel::Marks | Panel::Checks if wide => view! { <GroupPanel group=Group::Handle /> }.into_any(),
        other => later(View::Panel(other)),
    }
}

/// The row of groups.
#[component]
fn PanelTabs() -> impl IntoView {
    let state = state();
    let mounting = mounting();
    let has_pattern = Memo::new(move |_| state.design.with(|design| design.pattern.is_some()));
    Effect::new(move |_| {
        // A free piece has no such group.
        if !has_pattern.get() && state.panel.get() == Panel::Values(Group::Whole) {
            state.panel.set(Panel::Values(Group::Handle));
        }
    });
    let button = move |panel: Panel| {
        let chip = NodeRef::<html::Button>::new();
        Effect::new(move |_| {
            if mounting.is_whole()
                && state.panel.get() == panel
                && let Some(chip) = chip.get()
            {
                show_chip(&chip);
            }
        });
        view! {
            <button
                node_ref=chip
                type="button"
                class="group"
                aria-pressed=move || (state.panel.get() == panel).to_string()
                on:click=move |_| {
                    state.first_visit.set(false);
                    state.panel.set(panel);
                }
            >
                {panel.name()}
            </button>
        }
    };
    view! {
        <nav class="groups" aria-label="Groups of values">
            <Show when=move || has_pattern.get()>{button(Panel::Values(Group::Whole))}</Show>
            {Group::OF_PARTS.map(|group| button(Panel::Values(group))).into_iter().collect_view()}
            {button(Panel::Parts)}
            {button(Panel::Holds)}
            <Show when=move || !state.wide.get()>
                {button(Panel::Marks)}
                {button(Panel::Checks)}
            </Show>
        </nav>
    }
    .into_any()
}

/// Room left before a chip that is brought into sight, so that the one before it shows.
const ROOM_PX: i32 = 60;

/// Brings a chip of the row into sight, without moving anything else.
fn show_chip(chip: &web_sys::HtmlElement) {
    if let Some(row) = chip.parent_element() {
        row.set_scroll_left(chip.offset_left() - ROOM_PX);
    }
}
