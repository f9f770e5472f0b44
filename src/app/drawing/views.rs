//! The end faces, the section and the wall map on screen.

use std::sync::Arc;

use leptos::prelude::*;

use super::board::{Board, theme};
use super::subject::Subject;

use crate::app::groups::wood::Choice;
use crate::app::state::{State, state};
use crate::app::value_row::{NewValue, ValueRow};
use crate::design::Units;
use crate::design::units::Quantity;
use crate::design::validation::bounds::{Bound, MM};
use crate::drawings::Viewport;
use crate::drawings::end_faces::{EndScene, draw_end_faces, fit as fit_ends};
use crate::drawings::section_view::{SectionScene, draw_section, fit as fit_section};
use crate::drawings::{WallMapScene, draw_wall_map};
use crate::figures::Shape;
use crate::form::{Row, hollow_names};

/// Both end faces, as seen.
#[component]
pub fn EndsView() -> impl IntoView {
    let state = state();
    let scene = Memo::new(move |_| {
        let (lengths, centres) = state.shop.with(|shop| (Units::from(shop), shop.centres));
        state.settled(|shape| Arc::new(EndScene::new(&shape.piece, &shape.marks, &centres, lengths)))
    });
    let subject = Subject::still(
        move |sheet| scene.with(|scene| scene.as_ref().map(|scene| fit_ends(scene, sheet))),
        move |area, viewport, theme| {
            scene.get_untracked().map_or(Ok(()), |scene| draw_end_faces(area, &scene, theme, viewport))
        },
    );
    let label = Signal::stored(
        "Both end faces with the centre marks, each as you see it. The figures stand under Marks.".to_owned(),
    );
    view! { <Board subject=subject label=label theme=theme(state) /> }.into_any()
}

/// The section at a station.
#[component]
pub fn SectionView() -> impl IntoView {
    let state = state();
    let scene = Memo::new(move |_| {
        let (lengths, limit_mm) = (state.units(), wall_limit_mm(state));
        let station_mm = state.section_mm.get();
        state.settled(|shape| Arc::new(SectionScene::new(&shape.piece, station_mm, limit_mm, lengths)))
    });
    let subject = Subject::still(
        move |sheet| scene.with(|scene| scene.as_ref().map(|scene| fit_section(scene, sheet))),
        move |area, viewport, theme| {
            scene.get_untracked().map_or(Ok(()), |scene| draw_section(area, &scene, theme, viewport))
        },
    );
    let label = Signal::derive(move || {
        let at = state.units().show_with_unit(state.section_mm.get(), Quantity::Length);
        format!("Section of the finished piece at {at}, seen from the handle.")
    });
    view! {
        <Board subject=subject label=label theme=theme(state) />
        <StationRow state=state />
    }
    .into_any()
}

/// The least wall that is wanted, in mm.
fn wall_limit_mm(state: State) -> f64 {
    state.shop.with(|shop| state.design.with(|design| design.limits.over(&shop.limits).wall_mm))
}

/// The wall of one hollow, unrolled.
#[component]
pub fn WallMapView() -> impl IntoView {
    let state = state();
    let shown = RwSignal::new(None::<usize>);
    let scene = Memo::new(move |_| {
        let (lengths, limit_mm) = (state.units(), wall_limit_mm(state));
        let wall = |shape: &Shape| {
            let wall = shape.wall_of(shown.get())?;
            WallMapScene::new(&shape.piece, wall, limit_mm, lengths).map(Arc::new)
        };
        state.settled(wall).flatten()
    });
    let subject = Subject::still(
        move |sheet| scene.with(|scene| scene.is_some().then(|| Viewport::plain(sheet))),
        move |area, viewport, theme| {
            scene.get_untracked().map_or(Ok(()), |scene| draw_wall_map(area, &scene, theme, viewport.sheet))
        },
    );
    let label = Signal::derive(move || {
        let least = |shape: &Shape| shape.wall_of(shown.get()).and_then(|wall| wall.least).map(|least| least.wall_mm);
        match state.settled(least).flatten() {
            Some(wall) if wall < 0.0 => {
                "Map of the wall, along the bowl and around it. The wall is broken through.".to_owned()
            }
            Some(wall) => {
                let wall = state.units().show_with_unit(wall, Quantity::Length);
                format!("Map of the wall, along the bowl and around it. The thinnest place is {wall}.")
            }
            None => "There is no hollow to map.".to_owned(),
        }
    });
    view! {
        <Board subject=subject label=label theme=theme(state) />
        <HollowChoice state=state shown=shown />
    }
    .into_any()
}

/// Which hollow's wall is shown, by its cut; nothing to choose where there is one.
#[component]
fn HollowChoice(state: State, shown: RwSignal<Option<usize>>) -> impl IntoView {
    let hollows = Memo::new(move |_| state.made.with(hollow_names));
    let current = Signal::derive(move || {
        let cut = state.settled(|shape| shape.wall_of(shown.get()).map(|wall| wall.cut)).flatten();
        let name = |all: &Vec<(usize, String)>| all.iter().find(|it| Some(it.0) == cut).map(|it| it.1.clone());
        hollows.with(name).unwrap_or_default()
    });
    let chosen = Callback::new(move |name: String| {
        shown.set(hollows.with_untracked(|all| all.iter().find(|it| it.1 == name).map(|it| it.0)));
    });
    let names = Signal::derive(move || hollows.get().into_iter().map(|it| it.1).collect::<Vec<_>>());
    let several = Memo::new(move |_| hollows.with(|all| all.len() > 1));
    move || {
        several.get().then(|| {
            view! {
                <div class="hollow-row"><Choice label="Wall of" names=names current=current chosen=chosen /></div>
            }
        })
    }
}

/// The station of the section, to be moved.
#[component]
fn StationRow(state: State) -> impl IntoView {
    let row = Signal::derive(move || {
        let length_mm = state.design.with(|design| design.blank.length_mm);
        Row::new("Section at", Bound { from: 0.0, to: length_mm, unit: MM }, 0.0, length_mm)
    });
    let set = Callback::new(move |new: NewValue| {
        state.look_at_section(new.value);
        Ok(())
    });
    view! {
        <div class="station-row">
            <ValueRow path="section".to_owned() row=row value=Signal::derive(move || state.section_mm.get()) set=set />
        </div>
    }
    .into_any()
}
