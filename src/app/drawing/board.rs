//! A sheet on screen: a canvas that is as sharp as the screen, looked at closer by pinch, wheel or key.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::canvas::{Size, UNITS_PER_PIXEL, observe_size, paint_canvas};
use super::closer::{CLOSER, CloserLook};
use super::hand::Hand;
use super::subject::Subject;
use crate::app::state::State;
use crate::drawings::{Sheet, Theme};

/// A drawing on screen.
#[component]
pub fn Board(
    /// What is drawn.
    subject: Subject,
    /// What it shows, for those who do not see it.
    label: Signal<String>,
    /// The colours.
    theme: Signal<Theme>,
) -> impl IntoView {
    let canvas = NodeRef::<html::Canvas>::new();
    let size = RwSignal::new(None::<Size>);
    observe_size(canvas, size);
    let sheet = Signal::derive(move || {
        size.get().map(|size| Sheet::new(size.width_px, size.height_px, size.density * UNITS_PER_PIXEL))
    });
    let zooms = subject.zooms;
    let closer = CloserLook::new(sheet, subject.fit.clone(), zooms);
    draw_when_changed(canvas, size, sheet, &subject, closer, theme);
    let key_used = subject.key.clone();
    let hand = Hand::new(canvas, subject, closer);
    let (down, moved, up, cancelled) = (hand.clone(), hand.clone(), hand.clone(), hand);
    let key = move |event: ev::KeyboardEvent| {
        if key_used(&event) || closer.key(&event) {
            event.prevent_default();
        }
    };
    // A drawing that is only looked at is a picture.
    let role = if zooms { "application" } else { "img" };
    view! {
        <div class="sheet" class:still=!zooms>
            <canvas
                node_ref=canvas
                tabindex=zooms.then_some("0")
                role=role
                aria-label=label
                on:pointerdown=move |event| down.down(&event)
                on:pointermove=move |event| moved.moved(&event)
                on:pointerup=move |event| up.up(&event)
                on:pointercancel=move |event| cancelled.up(&event)
                on:wheel=move |event| closer.wheel(&event)
                on:keydown=key
            ></canvas>
            {look_buttons(closer)}
        </div>
    }
    .into_any()
}

/// The buttons that look closer and show all of it again.
fn look_buttons(closer: CloserLook) -> AnyView {
    view! {
        <div class="look-buttons">
            <Show when=move || closer.zooms>
                <button type="button" class="icon-button" on:click=move |_| closer.zoom(CLOSER)>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M15 15l6 6M3 10a7 7 0 1 0 14 0a7 7 0 1 0-14 0zM10 7v6M7 10h6" /></svg>
                    <span class="unseen">"Zoom in"</span>
                </button>
            </Show>
            <Show when=move || closer.view.get().is_some()>
                <button type="button" class="icon-button" on:click=move |_| closer.view.set(None)>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M4 9v-5h5M15 4h5v5M20 15v5h-5M9 20h-5v-5" /></svg>
                    <span class="unseen">"Fit"</span>
                </button>
            </Show>
        </div>
    }
    .into_any()
}

/// Draws in the next frame whenever something that is shown has changed.
fn draw_when_changed(
    canvas: NodeRef<html::Canvas>,
    size: RwSignal<Option<Size>>,
    sheet: Signal<Option<Sheet>>,
    subject: &Subject,
    closer: CloserLook,
    theme: Signal<Theme>,
) {
    let requested = StoredValue::new(false);
    let paint = subject.paint.clone();
    let draw = move || {
        // The board may have gone since the frame was asked for.
        if requested.try_update_value(|requested| *requested = false).is_none() {
            return;
        }
        let (Some(canvas), Some(size), Some(viewport)) =
            (canvas.get_untracked(), size.get_untracked(), closer.viewport.get_untracked())
        else {
            return;
        };
        if let Err(error) = paint_canvas(&canvas, size, |area| paint(area, &viewport, &theme.get_untracked())) {
            leptos::logging::error!("{error}");
        }
    };
    let watched = subject.fit.clone();
    Effect::new(move |_| {
        theme.track();
        closer.viewport.track();
        if let Some(sheet) = sheet.get() {
            watched(sheet);
        }
        if !requested.get_value() {
            requested.set_value(true);
            request_animation_frame(draw.clone());
        }
    });
}

/// The colours of drawings, as chosen and as the device is set.
pub fn theme(state: State) -> Signal<Theme> {
    Signal::derive(move || if state.dark() { Theme::DARK } else { Theme::LIGHT })
}
