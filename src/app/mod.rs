//! The page: leptos components. State in, events out; no arithmetic.

mod awake;
pub mod browser;
mod checks;
mod design_place;
mod drawing;
mod fact;
mod figures_line;
mod groups;
mod help;
mod holds;
pub mod keeping;
mod lathe;
mod marks;
pub mod notice;
mod offline;
mod paper;
mod picture;
mod places;
mod record;
pub mod remembered;
mod shelf_place;
mod shop;
mod slack;
mod sound;
pub mod state;
mod steps;
mod text_field;
mod top_row;
mod turning;
pub mod value_row;

use leptos::prelude::*;

use keeping::{Keeping, Start};
use notice::Notice;
use offline::Offline;
use remembered::Choices;
use state::{Place, State};

/// How wide a screen has to be for three columns.
const WIDE: &str = "(min-width: 900px)";

/// How a device says that it is set to dark.
const DARK: &str = "(prefers-color-scheme: dark)";

/// Mounts the app on the page's body, in place of what was shown while it loaded.
pub fn mount() {
    if let Some(loading) = browser::document().and_then(|document| document.get_element_by_id("loading")) {
        loading.remove();
    }
    leptos::mount::mount_to_body(App);
}

/// The whole page.
#[component]
fn App() -> impl IntoView {
    let choices = Choices::recall();
    let start = Start::recall();
    let state = State::new(start.design.clone(), start.shop.clone(), &choices);
    let keeping = Keeping::from_start(start);
    provide_context(state);
    provide_context(keeping);
    let ranges = sound::SoundRanges::new();
    provide_context(ranges);
    ranges.follow(state);
    provide_context(steps::Steps::new(state));
    provide_context(paper::Printing::new());
    keeping::start(keeping, state);
    offer_newer_build(state, keeping);
    state.device_dark.set(browser::watch_media(DARK, move |dark| state.device_dark.set(dark)));
    state.wide.set(browser::watch_media(WIDE, move |wide| state.wide.set(wide)));
    follow_theme(state);
    top_row::listen_for_keys();
    Effect::new(move |_| Choices { theme: state.theme.get(), section_mm: state.section_mm.get() }.keep());

    let shown = Memo::new(move |_| state.place.get());
    let place = move || match shown.get() {
        Place::Design => view! { <design_place::DesignPlace /> }.into_any(),
        Place::Steps => view! { <steps::StepsPlace /> }.into_any(),
        Place::Lathe => view! { <lathe::LathePlace /> }.into_any(),
        Place::Shelf => view! { <shelf_place::ShelfPlace /> }.into_any(),
        Place::Shop => view! { <shop::ShopPlace /> }.into_any(),
        Place::Help => view! { <help::HelpPlace /> }.into_any(),
    };
    view! {
        <div class="app">
            <keeping::TroubleBanner />
            {place}
            <paper::PrintPages />
            <notice::NoticeList notices=state.notices />
            <Show when=move || shown.get() != Place::Lathe><places::Places /></Show>
        </div>
    }
}

/// Keeps the page on the device, and offers a newer build when one is ready; nothing changes until it is chosen.
fn offer_newer_build(state: State, keeping: Keeping) {
    let offline = Offline::start();
    provide_context(offline);
    let take_over = move || {
        keeping.flush(state);
        offline.take_over();
    };
    Effect::new(move |_| {
        if offline.newer_build_waits() {
            let notice = Notice::lasting("A new version of Skewline is ready. Your designs stay.");
            state.notices.say(notice.with_action("Use the new version", take_over));
        }
    });
}

/// Tells the style sheet which theme is chosen.
fn follow_theme(state: State) {
    Effect::new(move |_| {
        let root = browser::document().and_then(|document| document.document_element());
        let told = root.map(|root| root.set_attribute("data-theme", state.theme.get().attribute()));
        if let Some(Err(_)) = told {
            // A page without a root element shows nothing at all.
        }
    });
}
