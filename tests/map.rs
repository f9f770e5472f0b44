//! The map in DEVELOPERS.md names what is there, and leaves nothing out.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use skewline::design::{Shop, starters};
use skewline::figures::work_out;

/// Files and folders at the top that need no explaining.
const PLAIN: [&str; 10] = [
    "Cargo.toml",
    "Cargo.lock",
    "DEVELOPERS.md",
    "README.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "clippy.toml",
    "rustfmt.toml",
    "target",
    "dist",
];

fn page() -> String {
    fs::read_to_string(root().join("DEVELOPERS.md")).unwrap()
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The text from a heading to the next of its kind.
fn chapter<'a>(page: &'a str, heading: &str) -> &'a str {
    let level = heading.split(' ').next().unwrap();
    let after = page.split_once(&format!("\n{heading}\n")).unwrap_or_else(|| unreachable!("{heading}")).1;
    after.split(&format!("\n{level} ")).next().unwrap()
}

/// What stands between backticks.
fn quoted(text: &str) -> BTreeSet<String> {
    text.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

/// Names in a folder, without endings; hidden ones and `mod.rs` left out.
fn names_in(folder: &Path) -> BTreeSet<String> {
    let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let seen = names.filter(|name| !name.starts_with('.') && name != "mod.rs");
    seen.map(|name| name.trim_end_matches(".rs").to_owned()).collect()
}

#[test]
fn every_folder_is_on_the_map() {
    let page = page();
    let table = chapter(&page, "## Map").lines().filter(|line| line.starts_with("| `"));
    let named: BTreeSet<String> = table.flat_map(|row| quoted(row.split('|').nth(1).unwrap())).collect();
    let lost: Vec<_> = named.iter().filter(|path| !root().join(path).exists()).collect();
    assert!(lost.is_empty(), "on the map, and not there: {lost:?}");
    let is_named = |path: &str| named.iter().any(|name| name.trim_end_matches('/') == path || name.starts_with(path));
    for entry in fs::read_dir(root().join("src")).unwrap() {
        let path = format!("src/{}", entry.unwrap().file_name().into_string().unwrap());
        assert!(is_named(&path), "not on the map: {path}");
    }
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let is_plain = name.starts_with('.') || name.starts_with("dist") || PLAIN.contains(&name.as_str());
        assert!(is_plain || is_named(&name), "not on the map: {name}");
    }
}

#[test]
fn every_file_of_a_folder_is_on_its_list() {
    let page = page();
    let map = chapter(&page, "## Map");
    for folder in ["Geometry", "Design", "Form", "Finding", "Figures", "Drawings", "Shelf", "App"] {
        let list = chapter(map, &format!("### {folder}"));
        // Names stand before the colon of what is said of them.
        let named: BTreeSet<String> = list.split(':').flat_map(quoted_at_the_end).collect();
        let there = names_in(&root().join("src").join(folder.to_lowercase()));
        let missing: Vec<_> = there.difference(&named).collect();
        let lost: Vec<_> = named.difference(&there).collect();
        assert!(missing.is_empty(), "{folder}: not on the list: {missing:?}");
        assert!(lost.is_empty(), "{folder}: on the list, and not there: {lost:?}");
    }
}

/// The names in backticks with which a text ends: "`a`, `b`", over line ends too.
fn quoted_at_the_end(text: &str) -> BTreeSet<String> {
    let parts: Vec<&str> = text.split('`').collect();
    let mut names = BTreeSet::new();
    if parts.last().is_none_or(|last| !last.trim().is_empty()) {
        return names;
    }
    for pair in parts[..parts.len() - 1].chunks_exact(2).rev() {
        names.insert(pair[1].to_owned());
        if pair[0].trim() != "," {
            break;
        }
    }
    names
}

/// Every table is whole: a head, a line under it, and rows of as many cells.
#[test]
fn no_table_is_broken() {
    let page = page();
    let lines: Vec<&str> = page.lines().collect();
    let cells = |line: &str| line.trim().trim_matches('|').split('|').count();
    let mut tables = 0;
    for (at, line) in lines.iter().enumerate().filter(|(_, line)| line.starts_with('|')) {
        let before = at.checked_sub(1).map_or("", |before| lines[before]);
        if before.starts_with('|') {
            assert_eq!(cells(line), cells(before), "a row of other cells: {line}");
        } else {
            assert!(before.is_empty(), "a table that is not set apart: {line}");
            assert!(lines[at + 1].starts_with("|---"), "rows without a head: {line}");
            tables += 1;
        }
    }
    assert!(tables >= 2, "only {tables} tables");
}

/// The table of the figures command has the keys that the figures have.
#[test]
fn every_key_of_the_figures_is_explained() {
    let page = page();
    let rows = chapter(&page, "## The figures command").lines().filter(|line| line.starts_with("| `"));
    let explained: BTreeSet<String> = rows.clone().flat_map(|row| quoted(row.split('|').nth(1).unwrap())).collect();
    let mentioned = quoted(&rows.collect::<String>());
    let worked = work_out(&starters::demo(), &Shop::default()).unwrap();
    let figures = serde_json::to_value(&worked.figures).unwrap();
    let keys: BTreeSet<String> = figures.as_object().unwrap().keys().cloned().collect();
    let lost: Vec<_> = explained.difference(&keys).collect();
    let missing: Vec<_> = keys.difference(&mentioned).collect();
    assert!(lost.is_empty(), "explained, and not there: {lost:?}");
    assert!(missing.is_empty(), "not explained: {missing:?}");
}
