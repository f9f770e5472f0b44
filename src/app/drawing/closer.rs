//! Looking closer at a drawing.

use std::sync::Arc;

use leptos::ev;
use leptos::prelude::*;

use crate::drawings::{Sheet, Viewport};
use kurbo::Point;

/// How much closer one press of a key or one notch of a wheel looks.
pub(super) const CLOSER: f64 = 1.25;
/// Wheel movement that makes one notch.
const NOTCH: f64 = 100.0;

/// A closer look at a drawing that can be zoomed.
#[derive(Clone, Copy)]
pub(super) struct CloserLook {
    /// The part looked at; none while everything is shown.
    pub(super) view: RwSignal<Option<Viewport>>,
    /// Where the drawing falls on the sheet: all of it, or that part.
    pub(super) viewport: Signal<Option<Viewport>>,
    pub(super) zooms: bool,
}

impl CloserLook {
    pub(super) fn new(
        sheet: Signal<Option<Sheet>>,
        fit: Arc<dyn Fn(Sheet) -> Option<Viewport> + Send + Sync>,
        zooms: bool,
    ) -> Self {
        let view = RwSignal::new(None::<Viewport>);
        let viewport = Signal::derive(move || {
            let sheet = sheet.get()?;
            let whole = fit(sheet)?;
            Some(view.get().map_or(whole, |view| Viewport { sheet, ..view }))
        });
        Self { view, viewport, zooms }
    }

    pub(super) fn look(self, view: Viewport) {
        if self.zooms {
            self.view.set(Some(view));
        }
    }

    /// So much closer to the middle.
    pub(super) fn zoom(self, factor: f64) {
        if let Some(view) = self.viewport.get_untracked() {
            let middle = Point::new(view.sheet.width_px / 2.0, view.sheet.height_px / 2.0);
            self.look(view.zoomed(factor, middle));
        }
    }

    pub(super) fn wheel(self, event: &ev::WheelEvent) {
        if !self.zooms {
            return;
        }
        event.prevent_default();
        if let Some(view) = self.viewport.get_untracked() {
            let place = Point::new(f64::from(event.offset_x()), f64::from(event.offset_y()));
            self.look(view.zoomed(CLOSER.powf(-event.delta_y() / NOTCH), place));
        }
    }

    /// Whether a key was used.
    pub(super) fn key(self, event: &ev::KeyboardEvent) -> bool {
        match event.key().as_str() {
            "+" | "=" => self.zoom(CLOSER),
            "-" => self.zoom(1.0 / CLOSER),
            "0" => self.view.set(None),
            _ => return false,
        }
        true
    }
}
