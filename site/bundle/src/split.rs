//! Splits a compiled program where it says so: what the first screen needs, and parts that it fetches later.
//!
//!     skewline-split PROGRAM.wasm FOLDER NAME
//!
//! writes FOLDER/NAME.wasm, the first part, and beside it the others and the script that fetches them. The program has to
//! be linked with `--emit-relocs`.

use std::error::Error;
use std::path::Path;
use std::{env, fs};

use wasm_split_cli_support::{Options, transform};

fn main() -> Result<(), Box<dyn Error>> {
    let given: Vec<String> = env::args().skip(1).collect();
    let [program, folder, name] = &given[..] else {
        return Err("usage: skewline-split PROGRAM.wasm FOLDER NAME".into());
    };
    let folder = Path::new(folder);
    let (first, script) = (folder.join(format!("{name}.wasm")), format!("./{name}.js"));
    let whole = fs::read(program)?;
    let mut options = Options::new(&whole);
    options.output_dir = folder;
    options.main_out_path = &first;
    options.main_module = &script;
    transform(options)?;
    Ok(())
}
