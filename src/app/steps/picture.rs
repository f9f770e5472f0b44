//! The picture of a step: the piece when it is done, on the axis it turns on.

use std::sync::Arc;

use leptos::prelude::*;

use super::state::steps;
use crate::app::drawing::{Board, Subject, theme};
use crate::app::state::{Finished, state};
use crate::drawings::jaws;
use crate::drawings::step_view::{StepScene, draw_step, fit, spinning};
use crate::figures::plan::StepKind;

/// The picture of a step.
#[component]
pub fn StepPicture(#[prop(into)] number: Signal<usize>) -> impl IntoView {
    let (state, steps) = (state(), steps());
    let scene = Memo::new(move |_| {
        let lengths = state.units();
        let number = number.get();
        state
            .finished(|Finished { design, worked, .. }| {
                steps.with_plan(|plan| {
                    let step = plan.steps.get(number)?;
                    let before = number.checked_sub(1).and_then(|it| plan.steps.get(it)).map_or(0, |it| it.state);
                    let jaws = step.jaws.and_then(|cut| jaws::rings_of(worked, cut)).unwrap_or_default();
                    if step.kind == StepKind::Jaws {
                        return Some(Arc::new(StepScene::of_jaws(jaws, lengths)));
                    }
                    let solid = plan.in_order(&worked.piece.solid);
                    let spinning = step.cut.and_then(|cut| spinning(design, worked, cut));
                    Some(Arc::new(StepScene::new(&solid, before, step.state, spinning, lengths).in_jaws(jaws)))
                })
            })
            .flatten()
            .flatten()
    });
    let subject = Subject::still(
        move |sheet| scene.with(|scene| scene.as_ref().map(|scene| fit(scene, sheet))),
        move |area, viewport, theme| {
            scene.get_untracked().map_or(Ok(()), |scene| draw_step(area, &scene, theme, viewport))
        },
    );
    let label = Signal::derive(move || {
        let title = steps.with_step(number.get(), |step| step.title.clone()).unwrap_or_default();
        match steps.with_step(number.get(), |step| step.kind) {
            Some(StepKind::Jaws) => format!("The wooden jaws, cut through their axis: {title}."),
            _ => format!("The piece when this is done: {title}. Hatched is what goes."),
        }
    });
    view! { <div class="step-picture"><Board subject=subject label=label theme=theme(state) /></div> }.into_any()
}
