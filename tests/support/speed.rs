//! The pieces whose figures are timed: `benches/table.rs`.

use std::path::Path;

use skewline::design::{Cut, Design};
use skewline::shelf::{Imported, read};

use super::heavy;

/// A piece whose figures are timed.
pub struct Timed {
    /// What the table calls it.
    pub name: &'static str,
    pub design: Design,
    /// The name of its file in `tests/reference/pieces`, where a mesh kernel can build it too.
    pub reference: Option<&'static str>,
}

/// What a turner may ask for, from the easy to the hard.
pub fn pieces() -> Vec<Timed> {
    let saved = [
        ("bored scoop, two axes", "coffee-scoop-12"),
        ("the same with a hooked return to A", "hooked-arc-scoop"),
        ("marks moved in x and y", "skew-axes-scoop"),
        ("three-sided spindle, no hollow", "three-sided-spindle"),
        ("ball scoop, hollowed across", "ladle-20"),
        ("oval bowl, two hollows across", "oval-bowl-scoop"),
    ];
    let saved = saved.map(|(name, file)| Timed { name, design: reference(file), reference: Some(file) });
    let made =
        [("three axes, six passes", heavy::passes(6, 5, 3)), ("twelve axes, twelve passes", heavy::passes(12, 5, 12))];
    saved.into_iter().chain(made.map(no_reference)).collect()
}

/// As much as a document may hold, or more.
pub fn heaviest() -> Vec<Timed> {
    let made = [("60 hollows", heavy::hollows(60)), ("40 cuts of 50 nodes on 12 axes", heavy::passes(39, 50, 12))];
    made.map(no_reference).into_iter().collect()
}

fn no_reference((name, design): (&'static str, Design)) -> Timed {
    Timed { name, design, reference: None }
}

/// A reference piece; the spindle without its hollow, as the table has one without any.
pub fn reference(name: &str) -> Design {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/reference/pieces/{name}.json"));
    let Ok(Imported::Design(saved)) = read(&std::fs::read_to_string(path).unwrap()) else { panic!("{name}") };
    let mut design = saved.design;
    if name == "three-sided-spindle" {
        design.cuts.retain(|cut| !matches!(cut, Cut::Hollow(_)));
    }
    design
}
