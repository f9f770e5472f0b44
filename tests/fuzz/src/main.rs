//! Feeds the readers what libFuzzer thinks of.
#![no_main]

mod readers;

libfuzzer_sys::fuzz_target!(|input: &[u8]| readers::feed(input));
