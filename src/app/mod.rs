//! The page: leptos components. State in, events out; no arithmetic.

use leptos::prelude::*;

/// Mounts the app on the page's body.
pub fn mount() {
    leptos::mount::mount_to_body(App);
}

/// The whole page.
#[component]
fn App() -> impl IntoView {
    view! { <main><h1>"Skewline"</h1></main> }
}
