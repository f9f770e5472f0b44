//! The plug: with a tenon of its own for the chuck, or without.

use leptos::prelude::*;

use crate::app::state::state;
use crate::design::Cut;
use crate::form::edit::set_plug_tenon;

/// Whether a plug has a tenon of its own.
#[component]
pub fn PlugTenonChoice(cut: usize) -> impl IntoView {
    let state = state();
    let has = Memo::new(move |_| {
        state.design.with(|design| matches!(design.cuts.get(cut), Some(Cut::FitPlug(plug)) if plug.tenon.is_some()))
    });
    let option = move |wanted: bool, name: &'static str| {
        view! {
            <button
                type="button"
                class="segment"
                aria-pressed=move || (has.get() == wanted).to_string()
                on:click=move |_| {
                    if has.get_untracked() != wanted {
                        state.change(|design| set_plug_tenon(design, cut, wanted));
                    }
                }
            >
                {name}
            </button>
        }
    };
    view! {
        <div class="choice" role="group" aria-label="Tenon on the plug">
            <span class="choice-label">"Tenon on the plug"</span>
            <div class="segments">{option(true, "Its own")} {option(false, "None")}</div>
        </div>
        <p class="hint">
            "With a tenon the plug is held in the chuck while its spigot is turned to fit. Without one, turn it on the end of a piece of waste."
        </p>
    }
    .into_any()
}
