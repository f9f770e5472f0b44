//! The canvas of a drawing: its size on screen, and drawing on it.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, IntoDrawingArea};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;

use crate::app::browser;
use crate::drawings::DrawError;

/// Backend units in one device pixel: lines and places become as fine as an eighth of a pixel.
pub(super) const UNITS_PER_PIXEL: f64 = 8.0;

/// The canvas as plotters draws on it.
pub type Area = DrawingArea<CanvasBackend, Shift>;

/// The place and size of a sheet on screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Size {
    pub(super) width_px: f64,
    pub(super) height_px: f64,
    pub(super) density: f64,
}

/// Sizes the canvas in device pixels and draws on it.
pub(super) fn paint_canvas(
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
pub(super) fn observe_size(canvas: NodeRef<html::Canvas>, size: RwSignal<Option<Size>>) {
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
