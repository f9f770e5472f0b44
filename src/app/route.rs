//! The page's address: the room, and what is open there. The back gesture goes to the room before, and a reload
//! stays where one was.

use leptos::prelude::*;
use wasm_bindgen::JsValue;

use super::browser;
use super::state::{Panel, Room, State, Tab};
use super::steps::{Steps, steps};
use crate::form::Group;

/// Rooms by their names in the address.
const ROOMS: [(Room, &str); 6] = [
    (Room::Design, "design"),
    (Room::Steps, "steps"),
    (Room::Lathe, "lathe"),
    (Room::Shelf, "shelf"),
    (Room::Shop, "shop"),
    (Room::Help, "help"),
];
/// Panels by their names in the address.
const PANELS: [(Panel, &str); 10] = [
    (Panel::Values(Group::Whole), "whole"),
    (Panel::Values(Group::Handle), "handle"),
    (Panel::Values(Group::Wood), "wood"),
    (Panel::Values(Group::Hollow), "hollow"),
    (Panel::Values(Group::Outside), "outside"),
    (Panel::Values(Group::Opening), "opening"),
    (Panel::Parts, "parts"),
    (Panel::Holds, "holds"),
    (Panel::Marks, "marks"),
    (Panel::Checks, "checks"),
];
/// Drawings by their names in the address.
const TABS: [(Tab, &str); 4] =
    [(Tab::Side, "side"), (Tab::Ends, "ends"), (Tab::Section, "section"), (Tab::WallMap, "wall-map")];

/// Where the page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Route {
    room: Room,
    panel: Panel,
    tab: Tab,
    /// The step that was opened by hand, from 0.
    step: Option<usize>,
}

impl Default for Route {
    /// Where the page opens.
    fn default() -> Self {
        Self { room: Room::Design, panel: Panel::Values(Group::Handle), tab: Tab::Side, step: None }
    }
}

/// What goes by this name.
fn named<T: Copy>(all: &[(T, &'static str)], name: Option<&str>) -> Option<T> {
    all.iter().find(|it| Some(it.1) == name).map(|it| it.0)
}

/// The name of it.
fn name_of<T: Copy + PartialEq>(all: &[(T, &'static str)], it: T) -> &'static str {
    all.iter().find(|other| other.0 == it).map_or("", |other| other.1)
}

impl Route {
    fn of(state: State, steps: Steps) -> Self {
        let room = state.room.get();
        let step = matches!(room, Room::Steps | Room::Lathe).then(|| steps.opened().get()).flatten();
        Self { room, panel: state.panel.get(), tab: state.tab.get(), step }
    }

    /// From the part of an address after `#`.
    fn read(hash: &str) -> Self {
        let mut parts = hash.strip_prefix("#/").unwrap_or_default().split('/');
        let room = named(&ROOMS, parts.next()).unwrap_or(Room::Design);
        let plain = Self { room, ..Self::default() };
        match room {
            Room::Design => Self {
                panel: named(&PANELS, parts.next()).unwrap_or(plain.panel),
                tab: named(&TABS, parts.next()).unwrap_or(plain.tab),
                ..plain
            },
            _ => Self { step: parts.next().and_then(|it| it.parse::<usize>().ok()?.checked_sub(1)), ..plain },
        }
    }

    fn text(&self) -> String {
        let room = name_of(&ROOMS, self.room);
        match (self.room, self.step) {
            (Room::Design, _) => format!("#/{room}/{}/{}", name_of(&PANELS, self.panel), name_of(&TABS, self.tab)),
            (_, Some(step)) => format!("#/{room}/{}", step + 1),
            (_, None) => format!("#/{room}"),
        }
    }

    /// Whether it is another view than `before`, to which the back gesture leads. One group of values after another is
    /// the same view, and so is one step after another.
    fn is_elsewhere(&self, before: &Self) -> bool {
        let same_kind = match (self.panel, before.panel) {
            (Panel::Values(_), Panel::Values(_)) => true,
            (a, b) => a == b,
        };
        self.room != before.room || (self.room == Room::Design && !same_kind)
    }

    fn go(&self, state: State, steps: Steps) {
        state.room.set(self.room);
        match self.room {
            Room::Design => {
                state.panel.set(self.panel);
                state.tab.set(self.tab);
            }
            Room::Steps | Room::Lathe => steps.opened().set(self.step),
            _ => {}
        }
    }
}

/// Goes where the address says, and keeps the address as the page is.
pub fn follow(state: State) {
    let steps = steps();
    let begun = Route::read(&hash());
    if begun != Route::default() {
        begun.go(state, steps);
    }
    let now = Memo::new(move |_| Route::of(state, steps));
    Effect::new(move |before: Option<Route>| {
        let (now, before) = (now.get(), before.unwrap_or(begun));
        // Where the address says the same already, the browser went there.
        if Route::read(&hash()).text() != now.text() {
            write(&now.text(), now.is_elsewhere(&before));
        }
        now
    });
    let back = window_event_listener_untyped("popstate", move |_| Route::read(&hash()).go(state, steps));
    on_cleanup(move || back.remove());
}

/// The part of the address after `#`, with it.
fn hash() -> String {
    browser::window().and_then(|window| window.location().hash().ok()).unwrap_or_default()
}

fn write(address: &str, as_new: bool) {
    let Some(history) = browser::window().and_then(|window| window.history().ok()) else { return };
    // A browser that refuses leaves the address as it was: the page itself goes on.
    let _ = match as_new {
        true => history.push_state_with_url(&JsValue::NULL, "", Some(address)),
        false => history.replace_state_with_url(&JsValue::NULL, "", Some(address)),
    };
}
