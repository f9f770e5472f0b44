//! Fingers and the mouse on a drawing.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::closer::CloserLook;
use super::subject::Subject;
use crate::drawings::Point;
use crate::drawings::pointers::{Change, Pointers, reach_px};

/// Fingers and the mouse on a drawing: they drag what they grab, else the drawing itself.
#[derive(Clone)]
pub(super) struct Hand {
    canvas: NodeRef<html::Canvas>,
    subject: Subject,
    closer: CloserLook,
    pointers: StoredValue<Pointers>,
    /// Whether something is grabbed.
    held: StoredValue<bool>,
}

impl Hand {
    pub(super) fn new(canvas: NodeRef<html::Canvas>, subject: Subject, closer: CloserLook) -> Self {
        Self { canvas, subject, closer, pointers: StoredValue::new(Pointers::default()), held: StoredValue::new(false) }
    }

    pub(super) fn down(&self, event: &ev::PointerEvent) {
        let (Some(view), Some(canvas)) = (self.closer.viewport.get_untracked(), self.canvas.get_untracked()) else {
            return;
        };
        // A pointer that is gone already cannot be followed, and needs not be.
        let _ = canvas.set_pointer_capture(event.pointer_id());
        let place = place_of(event);
        let first = self.pointers.try_update_value(|it| it.down(event.pointer_id(), place)).unwrap_or(false);
        if !first {
            if self.held.get_value() {
                (self.subject.put_back)();
            }
            self.let_go();
        } else if (self.subject.grab)(&view, place, reach_px(&event.pointer_type())) {
            self.held.set_value(true);
        }
    }

    pub(super) fn moved(&self, event: &ev::PointerEvent) {
        let Some(view) = self.closer.viewport.get_untracked() else { return };
        let place = place_of(event);
        let change = self.pointers.try_update_value(|it| it.moved(event.pointer_id(), place));
        match change.unwrap_or(Change::None) {
            Change::None => {}
            Change::Drag(_) if self.held.get_value() => (self.subject.drag)(&view, place),
            Change::Drag(by) => self.closer.look(view.panned(by)),
            Change::Pinch { by, factor, about } => self.closer.look(view.panned(by).zoomed(factor, about)),
        }
    }

    pub(super) fn up(&self, event: &ev::PointerEvent) {
        let up = |it: &mut Pointers| it.up(event.pointer_id(), place_of(event), event.time_stamp());
        let tapped_twice = self.pointers.try_update_value(up).unwrap_or(false);
        self.let_go();
        if tapped_twice {
            self.closer.view.set(None);
        }
    }

    fn let_go(&self) {
        if self.held.get_value() {
            self.held.set_value(false);
            (self.subject.release)();
        }
    }
}

fn place_of(event: &ev::PointerEvent) -> Point {
    Point::new(f64::from(event.offset_x()), f64::from(event.offset_y()))
}
