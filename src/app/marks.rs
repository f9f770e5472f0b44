//! What is carried to the lathe: the centre marks, the join and the boring, in figures.

use leptos::prelude::*;

use super::slack::SlackCard;
use super::state::state;
use crate::design::AxisName;
use crate::design::units::{Quantity, marks_explained};
use crate::figures::boring::Boring;
use crate::figures::leave::{Because, Join};
use crate::figures::marks::{AxisMarks, Mark};
use crate::figures::place::clock_words;

/// Marks, join and boring schedule.
#[component]
pub fn MarksPanel() -> impl IntoView {
    let state = state();
    let marks = move || state.settled(|shape| shape.marks.iter().map(axis_marks).collect_view());
    let joins = move || state.figure(|worked| worked.figures.joins.iter().map(join_table).collect_view());
    let borings = move || state.settled(|shape| shape.borings.iter().map(boring).collect_view());
    view! {
        <section class="card" aria-labelledby="marks">
            <h2 id="marks" tabindex="-1">"Centre marks"</h2>
            <p class="hint">
                "As you see each face when you look straight at it, opening up. Distances are from the blank's own centre."
            </p>
            {marks}
        </section>
        {joins}
        {borings}
        <SlackCard />
    }
    .into_any()
}

fn length(value: f64) -> String {
    state().units().show_with_unit(value, Quantity::Length)
}

fn axis_marks(marks: &AxisMarks) -> AnyView {
    if marks.axis == AxisName::A {
        return view! { <p class="mark-line"><strong>"Axis A: "</strong>"the centre of both faces."</p> }.into_any();
    }
    let angle = state().units().show_with_unit(marks.tilt_deg, Quantity::Angle);
    let crossing = marks.crossing_mm.map(|at| format!(", crosses A at {}", length(at)));
    view! {
        <h3>{format!("Axis {}", marks.axis)}</h3>
        <p class="hint">{format!("Tilted {angle}")}{crossing}</p>
        <dl class="marks">
            <div><dt>"Bowl end (tail)"</dt><dd>{mark_words(&marks.tail)}</dd></div>
            <div><dt>"Head end"</dt><dd>{mark_words(&marks.head)}</dd></div>
        </dl>
    }
    .into_any()
}

/// "12.3 mm down (6 o'clock)", or both ways when it lies aslant.
fn mark_words(mark: &Mark) -> String {
    let Some(clock) = mark.seen_clock_deg else { return "at the centre".to_owned() };
    let units = state().units();
    let zero = units.show(0.0, Quantity::Length);
    let part = |value: f64, more: &str, less: &str| {
        let shown = units.show(value.abs(), Quantity::Length);
        (shown != zero).then(|| format!("{} {}", length(value.abs()), if value > 0.0 { more } else { less }))
    };
    let parts = [part(mark.seen_up_mm, "up", "down"), part(mark.seen_right_mm, "right", "left")];
    let ways: Vec<String> = parts.into_iter().flatten().collect();
    match ways.len() {
        0 => format!("{} toward {}", length(mark.distance_mm), clock_words(clock)),
        1 => ways.concat(),
        _ => format!("{} ({} toward {})", ways.join(", "), length(mark.distance_mm), clock_words(clock)),
    }
}

fn join_table(join: &Join) -> AnyView {
    let because = |because: Because| match because {
        Because::LaterPass => "next axis",
        Because::Wall => "wall",
        Because::Nothing => "",
    };
    let rows = join.caliper.iter().map(|caliper| {
        view! {
            <tr class:missing=caliper.spare_mm.is_sign_negative()>
                <th scope="row">{length(caliper.at_mm)}</th>
                <td>{length(caliper.turned_diameter_mm)}</td>
                <td>{length(caliper.least_diameter_mm)}</td>
                <td>{because(caliper.because)}</td>
            </tr>
        }
    });
    let tapers = join.tapers.iter().map(|end| format!("{} at {}", length(end.diameter_mm), length(end.at_mm)));
    let tapers: Vec<String> = tapers.collect();
    view! {
        <section class="card">
            <h2>{format!("What to leave: {}", join.name)}</h2>
            <p>{format!("Straight tapers: {}.", tapers.join(", then "))}</p>
            {state().shop.with(|shop| marks_explained(shop.length_unit, shop.rounding)).map(|it| view! { <p class="hint">{it}</p> })}
            <div class="table-scroll" tabindex="0" role="region" aria-label=format!("Caliper diameters: {}", join.name)>
                <table class="figures-table">
                    <thead>
                        <tr>
                            <th scope="col">"From bowl end"</th>
                            <th scope="col">"Turn to"</th>
                            <th scope="col">"Never below"</th>
                            <th scope="col">"For the"</th>
                        </tr>
                    </thead>
                    <tbody>{rows.collect_view()}</tbody>
                </table>
            </div>
        </section>
    }
    .into_any()
}

fn boring(boring: &Boring) -> AnyView {
    let steps = boring.steps.iter().map(|step| {
        view! {
            <tr>
                <th scope="row">{length(step.diameter_mm)}</th>
                <td>{length(step.depth_mm)}</td>
                <td>{length(step.point_depth_mm)}</td>
            </tr>
        }
    });
    view! {
        <section class="card">
            <h2>"Boring"</h2>
            <table class="figures-table">
                <thead>
                    <tr><th scope="col">"Bit"</th><th scope="col">"Edge to"</th><th scope="col">"Point to"</th></tr>
                </thead>
                <tbody>{steps.collect_view()}</tbody>
            </table>
            <p>{format!("Left for the scraper: {} at most.", length(boring.most_to_scrape_mm))}</p>
            <p class="caution">
                "Hold the blank in the chuck, not by hand, and feed the bit slowly at low speed; clear the chips often."
            </p>
        </section>
    }
    .into_any()
}
