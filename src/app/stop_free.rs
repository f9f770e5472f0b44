//! How far the values of the open group may go: worked out beside the page while nothing else is going on.

use std::collections::HashMap;

use gloo_timers::callback::Timeout;
use leptos::prelude::*;

use super::beside::{Begun, Beside, beside};
use super::state::{Effort, Panel, Room, State};
use crate::beside::{Part, Work};
use crate::design::Design;
use crate::drawings::HandleId;
use crate::figures::stop_free::StopFreeWords;
use crate::form::{Field, Movable, sections};

/// How long nothing must have changed before the work begins, in milliseconds.
const QUIET_MS: u32 = 350;

/// Whether ranges can be worked out.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Prospect {
    /// At once.
    Now,
    /// Once the figures are there.
    AfterFigures,
    /// No: another room is open, or the figures are left out.
    None,
}

fn prospect(state: State) -> Prospect {
    let is_open = state.room.get() == Room::Design && matches!(state.panel.get(), Panel::Values(_));
    match state.effort.get() {
        Effort::Brief if is_open && !state.coming.get() => Prospect::Now,
        Effort::Brief | Effort::Long(_) if is_open => Prospect::AfterFigures,
        _ => Prospect::None,
    }
}

/// What is known of how far a value may go.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Range {
    /// Of the design as it is; `None` while it is being worked out, or when it took too long.
    pub words: Option<StopFreeWords>,
    /// As it was when it was last known: the slider stays about that.
    pub last: Option<(f64, f64)>,
    /// Whether it is being worked out.
    pub is_coming: bool,
}

/// The ranges of the values on screen.
#[derive(Clone, Copy)]
pub struct StopFreeRanges {
    known: RwSignal<HashMap<Field, Range>>,
    waiting: StoredValue<Option<Timeout>, LocalStorage>,
    begun: StoredValue<Option<Begun>>,
}

impl StopFreeRanges {
    /// None known yet.
    pub fn new() -> Self {
        Self {
            known: RwSignal::new(HashMap::new()),
            waiting: StoredValue::new_local(None),
            begun: StoredValue::new(None),
        }
    }

    /// The range of a field.
    pub fn of(self, field: Field) -> Range {
        self.known.with(|known| known.get(&field).cloned()).unwrap_or_default()
    }

    /// Works the ranges out again whenever the design, the shop or the open group changes.
    pub fn follow(self, state: State) {
        let beside = beside();
        let prospect = Memo::new(move |_| prospect(state));
        Effect::new(move |_| {
            state.design.track();
            state.shop.track();
            state.panel.track();
            state.picked.track();
            if let Some(begun) = self.begun.get_value() {
                self.begun.set_value(None);
                beside.drop(begun);
            }
            self.known.update(|known| known.values_mut().for_each(|range| range.words = None));
            self.expect(state, beside, prospect.get_untracked());
        });
        Effect::new(move |_| {
            let prospect = prospect.get();
            // What was begun goes on while another room is open.
            if self.begun.get_value().is_none() {
                self.expect(state, beside, prospect);
            }
        });
    }

    /// Begins in a moment, where the ranges can be worked out, and says so where they will be.
    fn expect(self, state: State, beside: Beside, prospect: Prospect) {
        self.known.update(|known| {
            known.values_mut().for_each(|range| range.is_coming = prospect != Prospect::None);
        });
        let begin = move || Timeout::new(QUIET_MS, move || self.begin(state, beside));
        self.waiting.set_value((prospect == Prospect::Now).then(begin));
    }

    fn begin(self, state: State, beside: Beside) {
        let Panel::Values(group) = state.panel.get_untracked() else { return };
        let (design, shop) = (state.made.get_untracked(), state.shop.get_untracked());
        let picked = match state.picked.get_untracked() {
            Some(HandleId::Part(thing)) => fields_of(&design, thing),
            _ => Vec::new(),
        };
        let of_group = sections(&design, group).into_iter().flat_map(|section| section.fields);
        let mut fields: Vec<Field> = picked.into_iter().chain(of_group).collect();
        // The value that was moved last is the one that is looked at.
        if let Some(moved) = state.moving.get_value()
            && let Some(place) = fields.iter().position(|field| *field == moved)
        {
            fields[..=place].rotate_right(1);
        }
        self.known.update(|known| {
            known.retain(|field, _| fields.contains(field));
            for field in &fields {
                known.entry(*field).or_default().is_coming = true;
            }
        });
        self.begun
            .set_value(Some(beside.begin(Work::StopFree { design, shop, fields }, move |part| self.hear(state, part))));
    }

    fn hear(self, state: State, part: Part) {
        match part {
            Part::StopFree(field, range) => {
                let row = state.design.with_untracked(|design| field.row(design));
                let units = untrack(|| state.units());
                let words = range.as_ref().map(|range| StopFreeWords::new(range, units, row.quantity));
                self.known.update(|known| {
                    let known = known.entry(field).or_default();
                    known.words = words;
                    known.last = range.map(|range| (range.low.value, range.high.value)).or(known.last);
                    known.is_coming = false;
                });
            }
            Part::Done => self.known.update(|known| known.values_mut().for_each(|range| range.is_coming = false)),
            _ => {}
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
