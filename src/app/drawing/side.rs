//! The side view on screen: handles are dragged by finger or mouse, and moved by arrow keys.

use std::sync::Arc;

use leptos::ev;
use leptos::prelude::*;

use super::board::{Board, theme};
use super::subject::Subject;

use crate::app::state::{Panel, State, state};
use crate::design::Design;
use crate::design::units::Quantity;
use crate::drawings::handles::HandleShape;
use crate::drawings::scene::part_lines;
use crate::drawings::side_view::fit;
use crate::drawings::{Handle, HandleId, Point, SideScene, Viewport, draw_side_view, nearest};
use crate::form::{group_of_movable, moves};
use crate::piece::Piece;

/// What is being dragged, as it was when the drag began.
#[derive(Clone)]
struct Held {
    handle: HandleId,
    design: Design,
    piece: Arc<Piece>,
    /// From the pointer to the middle of the handle, in mm.
    offset: Point,
    /// The station of the section.
    station_mm: f64,
    /// What was picked and shown before.
    before: (Option<HandleId>, Panel),
}

/// The gesture of a drag, for undo.
const DRAG: &str = "drag";

/// The side view.
#[component]
pub fn SideView() -> impl IntoView {
    let state = state();
    let piece = Memo::new(move |_| piece_scene(state).map(Arc::new));
    let picked = move |piece: &Arc<SideScene>| Arc::new(with_picked(state, piece));
    let scene = Memo::new(move |_| piece.with(|piece| piece.as_ref().map(picked)));
    let held = StoredValue::new(None::<Held>);
    let subject = Subject {
        fit: Arc::new(move |sheet| scene.with(|scene| scene.as_ref().map(|scene| fit(scene, sheet)))),
        paint: Arc::new(move |area, viewport, theme| {
            let shown = scene.get_untracked();
            shown.map_or(Ok(()), |scene| draw_side_view(area, &scene, theme, viewport))
        }),
        grab: Arc::new(move |viewport, place, reach| {
            let found = scene.with_untracked(|scene| {
                scene.as_ref().and_then(|scene| nearest(&scene.handles, viewport, place, reach).cloned())
            });
            let Some(handle) = found else { return false };
            held.set_value(hold(state, &handle, viewport.to_mm(place)));
            state.pick(handle.id);
            true
        }),
        drag: Arc::new(move |viewport, place| drag(state, held, viewport, place)),
        release: Arc::new(move || {
            held.set_value(None);
            state.end_gesture();
        }),
        put_back: Arc::new(move || held.with_value(|held| held.iter().for_each(|held| put_back(state, held)))),
        zooms: true,
        key: Arc::new(move |event| key(state, event)),
    };
    let name = Memo::new(move |_| state.design.with(|design| design.name.clone()));
    let label = Signal::derive(move || {
        let name = name.get();
        format!(
            "Side view of {name}, cut down the middle. Page Up and Page Down pick a handle, arrow keys move it, \
             plus and minus look closer, 0 shows it whole."
        )
    });
    view! {
        <Board subject=subject label=label theme=theme(state) />
        <PickedName />
        <HandleChoice />
    }
    .into_any()
}

/// The piece as drawn, which changes with the design.
fn piece_scene(state: State) -> Option<SideScene> {
    let shop = state.shop.get();
    state.shape(|shape| state.design.with_untracked(|design| SideScene::of(design, shape, &shop)))
}

/// The same with what is picked and looked at, which changes by itself.
fn with_picked(state: State, piece: &SideScene) -> SideScene {
    let half_width = state.shape(|shape| shape.piece.solid.stock.half_width()).unwrap_or_default();
    let station_mm = state.section_mm.get();
    let mut scene = piece.clone();
    if !state.wide.get() {
        keep_points_of_group(state, &mut scene.handles);
    }
    scene.handles.push(station_handle(station_mm, half_width));
    let chosen = state.picked.get();
    let cut = chosen.and_then(|id| if let HandleId::Part(thing) = id { thing.cut() } else { None });
    let chosen_part = cut.and_then(|cut| state.shape(|shape| part_lines(&shape.piece, cut))).unwrap_or_default();
    SideScene { chosen, chosen_part, station_mm: Some(station_mm), ..scene }
}

/// On a small drawing only the points of the open group, and the picked one, may be taken hold of.
fn keep_points_of_group(state: State, handles: &mut Vec<Handle>) {
    let Panel::Values(group) = state.panel.get() else { return };
    let picked = state.picked.get();
    state.design.with_untracked(|design| {
        handles.retain(|handle| match handle.id {
            HandleId::Part(thing) => picked == Some(handle.id) || group_of_movable(design, thing) == Some(group),
            HandleId::Station => true,
        });
    });
}

/// The section's station, taken hold of at the foot of the blank.
fn station_handle(station_mm: f64, half_width_mm: f64) -> Handle {
    Handle {
        id: HandleId::Station,
        at_mm: Point::new(station_mm, -half_width_mm),
        label: "Where the section is".to_owned(),
        shape: HandleShape::Square,
    }
}

fn hold(state: State, handle: &Handle, pointer_mm: Point) -> Option<Held> {
    let offset = Point::new(handle.at_mm.x - pointer_mm.x, handle.at_mm.y - pointer_mm.y);
    let design = state.design.get_untracked();
    let before = (state.picked.get_untracked(), state.panel.get_untracked());
    let station_mm = state.section_mm.get_untracked();
    let piece = state.shape_untracked(|shape| shape.piece.clone())?;
    Some(Held { handle: handle.id, design, piece, offset, station_mm, before })
}

/// Everything is again as it was when the handle was taken.
fn put_back(state: State, held: &Held) {
    state.take(held.design.clone(), Some(DRAG));
    state.look_at_section(held.station_mm);
    state.picked.set(held.before.0);
    state.panel.set(held.before.1);
}

fn drag(state: State, held: StoredValue<Option<Held>>, viewport: &Viewport, place: Point) {
    let pointer = viewport.to_mm(place);
    held.with_value(|held| {
        let Some(held) = held else { return };
        let to = Point::new(pointer.x + held.offset.x, pointer.y + held.offset.y);
        match held.handle {
            HandleId::Station => state.look_at_section(to.x),
            HandleId::Part(thing) => {
                let mut moved = held.design.clone();
                if moves::apply(&mut moved, &held.piece, thing, to) {
                    state.take(moved, Some(DRAG));
                }
            }
        }
    });
}

/// Picks with Page Up and Page Down, moves with the arrow keys.
fn key(state: State, event: &ev::KeyboardEvent) -> bool {
    let step = untrack(|| state.units()).step(Quantity::Length, false) * if event.shift_key() { 10.0 } else { 1.0 };
    match event.key().as_str() {
        "PageDown" => pick_next(state, 1),
        "PageUp" => pick_next(state, -1),
        "ArrowLeft" => nudge(state, Point::new(-step, 0.0)),
        "ArrowRight" => nudge(state, Point::new(step, 0.0)),
        "ArrowUp" => nudge(state, Point::new(0.0, step)),
        "ArrowDown" => nudge(state, Point::new(0.0, -step)),
        "Escape" => state.picked.set(None),
        _ => return false,
    }
    true
}

fn pick_next(state: State, by: isize) {
    let handles = untrack(|| handles(state));
    let here = state.picked.get_untracked().and_then(|picked| handles.iter().position(|handle| handle.id == picked));
    let next = match (here, by > 0) {
        (None, true) => 0,
        (None, false) => handles.len().saturating_sub(1),
        (Some(here), _) => here.checked_add_signed(by).unwrap_or(handles.len().saturating_sub(1)),
    };
    let next = if next < handles.len() { next } else { 0 };
    if let Some(handle) = handles.get(next) {
        state.pick(handle.id);
    }
}

fn nudge(state: State, by: Point) {
    let Some(picked) = state.picked.get_untracked() else { return };
    let HandleId::Part(thing) = picked else { return state.look_at_section(state.section_mm.get_untracked() + by.x) };
    let mut moved = state.design.get_untracked();
    let done = state.shape_untracked(|shape| {
        moves::place(&moved.clone(), &shape.piece, thing).is_some_and(|at| {
            // Diameters are drawn downward: up is always up on the screen.
            moves::apply(&mut moved, &shape.piece, thing, Point::new(at.x + by.x, at.y + by.y))
        })
    });
    if done == Some(true) {
        state.take(moved, None);
    }
}

/// Every handle, the section's station last.
fn handles(state: State) -> Vec<Handle> {
    let found = state.shape(|shape| {
        let station = station_handle(state.section_mm.get(), shape.piece.solid.stock.half_width());
        state
            .design
            .with(|design| crate::drawings::handles(design, &shape.piece))
            .into_iter()
            .chain([station])
            .collect()
    });
    found.unwrap_or_default()
}

/// The picked handle by name and place, also read out.
#[component]
fn PickedName() -> impl IntoView {
    let state = state();
    let words = move || {
        let picked = state.picked.get()?;
        let units = state.units();
        let handle = handles(state).into_iter().find(|handle| handle.id == picked);
        handle.map(|handle| {
            let Point { x: at, y: height } = handle.at_mm;
            let (at, height) = (units.show(at, Quantity::Length), units.show_with_unit(height, Quantity::Length));
            format!("{}: at {at}, height {height}", handle.label)
        })
    };
    view! { <p class="picked-name" role="status" aria-live="polite">{words}</p> }.into_any()
}

/// The handles as a list, for keyboards and screen readers.
#[component]
fn HandleChoice() -> impl IntoView {
    let state = state();
    let things = Memo::new(move |_| state.design.with(moves::movables));
    let options = move || {
        things.track();
        let handles = untrack(|| handles(state));
        let option = |(index, handle): (usize, Handle)| {
            let selected = move || state.picked.get() == Some(handle.id);
            view! { <option value=index.to_string() selected=selected>{handle.label}</option> }
        };
        handles.into_iter().enumerate().map(option).collect_view()
    };
    let chosen = move |event| {
        let index = event_target_value(&event).parse::<usize>().ok();
        match index.and_then(|index| untrack(|| handles(state)).into_iter().nth(index)) {
            Some(handle) => state.pick(handle.id),
            None => state.picked.set(None),
        }
    };
    view! {
        <label class="handle-choice">
            <span>"Point to move"</span>
            <select on:change=chosen>
                <option value="none">"None"</option>
                {options}
            </select>
        </label>
    }
    .into_any()
}
