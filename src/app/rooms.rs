//! The bottom row: where to go.

use leptos::prelude::*;

use super::state::{Room, state};

/// Every room, with its name and picture.
const ROOMS: [(Room, &str, &str); 6] = [
    (Room::Design, "Design", "M2 9c4-3 8-3 10 0l10 2v2l-10 2c-2 3-6 3-10 0zM2 9v6"),
    (Room::Steps, "Steps", "M4 6l1.5 1.5L8 5M4 12l1.5 1.5L8 11M4 18l1.5 1.5L8 17M11 6h10M11 12h10M11 18h10"),
    (Room::Lathe, "Lathe", "M2 19h20M4 19v-9h5v9M9 13h9M18 11v4M20 13h1M16 19v-2h4v2"),
    (Room::Shelf, "Shelf", "M3 4v17M21 4v17M3 11h18M3 19h18M6 11v-5h4v5M13 19v-6h5v6"),
    (Room::Shop, "Shop", "M4 20l9-9M11 6a5 5 0 0 1 7-3l-3 3l3 3l3-3a5 5 0 0 1-7 6"),
    (Room::Help, "Help", "M12 2.5a9.5 9.5 0 1 0 0 19a9.5 9.5 0 1 0 0-19zM9 9.5a3 3 0 1 1 4 3c-.8.4-1 .8-1 1.8M12 17v1"),
];

/// The row of rooms.
#[component]
pub fn Rooms() -> impl IntoView {
    let state = state();
    let button = move |(room, name, picture): (Room, &'static str, &'static str)| {
        view! {
            <li>
                <button
                    type="button"
                    aria-current=move || (state.room.get() == room).then_some("page")
                    on:click=move |_| state.room.set(room)
                >
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d=picture /></svg>
                    <span>{name}</span>
                </button>
            </li>
        }
    };
    view! {
        <nav class="places" aria-label="Places">
            <ul>{ROOMS.map(button).into_iter().collect_view()}</ul>
        </nav>
    }
    .into_any()
}
