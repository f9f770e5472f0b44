//! Backups: whatever is written can be brought back, an import says what came of every part, and no clock misleads.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use skewline::design::entry::Units;
use skewline::design::{Design, Printer, Printers, Shop};
use skewline::shelf::printers::PRINTERS_KEY;
use skewline::shelf::saved::{LARGEST_TEXT, WriteError};
use skewline::shelf::settings::KeptShop;
use skewline::shelf::trash::KEPT;
use skewline::shelf::{Imported, MemoryStore, SaveError, SaveOutcome, Shelf, Store, StoreError, read, write_shelf};
use support::shelves::{empty, named};

/// The names on the shelf in the order of the alphabet.
fn names(shelf: &Shelf<MemoryStore>) -> Vec<String> {
    let mut names: Vec<String> = shelf.list().unwrap().entries.into_iter().map(|entry| entry.design.name).collect();
    names.sort();
    names
}

fn names_by_time(shelf: &Shelf<MemoryStore>) -> Vec<String> {
    shelf.list().unwrap().entries.into_iter().map(|entry| entry.design.name).collect()
}

fn designs_since(shelf: &Shelf<MemoryStore>) -> usize {
    shelf.backup_state().unwrap().designs_since
}

#[test]
fn a_backup_restores_an_empty_shelf_and_doubles_nothing_on_a_full_one() {
    let (store, shelf) = empty();
    shelf.add(&named("one"), 1, 10).unwrap();
    shelf.add(&named("two"), 2, 20).unwrap();
    store.set("skewline/design/broken", "{half").unwrap();
    let mut shop = Shop::default();
    shop.limits.wall_mm = 2.5;
    shelf.save_shop(&shop, 30).unwrap();
    let backup = read(&shelf.export(40).unwrap()).unwrap();

    let (_, fresh) = empty();
    let taken = fresh.take_in(backup.clone(), 5, 50).unwrap();
    assert_eq!((taken.added.len(), taken.already_here, taken.set_aside), (2, 0, 1));
    assert_eq!(taken.shop, Some(shop));
    assert_eq!(fresh.shop().unwrap(), KeptShop::None, "the shop is for the user to put in force");
    assert_eq!(fresh.list().unwrap().set_aside[0].raw, "{half");

    let taken = shelf.take_in(backup, 6, 60).unwrap();
    assert_eq!((taken.added.len(), taken.already_here, taken.set_aside), (0, 2, 0));
    assert_eq!(names_by_time(&shelf), ["two", "one"]);
}

fn printer(name: &str, across_mm: f64) -> Printer {
    Printer { name: name.to_owned(), across_mm, along_mm: 100.0 }
}

#[test]
fn a_backup_brings_printers_back_and_overwrites_none() {
    let (_, shelf) = empty();
    assert_eq!(shelf.printers().unwrap(), Printers::default());
    let measured = Printers {
        letter: true,
        name: "Shed".to_owned(),
        known: vec![printer("Shed", 99.0), printer("Office", 101.0)],
    };
    shelf.save_printers(&measured, 10).unwrap();
    assert_eq!(shelf.printers().unwrap(), measured);
    let backup = read(&shelf.export(20).unwrap()).unwrap();

    let (_, fresh) = empty();
    let taken = fresh.take_in(backup.clone(), 1, 30).unwrap();
    assert_eq!(taken.printers.new, ["Shed", "Office"]);
    assert_eq!(fresh.printers().unwrap(), measured);

    let (_, other) = empty();
    let known = Printers { letter: false, name: "Attic".to_owned(), known: vec![printer("Office", 97.0)] };
    other.save_printers(&known, 30).unwrap();
    let taken = other.take_in(backup.clone(), 2, 40).unwrap();
    assert_eq!((taken.printers.new, taken.printers.kept), (vec!["Shed".to_owned()], vec!["Office".to_owned()]));
    let now = Printers { known: vec![printer("Office", 97.0), printer("Shed", 99.0)], ..known };
    assert_eq!(other.printers().unwrap(), now);

    let (store, full) = empty();
    store.limit(20);
    let taken = full.take_in(backup, 3, 50).unwrap();
    assert_eq!(taken.printers_failed, Some(SaveError::Store(StoreError::Full)));
    assert_eq!(full.printers().unwrap(), Printers::default());
}

#[test]
fn printers_that_cannot_be_read_are_set_aside_and_hold_up_no_backup() {
    let (store, shelf) = empty();
    assert!(!shelf.export(0).unwrap().contains("printers"));
    let newer = r#"{"letter":true,"name":"","known":[],"tray":2}"#;
    store.set(PRINTERS_KEY, newer).unwrap();
    assert_eq!(shelf.printers().unwrap(), Printers::default());
    let Ok(Imported::Shelf(backup)) = read(&shelf.export(5).unwrap()) else { panic!("no shelf") };
    assert_eq!((backup.printers, backup.set_aside), (None, vec![newer.to_owned()]));
    shelf.save_printers(&Printers::default(), 10).unwrap();
    assert_eq!(shelf.list().unwrap().set_aside[0].raw, newer);
    // A line that no paper can bear, as a hand may have written it, and a name twice.
    let known = vec![printer("Shed", 99.0), printer("Attic", 1000.0), printer("Shed", 98.0)];
    shelf.save_printers(&Printers { known, ..Printers::default() }, 20).unwrap();
    let Ok(Imported::Shelf(backup)) = read(&shelf.export(30).unwrap()) else { panic!("no shelf") };
    assert_eq!(backup.printers.unwrap().known, [printer("Shed", 99.0)]);
}

#[test]
fn what_does_not_fit_of_an_import_is_handed_back() {
    let (store, shelf) = empty();
    let file = skewline::shelf::write_shelf(&[&named("one"), &named("two")], None, None, &[], 0).unwrap();
    store.limit(shelf_bytes_of_one() + 100);
    let taken = shelf.take_in(read(&file).unwrap(), 1, 10).unwrap();
    assert_eq!(taken.added.len(), 1);
    assert_eq!(taken.failed, [(named("two"), SaveError::Store(StoreError::Full))]);
}

fn shelf_bytes_of_one() -> usize {
    let (store, shelf) = empty();
    shelf.add(&named("one"), 1, 10).unwrap();
    store.bytes()
}

#[test]
fn a_shelf_of_more_than_16_megabytes_round_trips() {
    let notes = "Walls a little thicker next time. ".repeat(290);
    let designs: Vec<Design> =
        (0..1_700).map(|number| Design { notes: notes.clone(), ..named(&format!("number {number}")) }).collect();
    let text = write_shelf(&designs.iter().collect::<Vec<_>>(), None, None, &[], 5).unwrap();
    assert!(text.len() > 16_000_000, "{} bytes", text.len());
    let Ok(Imported::Shelf(shelf)) = read(&text) else { panic!("not a shelf") };
    assert_eq!(shelf.designs, designs);
    assert_eq!(shelf.refused, []);
}

#[test]
fn a_backup_is_written_compactly() {
    let (_, shelf) = empty();
    shelf.add(&named("scoop"), 1, 10).unwrap();
    let text = shelf.export(20).unwrap();
    assert!(!text.contains('\n'), "{text}");
    assert!(!text.contains("\": "), "{text}");
}

/// What could not be read back is not written.
#[test]
fn a_backup_too_large_to_bring_back_is_refused_with_a_sentence() {
    let aside = vec!["x".repeat(LARGEST_TEXT)];
    let error = write_shelf(&[], None, None, &aside, 5).unwrap_err();
    assert!(matches!(error, WriteError::TooLarge { .. }), "{error:?}");
    assert!(error.to_string().contains("256 MB"), "{error}");
}

#[test]
fn a_clock_set_back_hides_no_change_from_the_backup() {
    let (_, shelf) = empty();
    let scoop = shelf.add(&named("scoop"), 1, 1_000).unwrap();
    shelf.set_last_backup_ms(2_000).unwrap();
    assert_eq!(designs_since(&shelf), 0);
    // The clock is an hour behind from here on.
    let changed = Design { notes: "thicker".to_owned(), ..named("scoop") };
    let SaveOutcome::Saved { .. } = shelf.save(&scoop.id, &changed, scoop.revision, 2, 500).unwrap() else { panic!() };
    assert_eq!(designs_since(&shelf), 1);
    shelf.add(&named("ladle"), 3, 600).unwrap();
    assert_eq!(designs_since(&shelf), 2);
    shelf.set_last_backup_ms(700).unwrap();
    assert_eq!(designs_since(&shelf), 0);
}

/// The time alone, as earlier versions noted it.
#[test]
fn the_time_of_an_earlier_version_still_counts() {
    let (store, shelf) = empty();
    shelf.add(&named("scoop"), 1, 1_000).unwrap();
    shelf.add(&named("ladle"), 2, 3_000).unwrap();
    store.set("skewline/last_backup", "2000").unwrap();
    let state = shelf.backup_state().unwrap();
    assert_eq!((state.last_ms, state.designs_since), (Some(2_000), 1));
}

#[test]
fn an_import_says_what_it_could_not_set_aside() {
    let (store, shelf) = empty();
    let aside = vec!["{half".repeat(2_000)];
    let file = write_shelf(&[&named("one")], None, None, &aside, 0).unwrap();
    store.limit(8_000);
    let taken = shelf.take_in(read(&file).unwrap(), 1, 10).unwrap();
    assert_eq!((taken.added.len(), taken.set_aside), (1, 0));
    assert_eq!(taken.aside_failed, [StoreError::Full]);
    let told = taken.told("shelf.json", Units::default());
    assert!(told.starts_with("\u{201c}shelf.json\u{201d}: 1 design imported."), "{told}");
    assert!(told.contains("1 text that cannot be read could not be set aside"), "{told}");
}

proptest! {
    /// Whatever fails, and when: an error means that nothing came in, and else every design is accounted for.
    #[test]
    fn an_import_that_fails_has_changed_nothing(after in 0_usize..60, full in any::<bool>()) {
        let (store, shelf) = empty();
        shelf.add(&named("here"), 9, 5).unwrap();
        let aside = vec!["{half".to_owned(), "{quarter".to_owned()];
        let designs = [named("one"), named("here"), named("two")];
        let file = write_shelf(&designs.iter().collect::<Vec<_>>(), None, None, &aside, 0).unwrap();
        let before = shelf.list().unwrap();
        store.fail_after(after, if full { StoreError::Full } else { StoreError::Blocked });
        let taken = shelf.take_in(read(&file).unwrap(), 1, 10);
        store.heal();
        match taken {
            Err(_) => prop_assert_eq!(shelf.list().unwrap(), before),
            Ok(taken) => {
                prop_assert_eq!(taken.added.len() + taken.already_here + taken.failed.len(), designs.len());
                prop_assert_eq!(taken.set_aside + taken.aside_failed.len(), aside.len());
                prop_assert_eq!(names(&shelf).len(), 1 + taken.added.len());
                prop_assert_eq!(shelf.list().unwrap().set_aside.len(), taken.set_aside);
            }
        }
    }

    /// Whatever the clock says, the last deleted are the ones that are kept, and stand in their order.
    #[test]
    fn the_last_deleted_are_kept_whatever_the_clock_says(times in prop::collection::vec(0_u64..1_000, 1..25)) {
        let (_, shelf) = empty();
        for (number, time_ms) in times.iter().enumerate() {
            let entry = shelf.add(&named(&format!("number {number}")), 1, *time_ms).unwrap();
            shelf.delete(&entry.id, *time_ms).unwrap();
        }
        let kept: Vec<String> = shelf.trash().unwrap().into_iter().filter_map(|it| it.name).collect();
        let wanted: Vec<String> = (0..times.len()).rev().take(KEPT).map(|number| format!("number {number}")).collect();
        prop_assert_eq!(kept, wanted);
    }

    /// Whatever the clock says, a design that was saved since the last backup counts as changed, and no other does.
    #[test]
    fn changes_since_the_backup_count_whatever_the_clock_says(
        backup_ms in 0_u64..1_000, saves in prop::collection::vec((0_usize..4, 0_u64..1_000), 0..10)
    ) {
        let (_, shelf) = empty();
        let mut entries: Vec<_> = (0..4).map(|number| shelf.add(&named(&format!("number {number}")), number, 500).unwrap()).collect();
        shelf.set_last_backup_ms(backup_ms).unwrap();
        let mut changed = std::collections::BTreeSet::new();
        for (step, (which, time_ms)) in saves.into_iter().enumerate() {
            let entry = &mut entries[which];
            let design = Design { notes: format!("step {step}"), ..entry.design.clone() };
            let SaveOutcome::Saved { revision } = shelf.save(&entry.id, &design, entry.revision, 1, time_ms).unwrap() else { panic!() };
            entry.revision = revision;
            changed.insert(which);
        }
        prop_assert_eq!(designs_since(&shelf), changed.len());
    }
}
