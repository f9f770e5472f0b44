//! Undo and redo: what a document was before each change.

/// How many steps can be undone.
pub const MOST_STEPS: usize = 200;

/// Earlier and undone states of a document. The present state lives elsewhere and is handed in.
///
/// A drag or the sweep of a slider is one *gesture*: however many changes it makes, it is undone in one step.
#[derive(Clone, Debug)]
pub struct History<T> {
    past: Vec<T>,
    undone: Vec<T>,
    gesture: Option<String>,
}

impl<T> Default for History<T> {
    fn default() -> Self {
        Self { past: Vec::new(), undone: Vec::new(), gesture: None }
    }
}

impl<T: Clone + PartialEq> History<T> {
    /// Call before a change, with the state that is about to be changed. `gesture` names what is being dragged or
    /// swept: further changes of the same gesture belong to the first until [`end_gesture`](Self::end_gesture).
    pub fn before_change(&mut self, present: &T, gesture: Option<&str>) {
        self.undone.clear();
        if gesture.is_some() && self.gesture.as_deref() == gesture {
            return;
        }
        self.gesture = gesture.map(str::to_owned);
        self.past.push(present.clone());
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
    }

    /// The states before each change, the oldest first.
    #[must_use]
    pub fn past(&self) -> &[T] {
        &self.past
    }

    /// The states that were undone, the next one to redo last.
    #[must_use]
    pub fn undone(&self) -> &[T] {
        &self.undone
    }

    /// A history from an earlier visit, in the order of [`past`](Self::past) and [`undone`](Self::undone).
    #[must_use]
    pub const fn of(past: Vec<T>, undone: Vec<T>) -> Self {
        Self { past, undone, gesture: None }
    }

    /// Whether a gesture has begun and not ended.
    #[must_use]
    pub const fn is_mid_gesture(&self) -> bool {
        self.gesture.is_some()
    }

    /// The finger is lifted: the next change is a step of its own. A gesture that ends where it began is no step.
    pub fn end_gesture(&mut self, present: &T) {
        if self.gesture.take().is_some() && self.past.last() == Some(present) {
            self.past.pop();
        }
    }

    /// The state before the last change; `present` can be brought back by [`redo`](Self::redo). `None` when there is
    /// nothing to undo.
    pub fn undo(&mut self, present: &T) -> Option<T> {
        self.gesture = None;
        let earlier = Self::pop_other(&mut self.past, present)?;
        self.undone.push(present.clone());
        Some(earlier)
    }

    /// The state before the last undo; `None` when there is nothing to redo.
    pub fn redo(&mut self, present: &T) -> Option<T> {
        self.gesture = None;
        let later = Self::pop_other(&mut self.undone, present)?;
        self.past.push(present.clone());
        Some(later)
    }

    /// Makes a change that is no step of its own in every earlier and undone state: what it is about has changed for
    /// good, and no step may bring back how it was. The present state is changed by whoever holds it.
    pub fn change_throughout(&mut self, change: impl Fn(&mut T)) {
        self.past.iter_mut().chain(&mut self.undone).for_each(change);
    }

    /// Whether there is something to undo.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is something to redo.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        !self.undone.is_empty()
    }

    /// The last state that differs from the present one: a sweep that came back to its start is no step.
    fn pop_other(states: &mut Vec<T>, present: &T) -> Option<T> {
        while let Some(state) = states.pop() {
            if state != *present {
                return Some(state);
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A document that is only a number, and its history.
    struct Sheet {
        value: i32,
        history: History<i32>,
    }

    impl Sheet {
        fn new() -> Self {
            Self { value: 0, history: History::default() }
        }

        fn change(&mut self, value: i32, gesture: Option<&str>) {
            self.history.before_change(&self.value, gesture);
            self.value = value;
        }

        fn undo(&mut self) -> bool {
            self.history.undo(&self.value).map(|value| self.value = value).is_some()
        }

        fn redo(&mut self) -> bool {
            self.history.redo(&self.value).map(|value| self.value = value).is_some()
        }
    }

    #[test]
    fn changes_are_undone_and_redone_in_order() {
        let mut sheet = Sheet::new();
        sheet.change(1, None);
        sheet.change(2, None);
        assert!(sheet.undo());
        assert_eq!(sheet.value, 1);
        assert!(sheet.undo());
        assert_eq!(sheet.value, 0);
        assert!(!sheet.undo());
        assert!(sheet.redo() && sheet.redo());
        assert_eq!(sheet.value, 2);
        assert!(!sheet.redo());
    }

    #[test]
    fn a_gesture_is_one_step() {
        let mut sheet = Sheet::new();
        for value in 1..=9 {
            sheet.change(value, Some("tilt"));
        }
        sheet.history.end_gesture(&sheet.value);
        sheet.change(10, Some("tilt"));
        assert!(sheet.undo());
        assert_eq!(sheet.value, 9);
        assert!(sheet.undo());
        assert_eq!(sheet.value, 0);
    }

    #[test]
    fn another_gesture_is_another_step() {
        let mut sheet = Sheet::new();
        sheet.change(1, Some("tilt"));
        sheet.change(2, Some("depth"));
        assert!(sheet.undo());
        assert_eq!(sheet.value, 1);
    }

    #[test]
    fn a_sweep_that_comes_back_is_no_step() {
        let mut sheet = Sheet::new();
        sheet.change(5, None);
        sheet.change(7, Some("tilt"));
        sheet.change(5, Some("tilt"));
        assert!(sheet.undo());
        assert_eq!(sheet.value, 0);
    }

    #[test]
    fn a_gesture_that_ends_where_it_began_leaves_nothing_to_undo() {
        let mut sheet = Sheet::new();
        sheet.change(3, Some("drag"));
        sheet.change(0, Some("drag"));
        sheet.history.end_gesture(&sheet.value);
        assert!(!sheet.history.can_undo());
        sheet.change(4, Some("drag"));
        sheet.history.end_gesture(&sheet.value);
        assert!(sheet.history.can_undo());
    }

    #[test]
    fn a_change_after_an_undo_forgets_what_was_undone() {
        let mut sheet = Sheet::new();
        sheet.change(1, None);
        sheet.undo();
        sheet.change(2, None);
        assert!(!sheet.history.can_redo());
        assert!(sheet.history.can_undo());
    }

    #[test]
    fn what_changed_for_good_is_never_brought_back() {
        let mut sheet = Sheet::new();
        for value in [1, 7, 2, 7, 3] {
            sheet.change(value, None);
        }
        sheet.undo();
        // From now on there is no 7: it is an 8.
        let renamed = |value: &mut i32| *value = if *value == 7 { 8 } else { *value };
        renamed(&mut sheet.value);
        sheet.history.change_throughout(renamed);
        assert_eq!(sheet.value, 8);
        let mut seen = Vec::new();
        while sheet.undo() {
            seen.push(sheet.value);
        }
        assert_eq!(seen, [2, 8, 1, 0]);
        while sheet.redo() {
            seen.push(sheet.value);
        }
        assert_eq!(seen[4..], [1, 8, 2, 8, 3]);
    }

    #[test]
    fn the_oldest_steps_are_let_go() {
        let mut sheet = Sheet::new();
        for value in 1..=300 {
            sheet.change(value, None);
        }
        while sheet.undo() {}
        assert_eq!(sheet.value, 300 - MOST_STEPS as i32);
    }
}
