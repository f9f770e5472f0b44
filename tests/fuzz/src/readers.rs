//! Everything that reads text from outside, behind one door for fuzzing and for replaying its corpus.
//!
//! The first byte of an input picks the reader, the rest is the text. A reader may refuse a text with a sentence; it may
//! not panic, take in what is unsound, or change what it could not read.

use skewline::design::entry::Units;
use skewline::design::units::{Quantity, parse_angle, parse_length, parse_number};
use skewline::design::validation::bounds::Bound;
use skewline::design::{Design, LengthUnit, Rounding, Shop, log, starters};
use skewline::figures::shape;
use skewline::form::set_grits;
use skewline::shelf::choices::{Choices, station_on_blank};
use skewline::shelf::double::SEQUENCE_KEY;
use skewline::shelf::drafts::{DRAFTS_KEY, MOST};
use skewline::shelf::printers::PRINTERS_KEY;
use skewline::shelf::saved::read_bytes;
use skewline::shelf::settings::{OPEN_KEY, SHOP_KEY};
use skewline::shelf::{DesignId, Imported, MemoryStore, Shelf, Store, entry_key, file_name};

/// How many readers there are.
pub const READERS: u8 = 10;
/// A sound id of an entry.
const ID: &str = "0000000000000001";

/// Gives the text of an input to the reader that its first byte picks.
pub fn feed(input: &[u8]) {
    let Some((which, bytes)) = input.split_first() else { return };
    let text = String::from_utf8_lossy(bytes);
    match which % READERS {
        0 => import(bytes),
        1 => typed(&text),
        2 => stored(SHOP_KEY, &text),
        3 => stored(PRINTERS_KEY, &text),
        4 => stored(&entry_key(&DesignId::from_random(1)), &text),
        5 => stored(&format!("skewline/history/{ID}"), &text),
        6 => stored(&format!("skewline/trash/{:020}/design/{ID}", 1), &text),
        7 => words(&text),
        8 => choices(&text),
        _ => notes(&text),
    }
}

/// A file that was dropped on the shelf, as bytes.
fn import(bytes: &[u8]) {
    match read_bytes(bytes) {
        Ok(Imported::Design(saved)) => sound(&saved.design),
        Ok(Imported::Shelf(shelf)) => {
            shelf.designs.iter().for_each(sound);
            let empty = Shelf::new(MemoryStore::new());
            assert!(empty.take_in(Imported::Shelf(shelf), 1, 2).is_ok(), "a shelf that was read is taken in");
        }
        Ok(Imported::Shop(shop)) => assert!(shop.problems().is_empty(), "an unsound shop was read"),
        Err(error) => assert!(!error.to_string().is_empty(), "a refusal says why"),
    }
}

/// What was read has no problems. Small designs are also made into wood.
fn sound(design: &Design) {
    assert!(design.problems().is_empty(), "an unsound design was read");
    if design.cuts.len() <= 4 && design.axes.len() <= 2 {
        // It may have no geometry; it may not panic.
        drop(shape(design, &Shop::default()));
    }
}

/// A number from a keyboard, in every unit.
fn typed(text: &str) {
    let lengths = [LengthUnit::Millimetres, LengthUnit::Inches].map(|unit| parse_length(text, unit));
    for value in lengths.into_iter().chain([parse_angle(text), parse_number(text)]).flatten() {
        assert!(value.is_finite(), "{text:?} is read as {value}");
    }
    let bound = Bound { from: -10.0, to: 500.0, unit: " mm" };
    for length in [LengthUnit::Millimetres, LengthUnit::Inches] {
        let units = Units { length, rounding: Rounding::ThirtySeconds };
        for quantity in [Quantity::Length, Quantity::Angle, Quantity::Number] {
            match units.read(text, quantity, &bound) {
                Ok(value) => assert!(bound.holds(value), "{text:?} is read as {value}, out of its bound"),
                Err(sentence) => assert!(!sentence.is_empty(), "a refusal says why"),
            }
        }
    }
}

/// A text found in the browser's storage: read by all that reads there, and there still.
fn stored(key: &str, text: &str) {
    let store = MemoryStore::new();
    assert!(store.set(key, text).is_ok(), "memory has room");
    let shelf = Shelf::new(store.clone());
    let listing = shelf.list();
    assert!(listing.is_ok(), "a shelf with an odd text is listed");
    for entry in listing.iter().flat_map(|listing| &listing.entries) {
        sound(&entry.design);
        drop(shelf.history(&entry.id, &entry.design));
    }
    let id = DesignId::from_random(1);
    drop((shelf.load(&id), shelf.history(&id, &starters::demo())));
    drop((shelf.shop(), shelf.printers(), shelf.trash(), shelf.open_design(), shelf.backup_state(), shelf.export(1)));
    assert_eq!(store.get(key), Ok(Some(text.to_owned())), "reading changed what is stored under {key}");
}

/// The screen's stored choices: a station is on the blank, whatever was stored.
fn choices(text: &str) {
    let read = Choices::read(text);
    assert!(
        (0.0..=200.0).contains(&station_on_blank(read.section_mm, 200.0)),
        "{text:?} puts the section off the blank"
    );
}

/// Stored notes that hold no design: which one is open, when the last backup was made, drafts, the number of the last write.
fn notes(text: &str) {
    for key in [OPEN_KEY, "skewline/last_backup", DRAFTS_KEY, SEQUENCE_KEY] {
        stored(key, text);
    }
    let store = MemoryStore::new();
    assert!(store.set(DRAFTS_KEY, text).is_ok(), "memory has room");
    let mut drafts = Shelf::new(store).drafts();
    drafts.set("one more", Some(text));
    assert!(drafts.get("one more").is_some() && drafts.count() <= MOST, "drafts are within their bound");
}

/// Short texts: dates of the log, grits, names of files and entries.
fn words(text: &str) {
    drop((log::day(text), set_grits(&Shop::default(), text), DesignId::from_text(text)));
    let name = file_name(text, "json");
    assert!(!name.contains(['/', '\\', '\0']), "{text:?} makes a path of {name:?}");
}
