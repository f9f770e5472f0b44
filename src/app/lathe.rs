//! At the lathe: one step at a time on a screen that stays awake, with large numbers and large places to touch.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::awake::{Awake, keep_awake};
use super::browser;
use super::state::{Room, state};
use super::steps::{AtTheLathe, BigNumbers, StepPicture, before_going_on, steps};
use super::stops::{check_list, stop_names, stops_of_step};
use crate::figures::plan::Step;

/// The room at the lathe.
#[component]
pub fn LatheRoom() -> impl IntoView {
    let (state, steps) = (state(), steps());
    let number = Signal::derive(move || steps.open());
    let count = move || steps.count();
    let step = move |read: fn(&Step) -> String| steps.with_step(number.get(), read);
    let is_last = move || number.get() + 1 >= count();
    // Whether it asks before it goes on past what stops.
    let asks = RwSignal::new(false);
    Effect::new(move |before: Option<usize>| {
        let now = number.get();
        if before.is_some_and(|before| before != now) {
            asks.set(false);
        }
        now
    });
    let back = move || steps.look_at(number.get_untracked().saturating_sub(1));
    let go_on = move || {
        let now = number.get_untracked();
        asks.set(false);
        steps.tick(now, true);
        match untrack(is_last) {
            true => {
                state.room.set(Room::Steps);
                browser::focus_soon("log");
            }
            false => steps.look_at(now + 1),
        }
    };
    let on = move || {
        let now = number.get_untracked();
        if untrack(count) == 0 {
            return;
        }
        if untrack(|| steps.is_done(now) || stops_of_step(state, steps, now).is_empty()) {
            go_on()
        } else {
            asks.set(true)
        }
    };
    let awake = keep_awake();
    let sleeps = move || {
        (awake.get() == Awake::Missing)
            .then_some("This browser lets the screen sleep: set the phone to keep it on, away from here.")
    };
    let keys = window_event_listener(ev::keydown, move |event| match event.key().as_str() {
        "ArrowLeft" | "PageUp" => back(),
        "ArrowRight" | "PageDown" if !asks.get_untracked() => on(),
        "Escape" => asks.set(false),
        _ => {}
    });
    on_cleanup(move || keys.remove());
    let stops = move || {
        let concerned = stops_of_step(state, steps, number.get());
        let names = stop_names(state)?;
        Some(view! {
            <div class="lathe-stops">
                <p><strong>"Stop: "{names}</strong></p>
                {(!concerned.is_empty()).then(|| check_list(concerned))}
            </div>
        })
    };
    view! {
        <main class="lathe" id="main">
            <header class="lathe-head">
                <p>
                    {move || where_it_is(number.get(), count())}
                    <strong class="lathe-done">
                        {move || if steps.is_done(number.get()) { ", done" } else { "" }}
                    </strong>
                </p>
                <button type="button" class="button quiet" on:click=move |_| state.room.set(Room::Steps)>"All steps"</button>
            </header>
            <div class="lathe-body" tabindex="0" role="region" aria-label="The step">
                {stops}
                <h1 class="lathe-title" aria-live="polite">{move || step(|step| step.title.clone())}</h1>
                {move || steps.why_not()}
                <div class="lathe-step">
                    <StepPicture number=number />
                    <div class="lathe-numbers"><BigNumbers number=number /></div>
                    <div class="lathe-how">
                        <p class="lathe-what">{move || step(|step| step.what.clone())}</p>
                        {move || steps.with_step(number.get(), holding)}
                        <AtTheLathe number=number />
                    </div>
                    <div class="lathe-cautions">{move || steps.with_step(number.get(), before_going_on)}</div>
                </div>
                <p class="hint">{sleeps}</p>
            </div>
            {move || match asks.get() {
                true => view! { <Ask number=number go_on=go_on asks=asks /> }.into_any(),
                false => view! {
                    <nav class="lathe-moves" aria-label="Steps">
                        <button type="button" disabled=move || number.get() == 0 on:click=move |_| back()>"\u{2039} Back"</button>
                        <button type="button" class="lathe-on" disabled=move || count() == 0 on:click=move |_| on()>
                            {move || if is_last() { "Done: to the log" } else { "Done, next \u{203a}" }}
                        </button>
                    </nav>
                }
                .into_any(),
            }}
        </main>
    }
    .into_any()
}

/// Which step of how many is shown. There are none while the figures are coming, and where the design has none.
fn where_it_is(number: usize, count: usize) -> String {
    match count {
        0 => "No steps yet".to_owned(),
        count => format!("Step {} of {count}", number + 1),
    }
}

/// How the work is held, and with which tool.
fn holding(step: &Step) -> AnyView {
    let line = |what: &'static str, words: &str| {
        (!words.is_empty()).then(|| view! { <div><dt>{what}</dt><dd>{words.to_owned()}</dd></div> })
    };
    view! { <dl class="lathe-facts">{line("Held", &step.held)} {line("Tool", step.tool)}</dl> }.into_any()
}

/// Asks before it goes on past a step that a stop is about.
#[component]
fn Ask(number: Signal<usize>, go_on: impl Fn() + Copy + Send + 'static, asks: RwSignal<bool>) -> impl IntoView {
    let (state, steps) = (state(), steps());
    let stay = NodeRef::<html::Button>::new();
    Effect::new(move |_| {
        if let Some(stay) = stay.get() {
            // It is read out all the same where it cannot take the focus.
            let _ = stay.focus();
        }
    });
    let said = move || {
        stops_of_step(state, steps, number.get())
            .into_iter()
            .map(|check| view! { <p>{check.name.title()}": "{check.sentence}</p> })
            .collect_view()
    };
    view! {
        <div class="lathe-ask" role="alertdialog" aria-labelledby="ask" aria-describedby="ask-why">
            <h2 id="ask">"Go on past a stop?"</h2>
            <div id="ask-why">{said}</div>
            <div class="lathe-moves">
                <button type="button" node_ref=stay on:click=move |_| asks.set(false)>"Stay here"</button>
                <button type="button" class="lathe-anyway" on:click=move |_| go_on()>"Go on all the same"</button>
            </div>
        </div>
    }
    .into_any()
}
