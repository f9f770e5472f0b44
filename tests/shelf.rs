//! The shelf: nothing that was kept is ever lost to a failure, a damaged neighbour or another tab.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use skewline::design::entry::Units;
use skewline::design::{Design, LengthUnit, Rounding, Shop};
use skewline::shelf::settings::{KeptShop, SHOP_KEY};
use skewline::shelf::trash::KEPT;
use skewline::shelf::{
    DesignId, ImportError, Imported, MemoryStore, SaveError, SaveOutcome, Shelf, Store, StoreError, read,
};
use support::shelves::{empty, named};

fn names(shelf: &Shelf<MemoryStore>) -> Vec<String> {
    shelf.list().unwrap().entries.into_iter().map(|entry| entry.design.name).collect()
}

fn key(id: &DesignId) -> String {
    format!("skewline/design/{id}")
}

#[test]
fn designs_are_added_saved_and_listed_by_time() {
    let (_, shelf) = empty();
    let first = shelf.add(&named("first"), 7, 1000).unwrap();
    let second = shelf.add(&named("second"), 7, 2000).unwrap();
    assert_ne!(first.id, second.id, "one random number must not give one id twice");
    let changed = Design { notes: "walls a little thicker".to_owned(), ..named("first") };
    let saved = shelf.save(&first.id, &changed, first.revision, 8, 3000).unwrap();
    assert_eq!(saved, SaveOutcome::Saved { revision: 2 });
    assert_eq!(names(&shelf), ["first", "second"]);
    let loaded = shelf.load(&first.id).unwrap();
    assert_eq!((loaded.design, loaded.revision, loaded.saved_at_ms), (changed, 2, 3000));
    assert_eq!(shelf.load(&DesignId::from_random(99)), Err(SaveError::Gone));
}

#[test]
fn copies_and_names() {
    let (_, shelf) = empty();
    let first = shelf.add(&named("scoop"), 1, 10).unwrap();
    assert_eq!(shelf.duplicate(&first.id, 2, 20).unwrap().design.name, "scoop (copy)");
    let third = shelf.duplicate(&first.id, 3, 30).unwrap();
    assert_eq!(third.design.name, "scoop (copy 2)");
    shelf.rename(&third.id, "ladle", 4, 40).unwrap();
    assert_eq!(names(&shelf), ["ladle", "scoop (copy)", "scoop"]);
    let long = "x".repeat(121);
    assert!(matches!(shelf.rename(&third.id, &long, 5, 50), Err(SaveError::Write(_))));
    assert_eq!(names(&shelf)[0], "ladle");
    let longest = shelf.add(&named(&"x".repeat(120)), 6, 60).unwrap();
    let copy = shelf.duplicate(&longest.id, 7, 70).unwrap().design.name;
    assert!(copy.ends_with(" (copy)") && copy.chars().count() == 120);
}

#[test]
fn two_tabs_on_one_design_keep_both() {
    let (store, here) = empty();
    let there = Shelf::new(store);
    let opened = here.add(&named("scoop"), 1, 10).unwrap();
    let other = Design { notes: "from the other tab".to_owned(), ..named("scoop") };
    let mine = Design { notes: "mine".to_owned(), ..named("scoop") };
    there.save(&opened.id, &other, opened.revision, 2, 20).unwrap();
    let outcome = here.save(&opened.id, &mine, opened.revision, 3, 30).unwrap();
    let SaveOutcome::Conflict { saved_as, name, revision } = outcome else { panic!("{outcome:?}") };
    assert_eq!(name, "scoop (other copy)");
    assert_eq!(here.load(&opened.id).unwrap().design, other);
    let copy = here.load(&saved_as).unwrap();
    assert_eq!((copy.design.notes.as_str(), copy.revision), ("mine", revision));
    // From here on the work goes into the copy, without a further conflict.
    let again = here.save(&saved_as, &copy.design, revision, 4, 40).unwrap();
    assert_eq!(again, SaveOutcome::Saved { revision: revision + 1 });
    // Two tabs that came to the same design are not in conflict.
    let same = here.save(&opened.id, &other, opened.revision, 5, 50).unwrap();
    assert_eq!(same, SaveOutcome::Saved { revision: 2 });
    assert_eq!(names(&here).len(), 2);
}

#[test]
fn work_on_a_design_deleted_elsewhere_is_kept() {
    let (store, here) = empty();
    let opened = here.add(&named("scoop"), 1, 10).unwrap();
    Shelf::new(store).delete(&opened.id, 20).unwrap().unwrap();
    let outcome = here.save(&opened.id, &named("scoop, longer"), opened.revision, 2, 30).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved { revision: 2 });
    assert_eq!(here.load(&opened.id).unwrap().design.name, "scoop, longer");
    assert_eq!(here.trash().unwrap().len(), 1);
}

#[test]
fn damaged_and_newer_entries_are_set_aside_whole() {
    let (store, shelf) = empty();
    let sound = shelf.add(&named("sound"), 1, 10).unwrap();
    let damaged = shelf.add(&named("damaged"), 2, 20).unwrap();
    let newer = shelf.add(&named("newer"), 3, 30).unwrap();
    let half = store.get(&key(&damaged.id)).unwrap().unwrap().chars().take(200).collect::<String>();
    store.set(&key(&damaged.id), &half).unwrap();
    let later = store.get(&key(&newer.id)).unwrap().unwrap().replace("\"version\":2", "\"version\":3");
    store.set(&key(&newer.id), &later).unwrap();
    store.set("skewline/design/No Id", "{}").unwrap();
    store.set("another page's", "text").unwrap();

    let listing = shelf.list().unwrap();
    assert_eq!(listing.entries, [sound]);
    let aside: Vec<_> = listing.set_aside.iter().map(|it| (it.raw.clone(), it.reason.clone())).collect();
    assert!(matches!(&aside[0], (raw, ImportError::NotJson { .. }) if *raw == half));
    assert!(matches!(&aside[1], (raw, ImportError::Newer { version: 3 }) if *raw == later));
    assert!(matches!(&aside[2], (raw, ImportError::NotOurs) if raw == "{}"));
    assert!(matches!(shelf.load(&damaged.id), Err(SaveError::Unreadable(_))));

    // Saving to such an entry does not touch it.
    let outcome = shelf.save(&newer.id, &named("mine"), newer.revision, 9, 40).unwrap();
    assert!(matches!(outcome, SaveOutcome::Conflict { .. }));
    assert_eq!(store.get(&key(&newer.id)).unwrap(), Some(later));
    // It can be deleted by hand, and brought back.
    let deleted = shelf.delete_set_aside(&key(&damaged.id), 50).unwrap().unwrap();
    assert_eq!(shelf.list().unwrap().set_aside.len(), 2);
    assert_eq!(shelf.trash().unwrap()[0].name, None);
    shelf.undelete(&deleted, 0).unwrap();
    assert_eq!(store.get(&key(&damaged.id)).unwrap(), Some(half));
    assert_eq!(shelf.delete_set_aside("another page's", 60).unwrap(), None);
}

#[test]
fn why_a_damaged_design_is_not_opened_or_saved_is_told_in_the_shops_unit() {
    let (store, shelf) = empty();
    let entry = shelf.add(&named("damaged"), 1, 10).unwrap();
    let sound = store.get(&key(&entry.id)).unwrap().unwrap();
    let damaged = sound.replacen("\"length_mm\":255.0", "\"length_mm\":2540.0", 1);
    assert_ne!(damaged, sound);
    store.set(&key(&entry.id), &damaged).unwrap();
    let inches = Units { length: LengthUnit::Inches, rounding: Rounding::Decimal };
    let mut unsound = named("long");
    unsound.blank.length_mm = 2540.0;
    for error in [shelf.load(&entry.id).unwrap_err(), shelf.add(&unsound, 2, 20).unwrap_err()] {
        assert!(error.to_string().contains("is 2540 mm, outside 10 to 2000 mm."), "{error}");
        assert_eq!(error.told(Units::default()), error.to_string());
        let told = error.told(inches);
        assert!(told.contains("is 100 in, outside 0.394 to 78.74 in.") && !told.contains(" mm"), "{told}");
    }
    for error in [SaveError::Gone, SaveError::Store(StoreError::Full)] {
        assert_eq!(error.told(inches), error.to_string());
    }
}

#[test]
fn a_deleted_design_comes_back() {
    let (_, shelf) = empty();
    let entry = shelf.add(&named("scoop"), 1, 10).unwrap();
    let deleted = shelf.delete(&entry.id, 20).unwrap().unwrap();
    assert!(names(&shelf).is_empty());
    assert_eq!(shelf.delete(&entry.id, 21).unwrap(), None);
    let trash = shelf.trash().unwrap();
    assert_eq!((trash[0].deleted_at_ms, trash[0].name.as_deref(), &trash[0].deleted), (20, Some("scoop"), &deleted));
    assert_eq!(shelf.undelete(&deleted, 2).unwrap(), key(&entry.id));
    assert_eq!(shelf.list().unwrap().entries, [entry]);
    assert!(shelf.trash().unwrap().is_empty());
}

#[test]
fn a_deleted_design_comes_back_beside_what_took_its_place() {
    let (_, shelf) = empty();
    let entry = shelf.add(&named("scoop"), 1, 10).unwrap();
    let deleted = shelf.delete(&entry.id, 20).unwrap().unwrap();
    shelf.save(&entry.id, &named("later"), entry.revision, 1, 30).unwrap();
    shelf.undelete(&deleted, 1).unwrap();
    assert_eq!(names(&shelf), ["later", "scoop"]);
}

#[test]
fn the_last_deleted_are_kept_until_more_are() {
    let (_, shelf) = empty();
    for time in 0..KEPT as u64 + 3 {
        let entry = shelf.add(&named(&format!("number {time}")), time, time).unwrap();
        shelf.delete(&entry.id, 1000 + time).unwrap().unwrap();
    }
    let trash = shelf.trash().unwrap();
    assert_eq!(trash.len(), KEPT);
    assert_eq!(trash[0].name.as_deref(), Some("number 12"));
    assert_eq!(trash[KEPT - 1].name.as_deref(), Some("number 3"));
    shelf.empty_trash().unwrap();
    assert!(shelf.trash().unwrap().is_empty());
}

#[test]
fn a_full_storage_loses_nothing_and_can_be_cleared() {
    let (store, shelf) = empty();
    let entry = shelf.add(&named("scoop"), 1, 10).unwrap();
    store.limit(store.bytes() + 20);
    let larger = Design { notes: "n".repeat(100), ..named("scoop") };
    let error = shelf.save(&entry.id, &larger, entry.revision, 2, 20).unwrap_err();
    assert_eq!(error, SaveError::Store(StoreError::Full));
    assert_eq!(shelf.load(&entry.id).unwrap(), entry);
    assert!(shelf.add(&larger, 3, 30).is_err());
    // The work is still to be had as a file.
    assert!(shelf.export(40).unwrap().contains("\"scoop\""));
    // There is no room among the deleted, so only the answer has it; undo still works.
    let deleted = shelf.delete(&entry.id, 50).unwrap().unwrap();
    assert_eq!(deleted.kept_as, None);
    shelf.undelete(&deleted, 4).unwrap();
    assert_eq!(shelf.load(&entry.id).unwrap(), entry);
}

#[test]
fn undo_of_a_delete_makes_room_for_itself() {
    let (store, shelf) = empty();
    let entry = shelf.add(&named("scoop"), 1, 10).unwrap();
    let deleted = shelf.delete(&entry.id, 50).unwrap().unwrap();
    assert!(deleted.kept_as.is_some());
    store.limit(store.bytes() + 50);
    shelf.undelete(&deleted, 4).unwrap();
    assert_eq!(shelf.list().unwrap().entries, [entry]);
}

#[test]
fn a_blocked_storage_is_told() {
    let (store, shelf) = empty();
    store.fail_after(0, StoreError::Blocked);
    assert_eq!(shelf.list(), Err(StoreError::Blocked));
    assert_eq!(shelf.add(&named("scoop"), 1, 1), Err(SaveError::Store(StoreError::Blocked)));
    assert_eq!(shelf.shop(), Err(StoreError::Blocked));
    store.heal();
    assert_eq!(names(&shelf), Vec::<String>::new());
    let said: Vec<String> =
        [StoreError::Blocked, StoreError::Full, StoreError::Absent, StoreError::Other("odd".to_owned())]
            .iter()
            .map(StoreError::to_string)
            .collect();
    insta::assert_snapshot!(said.join("\n"));
}

#[test]
fn shop_settings_that_cannot_be_read_are_set_aside_and_not_overwritten() {
    let (store, shelf) = empty();
    assert_eq!(shelf.shop().unwrap(), KeptShop::None);
    store.set(SHOP_KEY, "{\"format\":\"skewline-shop\",\"version\":9}").unwrap();
    assert!(matches!(shelf.shop().unwrap(), KeptShop::Unreadable(_)));
    shelf.save_shop(&Shop::default(), 10).unwrap();
    assert_eq!(shelf.shop().unwrap(), KeptShop::Shop(Box::default()));
    let aside = shelf.list().unwrap().set_aside;
    assert_eq!(aside.len(), 1);
    assert_eq!(aside[0].reason, ImportError::Newer { version: 9 });
    shelf.save_shop(&Shop::default(), 20).unwrap();
    assert_eq!(shelf.list().unwrap().set_aside.len(), 1);
}

#[test]
fn the_open_design_and_the_last_backup_are_noted() {
    let (_, shelf) = empty();
    assert_eq!(shelf.open_design().unwrap(), None);
    let entry = shelf.add(&named("scoop"), 1, 10).unwrap();
    shelf.set_open_design(&entry.id).unwrap();
    assert_eq!(shelf.open_design().unwrap(), Some(entry.id));
    let state = shelf.backup_state().unwrap();
    assert_eq!((state.last_ms, state.designs_since), (None, 1));
    shelf.set_last_backup_ms(15).unwrap();
    shelf.add(&named("later"), 2, 20).unwrap();
    let state = shelf.backup_state().unwrap();
    assert_eq!((state.last_ms, state.designs_since), (Some(15), 1));
}

#[test]
fn an_entry_is_a_file_that_can_be_imported() {
    let (store, shelf) = empty();
    let entry = shelf.add(&named("scoop"), 1, 10).unwrap();
    let raw = store.get(&key(&entry.id)).unwrap().unwrap();
    let Ok(Imported::Design(saved)) = read(&raw) else { panic!("{raw}") };
    assert_eq!((saved.design, saved.revision, saved.saved_at_ms), (entry.design, Some(1), Some(10)));
}

/// One thing a user does.
#[derive(Clone, Debug)]
enum Deed {
    Add,
    Save(usize),
    SaveOld(usize),
    Duplicate(usize),
    Delete(usize),
    Undo,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        Just(Deed::Add),
        (0_usize..4).prop_map(Deed::Save),
        (0_usize..4).prop_map(Deed::SaveOld),
        (0_usize..4).prop_map(Deed::Duplicate),
        (0_usize..4).prop_map(Deed::Delete),
        Just(Deed::Undo),
    ]
}

/// The texts of all designs on the shelf or among the deleted.
fn kept(shelf: &Shelf<MemoryStore>) -> Vec<String> {
    let mut notes: Vec<String> = shelf.list().unwrap().entries.into_iter().map(|entry| entry.design.notes).collect();
    notes.extend(shelf.trash().unwrap().into_iter().map(|trashed| {
        let Ok(Imported::Design(saved)) = read(&trashed.deleted.raw) else { panic!("{trashed:?}") };
        saved.design.notes
    }));
    notes
}

proptest! {
    /// Whatever is done, and wherever the storage fails, a design that was saved, and neither saved over in order nor
    /// deleted, is still there, whole.
    #[test]
    fn nothing_is_lost_to_a_failure(
        deeds in prop::collection::vec((deed(), prop::option::of(0_usize..6)), 1..9),
        full in any::<bool>(),
    ) {
        let (store, shelf) = empty();
        let mut last_deleted = None;
        for (step, (deed, failure)) in deeds.into_iter().enumerate() {
            let now = step as u64 + 1;
            let entries = shelf.list().unwrap().entries;
            let picked = |index: usize| entries.get(index % entries.len().max(1)).cloned();
            let before = kept(&shelf);
            let work = Design { notes: format!("step {step}"), ..named("scoop") };
            if let Some(after) = failure {
                let error = if full { StoreError::Full } else { StoreError::Other("cut off".to_owned()) };
                store.fail_after(after, error);
            }
            let mut replaced = None;
            let mut new = None;
            match deed {
                Deed::Add => new = shelf.add(&work, now, now).ok().map(|_| work.notes.clone()),
                Deed::Save(index) => if let Some(entry) = picked(index) {
                    let saved = shelf.save(&entry.id, &work, entry.revision, now, now);
                    if saved.is_ok() {
                        replaced = Some(entry.design.notes);
                        new = Some(work.notes.clone());
                    }
                },
                Deed::SaveOld(index) => if let Some(entry) = picked(index) {
                    let saved = shelf.save(&entry.id, &work, entry.revision + 7, now, now);
                    new = saved.ok().map(|_| work.notes.clone());
                },
                Deed::Duplicate(index) => if let Some(entry) = picked(index) {
                    new = shelf.duplicate(&entry.id, now, now).ok().map(|entry| entry.design.notes);
                },
                Deed::Delete(index) => if let Some(entry) = picked(index) {
                    match shelf.delete(&entry.id, now) {
                        Ok(deleted) => {
                            replaced = deleted.as_ref().filter(|it| it.kept_as.is_none()).map(|_| entry.design.notes);
                            last_deleted = deleted;
                        }
                        Err(_) => replaced = None,
                    }
                },
                Deed::Undo => if let Some(deleted) = &last_deleted.clone() {
                    last_deleted = shelf.undelete(deleted, now).err().and(last_deleted.take());
                },
            }
            store.heal();
            let after = kept(&shelf);
            for notes in before.iter().filter(|notes| Some(*notes) != replaced.as_ref()) {
                prop_assert!(after.contains(notes), "{notes} was lost at step {step}");
            }
            if let Some(notes) = new {
                prop_assert!(after.contains(&notes), "{notes} was said to be saved at step {step}");
            }
            prop_assert!(shelf.list().unwrap().set_aside.is_empty());
        }
    }
}
