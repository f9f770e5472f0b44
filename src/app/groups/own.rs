//! What of a design follows its pattern, and what is the turner's own.

use leptos::prelude::*;

use super::wood::Choice;
use crate::app::notice::Notice;
use crate::app::state::state;
use crate::app::wanted::SayWhatYouWant;
use crate::design::PatternPart;
use crate::design::following::{choose, follow_again};
use crate::design::units::Quantity;
use crate::finding::KindAsked;
use crate::form::own::{follow_all_again, own_names, own_part_of};
use crate::form::{Field, SectionKey};

/// Says that the part under a heading no longer follows the pattern, and gives it back.
#[component]
pub fn OwnMark(key: SectionKey) -> impl IntoView {
    let state = state();
    let own = Memo::new(move |_| state.design.with(|design| own_part_of(design, key)));
    let mark = move |part: PatternPart| {
        let follow = move |_| {
            state.picked.set(None);
            state.change(|design| follow_again(design, &part));
        };
        view! {
            <div class="own">
                <p>"Yours: it no longer follows the whole piece."</p>
                <button type="button" class="button" on:click=follow>"Follow again"</button>
            </div>
        }
    };
    view! { <div role="status">{move || own.get().map(mark)}</div> }.into_any()
}

/// What stands above the choices: what kind of piece it is, what it is for, and what does not follow.
#[component]
pub fn WholePiece() -> impl IntoView {
    let state = state();
    let title = move || state.design.with(|design| design.pattern.as_ref().map(|pattern| pattern.choices.title()));
    let own = Memo::new(move |_| state.design.with(own_names));
    let can_ask = Memo::new(move |_| {
        state.design.with(|design| design.pattern.as_ref().is_some_and(|it| KindAsked::of(&it.choices).is_some()))
    });
    let asking = RwSignal::new(false);
    let own_list = move |names: String| {
        view! {
            <div class="own">
                <p>{format!("Yours, and no longer following: {names}.")}</p>
                <button type="button" class="button" on:click=move |_| state.change(follow_all_again)>
                    "Let all follow again"
                </button>
            </div>
        }
    };
    let form =
        move || asking.get().then(|| view! { <SayWhatYouWant changed=Callback::new(move |()| asking.set(false)) /> });
    view! {
        <section class="card">
            <div class="whole-head">
                <h2>{title}</h2>
                <Show when=move || can_ask.get()>
                    <button type="button" class="button" aria-expanded=move || asking.get().to_string()
                        on:click=move |_| asking.update(|asking| *asking = !*asking)>
                        "Change what it is for"
                    </button>
                </Show>
            </div>
            {move || own.get().map(own_list)}
        </section>
        {form}
    }
    .into_any()
}

/// The lists to pick from under a heading of the pattern.
#[component]
pub fn ChoiceLists(section: &'static str) -> impl IntoView {
    let state = state();
    let lists = state.design.with_untracked(|design| {
        design.pattern.as_ref().map(|pattern| pattern.choices.lists(section)).unwrap_or_default()
    });
    let list = move |(place, label, names): (usize, &'static str, &'static [&'static str])| {
        let picked = move || {
            let which = state.design.with(|design| design.pattern.as_ref()?.choices.picked(place));
            which.and_then(|which| names.get(which)).copied().unwrap_or_default().to_owned()
        };
        let pick = move |name: String| {
            if let Some(which) = names.iter().position(|it| *it == name) {
                state.picked.set(None);
                state.change(|design| choose(design, |choices| choices.pick(place, which)));
            }
        };
        let all = names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
        view! {
            <Choice label=label names=Signal::stored(all) current=Signal::derive(picked) chosen=Callback::new(pick) />
        }
    };
    let bits = state.design.with_untracked(|design| {
        let choices = design.pattern.as_ref().map(|pattern| &pattern.choices);
        choices.map(|choices| choices.bits(section)).unwrap_or_default()
    });
    view! {
        {bits.into_iter().map(bit_list).collect_view()}
        {lists.into_iter().map(list).collect_view()}
    }
    .into_any()
}

/// The bits of the shop, to pick from for the number at this place.
fn bit_list(place: usize) -> AnyView {
    let state = state();
    let field = Field::Choice(place);
    let length = move |mm: f64| state.units().show_with_unit(mm, Quantity::Length);
    let names = move || state.shop.with(|shop| shop.bits.iter().map(|bit| length(bit.diameter_mm)).collect::<Vec<_>>());
    let current = move || state.design.with(|design| field.number(design)).map(length).unwrap_or_default();
    let pick = move |name: String| {
        let bit = untrack(|| {
            state.shop.with(|shop| {
                shop.bits.iter().map(|bit| bit.diameter_mm).find(|diameter_mm| length(*diameter_mm) == name)
            })
        });
        if let Some(Err(why)) = bit.map(|diameter_mm| state.set_number(field, diameter_mm, false)) {
            state.notices.say(Notice::plain(why));
        }
    };
    view! {
        <Choice label="Bit" names=Signal::derive(names) current=Signal::derive(current) chosen=Callback::new(pick) />
    }
    .into_any()
}
