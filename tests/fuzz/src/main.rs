//! Feeds the readers what libFuzzer thinks of.
#![no_main]

mod readers;

use std::sync::LazyLock;

use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};

/// The one reader to feed, from 0, where `FUZZ_READER` in the environment names one; else all of them in turn.
static READER: LazyLock<Option<u8>> = LazyLock::new(|| std::env::var("FUZZ_READER").ok()?.parse().ok());

fuzz_target!(|input: &[u8]| readers::feed(input));

fuzz_mutator!(|input: &mut [u8], size: usize, most: usize, _seed: u32| {
    let size = fuzzer_mutate(input, size, most);
    if let (Some(which), Some(first)) = (*READER, input.first_mut()) {
        *first = which;
    }
    size
});
