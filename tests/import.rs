//! The one door for saved documents: whatever comes gives a sound document or a sentence.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

mod support;

use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::{Value, json};
use skewline::design::entry::Units;
use skewline::design::{Design, LengthUnit, Printer, Printers, Rounding, Shop};
use skewline::shelf::saved::{LARGEST_TEXT, VERSION, WriteError, read_bytes, write_shop};
use skewline::shelf::{ImportError, Imported, read, write_design, write_shelf};
use support::{KINDS, arbitrary, sound_design};

fn saved_value() -> Value {
    serde_json::from_str(&write_design(&sound_design()).unwrap()).unwrap()
}

fn printers() -> Printers {
    let shed = Printer { name: "Shed".to_owned(), across_mm: 99.5, along_mm: 101.0 };
    Printers { letter: true, name: "Shed".to_owned(), known: vec![shed] }
}

fn read_value(value: &Value) -> Result<Imported, ImportError> {
    read(&serde_json::to_string_pretty(value).unwrap())
}

/// Whether what was read, if anything was, is sound.
fn is_sound(read: &Result<Imported, ImportError>) -> bool {
    match read {
        Ok(Imported::Design(saved)) => saved.design.problems().is_empty(),
        Ok(Imported::Shelf(shelf)) => {
            shelf.designs.iter().all(|design| design.problems().is_empty())
                && shelf.shop.as_ref().is_none_or(|shop| shop.problems().is_empty())
                && shelf.printers.as_ref().is_none_or(|printers| printers.problems().is_empty())
        }
        Ok(Imported::Shop(shop)) => shop.problems().is_empty(),
        Err(error) => !error.to_string().is_empty(),
    }
}

/// The path of every object in a value.
fn objects(value: &Value, path: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            found.push(path.to_owned());
            for (name, inner) in fields {
                objects(inner, &format!("{path}/{name}"), found);
            }
        }
        Value::Array(items) => {
            for (index, inner) in items.iter().enumerate() {
                objects(inner, &format!("{path}/{index}"), found);
            }
        }
        _ => {}
    }
}

/// The path of every value inside a value.
fn places(value: &Value, path: &str, found: &mut Vec<String>) {
    found.push(path.to_owned());
    match value {
        Value::Object(fields) => {
            fields.iter().for_each(|(name, inner)| places(inner, &format!("{path}/{name}"), found));
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(index, inner)| places(inner, &format!("{path}/{index}"), found));
        }
        _ => {}
    }
}

#[test]
fn refusals_are_sentences() {
    let design = saved_value();
    let spoiled = |pointer: &str, value: Value| {
        let mut spoiled = design.clone();
        *spoiled.pointer_mut(pointer).unwrap() = value;
        serde_json::to_string_pretty(&spoiled).unwrap()
    };
    let texts = [
        String::new(),
        "{\"format\": \"skewline-design\",\n \"version\": 1,\n \"design\": {".to_owned(),
        "<html>".to_owned(),
        "[1, 2]".to_owned(),
        "{\"format\": \"something-else\", \"version\": 1}".to_owned(),
        "{\"version\": 1}".to_owned(),
        spoiled("/version", json!(VERSION + 1)),
        spoiled("/version", json!(0)),
        spoiled("/version", json!("one")),
        spoiled("/design/blank/length_mm", json!("long")),
        spoiled("/design/blank/section", json!({"hexagon": {"side_mm": 40.0}})),
        spoiled("/design/cuts/3/pass/axis", json!("AB")),
        spoiled("/design/cuts/5", json!({"take_out_plug": {"gently": true}})),
        spoiled("/design/cuts/4/pass/profile/drawn/nodes/1/curve", json!({"ogee": {"bulge_mm": 2.0}})),
        spoiled("/design/cuts/0/hollow/shape/round_ended/diameter_mm", json!(-1)),
        spoiled("/design", json!({})),
        "{\"format\": \"skewline-shop\", \"version\": 1, \"shop\": {\"lathe\": {\"lowest_rpm\": 1e999}}}".to_owned(),
        "{\"format\": \"skewline-shop\", \"version\": 1, \"shop\": {\"lathe\": {\"lowest_rpm\": 9000}}}".to_owned(),
        "{\"format\": \"skewline-shop\", \"version\": 1, \"shop\": {\"lathes\": 2}}".to_owned(),
        "[".repeat(1000),
    ];
    let said: Vec<String> = texts.iter().map(|text| read(text).unwrap_err().to_string()).collect();
    insta::assert_snapshot!(said.join("\n"));
    assert_eq!(read_bytes(&[0xff, 0xfe, 0x00]), Err(ImportError::NotText));
    let huge = vec![b' '; LARGEST_TEXT + 1];
    assert_eq!(read_bytes(&huge), Err(ImportError::TooLarge { bytes: LARGEST_TEXT + 1 }));
}

/// Every refused part of a shelf has the line it stands on, whatever order the parts come in.
#[test]
fn every_error_of_a_shelf_tells_its_own_line() {
    let wrong: Vec<String> = (0..300).map(|i| format!("{}{{\"name\": {i}}}", "\n".repeat(i % 3))).collect();
    let text = format!(
        "{{\"format\": \"skewline-shelf\", \"version\": 1, \"saved_at_ms\": 0,\n\"shop\": {{\"lathes\": 2}},\n\"designs\": [{}]}}",
        wrong.join(",")
    );
    let Ok(Imported::Shelf(shelf)) = read(&text) else { panic!("a shelf is read though its parts are not") };
    assert_eq!(shelf.refused.len(), 301);
    let mut from = text.find("\"designs\"").unwrap();
    for refused in &shelf.refused {
        let at = if refused.which == "the shop" {
            text.find(&refused.raw).unwrap()
        } else {
            from + text[from..].find(&refused.raw).unwrap()
        };
        from = from.max(at);
        let ImportError::Malformed { line, .. } = refused.reason else { panic!("{:?}", refused.reason) };
        assert_eq!(line, 1 + text[..at].matches('\n').count(), "{}", refused.which);
    }
}

/// A message quotes what stands in the file, but never at any length.
#[test]
fn a_message_stays_short_whatever_the_file_holds() {
    let long = "x".repeat(100_000);
    for text in [
        format!("{{\"format\": \"skewline-shop\", \"version\": 1, \"shop\": {{\"{long}\": 2}}}}"),
        format!("{{\"format\": \"skewline-shop\", \"version\": \"{long}\", \"shop\": {{}}}}"),
        format!("{{\"format\": \"skewline-shop\", \"version\": 1, \"{long}\": {{}}}}"),
        format!("{{\"format\": \"skewline-design\", \"version\": 1, \"design\": {{\"contents\": {{\"{long}\": 1}}}}}}"),
    ] {
        let why = read(&text).unwrap_err().to_string();
        assert!(why.len() < 1000, "{} letters", why.len());
    }
}

/// The line and column of an error are those of the whole file, though the design is read by itself.
#[test]
fn errors_tell_the_line_of_the_file() {
    let text = write_design(&sound_design()).unwrap();
    let wrong = text.replacen("\"length_mm\": 255.0", "\"length_mm\": true", 1);
    let line = 1 + wrong.lines().position(|line| line.contains("\"length_mm\": true")).unwrap();
    match read(&wrong) {
        Err(ImportError::Malformed { line: told, .. }) => assert_eq!(told, line),
        other => panic!("{other:?}"),
    }
    let one_line = "{\"format\":\"skewline-shop\",\"version\":1,\"shop\":{\"bits\":7}}";
    match read(one_line) {
        // serde_json stands on the last letter it has read.
        Err(ImportError::Malformed { line, column, .. }) => {
            assert_eq!((line, one_line.as_bytes()[column - 1]), (1, b'7'));
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn one_bad_design_does_not_hold_up_a_shelf() {
    let design = sound_design();
    let text =
        write_shelf(&[&design, &design], Some(&Shop::default()), Some(&printers()), &["{raw".to_owned()], 77).unwrap();
    let mut value: Value = serde_json::from_str(&text).unwrap();
    value["designs"][0]["blank"]["length_mm"] = json!(-5);
    value["shop"]["chuck"]["jaw_depth_mm"] = json!(null);
    value["printers"]["known"][0]["across_mm"] = json!(500.0);
    let Ok(Imported::Shelf(shelf)) = read_value(&value) else { panic!("no shelf") };
    assert_eq!(shelf.designs, [design]);
    assert_eq!(shelf.saved_at_ms, 77);
    assert_eq!(shelf.set_aside, ["{raw"]);
    let refused: Vec<&str> = shelf.refused.iter().map(|refused| refused.which.as_str()).collect();
    assert_eq!(refused, ["design 1", "the shop", "what printers measured"]);
    assert!(shelf.refused[0].raw.contains("-5"));
}

#[test]
fn a_design_with_problems_is_not_written() {
    let mut design = sound_design();
    design.blank.length_mm = f64::NAN;
    let error = write_design(&design).unwrap_err();
    assert!(matches!(&error, WriteError::Invalid { problems } if problems.len() == 1));
    insta::assert_snapshot!(error.to_string());
    assert!(write_shelf(&[&design], None, None, &[], 0).is_err());
    let mut shop = Shop::default();
    shop.limits.wall_mm = f64::INFINITY;
    assert!(write_shop(&shop).is_err());
}

/// Lengths stand in the unit of whoever reads why.
#[test]
fn why_a_document_is_not_written_is_told_in_the_shops_unit() {
    let mut design = sound_design();
    design.blank.length_mm = 2540.0;
    let error = write_design(&design).unwrap_err();
    let inches = Units { length: LengthUnit::Inches, rounding: Rounding::Decimal };
    let told = error.told(inches);
    assert!(told.contains("is 100 in, outside 0.394 to 78.74 in."), "{told}");
    assert_eq!(error.told(Units::default()), error.to_string());
    assert!(error.to_string().contains("is 2540 mm, outside 10 to 2000 mm."), "{error}");
    let fault = WriteError::Fault { detail: "no room".to_owned() };
    assert_eq!(fault.told(inches), fault.to_string());
}

/// A backup from before printers were kept in it is read as ever; what it never had is not made up.
#[test]
fn what_printers_measured_may_be_absent_and_is_refused_with_an_unknown_field() {
    let text = write_shelf(&[], None, Some(&printers()), &[], 7).unwrap();
    let Ok(Imported::Shelf(shelf)) = read(&text) else { panic!("{text}") };
    assert_eq!(shelf.printers, Some(printers()));
    let older = write_shelf(&[], None, None, &[], 7).unwrap();
    assert!(!older.contains("printers"), "{older}");
    let Ok(Imported::Shelf(shelf)) = read(&older) else { panic!("{older}") };
    assert_eq!((shelf.printers, shelf.refused.len()), (None, 0));
    for place in ["/printers", "/printers/known/0"] {
        let mut spoiled: Value = serde_json::from_str(&text).unwrap();
        spoiled.pointer_mut(place).unwrap()["surprise"] = json!(1);
        let Ok(Imported::Shelf(shelf)) = read_value(&spoiled) else { panic!("{spoiled}") };
        assert_eq!(shelf.printers, None);
        let why = shelf.refused[0].reason.to_string();
        assert!(why.contains("what printers measured") && why.contains("surprise") && why.contains("(line "), "{why}");
    }
    let mut wrong = printers();
    wrong.known.push(Printer { along_mm: 200.0, ..wrong.known[0].clone() });
    let told: Vec<String> = wrong.problems().iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "The check line along the paper of printer 2 is 200 mm, outside 50 to 150 mm. Give it a value from 50 to 150 mm.",
            "Two printers are called \u{201c}Shed\u{201d}. Give one of them another name.",
        ]
    );
    assert!(write_shelf(&[], None, Some(&wrong), &[], 7).is_err());
}

/// Wherever a field is added that no version has, it is found.
#[test]
fn an_unknown_field_is_refused_everywhere() {
    let value = saved_value();
    let mut paths = Vec::new();
    objects(&value, "", &mut paths);
    assert!(paths.len() > 40, "only {} objects", paths.len());
    for path in paths {
        let mut spoiled = value.clone();
        spoiled.pointer_mut(&path).unwrap()["surprise"] = json!(1);
        let error = read_value(&spoiled).expect_err(&path);
        // Beside the name of a kind there can be nothing: the reader tells the line, not the field.
        let beside_a_kind = KINDS.iter().any(|kind| value.pointer(&format!("{path}/{kind}")).is_some());
        assert!(beside_a_kind || error.to_string().contains("surprise"), "{path}: {error}");
        assert!(error.to_string().contains("(line "), "{path}: {error}");
    }
}

/// Saved documents of version 1 stay readable: this text is never changed.
#[test]
fn version_1_is_read_as_ever() {
    let text = include_str!("saved/version_1.json");
    let Ok(Imported::Design(saved)) = read(text) else { panic!("{:?}", read(text)) };
    assert_eq!(saved.design, sound_design());
}

fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        (-10.0..10.0).prop_map(Value::from),
        "\\PC{0,8}".prop_map(Value::from),
        prop::sample::select(vec!["A", "line", "arc", "pass", "join", "drawn", "square"]).prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 32, 5, |inner| {
        let names = prop::sample::select(vec!["pass", "arc", "axis", "nodes", "at_mm", "shape", "version", "format"]);
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
            prop::collection::vec((names, inner), 0..5)
                .prop_map(|fields| fields.into_iter().map(|(name, value)| (name.to_owned(), value)).collect()),
        ]
    })
}

proptest! {
    #[test]
    fn what_is_written_reads_back_the_same(design in arbitrary::design()) {
        let text = write_design(&design).unwrap();
        match read(&text) {
            Ok(Imported::Design(saved)) => prop_assert_eq!(saved.design, design),
            other => prop_assert!(false, "{:?}", other),
        }
    }

    #[test]
    fn a_shelf_reads_back_the_same(
        designs in prop::collection::vec(arbitrary::design(), 0..4),
        shop in prop::option::of(arbitrary::shop()),
        printers in prop::option::of(arbitrary::printers()),
        aside in prop::collection::vec("\\PC{0,20}", 0..3),
        saved_at_ms in any::<u64>(),
    ) {
        let borrowed: Vec<&Design> = designs.iter().collect();
        let text = write_shelf(&borrowed, shop.as_ref(), printers.as_ref(), &aside, saved_at_ms).unwrap();
        match read(&text) {
            Ok(Imported::Shelf(shelf)) => {
                prop_assert_eq!(shelf.designs, designs);
                prop_assert_eq!(shelf.shop, shop);
                prop_assert_eq!(shelf.printers, printers);
                prop_assert_eq!(shelf.set_aside, aside);
                prop_assert_eq!(shelf.saved_at_ms, saved_at_ms);
                prop_assert!(shelf.refused.is_empty());
            }
            other => prop_assert!(false, "{:?}", other),
        }
    }

    #[test]
    fn a_shop_reads_back_the_same(shop in arbitrary::shop()) {
        prop_assert_eq!(read(&write_shop(&shop).unwrap()), Ok(Imported::Shop(Box::new(shop))));
    }

    #[test]
    fn any_bytes_are_sound_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        prop_assert!(is_sound(&read_bytes(&bytes)));
    }

    #[test]
    fn any_json_is_sound_or_refused(value in any_json()) {
        prop_assert!(is_sound(&read_value(&value)));
        for (format, field) in [("design", "design"), ("shop", "shop"), ("shelf", "designs")] {
            let format = format!("skewline-{format}");
            let wrapped = json!({"format": format, "version": 1, "saved_at_ms": 0, field: value});
            prop_assert!(is_sound(&read_value(&wrapped)));
        }
    }

    #[test]
    fn any_value_anywhere_is_sound_or_refused(design in arbitrary::design(), at in any::<Index>(), value in any_json()) {
        let mut spoiled: Value = serde_json::from_str(&write_design(&design).unwrap()).unwrap();
        let mut paths = Vec::new();
        places(&spoiled, "", &mut paths);
        *spoiled.pointer_mut(at.get::<String>(&paths)).unwrap() = value;
        prop_assert!(is_sound(&read_value(&spoiled)));
    }

    #[test]
    fn a_missing_field_is_sound_or_refused(design in arbitrary::design(), at in any::<Index>(), which in any::<Index>()) {
        let mut spoiled: Value = serde_json::from_str(&write_design(&design).unwrap()).unwrap();
        let mut paths = Vec::new();
        objects(&spoiled, "", &mut paths);
        let fields = spoiled.pointer_mut(at.get::<String>(&paths)).unwrap().as_object_mut().unwrap();
        if let Some(name) = fields.keys().nth(which.index(fields.len().max(1))).cloned() {
            fields.remove(&name);
        }
        prop_assert!(is_sound(&read_value(&spoiled)));
    }

    #[test]
    fn changed_bytes_are_sound_or_refused(
        design in arbitrary::design(),
        edits in prop::collection::vec((any::<Index>(), any::<u8>(), 0_u8..3), 1..6),
    ) {
        let mut bytes = write_design(&design).unwrap().into_bytes();
        for (at, byte, how) in edits {
            let at = at.index(bytes.len().max(1));
            match how {
                0 => bytes.insert(at, byte),
                1 if at < bytes.len() => bytes[at] = byte,
                _ => bytes.truncate(at),
            }
        }
        prop_assert!(is_sound(&read_bytes(&bytes)));
    }
}
