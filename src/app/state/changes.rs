//! Changes of the design, and the steps back and forward.

use leptos::prelude::*;

use super::State;
use crate::app::notice::Notice;
use crate::design::Design;
use crate::design::history::History;
use crate::form::Field;
use crate::form::edit::{accepted, with_number};
use crate::form::own_woods::follow_rename;

impl State {
    /// Sets a number of the design. `gesture` is true while a slider or a stepper is swept: one step to undo.
    ///
    /// # Errors
    ///
    /// The sentence that says why not; the design stays as it was.
    pub fn set_number(self, field: Field, value: f64, gesture: bool) -> Result<(), String> {
        let design = self.design.get_untracked();
        let changed = with_number(&design, field, value).map_err(|problem| self.told(&problem))?;
        let path = gesture.then(|| field.path(&design));
        self.moving.set_value(Some(field));
        self.take(changed, path.as_deref());
        self.moving.set_value(None);
        Ok(())
    }

    /// Changes the design as one step, when the change leaves it sound; says why when it would not.
    pub fn change(self, change: impl FnOnce(&mut Design)) {
        match accepted(&self.design.get_untracked(), change) {
            Ok(changed) => self.take(changed, None),
            Err(problem) => self.notices.say(Notice::plain(self.told(&problem))),
        }
    }

    /// Puts a changed design on the bench; `gesture` names what is being dragged or swept.
    pub fn take(self, changed: Design, gesture: Option<&str>) {
        let before = self.design.get_untracked();
        if before == changed {
            return;
        }
        self.history.update(|history| history.before_change(&before, gesture));
        self.design.set(changed);
    }

    /// The finger is lifted.
    pub fn end_gesture(self) {
        self.design.with_untracked(|present| self.history.update(|history| history.end_gesture(present)));
    }

    /// Whether a drag or a sweep is under way.
    pub fn is_sweeping(self) -> bool {
        self.history.with(History::is_mid_gesture)
    }

    /// Something of the steps back and forward.
    pub fn with_history<T>(self, read: impl FnOnce(&History<Design>) -> T) -> T {
        self.history.with_untracked(read)
    }

    /// Brings back the steps of an earlier visit, unless there are newer ones.
    pub fn bring_history(self, history: History<Design>) {
        if !untrack(|| self.can_undo() || self.can_redo()) {
            self.history.set(history);
        }
    }

    /// One step back.
    pub fn undo(self) {
        let earlier = self.history.try_update(|history| history.undo(&self.design.get_untracked()));
        self.bring_back(earlier.flatten());
    }

    /// One step forward again.
    pub fn redo(self) {
        let later = self.history.try_update(|history| history.redo(&self.design.get_untracked()));
        self.bring_back(later.flatten());
    }

    /// What was done at the lathe stays done, whatever is undone at the drawing board.
    fn bring_back(self, design: Option<Design>) {
        if let Some(design) = design {
            let (done, log) = self.design.with_untracked(|now| (now.done.clone(), now.log.clone()));
            self.picked.set(None);
            self.design.set(Design { done, log, ..design });
        }
    }

    /// Whether there is something to undo.
    pub fn can_undo(self) -> bool {
        self.history.with(History::can_undo)
    }

    /// Whether there is something to redo.
    pub fn can_redo(self) -> bool {
        self.history.with(History::can_redo)
    }

    /// Notes something beside the design: a tick, a making. It is kept, and is no step to undo. Says why when it would
    /// leave the design unsound.
    pub fn note(self, change: impl FnOnce(&mut Design)) {
        if let Err(why) = self.noted(change) {
            self.notices.say(Notice::plain(why));
        }
    }

    pub(super) fn noted(self, change: impl FnOnce(&mut Design)) -> Result<(), String> {
        let changed = accepted(&self.design.get_untracked(), change).map_err(|problem| self.told(&problem))?;
        self.design.set(changed);
        Ok(())
    }

    /// Keeps the design on its wood when that is named anew. It is no step to undo, and no step leads back to the old
    /// name: the shop has no wood of that name any more.
    pub fn follow_rename(self, before: &str, after: &str) {
        let follow = |design: &mut Design| follow_rename(design, before, after);
        self.history.update(|history| history.change_throughout(follow));
        self.note(follow);
    }
}
