//! The steps back and forward of a design, kept beside it: what comes back is what was there, and they never cost a design.

#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use skewline::design::history::History;
use skewline::design::{Design, starters};
use skewline::form::Field;
use skewline::form::edit::with_number;
use skewline::shelf::history::{HISTORY_PREFIX, MOST_KEPT_STEPS};
use skewline::shelf::{DesignId, Entry, MemoryStore, SaveOutcome, Shelf, Store, StoreError};
use support::arbitrary;

/// A design at work: every change goes through its history.
struct Bench {
    design: Design,
    history: History<Design>,
}

impl Bench {
    fn new(design: Design) -> Self {
        Self { design, history: History::default() }
    }

    fn set(&mut self, field: Field, value: f64) {
        if let Ok(changed) = with_number(&self.design, field, value)
            && changed != self.design
        {
            self.history.before_change(&self.design, None);
            self.design = changed;
        }
    }

    fn undo(&mut self) -> bool {
        self.history.undo(&self.design).map(|design| self.design = design).is_some()
    }

    fn redo(&mut self) -> bool {
        self.history.redo(&self.design).map(|design| self.design = design).is_some()
    }
}

fn shelf_with(design: &Design) -> (MemoryStore, Shelf<MemoryStore>, Entry) {
    let store = MemoryStore::new();
    let shelf = Shelf::new(store.clone());
    let entry = shelf.add(design, 1, 1000).unwrap();
    (store, shelf, entry)
}

fn key(id: &DesignId) -> String {
    format!("{HISTORY_PREFIX}{id}")
}

/// What is done to the bench: a value set, a step back or a step forward.
#[derive(Clone, Debug)]
enum Deed {
    Set(f64),
    Name(String),
    Undo,
    Redo,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        4 => (60.0..400.0).prop_map(Deed::Set),
        1 => "\\PC{1,12}".prop_map(Deed::Name),
        2 => Just(Deed::Undo),
        1 => Just(Deed::Redo),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn the_same_steps_lead_back_and_forward_after_a_reload(
        design in arbitrary::design(), deeds in proptest::collection::vec(deed(), 0..40),
    ) {
        let mut bench = Bench::new(design);
        for deed in deeds {
            match deed {
                Deed::Set(value) => bench.set(Field::BlankLength, value),
                Deed::Name(name) => {
                    let named = Design { name, ..bench.design.clone() };
                    if named.problems().is_empty() && named != bench.design {
                        bench.history.before_change(&bench.design, None);
                        bench.design = named;
                    }
                }
                Deed::Undo => { bench.undo(); }
                Deed::Redo => { bench.redo(); }
            }
        }
        let (_, shelf, entry) = shelf_with(&bench.design);
        shelf.keep_history(&entry.id, &bench.design, &bench.history);
        let loaded = shelf.load(&entry.id).unwrap().design;
        let mut again = Bench { history: shelf.history(&entry.id, &loaded), design: loaded };
        loop {
            let (one, other) = (bench.undo(), again.undo());
            prop_assert_eq!(one, other);
            prop_assert_eq!(&bench.design, &again.design);
            if !one { break }
        }
        loop {
            let (one, other) = (bench.redo(), again.redo());
            prop_assert_eq!(one, other);
            prop_assert_eq!(&bench.design, &again.design);
            if !one { break }
        }
    }

    #[test]
    fn a_text_that_was_changed_outside_never_brings_a_wrong_design(at in 0_usize..6000, letter in "\\PC") {
        let mut bench = Bench::new(starters::demo());
        (0..5).for_each(|step| bench.set(Field::AxisTilt(0), 3.0 + f64::from(step)));
        let (store, shelf, entry) = shelf_with(&bench.design);
        shelf.keep_history(&entry.id, &bench.design, &bench.history);
        let mut text = store.get(&key(&entry.id)).unwrap().unwrap();
        let at = (0..=at.min(text.len() - 1)).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
        text.insert_str(at, &letter);
        store.set(&key(&entry.id), &text).unwrap();
        for design in shelf.history(&entry.id, &bench.design).past() {
            prop_assert_eq!(design.problems(), vec![]);
        }
    }
}

#[test]
fn a_long_sweep_stays_small_and_the_oldest_steps_go_first() {
    let mut bench = Bench::new(starters::demo());
    for step in 0..300 {
        bench.set(Field::AxisTilt(0), 1.0 + 0.05 * f64::from(step));
    }
    let (store, shelf, entry) = shelf_with(&bench.design);
    shelf.keep_history(&entry.id, &bench.design, &bench.history);
    let kept = shelf.history(&entry.id, &bench.design);
    let newest = &bench.history.past()[bench.history.past().len() - MOST_KEPT_STEPS..];
    assert_eq!(kept.past(), newest);
    let text = store.get(&key(&entry.id)).unwrap().unwrap();
    let design = store.get(&format!("skewline/design/{}", entry.id)).unwrap().unwrap();
    assert!(text.len() < 2 * design.len(), "{} bytes beside a design of {}", text.len(), design.len());
}

#[test]
fn ticks_and_the_log_stay_as_they_are() {
    let mut bench = Bench::new(starters::demo());
    bench.set(Field::AxisTilt(0), 3.0);
    bench.design.done.push("tenon".to_owned());
    let (_, shelf, entry) = shelf_with(&bench.design);
    shelf.keep_history(&entry.id, &bench.design, &bench.history);
    bench.design.done.push("rough".to_owned());
    let kept = shelf.history(&entry.id, &bench.design);
    assert_eq!(kept.past().len(), 1);
    assert_eq!(kept.past()[0].done, ["tenon", "rough"]);
}

#[test]
fn steps_of_another_state_of_the_design_are_not_taken() {
    let mut bench = Bench::new(starters::demo());
    bench.set(Field::AxisTilt(0), 3.0);
    let (store, shelf, entry) = shelf_with(&bench.design);
    shelf.keep_history(&entry.id, &bench.design, &bench.history);
    let other = with_number(&bench.design, Field::AxisTilt(0), 4.0).unwrap();
    assert!(!shelf.history(&entry.id, &other).can_undo());
    store.set(&key(&entry.id), "{\"now\":").unwrap();
    assert!(!shelf.history(&entry.id, &bench.design).can_undo());
    shelf.keep_history(&entry.id, &bench.design, &History::default());
    assert_eq!(store.get(&key(&entry.id)).unwrap(), None, "nothing to undo leaves no entry");
}

#[test]
fn a_full_storage_lets_go_of_histories_before_it_refuses_a_design() {
    let mut bench = Bench::new(starters::demo());
    bench.set(Field::AxisTilt(0), 3.0);
    let (store, shelf, entry) = shelf_with(&bench.design);
    shelf.keep_history(&entry.id, &bench.design, &bench.history);
    assert!(store.get(&key(&entry.id)).unwrap().is_some());
    store.limit(store.bytes() + 100);
    let longer = Design { notes: "n".repeat(600), ..bench.design.clone() };
    assert_eq!(shelf.save(&entry.id, &longer, entry.revision, 2, 2000), Ok(SaveOutcome::Saved { revision: 2 }));
    assert_eq!(store.get(&key(&entry.id)).unwrap(), None);
    // A history finds no room: it is not kept, the design is.
    store.limit(store.bytes());
    shelf.keep_history(&entry.id, &longer, &bench.history);
    assert_eq!(store.get(&key(&entry.id)).unwrap(), None);
    assert_eq!(shelf.load(&entry.id).unwrap().design, longer);
    // And what does not fit even then is refused as before.
    let too_long = Design { notes: "n".repeat(2000), ..longer };
    let refused = shelf.save(&entry.id, &too_long, 2, 3, 3000).unwrap_err();
    assert_eq!(refused, StoreError::Full.into());
}

#[test]
fn a_deleted_design_takes_its_steps_along() {
    let mut bench = Bench::new(starters::demo());
    bench.set(Field::AxisTilt(0), 3.0);
    let (store, shelf, entry) = shelf_with(&bench.design);
    shelf.keep_history(&entry.id, &bench.design, &bench.history);
    shelf.delete(&entry.id, 2000).unwrap();
    assert_eq!(store.get(&key(&entry.id)).unwrap(), None);
}
