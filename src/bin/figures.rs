//! Prints every figure and check of a saved design as JSON.

fn main() {}
