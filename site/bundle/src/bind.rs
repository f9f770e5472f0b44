//! Makes the script that loads a compiled program, and the program as that script wants it.
//!
//!     skewline-bind PROGRAM.wasm FOLDER NAME [--split]
//!
//! writes FOLDER/NAME.js and FOLDER/NAME_bg.wasm. With `--split` PROGRAM.wasm is the first part of a split program.

use std::env;
use std::error::Error;

use wasm_bindgen_cli_support::Bindgen;

fn main() -> Result<(), Box<dyn Error>> {
    let given: Vec<String> = env::args().skip(1).collect();
    let (program, folder, name, is_split) = match given.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [program, folder, name] => (program, folder, name, false),
        [program, folder, name, "--split"] => (program, folder, name, true),
        _ => return Err("usage: skewline-bind PROGRAM.wasm FOLDER NAME [--split]".into()),
    };
    let mut bindgen = Bindgen::new();
    // The later parts import from the first what else would be taken out as the linker's own.
    bindgen.web(true)?.input_path(program).out_name(name).typescript(false).keep_lld_exports(is_split);
    // The page starts the program without saying where it is.
    bindgen.omit_default_module_path(false);
    Ok(bindgen.generate(folder)?)
}
