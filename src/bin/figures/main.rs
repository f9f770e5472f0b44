//! Prints every figure and check of a saved design as JSON.
//!
//! `figures saved.json [--shop shop.json] [--at-station 20,40]`
//!
//! The answer goes to standard output. So does an error, as `{"error": {...}}`, with exit code 1 for a design that
//! cannot be worked out and 2 for a command that cannot be read.

mod answer;
mod arguments;

use std::io::Write;
use std::process::ExitCode;

use serde_json::json;

use answer::Failure;
use arguments::{Arguments, USAGE};

fn main() -> ExitCode {
    let (answer, code) = match Arguments::read(std::env::args().skip(1)) {
        Ok(Arguments { help: true, .. }) => (USAGE.to_owned(), 0),
        Ok(arguments) => match answer::work_out(&arguments) {
            Ok(answer) => (pretty(&answer), 0),
            Err(failure) => (pretty(&failure.as_json()), 1),
        },
        Err(sentence) => (pretty(&Failure::command(sentence).as_json()), 2),
    };
    match writeln!(std::io::stdout(), "{answer}") {
        Ok(()) => ExitCode::from(code),
        // Nobody is listening any more.
        Err(_) => ExitCode::from(2),
    }
}

fn pretty(value: &serde_json::Value) -> String {
    serde_json::to_string_pretty(value).unwrap_or_else(|error| json!({ "error": error.to_string() }).to_string())
}
