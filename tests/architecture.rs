//! How the files of `src` hang together: imports point downward, and the map in DEVELOPERS.md is the folders' own.

mod imports;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use imports::{Import, Sources, circles, rust_files};

/// The folders of `src`, each with those below it that it may import.
const BELOW: [(&str, &[&str]); 10] = [
    ("geometry", &[]),
    ("design", &["geometry"]),
    ("piece", &["geometry", "design"]),
    ("form", &["geometry", "design", "piece"]),
    ("figures", &["geometry", "design", "piece", "form"]),
    ("finding", &["geometry", "design", "piece", "form", "figures"]),
    ("beside", &["geometry", "design", "piece", "form", "figures", "finding"]),
    ("drawings", &["geometry", "design", "piece", "form", "figures"]),
    ("shelf", &["geometry", "design", "piece", "form", "figures"]),
    ("app", &["geometry", "design", "piece", "form", "figures", "finding", "beside", "drawings", "shelf"]),
];

fn folder(file: &str) -> &str {
    file.split('/').next().unwrap_or(file)
}

#[test]
fn no_import_points_upward() {
    let is_upward = |import: &&Import| {
        let (from, to) = (folder(&import.from), folder(&import.to));
        let below = BELOW.iter().find(|(name, _)| *name == from).map(|(_, below)| *below);
        from != to && !below.is_some_and(|below| below.contains(&to))
    };
    let imports = Sources::read().imports();
    let upward: Vec<_> = imports.iter().filter(is_upward).collect();
    assert!(imports.len() > 500, "only {} imports were read", imports.len());
    assert!(upward.is_empty(), "imports that point upward: {upward:#?}");
}

#[test]
fn no_folder_imports_another_in_a_circle() {
    let between = |import: Import| Import { from: folder(&import.from).into(), to: folder(&import.to).into() };
    let imports =
        Sources::read().imports().into_iter().map(between).filter(|import| import.from != import.to).collect();
    assert_eq!(circles(&imports), Vec::<BTreeSet<String>>::new());
}

/// In place of a circle, move what two files share to a file below both.
#[test]
fn no_files_import_each_other_in_a_circle() {
    assert_eq!(circles(&Sources::read().imports()), Vec::<BTreeSet<String>>::new());
}

/// A folder's own file is its `mod.rs`: a newcomer looks in one place.
#[test]
fn the_file_of_a_folder_lies_in_it() {
    let files = rust_files(&src());
    let beside = |file: &&String| files.contains(&file.replace("/mod.rs", ".rs"));
    assert_eq!(files.iter().filter(|file| file.ends_with("/mod.rs")).filter(beside).count(), 0);
    let folders: BTreeSet<&str> = files.iter().filter_map(|file| Some(file.rsplit_once('/')?.0)).collect();
    let headless: Vec<_> = folders.iter().filter(|folder| !files.contains(&format!("{folder}/mod.rs"))).collect();
    assert!(headless.is_empty(), "folders whose file lies beside them: {headless:?}");
}

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}
