//! Under a slider: how far the value may go, and which check ends it. A tap on an end goes there.

use leptos::prelude::*;

use super::handling::Handling;
use crate::app::stop_free::Range;

/// The line under a slider.
pub(super) fn range_line(it: Handling, range: Signal<Range>, id: String) -> AnyView {
    let words = Memo::new(move |_| range.with(|range| range.words.clone()));
    let is_coming = Memo::new(move |_| range.with(|range| range.is_coming));
    let end = move |value: f64, shown: String, way: &'static str| {
        let label = it.row.with_untracked(|row| format!("{}: {way}, {shown}", row.label));
        view! {
            <button type="button" class="range-end" aria-label=label on:click=move |_| { it.offer(value, false); }>
                {shown}
            </button>
        }
    };
    let shown = move || {
        let Some(words) = words.get() else {
            let coming = is_coming.get().then_some("How far it may go: working it out\u{2026}");
            return view! { <span class="range-coming">{coming}</span> }.into_any();
        };
        let now = words.now;
        let now = match words.free_at {
            Some(value) => view! {
                <button type="button" class="range-end" on:click=move |_| { it.offer(value, false); }>{now}</button>
            }
            .into_any(),
            None if now.is_empty() => ().into_any(),
            None => view! { <span>{now}</span> }.into_any(),
        };
        let ((low, low_shown), (high, high_shown)) = (words.low, words.high);
        view! {
            {end(low, low_shown, "lowest")}
            {now}
            {end(high, high_shown, "highest")}
        }
        .into_any()
    };
    view! {
        <p class="unseen" id=id>{move || words.with(|words| words.as_ref().map(|words| words.said.clone()))}</p>
        <div class="value-range">{shown}</div>
    }
    .into_any()
}
