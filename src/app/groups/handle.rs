//! What to mind when the piece spins on a second axis.

use leptos::prelude::*;

/// Shown with the handle's values.
pub fn cautions() -> AnyView {
    view! {
        <aside class="caution" aria-label="Before turning on the second axis">
            <p>
                "Off its own axis the piece spins unevenly. Turn it by hand before starting the lathe, start at the lowest
                speed, wear a full face shield, and keep gloves, loose sleeves and hair away."
            </p>
        </aside>
    }
    .into_any()
}
