//! The checks: the worst as a pill, and all of them with their cures.

use leptos::prelude::*;

use super::cures::CureFinder;
use super::state::{Effort, Panel, Room, state};
use super::working::not_worked_out;
use crate::figures::checks::{Check, Verdict};

/// The words and shape of a verdict: never colour alone.
const fn told(verdict: Verdict) -> (&'static str, &'static str) {
    match verdict {
        Verdict::Ok => ("good", "OK"),
        Verdict::Tight => ("tight", "Tight"),
        Verdict::Stop => ("stop", "Stop"),
    }
}

/// The outline of a circle.
const CIRCLE: &str = "M12 1.5a10.5 10.5 0 1 0 0 21a10.5 10.5 0 1 0 0-21z";

/// A tick in a circle, a triangle or an octagon; three dots in a circle for a verdict that is still to come.
fn shape(verdict: Option<Verdict>) -> AnyView {
    let (outline, sign) = match verdict {
        None => (CIRCLE, "M6.5 12h1M11.5 12h1M16.5 12h1"),
        Some(Verdict::Ok) => (CIRCLE, "M7 12.5l3.5 3.5l6.5-7.5"),
        Some(Verdict::Tight) => ("M12 1.5l11 20.5h-22z", "M12 8.5v6.5M12 18v1"),
        Some(Verdict::Stop) => ("M8 1.5h8l6.5 6.5v8l-6.5 6.5h-8l-6.5-6.5v-8z", "M8 8l8 8M16 8l-8 8"),
    };
    view! {
        <svg class="verdict-shape" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
            <path class="verdict-outline" d=outline />
            <path class="verdict-sign" d=sign />
        </svg>
    }
    .into_any()
}

/// The worst check, beside the figures; pressing it shows all checks.
#[component]
pub fn WorstCheck() -> impl IntoView {
    let state = state();
    let worst = Memo::new(move |_| {
        state.figure(|worked| {
            let verdict = worked.checks.iter().map(|check| check.verdict).max().unwrap_or(Verdict::Ok);
            let of_it = worked.checks.iter().filter(|check| check.verdict == verdict);
            let name = of_it.clone().next().map_or("", |check| check.name.title());
            (verdict, name, of_it.count())
        })
    });
    let is_coming = move || matches!(state.effort.get(), Effort::Brief | Effort::Long(_));
    let words = move || match worst.get() {
        None if !is_coming() => (None, "Not worked out".to_owned(), "checks".to_owned()),
        None if state.why_no_figures().is_none() => (None, "\u{2026}".to_owned(), "checking".to_owned()),
        None => (Some(Verdict::Stop), "Stop".to_owned(), "it has no figures".to_owned()),
        Some((Verdict::Ok, ..)) => (Some(Verdict::Ok), told(Verdict::Ok).1.to_owned(), "all checks".to_owned()),
        Some((verdict, name, 1)) => (Some(verdict), told(verdict).1.to_owned(), name.to_ascii_lowercase()),
        Some((Verdict::Stop, name, count)) => {
            (Some(Verdict::Stop), format!("{count} stops"), name.to_ascii_lowercase())
        }
        Some((verdict, name, count)) => (Some(verdict), format!("{count} tight"), name.to_ascii_lowercase()),
    };
    let class = move || format!("pill {}", words().0.map_or("waiting", |verdict| told(verdict).0));
    let open = move |_| {
        state.room.set(Room::Design);
        state.panel.set(Panel::Checks);
        super::browser::focus_soon("checks");
    };
    view! {
        <button type="button" class=class on:click=open>
            {move || shape(words().0)}
            <span class="pill-words">
                <strong>{move || words().1}</strong>
                <span class="pill-name">{move || words().2}</span>
            </span>
            <span class="unseen">", show all checks"</span>
        </button>
    }
    .into_any()
}

/// Every check, the worst first, each with what to change.
#[component]
pub fn ChecksPanel() -> impl IntoView {
    let state = state();
    // Watched by itself, so that the list stays while the shape changes.
    let why_not = Memo::new(move |_| state.why_no_figures());
    let not_known = Memo::new(move |_| not_worked_out(state));
    let list = move || {
        if let Some(why) = why_not.get() {
            return view! { <li class="check stop"><p>{why}</p></li> }.into_any();
        }
        if let Some(why) = not_known.get() {
            return view! { <li class="check">{shape(None)}<div><h3>"Not worked out"</h3><p>{why}</p></div></li> }
                .into_any();
        }
        let checks = move || state.figure(|worked| told_apart(&worked.checks)).unwrap_or_default();
        // Only what reads differently is shown anew.
        view! { <For each=checks key=|(key, _)| key.clone() children=|(_, check)| one_check(check) /> }.into_any()
    };
    view! {
        <section class="card" aria-labelledby="checks">
            <h2 id="checks" tabindex="-1">"Checks"</h2>
            <ul class="checks">{list}</ul>
        </section>
    }
    .into_any()
}

/// All that is shown of a check, and how many before it read the same.
type CheckKey = (&'static str, u8, String, String, Option<String>, usize);

/// Every check with a key of its own.
fn told_apart(checks: &[Check]) -> Vec<(CheckKey, Check)> {
    let key = |check: &Check, alike| {
        let (sentence, cure, field) = (check.sentence.clone(), check.cure.clone(), check.field.clone());
        (check.name.title(), check.verdict as u8, sentence, cure, field, alike)
    };
    let mut told = Vec::<(CheckKey, Check)>::with_capacity(checks.len());
    for check in checks {
        let alike = told.iter().filter(|(other, _)| *other == key(check, other.5)).count();
        told.push((key(check, alike), check.clone()));
    }
    told
}

/// One check: how it came out, what was found, the cure, and a way to the value.
pub fn one_check(check: Check) -> AnyView {
    let state = state();
    let (class, word) = told(check.verdict);
    let cure =
        (check.verdict != Verdict::Ok && !check.cure.is_empty()).then(|| view! { <p class="cure">{check.cure}</p> });
    let finder = (check.verdict != Verdict::Ok).then(|| view! { <CureFinder name=check.name /> });
    let near_mm = check.place.map(|place| place.station_mm);
    let jump = check.field.map(|field| {
        view! {
            <button type="button" class="button" on:click=move |_| state.show_field(&field, near_mm)>
                "Show the value"<span class="unseen">{format!(" that cures {}", check.name.title())}</span>
            </button>
        }
    });
    view! {
        <li class=format!("check {class}")>
            {shape(Some(check.verdict))}
            <div>
                <h3>{check.name.title()}" "<span class="verdict-word">{word}</span></h3>
                <p>{check.sentence}</p>
                {cure}
                <div class="buttons">{jump} {finder}</div>
            </div>
        </li>
    }
    .into_any()
}
