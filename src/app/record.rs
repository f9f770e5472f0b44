//! The log: how a making came out, measured beside planned, and what that says of the shop's usual error.

use leptos::prelude::*;

use super::browser;
use super::keeping::keeping;
use super::notice::Notice;
use super::state::{State, state};
use super::text_field::text_field;
use super::typing::drafted;
use crate::design::units::Quantity;
use crate::design::validation::bounds;
use crate::design::{Making, Measured, MeasuredHold, MeasuredWhat};
use crate::figures::known::Known;
use crate::figures::to_measure::to_measure;
use crate::figures::usual_error::{UsualError, usual_error};
use crate::shelf::DesignId;
use crate::shelf::browser::now_ms;

/// One line to fill in.
#[derive(Clone)]
struct Line {
    planned: Measured,
    typed: RwSignal<String>,
}

/// The log of the design on the bench, and a form for the next entry.
#[component]
pub fn LogCard() -> impl IntoView {
    let state = state();
    let drafts = StoredValue::new(drafts_of(keeping().open_id().as_ref()));
    let form = RwSignal::new(state.has_drafts(&drafts.get_value()));
    // What was left half filled in waits for the figures that it is measured against.
    let figured = Memo::new(move |_| state.finished(|_| ()).is_some());
    let makings = move || {
        state.design.with(|design| {
            let makings = design.log.iter().enumerate().rev().map(|(number, making)| shown(state, number, making));
            makings.collect_view()
        })
    };
    view! {
        <section class="card" aria-labelledby="log">
            <h2 id="log" tabindex="-1">"Log"</h2>
            <p class="hint">"Each time it is made: what was measured, what went wrong, what to change. Kept with the design."</p>
            {move || match form.get() {
                true if !figured.get() => ().into_any(),
                true => view! { <LogForm form=form drafts=drafts.get_value() /> }.into_any(),
                false => view! {
                    <button type="button" class="button" on:click=move |_| form.set(true)>"Log this piece"</button>
                }
                .into_any(),
            }}
            <ul class="plain-list">{makings}</ul>
            {move || state.design.with(|design| habit(state, &usual_error([design])))}
        </section>
    }
    .into_any()
}

/// How the names of the drafts begin that belong to the log of this design.
fn drafts_of(id: Option<&DesignId>) -> String {
    format!("log/{}/", id.map(DesignId::as_str).unwrap_or_default())
}

/// What a measured thing is called.
const fn called(what: MeasuredWhat) -> &'static str {
    match what {
        MeasuredWhat::Wall => "Thinnest wall",
        MeasuredWhat::Floor => "Floor",
        MeasuredWhat::Diameter => "Diameter",
        MeasuredWhat::Depth => "Depth of the bore",
    }
}

fn length(state: State, mm: f64) -> String {
    state.units().show_with_unit(mm, Quantity::Length)
}

fn place(state: State, line: &Measured) -> String {
    match line.what {
        MeasuredWhat::Depth => String::new(),
        _ => format!(" at {} on axis {}", length(state, line.at_mm), line.axis),
    }
}

/// What is typed of one making and is not kept yet.
#[derive(Clone, Copy)]
struct Entry {
    date: RwSignal<String>,
    wood: RwSignal<String>,
    wrong: RwSignal<String>,
    change: RwSignal<String>,
    holds: RwSignal<String>,
    lines: StoredValue<Vec<Line>>,
    planned_ml: Option<f64>,
}

impl Entry {
    /// A form for the design as it is figured now, with what was left half filled in; `drafts` is how the names of its
    /// drafts begin.
    fn of(state: State, drafts: &str) -> Self {
        let empty = |name: &str| drafted(format!("{drafts}{name}"), String::new());
        let planned = untrack(|| {
            state.finished(|it| {
                let lines = to_measure(&it.design, &it.worked, it.shop.length_unit);
                (lines, it.worked.figures.summary.holds_ml)
            })
        });
        let (planned, planned_ml) = planned.unwrap_or_default();
        let line = |planned: Measured| {
            let typed = empty(&format!("{} {:.2} {}", called(planned.what), planned.at_mm, planned.axis));
            Line { planned, typed }
        };
        Self {
            date: drafted(format!("{drafts}date"), browser::day_for_file(now_ms())),
            wood: empty("wood"),
            wrong: empty("wrong"),
            change: empty("change"),
            holds: empty("holds"),
            lines: StoredValue::new(planned.into_iter().map(line).collect()),
            planned_ml,
        }
    }

    /// The making that was typed, or what is wrong with it.
    fn read(&self, state: State) -> Result<Making, String> {
        let words = |typed: RwSignal<String>| typed.get_untracked().trim().to_owned();
        Ok(Making {
            date: self.date.get_untracked(),
            wood: words(self.wood),
            measured: self.lines.with_value(|lines| read_lines(state, lines))?,
            holds: read_volume(&self.holds.get_untracked(), self.planned_ml)?,
            went_wrong: words(self.wrong),
            change_next: words(self.change),
        })
    }
}

#[component]
fn LogForm(
    form: RwSignal<bool>,
    /// How the names of its drafts begin.
    drafts: String,
) -> impl IntoView {
    let state = state();
    let entry = Entry::of(state, &drafts);
    let reason = RwSignal::new(None::<String>);
    let done = move || {
        form.set(false);
        state.forget_drafts(&drafts);
    };
    let leave = done.clone();
    let save = move |_| match entry.read(state).and_then(|making| state.add_making(making)) {
        Ok(()) => {
            done();
            state.notices.say(Notice::plain("Noted, and kept with the design."));
        }
        Err(why) => reason.set(Some(why)),
    };
    let measured = |line: &Line| {
        let planned = &line.planned;
        let (what, at) = (called(planned.what), place(state, planned));
        text_field(format!("{what}{at}, planned {}", length(state, planned.planned_mm)), line.typed, "decimal")
    };
    let holds = |ml: f64| {
        text_field(
            format!("What it holds with its handle level, struck, in mL. Planned {ml:.0} mL"),
            entry.holds,
            "decimal",
        )
    };
    view! {
        <div class="form">
            {text_field("Date, as 2026-03-09", entry.date, "text")}
            {text_field("Wood", entry.wood, "text")}
            <p class="hint">"Measured on the finished piece; leave out what you did not measure."</p>
            {entry.lines.with_value(|lines| lines.iter().map(measured).collect_view())}
            {entry.planned_ml.map(holds)}
            {text_field("What went wrong", entry.wrong, "text")}
            {text_field("What to change next time", entry.change, "text")}
            <p class="value-reason" role="alert">{move || reason.get()}</p>
            <div class="buttons">
                <button type="button" class="button" on:click=save>"Save"</button>
                <button type="button" class="button quiet" on:click=move |_| leave()>"Cancel"</button>
            </div>
        </div>
    }
    .into_any()
}

fn read_lines(state: State, lines: &[Line]) -> Result<Vec<Measured>, String> {
    let mut measured = Vec::new();
    for line in lines {
        let typed = line.typed.get_untracked();
        if typed.trim().is_empty() {
            continue;
        }
        let value = untrack(|| state.units()).read(&typed, Quantity::Length, &bounds::MEASURED_LENGTH);
        let measured_mm = value.map_err(|why| format!("{}: {why}", called(line.planned.what)))?;
        measured.push(Measured { measured_mm, ..line.planned });
    }
    Ok(measured)
}

fn read_volume(typed: &str, planned_ml: Option<f64>) -> Result<Option<MeasuredHold>, String> {
    let (typed, Some(planned_ml)) = (typed.trim(), planned_ml) else { return Ok(None) };
    if typed.is_empty() {
        return Ok(None);
    }
    let measured_ml = typed.replace(',', ".").parse::<f64>();
    let measured_ml = measured_ml.map_err(|_| format!("What it holds: {typed:?} is not a number of mL."))?;
    Ok(Some(MeasuredHold { planned_ml, measured_ml }))
}

/// One making of the log.
fn shown(state: State, number: usize, making: &Making) -> AnyView {
    let lines = making.measured.iter().map(|line| {
        let off = line.measured_mm - line.planned_mm;
        let sign = if off < 0.0 { "\u{2212}" } else { "+" };
        view! {
            <div>
                <dt>{called(line.what)}{place(state, line)}</dt>
                <dd>{length(state, line.measured_mm)} {format!(" ({sign}{})", length(state, off.abs()))}</dd>
            </div>
        }
    });
    let holds = making.holds.map(|holds| {
        view! {
            <div><dt>"Holds"</dt><dd>{format!("{:.0} mL. Planned {:.0} mL", holds.measured_ml, holds.planned_ml)}</dd></div>
        }
    });
    let words = |what: &'static str, words: &str| {
        (!words.is_empty()).then(|| view! { <p><strong>{what}</strong>{words.to_owned()}</p> })
    };
    view! {
        <li>
            <h3>{making.date.clone()} {(!making.wood.is_empty()).then(|| format!(", {}", making.wood))}</h3>
            <dl class="facts">{lines.collect_view()} {holds}</dl>
            {words("Went wrong: ", &making.went_wrong)}
            {words("Next time: ", &making.change_next)}
            <button type="button" class="button quiet" on:click=move |_| state.remove_making(number)>
                "Remove"<span class="unseen">{format!(" the log of {}", making.date)}</span>
            </button>
        </li>
    }
    .into_any()
}

/// What the log says of the shop's usual error.
fn habit(state: State, error: &UsualError) -> Option<AnyView> {
    if error.pieces == 0 {
        return None;
    }
    let offered = match &error.offered_mm {
        Known::Value(mm) => {
            let mm = *mm;
            view! {
                <p>{format!("Your lengths come out within {} of the plan, as a rule.", length(state, mm))}</p>
                <button type="button" class="button" on:click=move |_| state.take_usual_error(mm)>
                    "Use it as the shop's usual error"
                </button>
            }
            .into_any()
        }
        Known::Missing { why_not } => view! { <p class="hint">{why_not.clone()}</p> }.into_any(),
    };
    Some(offered)
}
