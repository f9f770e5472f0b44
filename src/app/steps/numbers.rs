//! The numbers of a step, as large as they can be read from the lathe.

use leptos::prelude::*;

use super::state::steps;

/// The numbers of a step.
#[component]
pub fn BigNumbers(number: Signal<usize>) -> impl IntoView {
    let steps = steps();
    let rows = move || {
        steps.with_step(number.get(), |step| {
            let speed = step.speeds.iter().map(|it| {
                big(&format!("Speed, {}: start at the lowest", it.what), &it.words(), it.range.value().is_some())
            });
            let numbers = step.numbers.iter().map(|it| big(&it.what, &it.value, it.mm.is_some()));
            speed.chain(numbers).collect_view()
        })
    };
    view! { <dl class="big-numbers">{rows}</dl> }.into_any()
}

/// A number is as large as can be; words are a little smaller, to keep on their line.
fn big(what: &str, value: &str, is_number: bool) -> AnyView {
    view! { <div><dt>{what.to_owned()}</dt><dd class:words-only=!is_number>{value.to_owned()}</dd></div> }.into_any()
}
