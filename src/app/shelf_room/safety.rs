//! How safe the shelf is: where it lives, whether the browser may clear it, and when it was last backed up.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::app::browser::day;
use crate::app::keeping::keeping;
use crate::app::state::state;
use crate::shelf::browser::keeping::{self as promise_of_browser, Keeping};

/// Where designs live.
#[component]
pub fn Safety() -> impl IntoView {
    let (state, keeping) = (state(), keeping());
    let promise = RwSignal::new(Keeping::Unknown);
    spawn_local(async move { promise.set(promise_of_browser::status().await) });
    let ask_now = move |_| spawn_local(async move { promise.set(promise_of_browser::ask().await) });
    let backup = move || {
        keeping.changes.track();
        match keeping.with(|shelf| shelf.backup_state()) {
            Ok(backup) => match (backup.last_ms, backup.designs_since) {
                (None, 0) => "No backup file yet, and nothing to back up.".to_owned(),
                (None, _) => "No backup file has been saved yet.".to_owned(),
                (Some(last), 0) => format!("Last backup file: {}. Nothing has changed since.", day(last)),
                (Some(last), 1) => format!("Last backup file: {}. One design has changed since.", day(last)),
                (Some(last), since) => format!("Last backup file: {}. {since} designs have changed since.", day(last)),
            },
            Err(error) => error.to_string(),
        }
    };
    let kept = move || match promise.get() {
        Keeping::Unknown => "This browser does not say whether it may clear them by itself.",
        Keeping::Kept => "The browser has promised not to clear them by itself.",
        Keeping::MayBeErased => "The browser may clear them by itself when the device runs short of room.",
    };
    view! {
        <section class="card" aria-labelledby="safety">
            <h2 id="safety">"Where your designs live"</h2>
            <p>"In this browser, on this device, and nowhere else. Clearing the browser's data clears them too."</p>
            <p>{kept}</p>
            <Show when=move || promise.get() == Keeping::MayBeErased>
                <button type="button" class="button" on:click=ask_now>"Ask the browser to keep them"</button>
            </Show>
            <p class="backup-state">{backup}</p>
            <button type="button" class="button" on:click=move |_| super::files::export_shelf(state, keeping)>
                "Save a backup file now"
            </button>
            <p>"Safari erases what a site keeps after seven days of use without a visit to it, unless the page is on the home
            screen. On an iPhone or iPad: Share, then Add to Home Screen. On other devices: the browser's menu, then
            Install or Add to Home screen."</p>
        </section>
    }
    .into_any()
}
