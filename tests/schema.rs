//! The published JSON Schema against the types, the saved documents and their damage.
//!
//! After a change of the saved form, write the schema anew with `SKEWLINE_WRITE_SCHEMA=1 cargo test --test schema`.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "tests may stop at once")]

mod support;

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use jsonschema::Validator;
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::{Map, Value, json};
use skewline::design::Shop;
use skewline::design::starters::demo;
use skewline::shelf::saved::{VERSION, schema, write_shop};
use skewline::shelf::{read, write_design, write_shelf};
use support::{arbitrary, sound_design};

/// The schema that the types give; that it is the published one has a test of its own.
static SCHEMA: LazyLock<Validator> =
    LazyLock::new(|| jsonschema::draft202012::new(&schema()).expect("the schema is one"));

/// Where the schema of a version is published.
fn published(version: u64) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("public/schema/skewline-{version}.json"))
}

/// What the schema has against a document, one line each.
fn faults(document: &Value) -> Vec<String> {
    SCHEMA.iter_errors(document).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

fn value(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

fn assert_valid(text: &str) {
    assert_eq!(faults(&value(text)), Vec::<String>::new(), "{text}");
}

#[test]
fn the_published_schema_is_what_the_types_say() {
    let made = serde_json::to_string_pretty(&schema()).unwrap() + "\n";
    if std::env::var_os("SKEWLINE_WRITE_SCHEMA").is_some() {
        std::fs::create_dir_all(published(VERSION).parent().unwrap()).unwrap();
        std::fs::write(published(VERSION), &made).unwrap();
    }
    let kept = std::fs::read_to_string(published(VERSION)).unwrap_or_default();
    assert!(
        kept == made,
        "{} is not what the types say. If the change is meant: SKEWLINE_WRITE_SCHEMA=1 cargo test --test schema",
        published(VERSION).display()
    );
    assert!(jsonschema::meta::is_valid(&schema()), "it is no schema of 2020-12");
}

#[test]
fn every_field_and_kind_is_described() {
    fn undescribed(schema: &Value, path: &str, found: &mut Vec<String>) {
        let Value::Object(fields) = schema else { return };
        for (name, inner) in fields.get("properties").and_then(Value::as_object).into_iter().flatten() {
            // A kind's own name is described by the kind.
            let is_kind = fields.get("required") == Some(&json!([name])) && fields.contains_key("description");
            if !is_kind && inner.get("description").is_none() {
                found.push(format!("{path}/{name}"));
            }
            undescribed(inner, &format!("{path}/{name}"), found);
        }
        for (index, kind) in fields.get("oneOf").and_then(Value::as_array).into_iter().flatten().enumerate() {
            undescribed(kind, &format!("{path}/{index}"), found);
        }
    }
    let schema = schema();
    let mut found = Vec::new();
    for (name, definition) in schema["$defs"].as_object().unwrap() {
        if definition.get("description").is_none() {
            found.push(name.clone());
        }
        undescribed(definition, name, &mut found);
    }
    assert_eq!(found, Vec::<String>::new());
}

#[test]
fn kept_files_and_what_is_exported_are_valid() {
    for file in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/saved")).unwrap() {
        let kept = value(&std::fs::read_to_string(file.unwrap().path()).unwrap());
        let of_version = published(kept["version"].as_u64().unwrap());
        let schema = value(&std::fs::read_to_string(of_version).unwrap());
        let errors: Vec<_> =
            jsonschema::draft202012::new(&schema).unwrap().iter_errors(&kept).map(|it| it.to_string()).collect();
        assert_eq!(errors, Vec::<String>::new());
    }
    let (design, shop) = (demo(), Shop::default());
    assert_valid(&write_design(&design).unwrap());
    assert_valid(&write_shop(&shop).unwrap());
    assert_valid(&write_shelf(&[&design, &sound_design()], Some(&shop), None, &["{".to_owned()], 1).unwrap());
    assert_valid(&write_shelf(&[], None, None, &[], 0).unwrap());
}

/// What the program adds when it is absent need not be written.
#[test]
fn what_may_be_left_out_may_be_left_out() {
    assert_valid(r#"{"format": "skewline-shop", "version": 2, "shop": {"chuck": {"jaw_depth_mm": 9.0}}}"#);
    assert!(!faults(&json!({"format": "skewline-shop", "version": 2})).is_empty());
}

#[test]
fn what_is_not_ours_is_not_valid() {
    let sound = value(&write_design(&sound_design()).unwrap());
    let changes: [(&str, Value); 8] = [
        ("/format", json!("skewline-scoop")),
        ("/format", json!("skewline-shop")),
        ("/version", json!(VERSION + 1)),
        ("/version", json!("1")),
        ("/design/axes/0", json!({"tilted": {"tilt_deg": 7.0}})),
        ("/design/cuts/0/hollow/axis", json!("b")),
        ("/design/cuts/0/hollow/axis", json!("AB")),
        ("/design/duty", json!("Light")),
    ];
    for (path, wrong) in changes {
        let mut document = sound.clone();
        *document.pointer_mut(path).unwrap() = wrong.clone();
        assert!(!faults(&document).is_empty(), "{path}: {wrong}");
        assert!(read(&document.to_string()).is_err(), "{path}: {wrong}");
    }
}

/// The path of every object in a value, and of every other value.
fn places(value: &Value, path: &str, objects: &mut Vec<String>, others: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            objects.push(path.to_owned());
            fields.iter().for_each(|(name, inner)| places(inner, &format!("{path}/{name}"), objects, others));
        }
        Value::Array(items) => {
            others.push(path.to_owned());
            items.iter().enumerate().for_each(|(n, inner)| places(inner, &format!("{path}/{n}"), objects, others));
        }
        _ => others.push(path.to_owned()),
    }
}

fn object<'a>(document: &'a mut Value, path: &str) -> &'a mut Map<String, Value> {
    document.pointer_mut(path).and_then(Value::as_object_mut).unwrap()
}

/// Every kind of document.
fn exported() -> impl Strategy<Value = String> {
    let designs = proptest::collection::vec(arbitrary::design(), 0..3);
    let beside = (proptest::option::of(arbitrary::shop()), proptest::option::of(arbitrary::printers()));
    prop_oneof![
        3 => arbitrary::design().prop_map(|design| write_design(&design).unwrap()),
        1 => arbitrary::shop().prop_map(|shop| write_shop(&shop).unwrap()),
        1 => (designs, beside).prop_map(|(designs, (shop, printers))| {
            let designs: Vec<_> = designs.iter().collect();
            write_shelf(&designs, shop.as_ref(), printers.as_ref(), &[], 1).unwrap()
        }),
    ]
}

proptest! {
    #[test]
    fn whatever_is_exported_is_valid(text in exported()) {
        prop_assert_eq!(faults(&value(&text)), Vec::<String>::new(), "{}", text);
    }

    #[test]
    fn a_document_with_an_unknown_field_is_not_valid(text in exported(), which in any::<Index>()) {
        let mut document = value(&text);
        let (mut objects, mut others) = (Vec::new(), Vec::new());
        places(&document, "", &mut objects, &mut others);
        object(&mut document, which.get::<String>(&objects)).insert("colour".to_owned(), json!(1.0));
        prop_assert!(!faults(&document).is_empty(), "{}", document);
    }

    /// Left out where the program cannot do without it.
    #[test]
    fn the_schema_misses_what_the_program_misses(text in exported(), which in any::<Index>(), field in any::<Index>()) {
        let mut document = value(&text);
        let (mut objects, mut others) = (Vec::new(), Vec::new());
        places(&document, "", &mut objects, &mut others);
        objects.retain(|path| document.pointer(path).and_then(Value::as_object).is_some_and(|it| !it.is_empty()));
        let fields = object(&mut document, which.get::<String>(&objects));
        let name = field.get(&fields.keys().cloned().collect::<Vec<_>>()).clone();
        fields.remove(&name);
        prop_assert_eq!(faults(&document).is_empty(), is_read(&document), "without {}: {}", name, document);
    }

    #[test]
    fn a_value_of_another_kind_is_not_valid(text in exported(), which in any::<Index>()) {
        let mut document = value(&text);
        let (mut objects, mut others) = (Vec::new(), Vec::new());
        places(&document, "", &mut objects, &mut others);
        let path = which.get(&others);
        *document.pointer_mut(path).unwrap() = json!({"neither": "number nor text"});
        prop_assert!(!faults(&document).is_empty(), "{}: {}", path, document);
    }
}

/// Whether the program takes the document in, problems of its numbers set aside.
fn is_read(document: &Value) -> bool {
    use skewline::shelf::{ImportError, Imported};
    match read(&document.to_string()) {
        Ok(Imported::Shelf(shelf)) => {
            shelf.refused.iter().all(|part| matches!(part.reason, ImportError::Invalid { .. }))
        }
        Ok(_) | Err(ImportError::Invalid { .. }) => true,
        Err(_) => false,
    }
}
