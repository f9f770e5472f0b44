//! The later part from within: what it begins, and its views.

use leptos::prelude::*;

use super::{Later, View, later_part};
use crate::app::beside::{Beside, worker};
use crate::app::checks::ChecksPanel;
use crate::app::drawing::views as drawings;
use crate::app::groups::{handle, nodes, outside, own, plug, saw, wood};
use crate::app::holds::HoldsPanel;
use crate::app::keeping::{Keeping, Start, TroubleBanner};
use crate::app::marks::MarksPanel;
use crate::app::offline::Offline;
use crate::app::parts::PartsPanel;
use crate::app::remembered::{self, Choices};
use crate::app::state::{AT_ONCE, Panel, Room, Tab, state};
use crate::app::{help, keeping, lathe, paper, route, scrolled, shelf_room, shop, steps, stop_free, working};
use crate::shelf::browser::BrowserStore;

/// The later part.
pub const LATER: Later = Later {
    recover: || Box::pin(BrowserStore::recover()),
    recall: Start::recall,
    begin,
    work_beside: worker::work,
    show,
};

/// `start` is what was recalled; none when the page was opened with nothing kept. Then `recovered` names what has come
/// back since.
fn begin(start: Option<Start>, recovered: &[String]) {
    let state = state();
    state.completes.set(Some(|shape| shape.with_walls_within(AT_ONCE)));
    provide_context(Beside::new());
    working::follow(state);
    route::follow(state);
    scrolled::follow(state);
    stop_free::stop_free_ranges().follow(state);
    let first_visit = start.is_none();
    let unfinished = start.as_ref().and_then(|start| start.unfinished.clone());
    let keeping = start.map_or_else(|| Keeping::of_first_visit(later_part().kept_meanwhile()), Keeping::from_start);
    provide_context(keeping);
    if first_visit && !recovered.is_empty() {
        keeping.show_recovered(state);
    }
    keeping.bring_drafts(state);
    keeping::start(keeping, state);
    if let Some(entry) = unfinished {
        keeping.offer_unfinished(state, &entry);
    }
    Offline::offer_newer_build(state, keeping);
    Effect::new(move |_| remembered::keep(Choices { theme: state.theme.get(), section_mm: state.section_mm.get() }));
}

fn show(view: View) -> AnyView {
    match view {
        View::Trouble => view! { <TroubleBanner /><working::EffortBar /> }.into_any(),
        View::Room(room) => show_room(room),
        View::Panel(panel) => show_panel(panel),
        View::Side => view! { <ChecksPanel /><MarksPanel /> }.into_any(),
        View::Drawing(tab) => show_drawing(tab),
        View::WholePiece => view! { <own::WholePiece /> }.into_any(),
        View::ChoiceLists(section) => view! { <own::ChoiceLists section=section /> }.into_any(),
        View::OwnMark(key) => view! { <own::OwnMark key=key /> }.into_any(),
        View::WoodChoices => wood::choices(),
        View::Blank => wood::blank_shape(),
        View::UseChoice => wood::use_choice(),
        View::PassProfile(cut) => view! { <outside::PassProfileChoice cut=cut /> }.into_any(),
        View::Nodes(cut) => view! { <nodes::Nodes cut=cut /> }.into_any(),
        View::PlugTenon(cut) => view! { <plug::PlugTenonChoice cut=cut /> }.into_any(),
        View::SawLine(cut) => view! { <saw::SawLine cut=cut /> }.into_any(),
        View::SecondAxis => handle::cautions(),
        View::PrintPages => view! { <paper::PrintPages /> }.into_any(),
    }
}

fn show_room(room: Room) -> AnyView {
    match room {
        Room::Design => ().into_any(),
        Room::Steps => view! { <steps::StepsRoom /> }.into_any(),
        Room::Lathe => view! { <lathe::LatheRoom /> }.into_any(),
        Room::Shelf => view! { <shelf_room::ShelfRoom /> }.into_any(),
        Room::Shop => view! { <shop::ShopRoom /> }.into_any(),
        Room::Help => view! { <help::HelpRoom /> }.into_any(),
    }
}

fn show_panel(panel: Panel) -> AnyView {
    match panel {
        Panel::Values(_) => ().into_any(),
        Panel::Parts => view! { <PartsPanel /> }.into_any(),
        Panel::Holds => view! { <HoldsPanel /> }.into_any(),
        Panel::Marks => view! { <MarksPanel /> }.into_any(),
        Panel::Checks => view! { <ChecksPanel /> }.into_any(),
    }
}

fn show_drawing(tab: Tab) -> AnyView {
    match tab {
        Tab::Side => ().into_any(),
        Tab::Ends => view! { <drawings::EndsView /> }.into_any(),
        Tab::Section => view! { <drawings::SectionView /> }.into_any(),
        Tab::WallMap => view! { <drawings::WallMapView /> }.into_any(),
    }
}
