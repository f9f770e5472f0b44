//! How the files of `src` hang together: imports point downward, and the map in DEVELOPERS.md is the folders' own.

mod imports;

use std::collections::BTreeSet;

use imports::{Import, Sources, circles};

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
    &["geometry/shadow.rs", "geometry/shadow/face.rs", "geometry/shadow/plain.rs"],
    &["geometry/surface/coaxial.rs", "geometry/surface/kept.rs"],
    &["geometry/surface/lower.rs", "geometry/surface/ring.rs"],
    &["figures/rest.rs", "figures/rest/poses.rs"],
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
