//! How the files of `src` hang together: imports point downward, and the map in DEVELOPERS.md is the folders' own.

mod imports;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use imports::{Import, Sources, circles, rust_files};

/// The folders of `src`, each with those below it that it may import.
const BELOW: [(&str, &[&str]); 8] = [
    ("geometry", &[]),
    ("design", &["geometry"]),
    ("form", &["geometry", "design"]),
    ("figures", &["geometry", "design", "form"]),
    ("finding", &["geometry", "design", "form", "figures"]),
    ("drawings", &["geometry", "design", "form", "figures"]),
    ("shelf", &["geometry", "design", "form", "figures"]),
    ("app", &["geometry", "design", "form", "figures", "finding", "drawings", "shelf"]),
];

/// Circles between files that are left, the largest first. This list only gets shorter: in place of a new circle, move the
/// item to the file below both.
const KNOWN_CIRCLES: &[&[&str]] = &[
    &[
        "figures/wall/breakthrough.rs",
        "figures/wall/floor.rs",
        "figures/wall/least.rs",
        "figures/wall/mod.rs",
        "figures/wall/opening.rs",
        "figures/wall/sheet.rs",
    ],
    &["geometry/shadow/mod.rs", "geometry/shadow/face.rs", "geometry/shadow/plain.rs"],
    &["geometry/surface/coaxial.rs", "geometry/surface/kept.rs"],
    &["geometry/surface/lower.rs", "geometry/surface/ring.rs"],
    &["figures/rest/mod.rs", "figures/rest/poses.rs"],
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

#[test]
fn circles_between_files_get_fewer() {
    let found = circles(&Sources::read().imports());
    let known: Vec<BTreeSet<_>> =
        KNOWN_CIRCLES.iter().map(|files| files.iter().map(|&file| file.into()).collect()).collect();
    let new: Vec<_> = found.iter().filter(|circle| !known.contains(circle)).collect();
    let gone: Vec<_> = known.iter().filter(|circle| !found.contains(circle)).collect();
    assert!(new.is_empty(), "new circles: move what is shared to a file below both.\n{new:#?}");
    assert!(gone.is_empty(), "circles that are gone: take them off the list.\n{gone:#?}");
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
