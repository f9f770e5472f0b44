//! How far off marks, depths and diameters may be before the wall is too thin: worked out when asked, beside the page.

use leptos::prelude::*;

use super::beside::{Begun, beside};
use super::state::{State, state};
use crate::beside::{Part, Work};
use crate::design::Design;
use crate::design::units::Quantity;
use crate::figures::slack::{Alone, Fallible, Room, Slack, What};

/// How far off each thing may be, and what is left when all are off.
#[component]
pub fn SlackCard() -> impl IntoView {
    let state = state();
    let beside = beside();
    let begun = StoredValue::new(None::<Begun>);
    let found = RwSignal::new(None::<(Slack, bool)>);
    let stop = move || {
        if let Some(begun) = begun.try_update_value(Option::take).flatten() {
            beside.drop(begun);
        }
    };
    // What was found for another design says nothing of this one.
    Effect::new(move |_| {
        state.design.track();
        state.shop.track();
        stop();
        found.set(None);
    });
    let start = move |_| {
        stop();
        let (design, shop) = (state.design.get_untracked(), state.shop.get_untracked());
        begun.set_value(Some(beside.begin(Work::Slack { design, shop }, move |part| {
            if let Part::Slack { slack, is_whole } = part {
                found.set(Some((slack, is_whole)));
            }
        })));
    };
    on_cleanup(stop);
    let rows = move || {
        found.with(|found| {
            let (slack, done) = found.as_ref()?;
            Some(state.design.with(|design| table(state, design, slack, *done)))
        })
    };
    view! {
        <section class="card" aria-labelledby="slack">
            <h2 id="slack">"Room for error"</h2>
            <p class="hint">
                "One at a time, everything else as planned: how far off before the wall comes to its limit, and before it breaks through."
            </p>
            {move || found.with(Option::is_none).then(|| view! {
                <button type="button" class="button" on:click=start>"Calculate"</button>
            })}
            {rows}
        </section>
    }
    .into_any()
}

fn table(state: State, design: &Design, slack: &Slack, done: bool) -> AnyView {
    let length = move |mm: f64| state.units().show_with_unit(mm, Quantity::Length);
    let reach = slack.reach_mm;
    let room = move |room: &Room| {
        let one = |mm: Option<f64>| mm.map_or_else(|| format!("over {}", length(reach)), length);
        format!("{} / {}", one(room.to_limit_mm), one(room.to_zero_mm))
    };
    let row = |alone: &Alone| {
        view! {
            <tr>
                <th scope="row">{called(design, alone.of)}</th>
                <td>{room(&alone.less)}</td>
                <td>{room(&alone.more)}</td>
            </tr>
        }
    };
    let together = slack.together.map(|all| {
        format!(
            "With everything off by {} at once, each the worst way, the thinnest wall is {}.",
            length(all.off_mm),
            length(all.wall_mm)
        )
    });
    view! {
        <div class="table-scroll" tabindex="0" role="region" aria-label="Room for error">
            <table class="figures-table">
                <thead>
                    <tr>
                        <th scope="col">"What is off"</th>
                        <th scope="col">"Less: limit / would break through"</th>
                        <th scope="col">"More: limit / would break through"</th>
                    </tr>
                </thead>
                <tbody>{slack.alone.iter().map(row).collect_view()}</tbody>
            </table>
        </div>
        <p role="status">{if done { "" } else { "Working it out\u{2026}" }} {together}</p>
    }
    .into_any()
}

/// What can be off, and which way "more" is.
fn called(design: &Design, of: Fallible) -> String {
    let what = match of.what {
        What::TailX => "mark on the bowl end, right",
        What::TailY => "mark on the bowl end, up",
        What::HeadX => "mark on the head end, right",
        What::HeadY => "mark on the head end, up",
        What::HollowDepth => "depth of the hollow",
        What::HollowDiameter => "diameter of the hollow",
        What::WanderX => "bore runs off, right",
        What::WanderY => "bore runs off, up",
        What::OutsideDiameter => "diameter",
        What::PassFrom => "start of the pass",
        What::PassTo => "end of the pass",
    };
    let name = of.cut.and_then(|cut| design.cuts.get(cut)).map_or("", |cut| match cut {
        crate::design::Cut::Pass(pass) => pass.name.as_str(),
        _ => "",
    });
    match (of.axis, name) {
        (Some(axis), _) => format!("{axis}: {what}"),
        (None, "") => what.to_owned(),
        (None, name) => format!("{name}: {what}"),
    }
}
