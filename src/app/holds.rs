//! What the utensil holds: in every pose that matters, in the measures of a kitchen, and over its pitch.

use std::sync::Arc;

use leptos::prelude::*;

use super::drawing::HoldChart;
use super::state::{State, state};
use crate::design::units::format_angle;
use crate::figures::hold::{Filled, Hold};
use crate::figures::known::Known;
use crate::figures::tables::Content;
use crate::figures::tables::measures::{Kitchen, say_in_shop};

/// What it holds, how it lies, and the curve over pitch.
#[component]
pub fn HoldsPanel() -> impl IntoView {
    let state = state();
    let hold = Memo::new(move |_| state.figure(|worked| Arc::new(worked.figures.hold.clone())));
    let body = move || match hold.get().as_deref() {
        None => view! { <p>"There is nothing to measure while the design has no figures."</p> }.into_any(),
        Some(Known::Missing { why_not }) => view! { <p>{format!("It holds nothing: {why_not}.")}</p> }.into_any(),
        Some(Known::Value(hold)) => tables(state, hold),
    };
    view! {
        <section class="card" aria-labelledby="holds">
            <h2 id="holds" tabindex="-1">"What it holds"</h2>
            {body}
        </section>
        <section class="card" aria-labelledby="hold-curve">
            <h2 id="hold-curve">"Tipped"</h2>
            <div class="chart"><HoldChart /></div>
            <p class="hint">"Above 0 the bowl end is raised."</p>
        </section>
    }
    .into_any()
}

fn tables(state: State, hold: &Hold) -> AnyView {
    let content = state.design.with(|design| Content::named(&design.contents));
    let name = content.map_or("dry goods", |content| content.name);
    let is_liquid = content.is_some_and(|content| content.liquid);
    let assumed = content.is_none_or(Content::repose_is_assumed);
    let liquid = [
        row(state, None, "Handle level", Some(hold.liquid_handle_level)),
        row(state, None, "At best tilt", Some(hold.liquid_best)),
        row(state, None, "As it lies on a table", hold.liquid_lying),
    ];
    let dry = [
        row(state, content, "Struck, handle level", Some(hold.dry_handle_level.struck)),
        row(state, content, "Heaped, handle level", Some(hold.dry_handle_level.heaped)),
        row(state, content, "Struck, at best tilt", Some(hold.dry_best.struck)),
        row(state, content, "Heaped, at best tilt", Some(hold.dry_best.heaped)),
        row(state, content, "Struck, opening level", hold.struck_level),
    ];
    let slope = format!("Assumed heap angle {} degrees", format_angle(hold.repose_deg));
    let dry_table = (!is_liquid).then(|| {
        view! {
            <h3>{format!("Of {name}")}</h3>
            {table(dry)}
            <p class="hint">{slope}{if assumed { ", usual for dry goods." } else { "." }}</p>
        }
    });
    view! {
        {dry_table}
        <h3>"Of a liquid"</h3>
        {table(liquid)}
        <p class="hint">
            {format!(
                "The hollow under the saw line would hold {} if the mouth were blocked: not a usable capacity.",
                say_in_shop(hold.cavity_mm3, kitchen(state)),
            )}
        </p>
    }
    .into_any()
}

fn table<const N: usize>(rows: [AnyView; N]) -> AnyView {
    view! {
        <table class="figures-table">
            <thead><tr><th scope="col">"How"</th><th scope="col">"Holds"</th><th scope="col">"Tilt"</th></tr></thead>
            <tbody>{rows.into_iter().collect_view()}</tbody>
        </table>
    }
    .into_any()
}

fn row(state: State, content: Option<&Content>, name: &'static str, filled: Option<Filled>) -> AnyView {
    let Some(filled) = filled else {
        return view! { <tr><th scope="row">{name}</th><td>"\u{2013}"</td><td>"\u{2013}"</td></tr> }.into_any();
    };
    let volume = say_in_shop(filled.volume_mm3, kitchen(state));
    let grams = content.map(|content| view! { <span class="grams">{content.say_grams(filled.volume_mm3)}</span> });
    let apart = (filled.cut_off_mm3 > 0.0)
        .then(|| view! { <span class="grams">{format!("and {} in pools apart", say_in_shop(filled.cut_off_mm3, kitchen(state)))}</span> });
    view! {
        <tr>
            <th scope="row">{name}</th>
            <td>{volume}{grams}{apart}</td>
            <td>{format!("{}\u{b0}", format_angle(filled.pitch_deg))}</td>
        </tr>
    }
    .into_any()
}

/// Whose spoons and cups.
fn kitchen(state: State) -> Kitchen {
    Kitchen::of(state.units().length)
}
