//! The shelf in a real browser: its storage, files and events.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests may stop at once")]

use std::cell::RefCell;
use std::rc::Rc;

use skewline::app::remembered::{self, Choices, ThemeChoice};
use skewline::design::starters::demo;
use skewline::design::{Printer, Printers};
use skewline::shelf::browser::{BrowserStore, events, files, keeping, now_ms, random};
use skewline::shelf::{ImportError, Imported, SaveOutcome, Shelf, Store, StoreError, write_design};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Event, File, StorageEvent, StorageEventInit};

wasm_bindgen_test_configure!(run_in_browser);

/// An empty storage of this site.
fn empty() -> Shelf<BrowserStore> {
    for key in BrowserStore.keys().unwrap() {
        BrowserStore.remove(&key).unwrap();
    }
    Shelf::new(BrowserStore)
}

fn file(text: &str) -> File {
    let parts = js_sys::Array::of1(&text.into());
    File::new_with_str_sequence(&parts, "design.json").unwrap()
}

#[wasm_bindgen_test]
fn designs_are_kept_in_the_storage() {
    let shelf = empty();
    assert_eq!(BrowserStore.get("nothing"), Ok(None));
    let entry = shelf.add(&demo(), random(), now_ms()).unwrap();
    let saved = shelf.save(&entry.id, &demo(), entry.revision, random(), now_ms()).unwrap();
    assert_eq!(saved, SaveOutcome::Saved { revision: 2 });
    assert_eq!(Shelf::new(BrowserStore).load(&entry.id).unwrap().design, demo());
    let deleted = shelf.delete(&entry.id, now_ms()).unwrap().unwrap();
    assert!(shelf.list().unwrap().entries.is_empty());
    shelf.undelete(&deleted, random()).unwrap();
    assert_eq!(shelf.list().unwrap().entries.len(), 1);
}

/// Chromium keeps 10 MB of text a site at most.
#[wasm_bindgen_test]
fn a_full_storage_is_told_and_keeps_what_it_has() {
    let shelf = empty();
    let entry = shelf.add(&demo(), random(), now_ms()).unwrap();
    let mut size = 4_000_000;
    let mut number = 0;
    while size > 0 {
        match BrowserStore.set(&format!("filler {number}"), &"x".repeat(size)) {
            Ok(()) => number += 1,
            Err(StoreError::Full) => size /= 2,
            Err(error) => panic!("{error}"),
        }
        assert!(number < 1000, "the storage never fills");
    }
    assert_eq!(BrowserStore.set("one more", "word"), Err(StoreError::Full));
    assert_eq!(BrowserStore::set_value("one more", &"word"), Err(StoreError::Full));
    assert_eq!(BrowserStore::value::<String>("one more"), None);
    let mut larger = demo();
    larger.notes = "n".repeat(2000);
    assert!(shelf.save(&entry.id, &larger, entry.revision, random(), now_ms()).is_err());
    assert_eq!(shelf.load(&entry.id).unwrap(), entry);
    empty();
}

#[wasm_bindgen_test]
fn small_choices_are_kept_as_the_json_they_always_were() {
    let shelf = empty();
    // As earlier versions of the page wrote them.
    let screen = r#"{"theme":"dark","section_mm":41.25}"#;
    BrowserStore.set("skewline:screen", screen).unwrap();
    let printers = r#"{"letter":true,"name":"Shed","known":[{"name":"Shed","across_mm":99.5,"along_mm":100.0}]}"#;
    BrowserStore.set("skewline:printers", printers).unwrap();
    let choices = Choices { theme: ThemeChoice::Dark, section_mm: 41.25 };
    assert_eq!(remembered::recall(), choices);
    let shed = Printer { name: "Shed".to_owned(), across_mm: 99.5, along_mm: 100.0 };
    let known = Printers { letter: true, name: "Shed".to_owned(), known: vec![shed] };
    assert_eq!(shelf.printers(), Ok(known.clone()));
    empty();
    remembered::keep(choices);
    shelf.save_printers(&known, now_ms()).unwrap();
    assert_eq!(BrowserStore.get("skewline:screen").unwrap().unwrap(), screen);
    assert_eq!(BrowserStore.get("skewline:printers").unwrap().unwrap(), printers);
    BrowserStore.set("skewline:screen", "{\"theme\": \"plaid\"").unwrap();
    assert_eq!(remembered::recall(), Choices::default(), "what cannot be read is made again by a tap");
    empty();
}

#[wasm_bindgen_test]
async fn a_file_is_read_or_refused() {
    let text = write_design(&demo()).unwrap();
    let Ok(Imported::Design(saved)) = files::read_file(&file(&text)).await else { panic!("the file is not read") };
    assert_eq!(saved.design, demo());
    let refused = files::read_file(&file("{")).await.unwrap_err();
    assert!(matches!(refused, files::FileError::Import(ImportError::NotJson { .. })), "{refused}");
}

#[wasm_bindgen_test]
fn a_download_is_handed_over() {
    files::download("demo.skewline.json", &write_design(&demo()).unwrap(), "application/json").unwrap();
}

#[wasm_bindgen_test]
fn the_page_hiding_runs_the_deed_until_it_is_dropped() {
    let window = web_sys::window().unwrap();
    let count = Rc::new(RefCell::new(0));
    let counted = Rc::clone(&count);
    let listening = events::on_page_hide(move || *counted.borrow_mut() += 1);
    window.dispatch_event(&Event::new("pagehide").unwrap()).unwrap();
    assert_eq!(*count.borrow(), 1);
    drop(listening);
    window.dispatch_event(&Event::new("pagehide").unwrap()).unwrap();
    assert_eq!(*count.borrow(), 1);
}

#[wasm_bindgen_test]
fn another_tab_is_heard() {
    let entry = empty().add(&demo(), random(), now_ms()).unwrap();
    let heard = Rc::new(RefCell::new(Vec::new()));
    let hearing = Rc::clone(&heard);
    let _listening = events::on_change_elsewhere(move |change| hearing.borrow_mut().push(change));
    let design = format!("skewline/design/{}", entry.id);
    for key in [Some(design.as_str()), Some("skewline/shop"), Some("skewline:printers"), None] {
        let init = StorageEventInit::new();
        init.set_key(key);
        let event = StorageEvent::new_with_event_init_dict("storage", &init).unwrap();
        web_sys::window().unwrap().dispatch_event(&event).unwrap();
    }
    let expected =
        [events::Change::Design(entry.id), events::Change::Shop, events::Change::Printers, events::Change::Other];
    assert_eq!(*heard.borrow(), expected);
    empty();
}

#[wasm_bindgen_test]
async fn the_browser_says_how_it_keeps_the_storage() {
    // The test's page is on this machine, where a browser does answer; what it answers is its own affair.
    assert_ne!(keeping::status().await, keeping::Keeping::Unknown);
}

#[wasm_bindgen_test]
fn time_and_chance() {
    assert!(now_ms() > 1_700_000_000_000, "the clock gives {}", now_ms());
    assert_ne!(random(), random());
}
