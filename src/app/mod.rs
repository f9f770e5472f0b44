//! The page: leptos components. State in, events out; no arithmetic.

mod offline;

use leptos::prelude::*;

use offline::{LocalCopy, Offline};

/// Mounts the app on the page's body, in place of what is shown while it loads.
pub fn mount() {
    if let Some(loading) = document().get_element_by_id("loading") {
        loading.remove();
    }
    leptos::mount::mount_to_body(App);
}

/// The whole page.
#[component]
fn App() -> impl IntoView {
    let offline = Offline::start();
    view! {
        <main>
            <h1>"Skewline"</h1>
            <p role="status">{move || local_copy_words(offline.local_copy())}</p>
            <Show when=move || offline.newer_build_waits()>
                <p role="status">
                    "A new version of Skewline is on this device. "
                    <button on:click=move |_| offline.take_over()>"Use the new version"</button>
                </p>
            </Show>
        </main>
    }
}

fn local_copy_words(copy: LocalCopy) -> &'static str {
    match copy {
        LocalCopy::Fetching => "",
        LocalCopy::Kept => "Works without a network.",
        LocalCopy::NotKept => "Needs the network each time it is opened: this browser keeps no copy of the page.",
    }
}
