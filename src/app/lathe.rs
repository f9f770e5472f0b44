//! At the lathe: one step at a time on a screen that stays awake, with large numbers and large places to touch.

use leptos::ev;
use leptos::prelude::*;

use super::awake::{Awake, keep_awake};
use super::record::LastStep;
use super::state::{Place, state};
use super::steps::{BigNumbers, StepPicture, before_going_on, steps};

/// The place at the lathe.
#[component]
pub fn LathePlace() -> impl IntoView {
    let (state, steps) = (state(), steps());
    let number = Signal::derive(move || steps.open());
    let count = move || steps.count();
    let step = move |read: fn(&crate::figures::plan::Step) -> String| steps.with_step(number.get(), read);
    let is_last = move || number.get() + 1 >= count();
    let back = move || steps.look_at(number.get_untracked().saturating_sub(1));
    let on = move || {
        let now = number.get_untracked();
        steps.tick(now, true);
        steps.look_at(now + 1);
    };
    let awake = keep_awake();
    let sleeps = move || {
        (awake.get() == Awake::Missing)
            .then_some("This browser lets the screen sleep: set the phone to keep it on, away from here.")
    };
    let keys = window_event_listener(ev::keydown, move |event| match event.key().as_str() {
        "ArrowLeft" | "PageUp" => back(),
        "ArrowRight" | "PageDown" => on(),
        _ => {}
    });
    on_cleanup(move || keys.remove());
    view! {
        <main class="lathe" id="main">
            <header class="lathe-head">
                <p>
                    {move || format!("Step {} of {}", (number.get() + 1).min(count()), count())}
                    <strong class="lathe-done">
                        {move || if steps.is_done(number.get()) { ", done" } else { "" }}
                    </strong>
                </p>
                <button type="button" class="button quiet" on:click=move |_| state.place.set(Place::Steps)>"All steps"</button>
            </header>
            <div class="lathe-body" tabindex="0" role="region" aria-label="The step">
                <h1 class="lathe-title" aria-live="polite">{move || step(|step| step.title.clone())}</h1>
                {move || steps.why_not()}
                <StepPicture number=number />
                <BigNumbers number=number />
                <p class="lathe-what">{move || step(|step| step.what.clone())}</p>
                <p class="hint">{move || step(|step| step.held.clone())}</p>
                {move || steps.with_step(number.get(), before_going_on)}
                <p class="hint">{sleeps}</p>
                {move || is_last().then(|| view! { <LastStep /> })}
            </div>
            <nav class="lathe-moves" aria-label="Steps">
                <button type="button" disabled=move || number.get() == 0 on:click=move |_| back()>"\u{2039} Back"</button>
                <button type="button" class="lathe-on" on:click=move |_| on()>
                    {move || if is_last() { "Done \u{2713}" } else { "Done, next \u{203a}" }}
                </button>
            </nav>
        </main>
    }
    .into_any()
}
