//! The shaded ends of the sliders: worked out for the open group while nothing else is going on.

use std::collections::HashMap;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::state::{Effort, Panel, Place, State};
use crate::design::Design;
use crate::drawings::HandleId;
use crate::figures::Sliced;
use crate::figures::stop_free::StopFreeSearch;
use crate::form::{Field, Movable, sections};

/// How long nothing must have changed before the work begins, and the pause between its steps, in milliseconds.
const QUIET_MS: u32 = 350;
const PAUSE_MS: u32 = 8;

/// A range that takes more work than this, in units, is not looked for to the end: that of a heavy piece for seconds.
const MOST_WORK: u64 = 400_000_000;

/// The range of a field in which no check stops; `None` when there is no such place.
pub type StopFree = Option<(f64, f64)>;

/// The ranges known of the design as it is.
#[derive(Clone, Copy)]
pub struct StopFreeRanges {
    known: RwSignal<HashMap<Field, StopFree>>,
    waiting: StoredValue<Option<Timeout>, LocalStorage>,
    queue: StoredValue<Vec<(Field, Sliced<StopFree>)>, LocalStorage>,
}

impl StopFreeRanges {
    /// None known yet.
    pub fn new() -> Self {
        Self {
            known: RwSignal::new(HashMap::new()),
            waiting: StoredValue::new_local(None),
            queue: StoredValue::new_local(Vec::new()),
        }
    }

    /// The range of a field, once it is known.
    pub fn of(self, field: Field) -> Option<StopFree> {
        self.known.with(|known| known.get(&field).copied())
    }

    /// Works the ranges out again whenever the design, the shop or the open group changes.
    pub fn follow(self, state: State) {
        Effect::new(move |_| {
            state.design.track();
            state.shop.track();
            state.panel.track();
            state.picked.track();
            // The range of the value that is being moved does not depend on it.
            let moving = state.moving.get_value();
            let kept = self.known.with_untracked(|known| moving.and_then(|field| Some((field, *known.get(&field)?))));
            let kept: HashMap<_, _> = kept.into_iter().collect();
            if self.known.with_untracked(|known| *known != kept) {
                self.known.set(kept);
            }
            self.queue.set_value(Vec::new());
            self.waiting.set_value(Some(Timeout::new(QUIET_MS, move || self.begin(state))));
        });
    }

    fn begin(self, state: State) {
        // The figures come first.
        if state.coming.get_untracked() || state.effort.get_untracked() == Effort::Stopped {
            self.waiting.set_value(Some(Timeout::new(QUIET_MS, move || self.begin(state))));
            return;
        }
        if state.place.get_untracked() != Place::Design || state.effort.get_untracked() != Effort::Brief {
            return;
        }
        let Panel::Values(group) = state.panel.get_untracked() else { return };
        let searches = state.design.with_untracked(|design| {
            let picked = match state.picked.get_untracked() {
                Some(HandleId::Part(thing)) => fields_of(design, thing),
                _ => Vec::new(),
            };
            let of_group = sections(design, group).into_iter().flat_map(|section| section.fields);
            state.shop.with_untracked(|shop| {
                let search = |field: Field| {
                    let row = field.row(design);
                    let search = StopFreeSearch::new(design, shop, field, row.from, row.to);
                    (field, Sliced::new(async move |pace| search.in_slices(&pace).await))
                };
                // The last is taken first.
                let mut searches: Vec<_> = picked.into_iter().chain(of_group).map(search).collect();
                searches.reverse();
                searches
            })
        });
        self.queue.set_value(searches);
        self.step();
    }

    fn step(self) {
        let found = self.queue.try_update_value(|queue| {
            let (field, search) = queue.last_mut()?;
            let found = search.step().map(|range| (*field, range));
            // A range that takes too long to find is not shown.
            if found.is_some() || search.units() > MOST_WORK {
                queue.pop();
            }
            found
        });
        if let Some(Some((field, range))) = found {
            self.known.update(|known| {
                known.insert(field, range);
            });
        }
        if self.queue.with_value(|queue| !queue.is_empty()) {
            self.waiting.set_value(Some(Timeout::new(PAUSE_MS, move || self.step())));
        }
    }
}

/// The values of a picked node or point.
fn fields_of(design: &Design, thing: Movable) -> Vec<Field> {
    match thing {
        Movable::PassNode { cut, node } | Movable::HollowNode { cut, node } => Field::of_node(design, cut, node),
        Movable::SawPoint { cut, point } => Field::of_point(design, cut, point),
        _ => Vec::new(),
    }
}

/// The ranges, from any component.
pub fn stop_free_ranges() -> StopFreeRanges {
    expect_context()
}
