//! What happens on the lathe in one step: how fast, how wide it swings, how it shakes, what the tool meets. The numbers
//! first; where they come from is one tap away.

use leptos::prelude::*;

use super::fact::fact;
use super::state::{State, state};
use crate::design::units::{Quantity, format_number};
use crate::figures::known::Known;
use crate::figures::turning::{LimitedBy, Shaking, Turning};

/// Speed, swing, balance and air of the step that makes a cut.
#[component]
pub fn TurningFigures(cut: usize) -> impl IntoView {
    let state = state();
    let figures = move || {
        state
            .figure(|worked| {
                let of_jaws = worked.figures.jaws_for(cut).map(|jaws| jaws.grip.why()).unwrap_or_default();
                worked.figures.turning.iter().find(|step| step.cut == cut).map(|it| all(state, it, of_jaws))
            })
            .flatten()
    };
    figures.into_any()
}

/// `of_jaws` is what the grip of wooden jaws rests on, where they hold the work.
fn all(state: State, turning: &Turning, of_jaws: Vec<String>) -> AnyView {
    let cures = turning.speed.cures.iter().map(|cure| view! { <li>{cure.clone()}</li> });
    let why_no_speed = match &turning.speed.range {
        Known::Value(_) => None,
        Known::Missing { why_not } => Some(view! { <p class="caution" role="alert">{why_not.clone()}</p> }),
    };
    view! {
        <dl class="facts">{facts(state, turning).into_iter().map(|(what, value)| fact(what, value)).collect_view()}</dl>
        {why_no_speed}
        {(!turning.speed.cures.is_empty()).then(|| view! {
            <h3>"To spin it faster"</h3>
            <ul class="bullets">{cures.collect_view()}</ul>
        })}
        <details>
            <summary>"Why these numbers"</summary>
            <ul class="bullets">{why(state, turning).into_iter().chain(of_jaws).map(|it| view! { <li>{it}</li> }).collect_view()}</ul>
        </details>
    }
    .into_any()
}

fn rpm(value: f64) -> String {
    format!("{} rpm", format_number(value, 0))
}

fn length(state: State, mm: f64) -> String {
    state.units().show_with_unit(mm, Quantity::Length)
}

fn facts(state: State, turning: &Turning) -> Vec<(&'static str, String)> {
    let speed = &turning.speed;
    let mut facts = vec![("Start at, always", rpm(speed.start_rpm))];
    if let Some(range) = speed.range.value() {
        facts.push(("Then, at most", rpm(range.to_rpm)));
    }
    if let Some(shaking) = &speed.at_highest {
        facts.push(("Out-of-balance force", newtons(shaking)));
    }
    if let Some(air) = turning.air.as_ref().and_then(|air| air.worst.as_ref()) {
        let share = format_number(air.mean_air_share * 100.0, 0);
        let deep = length(state, air.broken_mm);
        facts.push(("Air", format!("{share} % of a turn, for the first {deep}")));
    }
    facts
}

/// The load on the more loaded centre.
fn newtons(shaking: &Shaking) -> String {
    let most = [shaking.tail_n, shaking.head_n].into_iter().flatten().fold(0.0, f64::max);
    format!(
        "{} N at {}",
        format_number(most.max(if shaking.tail_n.is_none() { shaking.static_n } else { 0.0 }), 0),
        rpm(shaking.rpm)
    )
}

fn why(state: State, turning: &Turning) -> Vec<String> {
    let speed = &turning.speed;
    let mut why = Vec::new();
    if let Some(usual) = &speed.usual {
        why.push(format!(
            "Usual for this diameter: {} to {}, by 6000 to 9000 inches times rpm (common practice, no source).",
            rpm(usual.from_rpm),
            rpm(usual.to_rpm)
        ));
    }
    why.push(
        match speed.range.value().map(|range| range.limited_by) {
            Some(LimitedBy::Usual) if speed.is_bored() => "The bit sets the most.",
            Some(LimitedBy::Usual) if speed.operations.iter().any(|it| it.off_centre) => {
                "The diameter sets the most, about half of it for off-centre work (common practice, from memory)."
            }
            Some(LimitedBy::Usual) => "The diameter sets the most.",
            Some(LimitedBy::Force) => "The out-of-balance force that your shop accepts on a centre sets the most.",
            Some(LimitedBy::Lathe) => "The lathe's own highest speed sets the most.",
            None => "No speed of this lathe keeps within what your shop accepts.",
        }
        .to_owned(),
    );
    match &turning.balance {
        Known::Value(balance) => {
            let state_before = &balance.before;
            why.push(format!(
                "The work weighs {} g, and its middle lies {} off the axis{}.",
                format_number(state_before.mass_g, 0),
                length(state, state_before.eccentricity_mm),
                state_before.heavy_clock_deg.map_or_else(String::new, |clock| format!(
                    ", toward {} as held",
                    crate::figures::place::clock_words(clock)
                )),
            ));
        }
        Known::Missing { why_not } => why.push(why_not.clone()),
    }
    if let Some(shaking) = &speed.at_highest {
        let grade = shaking.grade.map_or_else(
            || "coarser than any grade of machine rotors (ISO 21940-11)".to_owned(),
            |grade| format!("within grade {grade} of machine rotors (ISO 21940-11, for scale only)"),
        );
        let speed = format_number(shaking.speed_of_centre_mm_s, 0);
        why.push(format!("At the most, its middle moves at {speed} mm/s: {grade}."));
    }
    if let Some(air) = turning.air.as_ref().and_then(|air| air.worst.as_ref()) {
        why.push(format!(
            "The tool meets air worst from {} to {} along the axis: plain geometry of the work before this step.",
            length(state, air.from_mm),
            length(state, air.to_mm)
        ));
    }
    why.push("The swing is the farthest wood from this axis before the step, corners and plug counted.".to_owned());
    why.push("Your lathe's manual comes first.".to_owned());
    why
}
