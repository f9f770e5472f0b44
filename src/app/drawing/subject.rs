//! What a board shows, and what can be done on it.

use std::sync::Arc;

use leptos::ev;

use super::canvas::Area;
use crate::drawings::{DrawError, Point, Sheet, Theme, Viewport};

/// Draws on a board.
pub type Paint = dyn Fn(&Area, &Viewport, &Theme) -> Result<(), DrawError> + Send + Sync;

/// Takes hold of something on a board.
pub type Grab = dyn Fn(&Viewport, Point, f64) -> bool + Send + Sync;

/// Moves what is held.
pub type Drag = dyn Fn(&Viewport, Point) + Send + Sync;

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
