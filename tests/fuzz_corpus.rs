//! Replays what fuzzing has found worth keeping, so that it stays mended: see `tests/fuzz`.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests may stop at once")]

#[path = "fuzz/src/readers.rs"]
mod readers;

use std::fs;
use std::path::Path;

#[test]
fn every_text_of_the_corpus_is_answered() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus");
    let mut seen = [0_usize; readers::READERS as usize];
    for file in fs::read_dir(folder).unwrap() {
        let input = fs::read(file.unwrap().path()).unwrap();
        if let Some(which) = input.first() {
            seen[usize::from(which % readers::READERS)] += 1;
            readers::feed(&input);
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "a reader has no text: {seen:?}");
}
