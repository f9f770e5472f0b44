//! What a step at the lathe needs beside its numbers: how wide the work swings, what it clears, where the tool rest goes,
//! and the marks of the axis it turns on.

use leptos::prelude::*;

use super::state::{Steps, steps};
use crate::app::fact::fact;
use crate::app::state::{Finished, State, state};
use crate::design::units::Quantity;
use crate::design::{AxisName, Cut};
use crate::figures::marks::{AxisMarks, Mark};
use crate::figures::place::clock_words;
use crate::figures::plan::{Step, StepKind};
use crate::figures::turning::Turning;

/// Swing, clearances, the rest and the marks of a step, in large type.
#[component]
pub fn AtTheLathe(#[prop(into)] number: Signal<usize>) -> impl IntoView {
    let (state, steps) = (state(), steps());
    let facts = move || {
        let all = state.finished(|finished| {
            let facts = |step: &Step| [swing(state, finished, step), marks(state, steps, finished, step)].concat();
            steps.with_step(number.get(), facts).unwrap_or_default()
        });
        all.unwrap_or_default().into_iter().map(|(what, value)| fact(what, value)).collect_view()
    };
    view! { <dl class="lathe-facts">{facts}</dl> }.into_any()
}

type Facts = Vec<(String, String)>;

fn length(state: State, mm: f64) -> String {
    state.units().show_with_unit(mm, Quantity::Length)
}

/// How wide the work swings before the step, what it clears, and where the rest goes.
fn swing(state: State, finished: &Finished, step: &Step) -> Facts {
    let of_cut = |turning: &&Turning| Some(turning.cut) == step.cut;
    let Some(turning) = finished.worked.figures.turning.iter().find(of_cut) else { return Vec::new() };
    let swing = &turning.swing;
    let mut facts = vec![
        ("Swings".to_owned(), format!("\u{2300} {}", length(state, turning.speed.swing_diameter_mm))),
        ("Clears the bed by".to_owned(), length(state, swing.over_bed_mm)),
    ];
    if let Some(mm) = swing.over_rest_mm {
        facts.push(("Clears the rest\u{2019}s base by".to_owned(), length(state, mm)));
    }
    if let Some(rest) = &swing.rest {
        facts.push((
            format!("Tool rest, from axis {}", turning.axis),
            format!(
                "{}, beside {} to {}",
                length(state, rest.parallel_mm),
                state.units().show(rest.from_mm, Quantity::Length),
                length(state, rest.to_mm)
            ),
        ));
    }
    facts
}

/// The marks of the axis that a step turns on, or that it sets the work on.
fn marks(state: State, steps: Steps, finished: &Finished, step: &Step) -> Facts {
    let Some(axis) = axis_of(steps, finished, step) else { return Vec::new() };
    let Some(marks) = finished.worked.figures.marks.iter().find(|marks| marks.axis == axis) else { return Vec::new() };
    let AxisMarks { tail, head, .. } = marks;
    let at = |mark: &Mark| match mark.seen_clock_deg {
        Some(clock) => format!("{} at {}", length(state, mark.distance_mm), clock_words(clock)),
        None => "in the middle".to_owned(),
    };
    [("bowl end", tail), ("head end", head)]
        .map(|(end, mark)| (format!("Mark {axis}, {end} as seen"), at(mark)))
        .to_vec()
}

/// The axis of a pass; of a step that sets the work on another, that of the first pass after it.
fn axis_of(steps: Steps, finished: &Finished, step: &Step) -> Option<AxisName> {
    let of_pass = |cut: usize| match finished.design.cuts.get(cut) {
        Some(Cut::Pass(pass)) => Some(pass.axis),
        _ => None,
    };
    match step.kind {
        StepKind::Remount => {
            steps.with_plan(|plan| plan.order.iter().skip(step.state).find_map(|cut| of_pass(*cut)))?
        }
        _ => of_pass(step.cut?),
    }
}
