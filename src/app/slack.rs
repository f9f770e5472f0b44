//! How far off marks, depths and diameters may be before the wall is too thin: worked out when asked, between frames.

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::state::{State, state};
use crate::design::Design;
use crate::design::units::Quantity;
use crate::figures::Sliced;
use crate::figures::slack::{Alone, Fallible, Room, Slack, SlackSearch, What};

/// How long the work pauses for what else the page has to do, in milliseconds.
const PAUSE_MS: u32 = 4;

/// How far off each thing may be, and what is left when all are off.
#[component]
pub fn SlackCard() -> impl IntoView {
    let state = state();
    let work = StoredValue::new_local(None::<Work>);
    let waiting = StoredValue::new_local(None::<Timeout>);
    let found = RwSignal::new(None::<(Slack, bool)>);
    let bench = Bench { work, waiting, found };
    // What was found for another design says nothing of this one.
    Effect::new(move |_| {
        state.design.track();
        state.shop.track();
        waiting.set_value(None);
        work.set_value(None);
        found.set(None);
    });
    let start = move |_| {
        let piece = state.shape_untracked(|shape| shape.piece.clone());
        let (design, shop) = (state.design.get_untracked(), state.shop.get_untracked());
        work.set_value(piece.map(|piece| {
            Sliced::new(async move |pace| {
                let search = SlackSearch::in_slices(&design, &shop, &piece, &pace).await?;
                Some((search, true))
            })
        }));
        bench.go_on();
    };
    on_cleanup(move || {
        waiting.try_update_value(|it| *it = None);
    });
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

/// The next step of the search: the search after it, and whether there is more to do; none where there is no wall.
type Work = Sliced<Option<(SlackSearch, bool)>>;

/// Where the work is done.
#[derive(Clone, Copy)]
struct Bench {
    work: StoredValue<Option<Work>, LocalStorage>,
    waiting: StoredValue<Option<Timeout>, LocalStorage>,
    found: RwSignal<Option<(Slack, bool)>>,
}

impl Bench {
    /// Does one slice.
    fn go_on(self) {
        let Some(done) = self.work.try_update_value(|work| Some(work.as_mut()?.step())).flatten() else { return };
        if let Some(step) = done {
            let Some((mut search, more)) = step else { return };
            self.found.set(Some((search.so_far().clone(), !more)));
            if !more {
                return;
            }
            self.work.set_value(Some(Sliced::new(async move |pace| {
                let more = search.step_in_slices(&pace).await;
                Some((search, more))
            })));
        }
        self.waiting.set_value(Some(Timeout::new(PAUSE_MS, move || self.go_on())));
    }
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
