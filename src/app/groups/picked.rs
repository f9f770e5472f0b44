//! The picked node of a profile, or point of a saw line: its values, and what can be done with it.

use leptos::prelude::*;

use super::Rows;
use crate::app::state::state;
use crate::design::Design;
use crate::form::Field;

/// Puts something in after a place of a cut.
pub type Insert = fn(&mut Design, usize, usize);

/// What can be picked: each function takes the cut and the place in it.
#[derive(Clone, Copy)]
pub struct Pickable {
    /// Its numbers.
    pub fields: fn(&Design, usize, usize) -> Vec<Field>,
    /// What can be put in after it: each with what its button says.
    pub inserts: &'static [(&'static str, Insert)],
    /// Whether it can be taken out.
    pub can_remove: fn(&Design, usize, usize) -> bool,
    /// Takes it out.
    pub remove: fn(&mut Design, usize, usize),
    /// What is chosen of the way to the next one.
    pub to_next: fn(usize, usize) -> AnyView,
}

/// The picked one, while there is one. After those before `gaps` one more can be put in.
#[component]
pub fn Picked(cut: usize, index: Memo<Option<usize>>, gaps: Memo<usize>, kind: Pickable) -> impl IntoView {
    let state = state();
    let picked = move |index: usize| {
        let fields = Memo::new(move |_| state.design.with(|design| (kind.fields)(design, cut, index)));
        let can_remove = move || state.design.with(|design| (kind.can_remove)(design, cut, index));
        let has_gap = Memo::new(move |_| index < gaps.get());
        let remove = move |_| {
            state.picked.set(None);
            state.change(|design| (kind.remove)(design, cut, index));
        };
        let insert = move |(name, insert): &'static (&'static str, Insert)| {
            view! {
                <button type="button" class="button" on:click=move |_| state.change(|design| insert(design, cut, index))>
                    {*name}
                </button>
            }
        };
        view! {
            <div class="picked">
                <Rows fields=fields />
                {move || has_gap.get().then(|| (kind.to_next)(cut, index))}
                <div class="buttons">
                    <Show when=move || has_gap.get()>
                        {kind.inserts.iter().map(insert).collect_view()}
                    </Show>
                    <Show when=can_remove>
                        <button type="button" class="button" on:click=remove>"Remove point"</button>
                    </Show>
                </div>
            </div>
        }
    };
    (move || index.get().map(picked)).into_any()
}
