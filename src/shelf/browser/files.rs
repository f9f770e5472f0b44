//! Files out and in.

use gloo_timers::callback::Timeout;
use js_sys::{Array, Uint8Array};
use thiserror::Error;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, DragEvent, File, FileList, HtmlAnchorElement, HtmlInputElement, Url};

use super::words;
use crate::design::entry::Units;
use crate::shelf::saved::{ImportError, Imported, LARGEST_TEXT, read_bytes};

/// Why a file does not come out or in.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum FileError {
    /// The browser did not do it.
    #[error("The browser could not do that with the file ({0}). Try again.")]
    Browser(String),
    /// It is not one of Skewline's, or is not whole.
    #[error(transparent)]
    Import(#[from] ImportError),
}

impl FileError {
    /// Why, with lengths in these units.
    #[must_use]
    pub fn told(&self, units: Units) -> String {
        match self {
            Self::Import(error) => error.told(units),
            Self::Browser(_) => self.to_string(),
        }
    }
}

impl From<JsValue> for FileError {
    fn from(error: JsValue) -> Self {
        Self::Browser(words(&error))
    }
}

/// How long a download may take to start, in ms, before its text is let go.
const DOWNLOAD_MS: u32 = 60_000;

/// Hands the user a text as a file to save. `kind` is its media type, such as `application/json`.
///
/// That the user did save it cannot be known.
///
/// # Errors
///
/// [`FileError::Browser`] when the browser does not take the text.
pub fn download(file_name: &str, text: &str, kind: &str) -> Result<(), FileError> {
    let no_page = || FileError::Browser("no page".to_owned());
    let document = web_sys::window().and_then(|window| window.document()).ok_or_else(no_page)?;
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.dyn_into().map_err(|_| no_page())?;
    link.set_href(&address);
    link.set_download(file_name);
    link.click();
    let let_go = move || {
        // Nothing is lost when the address is gone already.
        let _ = Url::revoke_object_url(&address);
    };
    Timeout::new(DOWNLOAD_MS, let_go).forget();
    Ok(())
}

/// Reads a file that the user chose or dropped.
///
/// # Errors
///
/// [`FileError`], which reads as a sentence.
pub async fn read_file(file: &File) -> Result<Imported, FileError> {
    if file.size() > LARGEST_TEXT as f64 {
        return Err(ImportError::TooLarge { bytes: file.size() as usize }.into());
    }
    // Bytes and not text, so that a file that is not text is told apart from a damaged one.
    let buffer = match JsFuture::from(file.array_buffer()).await {
        // The browser's own word for it.
        Err(error) if error.is_instance_of::<js_sys::RangeError>() => {
            return Err(ImportError::NoMemory { bytes: file.size() as usize }.into());
        }
        answer => answer?,
    };
    let array = Uint8Array::new(&buffer);
    let mut bytes = Vec::new();
    let size = array.length() as usize;
    bytes.try_reserve_exact(size).map_err(|_| ImportError::NoMemory { bytes: size })?;
    bytes.resize(size, 0);
    array.copy_to(&mut bytes);
    Ok(read_bytes(&bytes)?)
}

/// The files of a drop; the event's own answer (to open the file in place of the page) must be prevented as well.
#[must_use]
pub fn dropped(event: &DragEvent) -> Vec<File> {
    event.data_transfer().and_then(|data| data.files()).map(listed).unwrap_or_default()
}

/// The files chosen in a file input. The input is emptied, so that the same file can be chosen again.
#[must_use]
pub fn chosen(input: &HtmlInputElement) -> Vec<File> {
    let files = input.files().map(listed).unwrap_or_default();
    input.set_value("");
    files
}

fn listed(list: FileList) -> Vec<File> {
    (0..list.length()).filter_map(|index| list.item(index)).collect()
}
