//! Two places for every text: whatever one of them loses, the other has.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use proptest::prelude::*;
use skewline::shelf::double::{DoubleStore, Record, SEQUENCE_KEY, SecondPlace};
use skewline::shelf::{MemoryStore, Store, StoreError};

thread_local! {
    static TIME_MS: Cell<u64> = const { Cell::new(0) };
}

fn clock() -> u64 {
    TIME_MS.get()
}

/// A second place that commits at once.
#[derive(Clone, Debug, Default)]
struct Second {
    records: Rc<RefCell<BTreeMap<String, Record>>>,
    closed: Rc<Cell<bool>>,
}

impl Second {
    fn all(&self) -> Vec<Record> {
        self.records.borrow().values().cloned().collect()
    }
}

impl SecondPlace for Second {
    fn is_open(&self) -> bool {
        !self.closed.get()
    }

    fn note(&self, record: Record) {
        self.records.borrow_mut().insert(record.key.clone(), record);
    }
}

#[derive(Clone, Debug)]
enum Deed {
    Set(u8, String),
    Remove(u8),
    /// The page is closed in good order and opened again.
    Reopen,
}

impl Deed {
    /// Does it to a store and to what that must then hold; opening again is left to the caller.
    fn on(&self, store: &impl Store, wanted: &mut BTreeMap<String, String>) {
        match self {
            Self::Set(key, text) => {
                store.set(&key.to_string(), text).unwrap();
                wanted.insert(key.to_string(), text.clone());
            }
            Self::Remove(key) => {
                store.remove(&key.to_string()).unwrap();
                wanted.remove(&key.to_string());
            }
            Self::Reopen => {}
        }
    }
}

fn deeds() -> impl Strategy<Value = Vec<Deed>> {
    let deed = prop_oneof![
        4 => (0_u8..5, "[a-z]{0,6}").prop_map(|(key, text)| Deed::Set(key, text)),
        1 => (0_u8..5).prop_map(Deed::Remove),
        1 => Just(Deed::Reopen),
    ];
    prop::collection::vec(deed, 1..30)
}

fn contents(store: &impl Store) -> BTreeMap<String, String> {
    store.keys().unwrap().into_iter().map(|key| (key.clone(), store.get(&key).unwrap().unwrap())).collect()
}

fn copy(store: &MemoryStore) -> MemoryStore {
    let other = MemoryStore::new();
    for key in store.keys().unwrap() {
        other.set(&key, &store.get(&key).unwrap().unwrap()).unwrap();
    }
    other
}

/// Does the deeds; gives what should stand in the end, the second place, and the first as it was after each deed.
fn run(deeds: &[Deed], room: Option<usize>) -> (BTreeMap<String, String>, Second, Vec<MemoryStore>) {
    let (first, second) = (MemoryStore::new(), Second::default());
    if let Some(room) = room {
        first.limit(room);
    }
    let (mut wanted, mut states) = (BTreeMap::new(), vec![copy(&first)]);
    let mut store = DoubleStore::new(first.clone(), second.clone(), clock);
    for deed in deeds {
        deed.on(&store, &mut wanted);
        if matches!(deed, Deed::Reopen) {
            store = DoubleStore::new(first.clone(), second.clone(), clock);
            store.recover(second.all());
        }
        assert_eq!(contents(&store), wanted);
        states.push(copy(&first));
    }
    (wanted, second, states)
}

proptest! {
    /// The page is killed, and the first place has lost any number of the last writes.
    #[test]
    fn what_the_first_place_loses_comes_back(deeds in deeds(), kept in any::<prop::sample::Index>()) {
        let (wanted, second, states) = run(&deeds, None);
        let first = kept.get(&states).clone();
        let store = DoubleStore::new(first.clone(), second.clone(), clock);
        store.recover(second.all());
        prop_assert_eq!(contents(&store), wanted.clone());
        // And it is back in the first place too, with nothing left to bring back.
        let again = DoubleStore::new(first, Second::default(), clock);
        prop_assert_eq!(contents(&again), wanted);
        prop_assert!(store.recover(second.all()).is_empty());
    }

    /// The second place is lost, or was never there.
    #[test]
    fn the_first_place_alone_is_enough(deeds in deeds()) {
        let (wanted, _, states) = run(&deeds, None);
        let store = DoubleStore::new(states.last().unwrap().clone(), Second::default(), clock);
        store.recover(Vec::new());
        prop_assert_eq!(contents(&store), wanted);
    }

    /// A first place with hardly any room, or none: the second has what did not fit.
    #[test]
    fn what_has_no_room_in_the_first_place_is_in_the_second(deeds in deeds(), room in 0_usize..60) {
        let (wanted, second, states) = run(&deeds, Some(room));
        let first = states.last().unwrap().clone();
        first.limit(room);
        let store = DoubleStore::new(first, second.clone(), clock);
        store.recover(second.all());
        prop_assert_eq!(contents(&store), wanted);
    }

    /// The first place has lost everything, and the second opens only after the page has begun to write.
    #[test]
    fn a_second_place_that_opens_late_takes_and_gives(before in deeds(), after in deeds()) {
        let (mut wanted, second, _) = run(&before, None);
        second.closed.set(true);
        let store = DoubleStore::new(MemoryStore::new(), second.clone(), clock);
        for deed in &after {
            deed.on(&store, &mut wanted);
        }
        second.closed.set(false);
        store.recover(second.all());
        prop_assert_eq!(contents(&store), wanted.clone());
        // And the second place has it all now.
        let again = DoubleStore::new(MemoryStore::new(), second.clone(), clock);
        again.recover(second.all());
        prop_assert_eq!(contents(&again), wanted);
    }

    /// Tabs that see nothing of each other's last writes number them in the order of time all the same.
    #[test]
    fn two_tabs_number_their_writes_in_the_order_of_time(writes in prop::collection::vec((any::<bool>(), 1_u64..50), 1..40)) {
        let second = Second::default();
        let tabs = [
            DoubleStore::new(MemoryStore::new(), second.clone(), clock),
            DoubleStore::new(MemoryStore::new(), second.clone(), clock),
        ];
        TIME_MS.set(1_000);
        let mut last = 0;
        for (tab, later_ms) in writes {
            TIME_MS.set(clock() + later_ms);
            tabs[usize::from(tab)].set("cup", "text").unwrap();
            let sequence = second.all()[0].sequence;
            prop_assert!(sequence > last, "{} after {}", sequence, last);
            last = sequence;
        }
    }

    /// While the second place was gone the first went on: what the second still has is older, and does not come back.
    #[test]
    fn an_older_record_does_not_come_back(before in deeds(), after in deeds()) {
        let (_, second, states) = run(&before, None);
        let first = states.last().unwrap().clone();
        second.closed.set(true);
        let store = DoubleStore::new(first.clone(), second.clone(), clock);
        for deed in &after {
            match deed {
                Deed::Set(key, text) => store.set(&key.to_string(), text).unwrap(),
                Deed::Remove(key) => store.remove(&key.to_string()).unwrap(),
                Deed::Reopen => {}
            }
        }
        let wanted = contents(&store);
        second.closed.set(false);
        let store = DoubleStore::new(first, second.clone(), clock);
        store.recover(second.all());
        prop_assert_eq!(contents(&store), wanted);
    }
}

/// Two tabs: what one has committed, the other takes in before it writes.
#[test]
fn a_record_of_another_tab_is_taken_in_once() {
    let second = Second::default();
    let (one, other) = (
        DoubleStore::new(MemoryStore::new(), second.clone(), clock),
        DoubleStore::new(MemoryStore::new(), second.clone(), clock),
    );
    one.set("cup", "first").unwrap();
    let record = second.all().remove(0);
    assert!(other.absorb(&record));
    assert_eq!(other.get("cup"), Ok(Some("first".to_owned())));
    assert!(!other.absorb(&record));
    other.set("cup", "second").unwrap();
    assert!(!other.absorb(&record), "an older record is not taken in again");
    assert_eq!(other.get("cup"), Ok(Some("second".to_owned())));
}

/// A visit without the second place leaves an old record there. The next visit does not take it in.
#[test]
fn an_old_record_is_not_taken_in_by_a_new_visit() {
    let (first, second) = (MemoryStore::new(), Second::default());
    DoubleStore::new(first.clone(), second.clone(), clock).set("cup", "old").unwrap();
    second.closed.set(true);
    DoubleStore::new(first.clone(), second.clone(), clock).set("cup", "new").unwrap();
    second.closed.set(false);
    let store = DoubleStore::new(first, second.clone(), clock);
    store.recover(second.all());
    assert!(!store.absorb(&second.all().remove(0)));
    assert_eq!(store.get("cup"), Ok(Some("new".to_owned())));
}

/// The first place lost everything and was written anew while the second was gone: what was written later counts.
#[test]
fn what_was_written_later_counts_though_the_first_place_had_begun_anew() {
    let second = Second::default();
    TIME_MS.set(1_000);
    let before = DoubleStore::new(MemoryStore::new(), second.clone(), clock);
    for text in ["one", "two", "three"] {
        before.set("cup", text).unwrap();
    }
    TIME_MS.set(5_000);
    second.closed.set(true);
    let first = MemoryStore::new();
    DoubleStore::new(first.clone(), second.clone(), clock).set("cup", "later").unwrap();
    second.closed.set(false);
    let store = DoubleStore::new(first, second.clone(), clock);
    store.recover(second.all());
    assert_eq!(store.get("cup"), Ok(Some("later".to_owned())));
}

/// A blocked first place: everything works from the second.
#[test]
fn the_second_place_alone_is_enough() {
    let (first, second) = (MemoryStore::new(), Second::default());
    first.fail_after(0, StoreError::Blocked);
    let store = DoubleStore::new(first.clone(), second.clone(), clock);
    store.set("cup", "here").unwrap();
    let store = DoubleStore::new(first, second.clone(), clock);
    store.recover(second.all());
    assert_eq!(store.get("cup"), Ok(Some("here".to_owned())));
    assert_eq!(store.keys(), Ok(vec!["cup".to_owned()]));
    store.remove("cup").unwrap();
    assert_eq!(store.get("cup"), Ok(None));
}

/// With neither place, the error is told.
#[test]
fn without_a_second_place_errors_are_those_of_the_first() {
    let (first, second) = (MemoryStore::new(), Second::default());
    second.closed.set(true);
    first.limit(SEQUENCE_KEY.len());
    let store = DoubleStore::new(first, second, clock);
    assert_eq!(store.set("cup", &"x".repeat(100)), Err(StoreError::Full));
}
