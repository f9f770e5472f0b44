//! The page: leptos components. State in, events out; no arithmetic.

mod awake;
mod beside;
pub mod browser;
mod checks;
mod cures;
mod design_room;
mod drawing;
mod fact;
mod figures_line;
mod groups;
mod help;
mod holds;
pub mod keeping;
mod later;
mod lathe;
mod marks;
mod mounting;
pub mod notice;
mod offline;
mod on_screen;
mod opening;
mod paper;
mod parts;
mod picture;
mod record;
pub mod remembered;
mod rooms;
mod route;
mod scrolled;
mod searching;
mod shelf_room;
mod shop;
mod slack;
pub mod state;
mod steps;
mod stop_free;
mod stops;
mod text_field;
mod top_row;
mod turning;
mod typing;
pub mod value_row;
mod wanted;
mod working;

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::design::{Shop, starters};
use crate::shelf::browser::BrowserStore;
use later::{Arrival, FetchAgain, FetchToOpen, Later, LaterPart, View, later, quietly_later};
use mounting::{Mounting, take_frame_away};
use notice::{BACK_FROM_SECOND_COPY, Notice};
use remembered::Choices;
use state::{Room, State};

/// How wide a screen has to be for three columns.
const WIDE: &str = "(min-width: 900px)";

/// How a device says that it is set to dark.
const DARK: &str = "(prefers-color-scheme: dark)";

/// Mounts the app on the page's body. What was shown while it loaded stands until the page is whole.
pub fn mount() {
    // What is to be done when the program itself breaks is plain script in index.html: it needs nothing of the program.
    console_error_panic_hook::set_once();
    if browser::window().is_none() {
        return work_beside();
    }
    // The program has arrived: nothing of it is late. Once plain script has moved the words out of the frame, it is the style
    // sheet that is.
    let late = browser::document().and_then(|document| document.query_selector("#loading #late").ok().flatten());
    if let Some(late) = late {
        late.remove();
    }
    leptos::mount::mount_to_body(Opening);
}

/// Begun in a worker, the program does what takes long for the page. A part that cannot be fetched says nothing: the page
/// then does the work itself.
fn work_beside() {
    wasm_bindgen_futures::spawn_local(async {
        if let Some(later) = later::fetching::fetch().await {
            (later.work_beside)();
        }
    });
}

/// Where everything of Skewline begins in the browser's storage.
const OURS: &str = "skewline";

/// Whether something may be kept from an earlier visit. A storage that cannot be read has nothing to show.
fn something_is_kept() -> bool {
    BrowserStore::has_any(OURS)
}

/// The page: at once on a first visit; after that with what is kept, which the later part reads.
#[component]
fn Opening() -> impl IntoView {
    let part = LaterPart::new(later::fetching::fetch);
    provide_context(part);
    if something_is_kept() {
        return what_is_kept(part, false);
    }
    // The browser may have lost the one and still have the other, as when it was killed.
    let in_database = RwSignal::new(None);
    spawn_local(async move { in_database.set(Some(BrowserStore::has_database().await)) });
    let page = move || match in_database.get() {
        None => ().into_any(),
        Some(false) => untrack(|| app(None)),
        Some(true) => what_is_kept(part, true),
    };
    page.into_any()
}

/// The page with what is kept, once the later part has read it. `lost` when the browser has lost the first copy of it.
fn what_is_kept(part: LaterPart, lost: bool) -> AnyView {
    part.fetch();
    let page = move || match part.arrival() {
        Arrival::Here(later) => {
            let page = app(Some(later));
            if lost && something_is_kept() {
                state::state().notices.say(Notice::lasting(BACK_FROM_SECOND_COPY));
            }
            page
        }
        Arrival::Coming => ().into_any(),
        Arrival::Missing => {
            take_frame_away();
            view! {
                <main id="loading">
                    <h1>"Skewline"</h1>
                    <FetchToOpen />
                </main>
            }
            .into_any()
        }
    };
    page.into_any()
}

/// The whole page, with what was kept or for the first time.
fn app(later: Option<Later>) -> AnyView {
    let recalled = later.map(|later| (later, (later.recall)()));
    let state = match &recalled {
        Some((_, start)) => State::new(start.design.clone(), start.shop.clone(), &start.choices),
        None => State::new(starters::demo(), Shop::default(), &Choices::default()),
    };
    provide_context(state);
    provide_context(stop_free::StopFreeRanges::new());
    let part = later::later_part();
    let is_first = later.is_none();
    let mounting = Mounting::begin(move || {
        if is_first {
            part.fetch_soon();
        }
    });
    provide_context(mounting);
    part.opened();
    match recalled {
        Some((later, start)) => (later.begin)(Some(start), &[]),
        None => {
            state.first_visit.set(true);
            part.keep_meanwhile(state);
        }
    }
    state.device_dark.set(browser::watch_media(DARK, move |dark| state.device_dark.set(dark)));
    state.wide.set(browser::watch_media(WIDE, move |wide| state.wide.set(wide)));
    follow_theme(state);
    top_row::listen_for_keys();

    let shown = Memo::new(move |_| state.room.get());
    let room = move || match shown.get() {
        Room::Design => view! { <design_room::DesignRoom /> }.into_any(),
        other => other_room(part, other),
    };
    let missing = move || matches!(part.arrival(), Arrival::Missing).then(|| view! { <FetchAgain /> });
    view! {
        <div class="app" class:building=move || !mounting.is_whole() data-figures=move || if state.coming.get() { "coming" } else { "here" }>
            {missing}
            {quietly_later(View::Trouble)}
            {room}
            {quietly_later(View::PrintPages)}
            <notice::NoticeList notices=state.notices />
            {mounting.when(mounting::Part::Rooms, move || {
                view! { <Show when=move || shown.get() != Room::Lathe><rooms::Rooms /></Show> }.into_any()
            })}
        </div>
    }
    .into_any()
}

/// A room other than the design.
fn other_room(part: LaterPart, room: Room) -> AnyView {
    let here = Memo::new(move |_| matches!(part.arrival(), Arrival::Here(_)));
    (move || match here.get() {
        true => later(View::Room(room)),
        false => view! { <main class="page" id="main">{later(View::Room(room))}</main> }.into_any(),
    })
    .into_any()
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
