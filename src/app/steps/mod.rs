//! The work step by step: every step in order, one of them open at a time.

mod at_the_lathe;
mod card;
mod numbers;
mod picture;
mod state;

use leptos::prelude::*;

pub use at_the_lathe::AtTheLathe;
pub use card::before_going_on;
pub use numbers::BigNumbers;
pub use picture::StepPicture;
pub use state::{Steps, steps};

use super::paper::PaperCard;
use super::record::LogCard;
use super::state::{Room, state};
use super::stops::Stops;
use card::StepCard;

/// The room of the steps.
#[component]
pub fn StepsRoom() -> impl IntoView {
    let (state, steps) = (state(), steps());
    let first_of_all = move || steps.with_plan(|plan| plan.first_of_all);
    let why_not = move || steps.why_not();
    let count = Memo::new(move |_| steps.count());
    let done = move || format!("{} of {} done", steps.done_count(), count.get());
    view! {
        <main class="page wide" id="main">
            <h1>"Steps"</h1>
            <p class="hint">{move || state.design.with(|design| design.name.clone())} ", " {done}</p>
            <Stops />
            {move || why_not().map(|why| view! { <p class="caution" role="alert">{why}</p> })}
            <div class="buttons">
                <button type="button" class="button" on:click=move |_| state.room.set(Room::Lathe)>
                    "At the lathe: one step at a time"
                </button>
                <button type="button" class="button quiet" on:click=move |_| steps.start_again()>"Start again"</button>
            </div>
            <p class="caution">{first_of_all}</p>
            <ol class="steps">
                {move || (0..count.get()).map(|number| view! { <StepCard number=number /> }).collect_view()}
            </ol>
            <PaperCard />
            <LogCard />
        </main>
    }
    .into_any()
}
