//! The figures that matter, always in sight.

use leptos::prelude::*;

use super::checks::WorstCheck;
use super::state::state;
use crate::design::units::Quantity;
use crate::design::{AxisName, BlankSection};

/// Holds, thinnest wall, handle angle, blank, and the worst check.
#[component]
pub fn FiguresLine() -> impl IntoView {
    let state = state();
    let angle = move || {
        let tilt = state.figure(|worked| {
            worked.figures.marks.iter().find(|marks| marks.axis != AxisName::A).map(|marks| marks.tilt_deg)
        });
        tilt.map_or_else(none, |tilt| tilt.map_or_else(|| "straight".to_owned(), |tilt| angle(state, tilt)))
    };
    let blank = move || {
        state.design.with(|design| {
            let length = |value| state.units().show(value, Quantity::Length);
            let width = match design.blank.section {
                BlankSection::Square { side_mm } => format!("{} sq", length(side_mm)),
                BlankSection::Round { diameter_mm } => format!("\u{2300} {}", length(diameter_mm)),
            };
            format!("{width} \u{d7} {}", length(design.blank.length_mm))
        })
    };
    view! {
        <section class="figures-line" aria-label="Figures">
            <dl>
                <Figure name="Handle" value=Signal::derive(angle) />
                <Figure name="Blank" value=Signal::derive(blank) />
            </dl>
            <WorstCheck />
        </section>
    }
    .into_any()
}

/// Shown where there is no figure.
fn none() -> String {
    "\u{2013}".to_owned()
}

fn angle(state: super::state::State, deg: f64) -> String {
    state.units().show_with_unit(deg, Quantity::Angle)
}

#[component]
fn Figure(name: &'static str, value: Signal<String>) -> impl IntoView {
    view! { <div class="figure"><dt>{name}</dt><dd>{value}</dd></div> }.into_any()
}
