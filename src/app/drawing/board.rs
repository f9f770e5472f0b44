//! A sheet on screen: a canvas that is as sharp as the screen, looked at closer by pinch, wheel or key.

use std::sync::Arc;

use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, IntoDrawingArea};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;

use crate::app::browser;
use crate::app::state::State;
use crate::drawings::pointers::{Change, Pointers, reach_px};
use crate::drawings::{DrawError, Point, Sheet, Theme, Viewport};

/// Backend units in one device pixel: lines and places become as fine as an eighth of a pixel.
const UNITS_PER_PIXEL: f64 = 8.0;
/// How much closer one press of a key or one notch of a wheel looks.
const CLOSER: f64 = 1.25;
/// Wheel movement that makes one notch.
const NOTCH: f64 = 100.0;

/// The canvas as plotters draws on it.
pub type Area = DrawingArea<CanvasBackend, Shift>;

/// The place and size of a sheet on screen.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Size {
    width_px: f64,
    height_px: f64,
    density: f64,
}

/// Draws on a board.
type Paint = dyn Fn(&Area, &Viewport, &Theme) -> Result<(), DrawError> + Send + Sync;
/// Takes hold of something on a board.
type Grab = dyn Fn(&Viewport, Point, f64) -> bool + Send + Sync;
/// Moves what is held.
type Drag = dyn Fn(&Viewport, Point) + Send + Sync;

/// What a board shows and what can be done on it. Closures read signals: what they read, is watched.
#[derive(Clone)]
pub struct Subject {
    /// The view that shows everything; `None` while there is nothing to show.
    pub fit: Arc<dyn Fn(Sheet) -> Option<Viewport> + Send + Sync>,
    /// Draws.
    pub paint: Arc<Paint>,
    /// Whether something is taken hold of here; the last number is how far off it may be, in pixels.
    pub grab: Arc<Grab>,
    /// Moves what is held to here.
    pub drag: Arc<Drag>,
    /// Lets go.
    pub release: Arc<dyn Fn() + Send + Sync>,
    /// Puts what is held back where it was taken hold of: two fingers look closer, and move nothing.
    pub put_back: Arc<dyn Fn() + Send + Sync>,
    /// Whether it can be looked at closer.
    pub zooms: bool,
    /// A key; whether it was used.
    pub key: Arc<dyn Fn(&ev::KeyboardEvent) -> bool + Send + Sync>,
}

impl Subject {
    /// A drawing that is only looked at.
    pub fn still(
        fit: impl Fn(Sheet) -> Option<Viewport> + Send + Sync + 'static,
        paint: impl Fn(&Area, &Viewport, &Theme) -> Result<(), DrawError> + Send + Sync + 'static,
    ) -> Self {
        Self {
            fit: Arc::new(fit),
            paint: Arc::new(paint),
            grab: Arc::new(|_, _, _| false),
            drag: Arc::new(|_, _| {}),
            release: Arc::new(|| {}),
            put_back: Arc::new(|| {}),
            zooms: false,
            key: Arc::new(|_| false),
        }
    }
}

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
    // The closer look; none while everything is shown.
    let closer = RwSignal::new(None::<Viewport>);
    let requested = StoredValue::new(false);

    observe_size(canvas, size);
    let sheet =
        move || size.get().map(|size| Sheet::new(size.width_px, size.height_px, size.density * UNITS_PER_PIXEL));
    let fit = subject.fit.clone();
    let viewport = Signal::derive(move || {
        let sheet = sheet()?;
        let whole = fit(sheet)?;
        Some(closer.get().map_or(whole, |closer| Viewport { sheet, ..closer }))
    });

    let zooms = subject.zooms;
    let look_closer = move |view: Viewport| {
        if zooms {
            closer.set(Some(view));
        }
    };
    let paint = subject.paint.clone();
    let draw = move || {
        // The board may have gone since the frame was asked for.
        if requested.try_update_value(|requested| *requested = false).is_none() {
            return;
        }
        let (Some(canvas), Some(size), Some(viewport)) =
            (canvas.get_untracked(), size.get_untracked(), viewport.get_untracked())
        else {
            return;
        };
        if let Err(error) = paint_canvas(&canvas, size, |area| paint(area, &viewport, &theme.get_untracked())) {
            leptos::logging::error!("{error}");
        }
    };
    let watched = subject.paint.clone();
    let watch = subject.fit.clone();
    Effect::new(move |_| {
        theme.track();
        viewport.track();
        if let Some(sheet) = sheet() {
            watch(sheet);
        }
        // Held, so that the drawing lives as long as its effect.
        let _ = &watched;
        if !requested.get_value() {
            requested.set_value(true);
            request_animation_frame(draw.clone());
        }
    });

    let pointers = StoredValue::new(Pointers::default());
    let held = StoredValue::new(false);
    let at = move |event: &ev::PointerEvent| (f64::from(event.offset_x()), f64::from(event.offset_y()));
    let (grab, drag, release) = (subject.grab.clone(), subject.drag.clone(), subject.release.clone());
    let let_go = {
        let release = release.clone();
        move || {
            if held.get_value() {
                held.set_value(false);
                release();
            }
        }
    };
    let put_back = subject.put_back;
    let down = {
        let let_go = let_go.clone();
        move |event: ev::PointerEvent| {
            let (Some(view), Some(canvas)) = (viewport.get_untracked(), canvas.get_untracked()) else { return };
            // A pointer that is gone already cannot be followed, and needs not be.
            let _ = canvas.set_pointer_capture(event.pointer_id());
            let place = at(&event);
            let first = pointers.try_update_value(|it| it.down(event.pointer_id(), place)).unwrap_or(false);
            if !first {
                if held.get_value() {
                    put_back();
                }
                let_go();
            } else if grab(&view, place, reach_px(&event.pointer_type())) {
                held.set_value(true);
            }
        }
    };
    let moved = move |event: ev::PointerEvent| {
        let Some(view) = viewport.get_untracked() else { return };
        let place = at(&event);
        match pointers.try_update_value(|it| it.moved(event.pointer_id(), place)).unwrap_or(Change::None) {
            Change::None => {}
            Change::Drag(_) if held.get_value() => drag(&view, place),
            Change::Drag(by) => look_closer(view.panned(by)),
            Change::Pinch { by, factor, about } => look_closer(view.panned(by).zoomed(factor, about)),
        }
    };
    let up = move |event: ev::PointerEvent| {
        let tapped_twice =
            pointers.try_update_value(|it| it.up(event.pointer_id(), at(&event), event.time_stamp())).unwrap_or(false);
        let_go();
        if tapped_twice {
            closer.set(None);
        }
    };
    let cancelled = up.clone();
    let wheel = move |event: ev::WheelEvent| {
        if !zooms {
            return;
        }
        event.prevent_default();
        if let Some(view) = viewport.get_untracked() {
            let place = (f64::from(event.offset_x()), f64::from(event.offset_y()));
            look_closer(view.zoomed(CLOSER.powf(-event.delta_y() / NOTCH), place));
        }
    };
    let look = move |factor: f64| {
        if let Some(view) = viewport.get_untracked() {
            let middle = (view.sheet.width_px / 2.0, view.sheet.height_px / 2.0);
            look_closer(view.zoomed(factor, middle));
        }
    };
    let key_used = subject.key;
    let key = move |event: ev::KeyboardEvent| {
        if !key_used(&event) {
            match event.key().as_str() {
                "+" | "=" => look(CLOSER),
                "-" => look(1.0 / CLOSER),
                "0" => closer.set(None),
                _ => return,
            }
        }
        event.prevent_default();
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
                on:pointerdown=down
                on:pointermove=moved
                on:pointerup=up
                on:pointercancel=cancelled
                on:wheel=wheel
                on:keydown=key
            ></canvas>
            <div class="look-buttons">
                <Show when=move || zooms>
                    <button type="button" class="icon-button" on:click=move |_| look(CLOSER)>
                        <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M15 15l6 6M3 10a7 7 0 1 0 14 0a7 7 0 1 0-14 0zM10 7v6M7 10h6" /></svg>
                        <span class="unseen">"Zoom in"</span>
                    </button>
                </Show>
                <Show when=move || closer.get().is_some()>
                    <button type="button" class="icon-button" on:click=move |_| closer.set(None)>
                        <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M4 9v-5h5M15 4h5v5M20 15v5h-5M9 20h-5v-5" /></svg>
                        <span class="unseen">"Fit"</span>
                    </button>
                </Show>
            </div>
        </div>
    }
    .into_any()
}

/// Sizes the canvas in device pixels and draws on it.
fn paint_canvas(
    canvas: &web_sys::HtmlCanvasElement,
    size: Size,
    paint: impl FnOnce(&Area) -> Result<(), DrawError>,
) -> Result<(), DrawError> {
    let lost = |what: &str| DrawError { reason: what.to_owned() };
    let pixels = |px: f64| (px * size.density).round().clamp(1.0, 16_384.0) as u32;
    let (width, height) = (pixels(size.width_px), pixels(size.height_px));
    if (canvas.width(), canvas.height()) != (width, height) {
        canvas.set_width(width);
        canvas.set_height(height);
    }
    let context = canvas.get_context("2d").ok().flatten().ok_or_else(|| lost("the canvas cannot be drawn on"))?;
    let context =
        context.dyn_into::<web_sys::CanvasRenderingContext2d>().map_err(|_| lost("the canvas cannot be drawn on"))?;
    let scale = 1.0 / UNITS_PER_PIXEL;
    context.set_transform(scale, 0.0, 0.0, scale, 0.0, 0.0).map_err(|_| lost("the canvas cannot be scaled"))?;
    let backend = CanvasBackend::with_canvas_object(canvas.clone()).ok_or_else(|| lost("the canvas is gone"))?;
    paint(&backend.into_drawing_area())
}

/// Follows the size of the canvas on screen, and the screen's density.
fn observe_size(canvas: NodeRef<html::Canvas>, size: RwSignal<Option<Size>>) {
    let measure = move || {
        let (Some(canvas), Some(window)) = (canvas.get_untracked(), browser::window()) else { return };
        let (width_px, height_px) = (f64::from(canvas.client_width()), f64::from(canvas.client_height()));
        let now = (width_px > 0.0 && height_px > 0.0).then(|| Size {
            width_px,
            height_px,
            density: window.device_pixel_ratio().clamp(0.5, 8.0),
        });
        if size.get_untracked() != now {
            size.set(now);
        }
    };
    Effect::new(move |_| {
        let Some(canvas) = canvas.get() else { return };
        measure();
        let changed = Closure::<dyn Fn()>::new(measure);
        let Ok(observer) = web_sys::ResizeObserver::new(changed.as_ref().unchecked_ref()) else { return };
        observer.observe(&canvas);
        let kept = StoredValue::new_local(Some((observer, changed)));
        on_cleanup(move || {
            if let Some(Some((observer, _))) = kept.try_update_value(Option::take) {
                observer.disconnect();
            }
        });
    });
    let resized = window_event_listener(ev::resize, move |_| measure());
    on_cleanup(move || resized.remove());
}

/// The colours of drawings, as chosen and as the device is set.
pub fn theme(state: State) -> Signal<Theme> {
    Signal::derive(move || if state.dark() { Theme::DARK } else { Theme::LIGHT })
}
