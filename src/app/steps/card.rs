//! One step of the list: its title always, the rest when it is open.

use leptos::prelude::*;

use super::picture::StepPicture;
use super::state::steps;
use crate::app::fact::fact;
use crate::app::turning::TurningFigures;
use crate::figures::plan::Step;

/// What the tick of a step is called.
fn tick_name(done: bool) -> &'static str {
    if done { "Done" } else { "To do" }
}

/// A step of the list.
#[component]
pub fn StepCard(number: usize) -> impl IntoView {
    let steps = steps();
    let open = Memo::new(move |_| steps.open() == number);
    let done = Memo::new(move |_| steps.is_done(number));
    let title = move || steps.with_step(number, |step| step.title.clone());
    let tick = move |_| {
        let now = done.get_untracked();
        steps.tick(number, !now);
    };
    view! {
        <li class="card step" class:ticked=move || done.get()>
            <div class="step-head">
                <button type="button" class="tick" aria-pressed=move || done.get().to_string() on:click=tick>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M5 12.5l5 5l9-11" /></svg>
                    <span class="unseen">{move || format!("{}: ", tick_name(done.get()))} {title}</span>
                </button>
                <h2 class="step-title">
                    <button
                        type="button"
                        aria-expanded=move || open.get().to_string()
                        on:click=move |_| steps.look_at(number)
                    >
                        {format!("{}. ", number + 1)} {title}
                    </button>
                </h2>
            </div>
            {move || open.get().then(|| view! {
                <div class="step-body">
                    <StepPicture number=number />
                    <Details number=number />
                </div>
            })}
        </li>
    }
    .into_any()
}

/// Everything about a step but its title and picture.
#[component]
fn Details(number: usize) -> impl IntoView {
    let steps = steps();
    move || {
        steps.with_step(number, |step| {
            let numbers = step.numbers.iter().map(|it| fact(it.what.clone(), it.value.clone()));
            let setting = step.setting.iter().map(|it| fact(it.what.clone(), it.value.clone()));
            let speeds = step.speeds.iter().map(|it| fact(format!("Speed, {}", it.what), it.words()));
            view! {
                <div class="step-numbers">
                    <p>{step.what.clone()}</p>
                    <dl class="facts">
                        {numbers.collect_view()}
                        {speeds.collect_view()}
                        {setting.collect_view()}
                        {held("Held", &step.held)}
                        {held("Tool", step.tool)}
                    </dl>
                    {step.cut.map(|cut| view! { <TurningFigures cut=cut /> })}
                </div>
                <div class="step-cautions">{before_going_on(step)}</div>
            }
            .into_any()
        })
    }
}

fn held(what: &'static str, words: &str) -> Option<AnyView> {
    (!words.is_empty()).then(|| fact(what, words))
}

/// What must be true before going on, and the cautions of the step.
pub fn before_going_on(step: &Step) -> AnyView {
    let until = step.until.iter().map(|it| view! { <li>{it.clone()}</li> });
    let cautions = step.cautions.iter().map(|it| view! { <li>{it.clone()}</li> });
    view! {
        {(!step.until.is_empty()).then(|| view! {
            <h2 class="step-part">"Before you go on"</h2>
            <ul class="bullets">{until.collect_view()}</ul>
        })}
        {(!step.cautions.is_empty()).then(|| view! {
            <div class="caution"><ul class="bullets">{cautions.collect_view()}</ul></div>
        })}
    }
    .into_any()
}
