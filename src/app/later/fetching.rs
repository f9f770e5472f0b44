//! The seam along which the program is split in two files.
#![cfg_attr(feature = "split", allow(unsafe_code, reason = "what the splitter looks for is declared as foreign code"))]

use super::{Fetching, views};

#[cfg(feature = "split")]
use super::Later;

#[cfg(feature = "split")]
type Failure = leptos::wasm_split::SplitLoaderError;

/// Fetches the later part; none when it could not be fetched.
pub fn fetch() -> Fetching {
    #[cfg(feature = "split")]
    let later = async { way_in().await.ok() };
    #[cfg(not(feature = "split"))]
    let later = std::future::ready(Some(views::LATER));
    Box::pin(later)
}

/// Called by way of the later file only: all that can be reached from here alone is in that file.
#[cfg(feature = "split")]
#[leptos::wasm_split::wasm_split(later, wasm_split_path = ::leptos::wasm_split, fallible)]
fn way_in() -> Result<Later, Failure> {
    Ok(views::LATER)
}
